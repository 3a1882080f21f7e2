package depletion

import "math"

// gammaBelow is the regularised lower incomplete gamma function P(a, x): the
// series of Abramowitz and Stegun 6.5.29 below a+1, above it the continued
// fraction 6.5.31. The forecast does not need it; the tests compare the
// forecast with the gamma process of a known rate, which does.
func gammaBelow(a, x float64) float64 {
	lg, _ := math.Lgamma(a)
	front := math.Exp(a*math.Log(x) - x - lg)
	if x < a+1 {
		term := 1 / a
		sum := term
		for n := 1.0; math.Abs(term) > 1e-17*math.Abs(sum); n++ {
			term *= x / (a + n)
			sum += term
		}
		return front * sum
	}
	b := x + 1 - a
	c, d := 1e300, 1/b
	value := d
	for i := 1.0; i < 10000; i++ {
		n := -i * (i - a)
		b += 2
		d = 1 / (n*d + b)
		c = b + n/c
		value *= d * c
		if math.Abs(d*c-1) < 1e-16 {
			break
		}
	}
	return 1 - front*value
}

// known returns an outlook whose rate is all but known, so that the use is a
// gamma process of shape steady·t and that rate.
func known(gas, steady, rate float64) outlook {
	const sure = 1e7
	return alone(course{gas: gas, steady: steady, shape: sure, scale: sure / rate})
}

// alone returns the outlook of a single course.
func alone(c course) outlook { return newOutlook([]course{c}) }
