package depletion

import (
	"math"
	"time"
)

const (
	minutesPerYear = 365.25 * minutesPerDay
	chanceStep     = 15.0 // minutes of cover taken together
	chanceReach    = 10   // times the usual repair, after which no failure lasts
)

// WithoutBy returns the chance that the person is without oxygen at some time
// before t, if nothing is brought. While a concentrator runs it counts the
// dated causes and a chance failure. Where nothing can be computed it is 1:
// nothing is promised.
func (f Forecast) WithoutBy(t time.Time) float64 {
	if f.outlook == nil {
		return 1
	}
	onGas := f.onGas(t)
	if !f.running {
		return f.outlook.emptied(onGas)
	}
	var dated float64
	if onGas > f.onGas(f.now) {
		dated = f.outlook.emptied(onGas)
	}
	return 1 - (1-dated)*(1-f.failureBy(t))
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
