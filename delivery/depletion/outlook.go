package depletion

import "math"

// trace is an amount of gas in litres that lasts no second.
const trace = 0.001

// branch is one course as an outlook asks for it.
type branch struct {
	course
	weight float64        // its chance
	gone   incompleteBeta // chance that the gas is gone, by shape of the use
	never  float64        // minutes of use within which the gas is as good as never gone
	surely float64        // minutes of use within which it is as good as surely gone
}

// emptied returns the chance that the gas is gone within minutes.
func (b branch) emptied(minutes float64) float64 {
	if b.gas < trace {
		return 1
	}
	use := b.pause.used(minutes)
	switch {
	case use <= b.never:
		return 0
	case use >= b.surely:
		return 1
	}
	return b.gone.at(b.steady * use)
}

// roughly returns about the chance that the gas is gone within minutes, at a
// tenth of the work. What is used, divided by what is expected of it, is
// distributed as Snedecor's F; its cube root is nearly normal (Paulson, Annals
// of Mathematical Statistics 1942;13:233).
func (b branch) roughly(minutes float64) float64 {
	if b.gas < trace {
		return 1
	}
	use := b.pause.used(minutes)
	switch {
	case use <= b.never:
		return 0
	case use >= b.surely:
		return 1
	}
	process := b.steady * use
	root := math.Cbrt(b.gas / (b.scale * process) * b.shape)
	known, flowing := 1/(9*b.shape), 1/(9*process)
	return nearlyNormal((1 - flowing - (1-known)*root) / math.Sqrt(known*root*root+flowing))
}

// nearlyNormal is the normal distribution function to within 0.0002 (Page,
// Applied Statistics 1977;26:75).
func nearlyNormal(z float64) float64 {
	return 1 / (1 + math.Exp(-z*(1.5976+0.070565992*z*z)))
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
			x, width := c.middle()
			early := math.Exp(x - farOff*width)
			o[i].never, o[i].surely = math.Exp(x-farOff*c.widthAt(early)), math.Exp(x+farOff*width)
		}
		sum += o[i].weight
	}
	for i := range o {
		o[i].weight /= sum
	}
	return o
}

// emptied returns the chance that the gas is gone within minutes.
func (o outlook) emptied(minutes float64) float64 { return o.mean(branch.emptied, minutes) }

// mean returns the mean of a chance over the branches.
func (o outlook) mean(chance func(branch, float64) float64, minutes float64) float64 {
	var sum float64
	for _, b := range o {
		sum += b.weight * chance(b, minutes)
	}
	return math.Min(sum, 1)
}

const (
	searchClose = 1e-4 // distance in log odds, or twice that in log minutes, at which a search has settled
	roughClose  = 0.01 // log odds; a rough chance is not nearer than that
	searchLimit = 200  // steps; halving alone needs about 40
	chanceFloor = 1e-12
	perWidth    = 1.8 // log odds for each standard deviation, near enough for a first guess
)

// until returns the minutes within which the gas is gone with the chance q.
func (o outlook) until(q float64) float64 {
	if o.emptied(0) >= q {
		return 0
	}
	x, width := o.middle()
	slope := perWidth / width
	x, slope = o.search(branch.roughly, logit(q), roughClose, x+logit(q)/slope, slope, width)
	x, _ = o.search(branch.emptied, logit(q), searchClose, x, slope, width)
	return math.Exp(x)
}

// search returns the log minutes at which a chance has the log odds target, to
// within close, and the slope there. On the scale of log odds against log time
// the distribution is nearly a straight line, so a secant from x hits within a
// few steps; where a step leaves what is known to hold the answer, that is
// halved instead.
func (o outlook) search(chance func(branch, float64) float64, target, close, x, slope, width float64) (at, slopeThere float64) {
	low, high := math.Inf(-1), math.Inf(1)
	var from, was float64
	for step := range searchLimit {
		m := logit(o.mean(chance, math.Exp(x))) - target
		if m < 0 {
			low = x
		} else {
			high = x
		}
		if math.Abs(m) < close || high-low < searchClose/2 {
			break
		}
		if step > 0 {
			slope = (m - was) / (x - from)
		}
		from, was = x, m
		x = within(low, high, x-m/slope, width)
	}
	return x, slope
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
	return likeliest.course.middle()
}

// farOff is how many widths from its middle a course is as good as never or
// surely over: what is left out is less than a search can tell.
const farOff = 9

// middle returns where the course crosses half, in log minutes of use, and the
// standard deviation there.
func (c course) middle() (x, width float64) {
	minutes := c.gas / c.pace()
	return math.Log(minutes), c.widthAt(minutes)
}

// widthAt returns the relative standard deviation of what is used in minutes:
// of the unknown rate, and of the process itself.
func (c course) widthAt(minutes float64) float64 {
	return math.Sqrt(1/c.shape + 1/(c.steady*minutes))
}

// within returns x if it lies between low and high, and no further than a few
// widths beyond an end while the other is open. A step that does not leave an end
// is a tenth of a width; between two ends it is the middle.
func within(low, high, x, width float64) float64 {
	const reach, least = 6, 0.1 // widths
	switch {
	case math.IsInf(low, 0) && x < high:
		return math.Max(x, high-reach*width)
	case math.IsInf(low, 0):
		return high - least*width
	case math.IsInf(high, 0) && x > low:
		return math.Min(x, low+reach*width)
	case math.IsInf(high, 0):
		return low + least*width
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
