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
	courses := make([]course, 0, 6)
	for _, b := range h.flowsBelieved(p) {
		c := newCourse(b.chance, float64(s.gas), p.pace*float64(b.flow), p.steady/60, p.spread)
		c.daily = h.dailyMinutes()
		courses = append(courses, c)
	}
	for _, u := range h.Uses {
		used := u.Size.ContentsAt(u.Before, l.Temperature) - u.Size.ContentsAt(u.After, l.Temperature)
		perPa := math.Sqrt2 * float64(u.Size.Contents) / float64(u.Size.Service)
		for i := range courses {
			courses[i] = courses[i].learn(float64(used), u.Took.Minutes(), perPa*float64(p.gaugeError))
		}
	}
	relative := 1.0
	if s.gas > 0 {
		relative = math.Min(1, s.perPa*float64(p.gaugeError)/float64(s.gas))
	}
	for i := range courses {
		courses[i] = courses[i].blur(math.Hypot(relative, p.fillError))
	}
	return newOutlook(append(courses, h.accidents(courses, s, p)...))
}

// accidents returns what may have gone wrong unseen.
func (h Household) accidents(courses []course, s stock, p priors) []course {
	misread := courses[0].withChance(p.misread)
	misread.gas = float64(s.gas) - float64(s.first)*math.Min(1, float64(p.misreadBy/max(s.gauge, 1)))
	unseen := []course{misread}
	if courses[0].daily < minutesPerDay {
		restless := courses[0].withChance(p.overuse)
		restless.daily = minutesPerDay
		unseen = append(unseen, restless)
	}
	if h.Source == OnConcentrator {
		open := courses[0].withChance(p.leftOpen)
		open.gas = float64(s.gas - min(s.first, h.leaked(s)))
		unseen = append(unseen, open)
	}
	return unseen
}

// leaked returns what has left the first cylinder if its valve has stood open
// since the reading.
func (h Household) leaked(s stock) gas.Litres {
	return gas.Litres(float64(h.order()) * h.Now.Sub(s.start).Minutes())
}

// dailyMinutes returns the minutes a day in which gas is used: all of them
// unless the person may close the valve and the order allows it.
func (h Household) dailyMinutes() float64 {
	if h.Source == OnConcentrator || h.ValveOpen || h.HoursPerDay == 0 {
		return minutesPerDay
	}
	return h.HoursPerDay * 60
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
	said := append([]string(nil), s.notes...)
	if s.counted > 0 {
		said = append(said, fmt.Sprintf("the reading is %s old", inWords(h.Now.Sub(s.start))))
	}
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
	case h.dailyMinutes() < minutesPerDay:
		said = append(said, fmt.Sprintf("%g h a day, the hours off counted last; the low end takes no pause", h.HoursPerDay))
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
