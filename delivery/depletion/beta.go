package depletion

import "math"

const (
	fractionLimit = 1000  // terms; far beyond the square root of any shape met here
	fractionFloor = 1e-30 // keeps Lentz's method away from a division by zero
	fractionClose = 1e-13 // relative change at which the fraction has settled
)

// incompleteBeta returns the regularised incomplete beta function I_x(a, b)
// for positive a and b: the chance that a Beta(a, b) variable is at most x.
func incompleteBeta(x, a, b float64) float64 {
	switch {
	case x <= 0:
		return 0
	case x >= 1:
		return 1
	}
	front := math.Exp(logChoose(a, b) + a*math.Log(x) + b*math.Log1p(-x))
	if x < (a+1)/(a+b+2) {
		return front * betaFraction(x, a, b) / a
	}
	return 1 - front*betaFraction(1-x, b, a)/b
}

// logChoose returns ln Γ(a+b) − ln Γ(a) − ln Γ(b).
func logChoose(a, b float64) float64 {
	both, _ := math.Lgamma(a + b)
	first, _ := math.Lgamma(a)
	second, _ := math.Lgamma(b)
	return both - first - second
}

// betaFraction is the continued fraction of the incomplete beta function
// (Abramowitz and Stegun 26.5.8), evaluated by the modified Lentz method. It
// settles quickly where x is below (a+1)/(a+b+2).
func betaFraction(x, a, b float64) float64 {
	c, d := 1.0, 1/awayFromZero(1-(a+b)*x/(a+1))
	value := d
	for i := 1; i <= fractionLimit; i++ {
		m := float64(i)
		even := m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m))
		d = 1 / awayFromZero(1+even*d)
		c = awayFromZero(1 + even/c)
		value *= d * c

		odd := -(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1))
		d = 1 / awayFromZero(1+odd*d)
		c = awayFromZero(1 + odd/c)
		value *= d * c
		if math.Abs(d*c-1) < fractionClose {
			break
		}
	}
	return value
}

func awayFromZero(v float64) float64 {
	if math.Abs(v) < fractionFloor {
		return fractionFloor
	}
	return v
}
