package depletion

import "math"

// branch is one course as an outlook asks for it.
type branch struct {
	course
	weight float64        // its chance
	gone   incompleteBeta // chance that the gas is gone, by shape of the use
}

// emptied returns the chance that the gas is gone within minutes.
func (b branch) emptied(minutes float64) float64 {
	switch {
	case b.gas <= 0:
		return 1
	case minutes <= 0:
		return 0
	}
	return b.gone.at(b.steady * used(minutes, b.daily))
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
		if c.gas > 0 {
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
	searchClose = 1e-5 // distance in log odds at which a search has settled
	searchLimit = 100  // steps of a search; halving alone needs about 40
	chanceFloor = 1e-12
	farthest    = 20.0 // log minutes: nine centuries
)

// until returns the minutes within which the gas is gone with the chance q.
// On the scale of log odds against log time the distribution is nearly a
// straight line, so a search along secants inside a bracket (the Illinois
// rule) needs few steps.
func (o outlook) until(q float64) float64 {
	if o.emptied(0) >= q {
		return 0
	}
	miss := func(x float64) float64 { return logit(o.emptied(math.Exp(x))) - logit(q) }
	low, high, under, over := o.bracket(miss)
	side := 0 // of the end that stayed where it was in the last step
	for range searchLimit {
		x := low - under*(high-low)/(over-under)
		m := miss(x)
		if math.Abs(m) < searchClose || high-low < searchClose {
			return math.Exp(x)
		}
		if m < 0 {
			low, under = x, m
			if side > 0 {
				over /= 2
			}
			side = 1
		} else {
			high, over = x, m
			if side < 0 {
				under /= 2
			}
			side = -1
		}
	}
	return math.Exp(low)
}

// bracket returns two log minutes around the answer and the misses there,
// stepping out from where the likeliest course crosses.
func (o outlook) bracket(miss func(float64) float64) (low, high, under, over float64) {
	likeliest := o[0]
	for _, c := range o {
		if c.weight > likeliest.weight {
			likeliest = c
		}
	}
	x := math.Log(likeliest.gas / likeliest.pace())
	m := miss(x)
	width := math.Sqrt(1/likeliest.shape + 1/(likeliest.steady*math.Exp(x))) // of the logarithm
	for step := 0.6 * math.Abs(m) * width; ; step *= 2 {
		step = math.Max(step, 0.1*width)
		from, was := x, m
		if was < 0 {
			x += step
		} else {
			x -= step
		}
		m = miss(x)
		switch {
		case was < 0 && m >= 0:
			return from, x, was, m
		case was >= 0 && m < 0:
			return x, from, m, was
		case math.Abs(x) > farthest:
			return x, x, m, m
		}
	}
}

// logit returns the log odds of a chance, finite at 0 and 1.
func logit(p float64) float64 {
	p = math.Min(math.Max(p, chanceFloor), 1-chanceFloor)
	return math.Log(p / (1 - p))
}
