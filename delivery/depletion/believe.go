package depletion

import (
	"math"

	"lungwort/inventory/gas"
)

// outlook returns the courses the use may take: at the flow of the order, at
// the highest credible flow, at the flow observed; each sharpened by earlier
// readings and blurred by the error of the last one.
func (h Household) outlook(s stock, l Limits, p priors) outlook {
	courses := make([]course, 0, 8)
	for _, b := range h.flowsBelieved(p) {
		courses = append(courses, h.course(b, s.gas, p, 1-p.odd, p.pace, p.spread))
	}
	likeliest := belief{flow: h.order(), chance: 1}
	courses = append(courses, h.course(likeliest, s.gas, p, p.odd, p.oddPace, p.oddSpread))
	courses = h.misread(courses, s, p)
	for _, u := range h.Uses {
		if h.tells(u, l, p) {
			h.learn(courses, u, l, p)
		}
	}
	for i := range courses {
		courses[i] = courses[i].blur(math.Hypot(float64(s.err/max(s.gas, trace)), p.fillError))
	}
	return newOutlook(h.rested(h.lost(h.leftOpen(courses, s, p), s, p), p))
}

// learn sharpens the courses by what an earlier reading shows. If the last
// gauge was misread, what fell until then fell further.
func (h Household) learn(courses []course, u Use, l Limits, p priors) {
	used := u.used(l)
	err := float64(inGas(p.pairError, u.Size))
	first := h.usedFirst()
	last := first >= 0 && first < len(h.Cylinders) && u.After == h.Cylinders[first].Gauge
	for i, c := range courses {
		fell := used
		if last {
			fell += c.misread
		}
		courses[i] = c.learn(fell, u.Took.Minutes(), err)
	}
}

// misread adds the chance that the gauge of the cylinder breathed from stood
// one printed number lower than was written down.
func (h Household) misread(courses []course, s stock, p priors) []course {
	first := h.usedFirst()
	if first < 0 || first >= len(h.Cylinders) {
		return courses
	}
	wrong := courses[0].withChance(p.misread)
	wrong.misread = math.Min(float64(inGas(gaugeNumber, h.Cylinders[first].Size)), float64(s.first))
	wrong.gas -= wrong.misread
	return append(courses, wrong)
}

// course returns a share of a belief as a course. A part of the time goes at
// the highest credible flow, and how much differs from person to person: the
// further it lies above the flow at rest, the less is known.
func (h Household) course(b belief, in gas.Litres, p priors, share, pace, spread float64) course {
	walks := p.walks * float64(max(0, h.highest()/b.flow-1))
	return newCourse(b.chance*share, float64(in), pace*float64(b.flow)*(1+walks), p.steady/60, math.Hypot(spread, walks))
}

// used returns the litres between the two gauges.
func (u Use) used(l Limits) float64 {
	return float64(u.Size.ContentsAt(u.Before, or(u.BeforeAt, l.Temperature)) - u.Size.ContentsAt(u.After, or(u.AfterAt, l.Temperature)))
}

// leastPart is the part of the flow in force under which a use is not
// believed: a swap nobody wrote down, a closed valve or a gauge copied from the
// last note is likelier, and to learn thrift from it would be a danger.
const leastPart = 0.5

// tells says whether u can be learnt from: two gauges of one fill, the second
// not higher than reading errors explain, and the fall not far too small.
func (h Household) tells(u Use, l Limits, p priors) bool {
	full := 2 * u.Size.Service // far beyond any gauge of this size
	if !(u.Took > 0 && u.Size.Check() == nil &&
		u.Before >= 0 && u.Before <= full && u.After >= 0 && u.After <= u.Before+p.pairError) {
		return false
	}
	least := leastPart*float64(h.order())*u.Took.Minutes() - float64(inGas(p.pairError, u.Size))
	return u.used(l) >= least
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

// lost splits the likeliest course by the chance that the closed cylinders
// lost gas nobody wrote down: one seeps, or was borrowed from. The longer ago
// they were read, the likelier and the more.
func (h Household) lost(courses []course, s stock, p priors) []course {
	times := p.lost * s.closed
	if times <= 0 || h.Source == OnConcentrator && h.ValveOpen {
		return courses
	}
	less := courses[0].withChance(-math.Expm1(-times))
	courses[0] = courses[0].withChance(math.Exp(-times))
	return append(courses, less.without((1+times)*float64(h.order())*p.lostFor))
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
