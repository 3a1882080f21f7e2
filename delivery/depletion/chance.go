package depletion

import (
	"math"
	"time"
)

const (
	minutesPerYear = 365.25 * minutesPerDay
	chanceStep     = 15.0 // minutes of cover taken together
	chanceReach    = 10   // times the usual repair, after which no failure lasts
	comesAbout     = 0.9  // chance that an announced outage or a trip takes place; common practice, no source
)

// WithoutBy returns the chance that the person is without oxygen at some time
// before t, if nothing is brought. While a concentrator runs it counts the
// dated causes and a chance failure. Where nothing can be computed it is 1:
// nothing is promised.
func (f Forecast) WithoutBy(t time.Time) float64 {
	if f.outlook == nil {
		return 1
	}
	if !f.running {
		return f.outlook.emptied(f.onGas(t))
	}
	return 1 - (1-f.calledBy(t))*(1-f.failureBy(t))
}

// overruns is how much longer an announced outage or a trip may last than was
// said, and the chance of it: five points of a spread of lengths of a third.
// Common practice, no source: nobody promises the minute.
var overruns = [...]struct{ times, chance float64 }{{0.6, 0.1}, {0.8, 0.2}, {1, 0.4}, {1.25, 0.2}, {1.7, 0.1}}

// Places in overruns.
const (
	asTold    = 2
	atLongest = len(overruns) - 1
)

// dated takes note of the outages and trips that put the person on the
// cylinder although a concentrator runs.
func (f *Forecast) dated(told []Span) {
	if len(told) == 0 {
		return
	}
	for _, s := range told {
		f.begun = f.begun || !s.From.After(f.now)
	}
	for i, o := range overruns {
		spans := make([]Span, len(told))
		for j, s := range told {
			spans[j] = s.times(o.times)
			if !s.open() && !s.Until.After(f.now) {
				spans[j] = s // over: it is known how long it was
			}
		}
		f.called[i] = merged(f.Start, spans...)
	}
}

// calledBy returns the chance that an announced outage or a trip leaves the
// person without oxygen before t. One in ten that are announced never comes.
func (f Forecast) calledBy(t time.Time) float64 {
	var chance float64
	for i, o := range overruns {
		if onGas := minutesIn(f.called[i], t); onGas > minutesIn(f.called[i], f.now) {
			chance += o.chance * f.outlook.emptied(onGas)
		}
	}
	if !f.begun {
		chance *= comesAbout
	}
	return math.Min(chance, 1)
}

// failureBy returns the chance that power or machine fails by chance and the
// gas ends before t and before they are back. Failures come at random times
// and last exponentially distributed times.
func (f Forecast) failureBy(t time.Time) float64 {
	reach := t.Sub(f.now).Minutes()
	repair := hoursDown * 60.0
	gone := f.onGas(f.now)
	before := f.outlook.emptied(gone)
	at := math.Max(reach, 0) * before // minutes in which a failure would do harm at once
	for cover := 0.0; cover < math.Min(reach, chanceReach*repair); cover += chanceStep {
		ended := f.outlook.emptied(gone + cover + chanceStep)
		middle := cover + chanceStep/2
		at += (ended - before) * math.Max(reach-middle, 0) * math.Exp(-middle/repair)
		before = ended
	}
	return 1 - math.Exp(-at*failuresPerYear/minutesPerYear)
}
