package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory/gas"
)

// HotHome is a home on a concentrator that is called on a hot day.
type HotHome struct {
	Watch
	Asked bool        // that it has no cooling is known; else nobody asked
	Limit gas.Celsius // the warmest room its machine is made for
	Rests string      // what the limit rests on
}

// HotHomes returns whom to call on a hot day: homes on a concentrator without
// cooling first, then those nobody asked; of each the machine that bears least
// heat first, then the least gas beside.
func (p Programme) HotHomes(rows []Watch) []HotHome {
	var list []HotHome
	for _, w := range rows {
		machine, has := w.Care.Concentrator()
		if !has || w.Address.Cooling == "yes" {
			continue
		}
		h := HotHome{Watch: w, Asked: w.Address.Cooling == "no"}
		h.Limit, h.Rests = p.WarmestFor(machine.Spec)
		list = append(list, h)
	}
	slices.SortStableFunc(list, func(a, b HotHome) int {
		return cmp.Or(cmp.Compare(order(a.Asked), order(b.Asked)), cmp.Compare(a.Limit, b.Limit),
			cmp.Compare(a.Forecast.CoverLow, b.Forecast.CoverLow), cmp.Compare(a.Person.Name(), b.Person.Name()))
	})
	return list
}

// Why says why the home is called.
func (h HotHome) Why(now time.Time) string {
	why := "cooling not asked"
	if h.Asked {
		why = "no cooling"
	}
	lasts := "gas not known"
	if h.Forecast.Known {
		low, _, _ := h.lasts(now)
		lasts = Spell(low) + " of gas beside"
	}
	return fmt.Sprintf("%s, machine for up to %.0f °C, %s", why, float64(h.Limit), lasts)
}

// HotCalls returns the homes to call on a hot day as calls, in their order.
func (p Programme) HotCalls(rows []Watch, now time.Time) []CheckIn {
	var calls []CheckIn
	for _, h := range p.HotHomes(rows) {
		c := NewCheckIn(p, h.Watch, now)
		c.Call = CallDue{Due: now, By: now, Why: h.Why(now), Contact: c.Call.Contact}
		calls = append(calls, c)
	}
	return calls
}

// HeatScript is what to ask on a hot day: common practice, no source.
const HeatScript = "Ask each: is the machine out of the sun, a foot of air around it, its filter clean? No cylinder in the sun or in a closed car"

// HeatAnswer lists whom to call on a day of so many degrees.
func (p Programme) HeatAnswer(rows []Watch, degrees gas.Celsius) Answer {
	a := Answer{
		Verdict: depletion.Holds, Title: fmt.Sprintf("%.0f °C: every home on a concentrator has cooling", float64(degrees)),
		Help: "machine hot or alarming: cylinder, then a cooler room", Do: []string{}, Facts: []string{}, Assumed: []string{},
	}
	homes, without, over := p.HotHomes(rows), 0, 0
	for _, h := range homes {
		if h.Asked {
			without++
		}
		if degrees >= h.Limit {
			over++
		}
		if !slices.Contains(a.Assumed, h.Rests) {
			a.Assumed = append(a.Assumed, h.Rests)
		}
		a.Do = append(a.Do, fmt.Sprintf("Call %s, %s: %s", h.Person.Name(), h.numbers(), h.Why(h.Home.Now)))
	}
	a.Assumed = append(a.Assumed, "a room can be warmer than the street", NoFlowAdvice)
	a.Facts = append(a.Facts, fmt.Sprintf("%s without cooling, %s not asked", count(without, "home"), count(len(homes)-without, "home")))
	if len(homes) == 0 {
		return a
	}
	a.Verdict = depletion.Tight
	a.Title = fmt.Sprintf("%.0f °C: call %s on a concentrator, those without cooling first", float64(degrees), count(len(homes), "home"))
	if over > 0 {
		a.Verdict = depletion.Short
		a.Title += fmt.Sprintf("; too hot for %s", count(over, "machine"))
	}
	a.Do = append(a.Do, HeatScript)
	return a
}
