package depletion

import "math"

// trace is an amount of gas in litres that lasts no second.
const trace = 0.001

// branch is one course as an outlook asks for it.
type branch struct {
	course
	weight float64        // its chance
	gone   incompleteBeta // chance that the gas is gone, by shape of the use
}

// emptied returns the chance that the gas is gone within minutes.
func (b branch) emptied(minutes float64) float64 {
	if b.gas < trace {
		return 1
	}
	use := b.pause.used(minutes)
	if use <= 0 {
		return 0
	}
	return b.gone.at(b.steady * use)
}

// outlook is a choice of courses whose weights sum to one.
type outlook []branch

// newOutlook turns the odds of the courses into weights.
func newOutlook(courses []course) outlook {
	best := math.Inf(-1)
	for _, c := range courses {
		best = math.Max(best, c.odds)
	}
	o := make(outlook, len(courses))
	var sum float64
	for i, c := range courses {
		o[i] = branch{course: c, weight: math.Exp(c.odds - best)}
		if c.gas >= trace {
			o[i].gone = newIncompleteBeta(c.scale/(c.gas+c.scale), c.shape)
		}
		sum += o[i].weight
	}
	for i := range o {
		o[i].weight /= sum
	}
	return o
}

// emptied returns the chance that the gas is gone within minutes.
func (o outlook) emptied(minutes float64) float64 {
	var chance float64
	for _, b := range o {
		chance += b.weight * b.emptied(minutes)
	}
	return math.Min(chance, 1)
}

const (
	searchClose = 1e-4 // distance in log odds, or in log minutes, at which a search has settled
	searchLimit = 200  // steps; halving alone needs about 40
	chanceFloor = 1e-12
	perWidth    = 1.8 // log odds for each standard deviation, near enough for a first guess
)

// until returns the minutes within which the gas is gone with the chance q.
// On the scale of log odds against log time the distribution is nearly a
// straight line, so a secant hits within a few steps; where a step leaves
// what is known to hold the answer, that is halved instead.
func (o outlook) until(q float64) float64 {
	if o.emptied(0) >= q {
		return 0
	}
	target := logit(q)
	x, width := o.middle()
	slope := perWidth / width
	x += target / slope
	low, high := math.Inf(-1), math.Inf(1)
	var from, was float64
	for step := range searchLimit {
		m := logit(o.emptied(math.Exp(x))) - target
		if m < 0 {
			low = x
		} else {
			high = x
		}
		if math.Abs(m) < searchClose || high-low < searchClose {
			break
		}
		if step > 0 {
			slope = (m - was) / (x - from)
		}
		from, was = x, m
		x = within(low, high, x-m/slope, width)
	}
	return math.Exp(x)
}

// middle returns where the likeliest course crosses half, in log minutes, and
// the standard deviation there.
func (o outlook) middle() (x, width float64) {
	likeliest := o[0]
	for _, b := range o {
		if b.weight > likeliest.weight {
			likeliest = b
		}
	}
	minutes := likeliest.gas / likeliest.pace()
	return math.Log(minutes), math.Sqrt(1/likeliest.shape + 1/(likeliest.steady*minutes))
}

// within returns x if it lies between low and high, and no further than a
// few widths beyond an end while the other is open; else the middle.
func within(low, high, x, width float64) float64 {
	const reach = 6 // widths
	switch {
	case math.IsInf(low, 0):
		return math.Min(high-0.1*width, math.Max(x, high-reach*width))
	case math.IsInf(high, 0):
		return math.Max(low+0.1*width, math.Min(x, low+reach*width))
	case low < x && x < high:
		return x
	}
	return (low + high) / 2
}

// logit returns the log odds of a chance, finite at 0 and 1.
func logit(p float64) float64 {
	p = math.Min(math.Max(p, chanceFloor), 1-chanceFloor)
	return math.Log(p / (1 - p))
}
