package depletion

import (
	"math"

	"lungwort/inventory/gas"
)

// outlook returns the courses the use may take: at the flow of the order, at
// the highest credible flow, at the flow observed; each sharpened by earlier
// readings and blurred by the error of the last one. What else may be wrong is
// weighed as if the likeliest flow were the only one: were it less likely for
// a higher flow beside it, that flow could make the safe end later.
func (h Household) outlook(s stock, l Limits, p priors) outlook {
	believed := h.flowsBelieved(p)
	courses := make([]course, 0, 8)
	for _, b := range believed {
		courses = append(courses, h.course(b, s.gas, p, 1-p.odd, p.pace, p.spread))
	}
	courses = append(courses, h.odd(s.gas, p, p.odd))
	only := 1 / believed[0].chance
	courses = h.misread(courses, s, p, only)
	courses = h.sharpened(courses, s, l, p)
	for i := range courses {
		courses[i] = courses[i].blur(math.Hypot(float64(s.err/max(s.gas, trace)), p.fillError))
	}
	courses = h.leftOpen(h.lost(courses, len(believed), s, p), s, p, only)
	return newOutlook(h.rested(courses, p))
}

// odd returns the course of a use that is not as recorded.
func (h Household) odd(in gas.Litres, p priors, chance float64) course {
	return h.course(belief{h.order(), 1}, in, p, chance, p.oddPace, p.oddSpread)
}

// sharpened returns the courses after all earlier readings, beside one that
// learnt nothing: who turns down as the gas gets low, or starts to walk about,
// used it otherwise before.
func (h Household) sharpened(courses []course, s stock, l Limits, p priors) []course {
	told := false
	for _, u := range h.Uses {
		if h.tells(u, l, p) {
			h.learn(courses, u, l, p)
			told = true
		}
	}
	if !told {
		return courses
	}
	return append(courses, h.odd(s.gas, p, p.changes).beside(courses))
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
func (h Household) misread(courses []course, s stock, p priors, only float64) []course {
	first := h.usedFirst()
	if first < 0 || first >= len(h.Cylinders) {
		return courses
	}
	wrong := courses[0].withChance(only * p.misread)
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
	return float64(u.Size.ContentsAt(u.Before, Warmth(u.BeforeAt, l.Temperature)) - u.Size.ContentsAt(u.After, Warmth(u.AfterAt, l.Temperature)))
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
func (h Household) leftOpen(courses []course, s stock, p priors, only float64) []course {
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
	open := courses[0].withChance(only * p.leftOpen)
	open.gas = left
	return append(courses, open)
}

// lost splits each course of a flow, the first ones, by the chance that the
// closed cylinders lost gas nobody wrote down: one seeps, or was borrowed from.
// The longer ago they were read, the likelier and the more.
func (h Household) lost(courses []course, flows int, s stock, p priors) []course {
	times := p.lost * s.closed
	if times <= 0 || h.Source == OnConcentrator && h.ValveOpen {
		return courses
	}
	took := (1 + times) * float64(h.order()) * p.lostFor
	for i, c := range courses[:flows] {
		courses[i] = c.withChance(math.Exp(-times))
		courses = append(courses, c.withChance(-math.Expm1(-times)).without(took))
	}
	return courses
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
