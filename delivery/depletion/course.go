package depletion

import "math"

// course is one way the use of gas may go. Use is a gamma process: in t
// minutes a Gamma distributed number of litres with shape steady·t and an
// unknown rate, which is Gamma distributed itself. The chance that the gas is
// gone is then an incomplete beta function (the gamma-gamma mixture; see van
// Noortwijk, Reliability Engineering and System Safety 2009, for the process).
type course struct {
	odds   float64 // logarithm of its chance, up to a term common to all courses
	gas    float64 // litres down to gauge zero when the clock starts
	steady float64 // shape of the use in a minute: the larger, the steadier
	shape  float64 // of the unknown rate: the larger, the better it is known
	scale  float64 // litres: rate of the distribution of the unknown rate
	pause  pause

	misread float64 // litres by which the last gauge was read too high, already taken off gas
}

// newCourse returns a course whose use goes at a pace of flow litres a minute,
// with a relative standard deviation of spread between one person and another.
func newCourse(weight, gas, flow, steady, spread float64) course {
	shape := 1 / (spread * spread)
	return course{
		odds:   math.Log(weight),
		gas:    gas,
		steady: steady,
		shape:  shape,
		scale:  shape * flow / steady,
	}
}

// withChance returns the course with its chance made a share of what it was.
func (c course) withChance(share float64) course {
	c.odds += math.Log(share)
	return c
}

// beside returns the course with its chance counted against that of all the
// others together.
func (c course) beside(others []course) course {
	best := math.Inf(-1)
	for _, o := range others {
		best = math.Max(best, o.odds)
	}
	var sum float64
	for _, o := range others {
		sum += math.Exp(o.odds - best)
	}
	c.odds += best + math.Log(sum)
	return c
}

// pace returns the litres a minute at the mean of the unknown rate.
func (c course) pace() float64 { return c.scale * c.steady / c.shape }

// learn sharpens the course by a use of litres in minutes, read with a
// standard error of so many litres, and weighs it by how well it foresaw that
// use. A reading tells less than the gas did: the error lowers the shape with
// which the use enters.
func (c course) learn(litres, minutes, err float64) course {
	process := c.steady * minutes
	relative := err / (c.pace() * minutes)
	shape := 1 / (1/process + relative*relative)
	share := shape / process
	seen := math.Max(litres, err/2) * share // a gauge cannot show less than its error

	c.odds += math.Log(share) + logGamma(shape+c.shape) - logGamma(shape) - logGamma(c.shape) +
		c.shape*math.Log(c.scale) + (shape-1)*math.Log(seen) - (shape+c.shape)*math.Log(seen+c.scale)
	c.shape += shape
	c.scale += seen
	return c
}

// without returns the course with about so many litres gone; they may be as
// good as none or twice as many.
func (c course) without(litres float64) course {
	litres = math.Min(litres, c.gas)
	c.gas -= litres
	return c.blur(math.Min(1, litres/math.Max(c.gas, trace)))
}

// blur returns the course with gas known only up to a relative standard error.
// Whether the gas is gone depends on the product of gas and rate alone, so the
// error is added to what is unknown of the rate; its mean stays.
func (c course) blur(relative float64) course {
	shape := 1 / (1/c.shape + relative*relative)
	c.scale *= shape / c.shape
	c.shape = shape
	return c
}
