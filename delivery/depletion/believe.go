package depletion

import (
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
		if !u.tells(p) {
			continue
		}
		used := u.Size.ContentsAt(u.Before, l.Temperature) - u.Size.ContentsAt(u.After, l.Temperature)
		err := inGas(p.pairError, u.Size)
		for i := range courses {
			courses[i] = courses[i].learn(float64(used), u.Took.Minutes(), float64(err))
		}
	}
	for i := range courses {
		courses[i] = courses[i].blur(math.Hypot(float64(s.err/max(s.gas, trace)), p.fillError))
	}
	return newOutlook(h.rested(h.leftOpen(courses, s, p), p))
}

// tells says whether u can be learnt from: two gauges of one fill, the second
// not higher than reading errors explain.
func (u Use) tells(p priors) bool {
	full := 2 * u.Size.Service // far beyond any gauge of this size
	return u.Took > 0 && u.Size.Check() == nil &&
		u.Before >= 0 && u.Before <= full && u.After >= 0 && u.After <= u.Before+p.pairError
}

// leftOpen adds the chance that the valve of the backup stood open since the
// reading; if it is recorded as open, there is no other course.
func (h Household) leftOpen(courses []course, s stock, p priors) []course {
	if h.Source != OnConcentrator {
		return courses
	}
	left := float64(s.gas - min(s.first, h.leaked(s)))
	if h.ValveOpen {
		for i := range courses {
			courses[i].gas = left
		}
		return courses
	}
	open := courses[0].withChance(p.leftOpen)
	open.gas = left
	return append(courses, open)
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
