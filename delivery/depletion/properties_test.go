package depletion

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"lungwort/inventory/gas"
)

// slack is what the search for an end may be off, with the rounding to a
// second.
func slack(d time.Duration) time.Duration { return 2*time.Second + d.Abs()/10_000 }

// anyHome draws a household; readings taken before are left out where asked,
// since they may speak against a change of the order.
func anyHome(t *rapid.T, withUses bool) Household {
	codes := []gas.SizeCode{"US-M6", "US-D", "US-E", "UK-CD", "EU-10", "US-H"}
	h := Household{
		Now:         night,
		Source:      rapid.SampledFrom([]Source{OnCylinder, OnConcentrator}).Draw(t, "source"),
		Flow:        gas.Flow(rapid.Float64Range(0.1, 8).Draw(t, "flow")),
		HoursPerDay: float64(rapid.IntRange(0, 24).Draw(t, "hours")),
		Outages:     spans(t, "outage"),
		Trips:       spans(t, "trip"),
	}
	h.ValveOpen = h.Source == OnCylinder && rapid.Bool().Draw(t, "valve open")
	h.HighFlow = h.Flow * gas.Flow(rapid.Float64Range(1, 2).Draw(t, "exertion"))
	age := time.Duration(rapid.IntRange(0, 600).Draw(t, "age")) * time.Minute
	for range rapid.IntRange(1, 3).Draw(t, "cylinders") {
		s, _ := gas.LookUp(rapid.SampledFrom(codes).Draw(t, "size"))
		h.Cylinders = append(h.Cylinders, Cylinder{Size: s, Known: true, ReadAt: night.Add(-age),
			Gauge: s.Service * gas.Pressure(rapid.Float64Range(0, 1.1).Draw(t, "gauge"))})
	}
	if withUses && rapid.Bool().Draw(t, "read before") {
		s := h.Cylinders[0].Size
		h.Uses = append(h.Uses, Use{Size: s,
			Before: s.Service * gas.Pressure(rapid.Float64Range(0, 1.1).Draw(t, "before")),
			After:  s.Service * gas.Pressure(rapid.Float64Range(0, 1.1).Draw(t, "after")),
			Took:   time.Duration(rapid.IntRange(1, 900).Draw(t, "took")) * time.Minute})
		h.ObservedFlow = gas.Flow(rapid.Float64Range(0.1, 8).Draw(t, "observed"))
	}
	return h
}

func spans(t *rapid.T, name string) []Span {
	var all []Span
	for range rapid.IntRange(0, 2).Draw(t, name+"s") {
		from := night.Add(time.Duration(rapid.IntRange(-600, 3000).Draw(t, name)) * time.Minute)
		s := Span{From: from}
		if length := rapid.IntRange(-1, 1500).Draw(t, name+" minutes"); length >= 0 {
			s.Until = from.Add(time.Duration(length) * time.Minute)
		}
		all = append(all, s)
	}
	return all
}

func TestEndsAreInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := anyHome(t, true)
		f := Predict(h, usual)
		assert.True(t, f.Known, f.Status)
		assert.LessOrEqual(t, f.CoverLow, f.CoverMid)
		assert.LessOrEqual(t, f.CoverMid, f.CoverHigh)
		assert.GreaterOrEqual(t, f.CoverLow, time.Duration(0))
		assert.GreaterOrEqual(t, f.Litres, gas.Litres(0))
		if h.Source == OnCylinder {
			assert.False(t, f.Mid.Before(f.Low), "low %v mid %v", f.Low, f.Mid)
			assert.False(t, f.High.Before(f.Mid), "mid %v high %v", f.Mid, f.High)
			assert.False(t, f.ActBy.After(f.PlanningDry), "act-by %v planning %v", f.ActBy, f.PlanningDry)
		}
	})
}

// The ends are where the stated chance is 1, 50 and 99 %.
func TestEndsHaveTheirChance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := anyHome(t, true)
		h.Source = OnCylinder
		f := Predict(h, usual)
		for _, end := range []struct {
			at time.Time
			q  float64
		}{{f.Low, lowEnd}, {f.Mid, middle}, {f.High, highEnd}} {
			off := slack(end.at.Sub(f.Start))
			if end.at.After(f.Start) {
				assert.LessOrEqual(t, f.WithoutBy(end.at.Add(-off)), end.q+3e-5, "just before %v", end)
			}
			assert.GreaterOrEqual(t, f.WithoutBy(end.at.Add(off)), end.q-3e-5, "just after %v", end)
		}
	})
}

func TestTheChanceOnlyGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Predict(anyHome(t, true), usual)
		was := 0.0
		for minutes := rapid.IntRange(-500, 0).Draw(t, "from"); minutes < 6000; minutes += 251 {
			chance := f.WithoutBy(night.Add(time.Duration(minutes) * time.Minute))
			assert.GreaterOrEqual(t, chance, was-1e-9, "after %d minutes", minutes)
			assert.LessOrEqual(t, chance, 1.0)
			was = chance
		}
	})
}

// earlier checks that every answer of f comes no later than that of g, but for
// a share of the time that is given away.
func earlier(t *rapid.T, f, g Forecast, given float64, why string) {
	for _, end := range []struct {
		name      string
		mine, its time.Duration
		q         float64 // the chance the end stands for; zero: it is worked out otherwise
	}{
		{"cover low", f.CoverLow, g.CoverLow, lowEnd},
		{"cover middle", f.CoverMid, g.CoverMid, middle},
		{"cover high", f.CoverHigh, g.CoverHigh, highEnd},
		{"planning dry", f.PlanningDry.Sub(night), g.PlanningDry.Sub(night), 0},
		{"act-by", orNever(f.ActBy).Sub(night), orNever(g.ActBy).Sub(night), byChance(f)},
	} {
		late := end.its + slack(end.its) + time.Duration(given*float64(end.its.Abs()))
		if end.mine <= late || end.q > 0 && settled(f, late, end.q) {
			continue
		}
		assert.LessOrEqual(t, end.mine, late, "%s %s", end.name, why)
	}
	assert.LessOrEqual(t, f.Litres, g.Litres+1e-9, "litres %s", why)
}

// settled says whether the chance that f is dry so long after night is already
// the one asked for, to what a search can tell. Where hours are off each day it
// stands nearly still for hours, and a search may end anywhere in them: the
// chance is what is promised there, not the minute.
func settled(f Forecast, since time.Duration, q float64) bool {
	chance := f.outlook.emptied(f.onGas(f.now) + since.Minutes())
	return logit(chance) >= logit(q)-2*searchClose
}

// byChance is the chance an act-by stands for.
func byChance(f Forecast) float64 {
	if f.ActByCause == CauseChance {
		return usual.WithoutOxygen
	}
	return 0
}

func orNever(at time.Time) time.Time {
	if at.IsZero() {
		return night.Add(longest)
	}
	return at
}

func TestMoreGasIsNeverEarlier(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := anyHome(t, true)
		f := Predict(h, usual)
		more := h
		more.Cylinders = append([]Cylinder(nil), h.Cylinders...)
		i := rapid.IntRange(0, len(h.Cylinders)-1).Draw(t, "which")
		gauge := &more.Cylinders[i].Gauge
		*gauge += (more.Cylinders[i].Size.Service*1.1 - *gauge) * gas.Pressure(rapid.Float64Range(0, 1).Draw(t, "more"))
		g := Predict(more, usual)
		earlier(t, f, g, 0, "with a lower gauge")
		help := night.Add(time.Duration(rapid.IntRange(0, 3000).Draw(t, "help")) * time.Minute)
		if a, b := Judge(h, f, help, 1.5), Judge(more, g, help, 1.5); b.Rank() < a.Rank() {
			t.Fatalf("more gas made %s of %s", b, a)
		}
		more.Cylinders = append(more.Cylinders, more.Cylinders[0])
		earlier(t, g, Predict(more, usual), 0, "with a cylinder less")
	})
}

// The far end may come later: how much of the day goes at a flow for exertion
// is the less known, the further it lies above rest.
func TestAHigherFlowIsNeverLater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := anyHome(t, false)
		f := Predict(h, usual)
		faster := h
		factor := gas.Flow(rapid.Float64Range(1, 3).Draw(t, "faster"))
		if rapid.Bool().Draw(t, "order") {
			faster.Flow *= factor
		}
		faster.HighFlow *= factor
		g := Predict(faster, usual)
		g.CoverHigh = min(g.CoverHigh, f.CoverHigh)
		earlier(t, g, f, 0, "at the higher flow")
	})
}

func TestLaterHelpIsNeverBetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := anyHome(t, true)
		f := Predict(h, usual)
		soon := rapid.IntRange(0, 3000).Draw(t, "help")
		late := soon + rapid.IntRange(0, 3000).Draw(t, "later")
		a := Judge(h, f, night.Add(time.Duration(soon)*time.Minute), 1.5)
		b := Judge(h, f, night.Add(time.Duration(late)*time.Minute), 1.5)
		assert.LessOrEqual(t, b.Rank(), a.Rank(), "%s at %d min, %s at %d min", a, soon, b, late)
		if h.Source == OnConcentrator {
			assert.NotEqual(t, Dry, b)
		}
	})
}

func TestTheSameFactsGiveTheSameForecast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := anyHome(t, true)
		assert.Equal(t, Predict(h, usual), Predict(h, usual))
	})
}

// Nothing that can be written into a household makes Predict fail.
func TestAnyHouseholdIsAnswered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := anyHome(t, true)
		h.Source = rapid.SampledFrom([]Source{OnCylinder, OnConcentrator, Unclear, ""}).Draw(t, "any source")
		h.ValveOpen = rapid.Bool().Draw(t, "any valve")
		h.Flow = gas.Flow(rapid.Float64().Draw(t, "any flow"))
		h.ObservedFlow = gas.Flow(rapid.Float64().Draw(t, "any observed"))
		h.HoursPerDay = rapid.Float64().Draw(t, "any hours")
		h.Cylinders[0].Gauge = gas.Pressure(rapid.Float64().Draw(t, "any gauge"))
		h.Cylinders[0].Known = rapid.Bool().Draw(t, "known")
		h.Uses = append(h.Uses, Use{Size: h.Cylinders[0].Size, Before: gas.Pressure(rapid.Float64().Draw(t, "any before")),
			After: gas.Pressure(rapid.Float64().Draw(t, "any after")), Took: time.Duration(rapid.Int64().Draw(t, "any time"))})
		if rapid.Bool().Draw(t, "no size") {
			h.Cylinders[0].Size, h.Uses[0].Size = gas.Size{}, gas.Size{}
		}
		f := Predict(h, usual)
		assert.Equal(t, f.Known, f.Status == "ok")
		chance := f.WithoutBy(night.Add(5 * time.Hour))
		assert.True(t, chance >= 0 && chance <= 1, "%v", chance)
	})
}
