// Package depletion tells when the gas in a home ends, as a distribution
// rather than a number, and by when more must arrive.
//
// Dry and without oxygen are two things. A person who breathes from the
// cylinder is without oxygen when it is dry. While a concentrator runs, an
// empty cylinder harms only when power, machine or a trip calls for it; then
// the gas is counted for those hours alone.
//
// The package never advises on flow: that is the clinician's.
package depletion

import (
	"slices"
	"time"

	"lungwort/inventory/gas"
)

// Source is what the person breathes from now.
type Source string

// The sources.
const (
	OnCylinder     Source = "cylinder"
	OnConcentrator Source = "concentrator"
	Unclear        Source = "unclear"
)

// Cylinder is one cylinder in the home with its last gauge reading.
type Cylinder struct {
	Size   gas.Size
	Gauge  gas.Pressure
	ReadAt time.Time
	// Temperature of the cylinder at the reading; nil where none was noted, then
	// the programme's counts.
	Temperature *gas.Celsius
	// OpenedAt is when the valve was opened, where that was after the reading;
	// zero: it has been open since the reading.
	OpenedAt time.Time
	Known    bool // false: no reading
	InUse    bool
}

// since returns from when on the cylinder is used.
func (c Cylinder) since() time.Time { return latest(c.ReadAt, c.OpenedAt) }

func latest(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// Use is what two gauge readings of one fill show: how far the gauge fell
// while the valve was open, under the order still in force.
type Use struct {
	Size          gas.Size
	Before, After gas.Pressure
	// Temperatures of the cylinder at the two readings; nil where none was noted.
	BeforeAt, AfterAt *gas.Celsius
	Took              time.Duration
}

// Household is what is known of one person's oxygen.
type Household struct {
	Now          time.Time
	Source       Source
	Cylinders    []Cylinder    // all in the home, in order of use
	Flow         gas.Flow      // order in force for the present situation; zero: none
	HighFlow     gas.Flow      // highest credible: ordered for rest, exertion, sleep, or observed
	ObservedFlow gas.Flow      // zero: none
	HoursPerDay  float64       // ordered; zero: not stated, counted as all day
	ValveOpen    bool          // on the cylinder: used without pause since the reading
	Uses         []Use         // what earlier readings show, oldest first
	Outages      []Span        // power known or announced to be out at this home
	Trips        []Span        // booked trips on the cylinder
	BackupDue    time.Time     // when an open backup task is due; zero: none
	Tubing       float64       // metres from the source to the nose; zero: not known
	Pulse        bool          // pulse setting without the device's data
	OpenLimit    time.Duration // older readings of a cylinder breathed from are not relied on; zero: no limit
	ShutLimit    time.Duration // the same of a closed one
}

// Limits are the programme's.
type Limits struct {
	WithoutOxygen float64 // chance of being without oxygen at which gas must have arrived, usually 0.01
	Reserve       gas.Pressure
	Temperature   gas.Celsius // of the cylinders when they were read
}

// Forecast is when the gas ends and by when more must arrive. Where Known is
// false its numbers are careful guesses, good for sorting and no promise.
type Forecast struct {
	Status      string // "ok", or in a sentence why the forecast is not known
	Known       bool
	Start       time.Time     // when its clock starts: at the reading of the cylinder used first
	Counted     gas.Litres    // gas at Start down to gauge zero, in the cylinders counted on
	Litres      gas.Litres    // planning litres now above the reserve
	PlanningDry time.Time     // when the planning minutes end; zero while a concentrator runs
	Low         time.Time     // gauge zero with a chance of 1 %; zero while a concentrator runs
	Mid         time.Time     // with 50 %
	High        time.Time     // with 99 %
	CoverLow    time.Duration // how long the gas lasts if used from now on, 1 %
	CoverMid    time.Duration
	CoverHigh   time.Duration
	ActBy       time.Time // zero: none
	ActByCause  string

	grounds  *grounds // nil: nothing could be computed
	now      time.Time
	running  bool // a concentrator runs
	outlook  outlook
	called   [len(overruns)][]Span // when outages and trips put the person on the cylinder, as told and as they may go
	begun    bool                  // one of them has begun
	datedDry time.Time             // act-by from outages and trips alone
}

// The ends of a forecast.
const (
	lowEnd  = 0.01
	middle  = 0.50
	highEnd = 0.99
)

// Predict returns the forecast for a household.
func Predict(h Household, l Limits) Forecast { return predict(h, l, learnt) }

func predict(h Household, l Limits, p priors) Forecast {
	f := Forecast{Status: "ok", Known: true, now: h.Now, running: h.Source == OnConcentrator}
	if why := h.unusable(l); why != "" {
		return f.unknown(why)
	}
	s := h.count(l, p)
	if s.doubt != "" {
		f = f.unknown(s.doubt)
	}
	f.Start, f.Counted = s.start.In(h.Now.Location()), s.gas
	f.outlook = h.outlook(s, l, p)
	f.grounds = &grounds{h, s, l, p}

	low, mid, high := f.outlook.until(lowEnd), f.outlook.until(middle), f.outlook.until(highEnd)
	limit := low
	if l.WithoutOxygen != lowEnd {
		limit = f.outlook.until(l.WithoutOxygen)
	}
	if f.running {
		f.dated(slices.Concat(h.Outages, h.Trips))
	}
	gone := f.onGas(h.Now)
	f.CoverLow, f.CoverMid, f.CoverHigh = lasting(low-gone), lasting(mid-gone), lasting(high-gone)
	f.Litres = max(0, s.planning-gas.Litres(float64(h.highest())*gone))
	if f.running {
		f.actByDates(h, limit)
		return f
	}
	f.Low, f.Mid, f.High = after(f.Start, low), after(f.Start, mid), after(f.Start, high)
	f.PlanningDry = f.Start.Add(time.Duration(s.minutes) * time.Minute)
	f.ActBy, f.ActByCause = after(f.Start, limit), CauseChance
	if f.PlanningDry.Before(f.ActBy) {
		f.ActBy, f.ActByCause = f.PlanningDry, CausePlanning
	}
	return f
}

// unknown returns the forecast with the reason why it is not known.
func (f Forecast) unknown(why string) Forecast {
	f.Status, f.Known = why, false
	return f
}

// onGas returns the minutes on the cylinder from the reading until t.
func (f Forecast) onGas(t time.Time) float64 {
	if f.running {
		return minutesIn(f.called[asTold], t)
	}
	return t.Sub(f.Start).Minutes()
}
