package outlook

import (
	"math"
	"time"
)

// Away is a unit that is not ready now and will be: how long it has been in
// its stage, and how long such stages last until the unit is ready again.
type Away struct {
	Age   Days
	Until Curve
}

// Change is a number of units that join (or, below zero, leave) the ready
// stock on a day: a plant exchange, a hire, a requalification that falls due.
type Change struct {
	On    time.Time
	Units int
}

// Stock is one kind and size of thing, as it stands.
type Stock struct {
	Ready   int
	Away    []Away
	Changes []Change
	// Each discharge takes Each units for a cycle: hand-over to ready again.
	Each  int
	Cycle Curve
}

// Demand says how many discharges come between two instants: a mean, and the
// variance of that mean.
type Demand func(from, until time.Time) (mean, variance float64)

// Surge returns a demand that is multiplied between two instants.
func (d Demand) Surge(factor float64, from, until time.Time) Demand {
	return func(a, b time.Time) (float64, float64) {
		mean, variance := d(a, b)
		if a.Before(from) || !a.Before(until) {
			return mean, variance
		}
		return mean * factor, variance * factor * factor
	}
}

// Day is the outlook for one day of one stock. Numbers are at the end of the
// day; below zero is what is short.
type Day struct {
	Day      time.Time // its midnight
	Needed   float64   // units wanted by that day's discharges, mean
	Back     float64   // units that will be ready again by then, mean since now
	Left     float64   // ready at the end of the day, mean
	Low      int       // 5 % point of it
	High     int       // 95 % point of it
	Short    float64   // chance that not all of what was wanted was there
	ToBeSafe int       // units more that would bring Short to the limit
}

// Horizon is what an outlook is worked out for.
type Horizon struct {
	Now    time.Time
	Days   int
	Demand Demand
	Limit  float64 // chance of running short that is accepted
}

func (h Horizon) midnight(day int) time.Time {
	return time.Date(h.Now.Year(), h.Now.Month(), h.Now.Day()+day, 0, 0, 0, 0, h.Now.Location())
}

// Project returns the outlook for the days from the day of now on. A unit
// lent within the days may come back within them.
func (s Stock) Project(h Horizon) []Day {
	out := make([]Day, h.Days)
	for d := range out {
		have, back := s.ready(h, d)
		need, wanted := s.needed(h, d)
		left := have.less(need)
		day := Day{
			Day: h.midnight(d), Needed: wanted, Back: back,
			Left: left.mean(), Low: left.quantile(0.05), High: left.quantile(0.95), Short: left.below(0),
		}
		if day.Short > h.Limit {
			day.ToBeSafe = max(1, -left.quantile(h.Limit))
		}
		out[d] = day
	}
	return out
}

// ready returns the distribution of units that are ready now or become so by
// the end of a day, and the mean of those that become so.
func (s Stock) ready(h Horizon, day int) (counts, float64) {
	end := h.midnight(day + 1)
	more := Days(end.Sub(h.Now).Hours() / 24)
	all, back := certain(s.Ready+s.changed(end, 1)), 0.0
	for _, a := range s.Away {
		chance := a.Until.EndsWithin(a.Age, more)
		all = all.either(chance)
		back += chance
	}
	return all, back
}

// changed returns the units that join (sign 1) or leave (sign -1) before an
// end.
func (s Stock) changed(end time.Time, sign int) int {
	sum := 0
	for _, c := range s.Changes {
		if c.On.Before(end) {
			sum += max(0, sign*c.Units)
		}
	}
	return sum
}

// needed returns the distribution of units that have left for good or with
// discharges by the end of a day and are not back, and the mean wanted on the
// day itself.
func (s Stock) needed(h Horizon, day int) (counts, float64) {
	mean, unsure, wanted := 0.0, 0.0, 0.0
	for i := 0; i <= day; i++ {
		from := h.midnight(i)
		if i == 0 {
			from = h.Now
		}
		m, v := h.Demand(from, h.midnight(i+1))
		out := s.Cycle.Beyond(Days(day - i))
		wanted = m
		mean += m * out
		unsure += math.Sqrt(v) * out // the days share what is not known of the rate
	}
	each := max(1, s.Each)
	need := arrivals(mean, mean+unsure*unsure)
	gone := s.changed(h.midnight(day+1), -1)
	all := make(counts, gone+(len(need)-1)*each+1)
	for k, p := range need {
		all[gone+k*each] = p
	}
	return all, wanted * float64(each)
}
