package depletion

import (
	"fmt"
	"math"

	"lungwort/inventory/gas"
)

// outlook returns the courses the use may take: at the flow of the order, at
// the highest credible flow, at the flow observed; each sharpened by earlier
// readings and blurred by the error of the last one.
func (h Household) outlook(s stock, l Limits, p priors) outlook {
	courses := make([]course, 0, 4)
	for _, b := range h.flowsBelieved(p) {
		c := newCourse(b.chance, float64(s.gas), p.pace*float64(b.flow), p.steady/60, p.spread)
		courses = append(courses, c)
	}
	for _, u := range h.Uses {
		used := u.Size.ContentsAt(u.Before, l.Temperature) - u.Size.ContentsAt(u.After, l.Temperature)
		err := inGas(p.pairError, u.Size)
		for i := range courses {
			courses[i] = courses[i].learn(float64(used), u.Took.Minutes(), float64(err))
		}
	}
	for i := range courses {
		courses[i] = courses[i].blur(math.Hypot(float64(s.err/max(s.gas, trace)), p.fillError))
	}
	if h.Source == OnConcentrator {
		open := courses[0].withChance(p.leftOpen)
		open.gas = float64(s.gas - min(s.first, h.leaked(s)))
		courses = append(courses, open)
	}
	return newOutlook(h.rested(courses, p))
}

// rested splits each course by when the hours off fall in the day, which
// nobody knows, and by the chance that no pause is taken.
func (h Household) rested(courses []course, p priors) []course {
	off := h.minutesOff()
	if off == 0 {
		return courses
	}
	split := make([]course, 0, len(courses)*(pauseTimes+1))
	for _, c := range courses {
		split = append(split, c.withChance(p.overuse))
		for i := range pauseTimes {
			rested := c.withChance((1 - p.overuse) / pauseTimes)
			rested.pause = pause{from: minutesPerDay / pauseTimes * float64(i), length: off}
			split = append(split, rested)
		}
	}
	return split
}

// leaked returns what has left the first cylinder if its valve has stood open
// since the reading.
func (h Household) leaked(s stock) gas.Litres {
	return gas.Litres(float64(h.order()) * h.Now.Sub(s.start).Minutes())
}

// minutesOff returns the minutes of each day without use: none unless the
// person may close the valve and the order allows it.
func (h Household) minutesOff() float64 {
	if h.Source == OnConcentrator || h.ValveOpen || h.HoursPerDay == 0 {
		return 0
	}
	return minutesPerDay - h.HoursPerDay*60
}

// belief is a flow and the chance that it is the one in use.
type belief struct {
	flow   gas.Flow
	chance float64
}

// flowsBelieved returns the flows the person may be using, the likeliest first.
func (h Household) flowsBelieved(p priors) []belief {
	order, high := h.order(), h.highest()
	believed := make([]belief, 0, 3)
	if h.ObservedFlow > 0 && h.ObservedFlow != order {
		believed = append(believed, belief{h.ObservedFlow, p.observed}, belief{order, 1 - p.observed})
	} else {
		believed = append(believed, belief{order, 1})
	}
	if high > order && high > h.ObservedFlow {
		for i := range believed {
			believed[i].chance *= 1 - p.high
		}
		believed = append(believed, belief{high, p.high})
	}
	return believed
}

// assumptions says in short sentences what the forecast rests on.
func (h Household) assumptions(s stock, l Limits) []string {
	said := append(make([]string, 0, len(s.notes)+5), s.notes...)
	said = append(said, s.readings())
	order := h.order()
	switch {
	case h.Flow == 0:
		said = append(said, fmt.Sprintf("no flow is ordered, counted at %s", order))
	case h.ObservedFlow > 0 && h.ObservedFlow != h.Flow:
		said = append(said, fmt.Sprintf("%s was observed, %s is ordered", h.ObservedFlow, h.Flow))
	default:
		said = append(said, fmt.Sprintf("flow %s as ordered", order))
	}
	if high := h.highest(); high > order {
		said = append(said, fmt.Sprintf("planning counts the highest credible flow, %s", high))
	}
	said = append(said, fmt.Sprintf("planning keeps a reserve of %s", l.Reserve))
	return append(said, h.useAssumed(s)...)
}

// useAssumed says what is assumed of the valve and the hours.
func (h Household) useAssumed(s stock) []string {
	var said []string
	switch {
	case h.Source == OnConcentrator:
		if gone := min(s.first, h.leaked(s)); gone >= 1 {
			said = append(said, fmt.Sprintf("valve closed since the reading; left open, %s would be gone", gone))
		}
	case h.minutesOff() > 0:
		said = append(said, fmt.Sprintf("%g h a day at unknown times; planning takes no pause", h.HoursPerDay))
	default:
		said = append(said, "valve open since the reading")
	}
	for _, o := range h.Outages {
		if h.Source != OnConcentrator && !o.From.After(h.Now) && (o.open() || o.Until.After(h.Now)) {
			said = append(said, "the return of power is not counted on")
			break
		}
	}
	return said
}
