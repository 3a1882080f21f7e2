package depletion

import "math"

const (
	fractionLimit = 1000 // terms; far beyond the square root of any shape met here
	fractionClose = 1e-9 // relative change at which the fraction has settled
)

// incompleteBeta is the regularised incomplete beta function I_x(a, b) with x
// and a held, to be asked for many b: the chance that a Beta(a, b) variable is
// at most x.
type incompleteBeta struct {
	x, a               float64
	logX, logY, gammaA float64 // ln x, ln(1−x), ln Γ(a)
}

// newIncompleteBeta holds x, between 0 and 1, and a positive a.
func newIncompleteBeta(x, a float64) incompleteBeta {
	return incompleteBeta{x: x, a: a, logX: math.Log(x), logY: math.Log1p(-x), gammaA: logGamma(a)}
}

// at returns I_x(a, b) for a positive b.
func (i incompleteBeta) at(b float64) float64 {
	front := math.Exp(logGammaRise(b, i.a) - i.gammaA + i.a*i.logX + b*i.logY)
	if i.x < (i.a+1)/(i.a+b+2) {
		return front * betaFraction(i.x, i.a, b) / i.a
	}
	return 1 - front*betaFraction(1-i.x, b, i.a)/b
}

// logGammaRise returns ln Γ(b+a) − ln Γ(b), by Stirling's series (Abramowitz
// and Stegun 6.1.41) where both are large enough for it.
func logGammaRise(b, a float64) float64 {
	const large = 10
	if b < large {
		return logGamma(b+a) - logGamma(b)
	}
	sum := b + a
	return (b-0.5)*math.Log1p(a/b) + a*math.Log(sum) - a + stirling(sum) - stirling(b)
}

// stirling is the sum of the inverse powers in Stirling's series.
func stirling(x float64) float64 {
	square := 1 / (x * x)
	return (1./12 - square*(1./360-square*(1./1260-square/1680))) / x
}

// logGamma returns ln Γ(x) for a positive x.
func logGamma(x float64) float64 {
	v, _ := math.Lgamma(x)
	return v
}

// betaFraction is the continued fraction of the incomplete beta function
// (Abramowitz and Stegun 26.5.8). It settles quickly where x is below
// (a+1)/(a+b+2). Each convergent over, under follows from the two before it;
// after every pair of terms all are divided by the last under, which keeps
// them in range.
func betaFraction(x, a, b float64) float64 {
	wasOver, wasUnder := 1.0, 1.0
	over, under := 1.0, 1-(a+b)*x/(a+1)
	for i := 1; i <= fractionLimit; i++ {
		m := float64(i)
		even := m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m))
		midOver, midUnder := over+even*wasOver, under+even*wasUnder
		odd := -(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1))
		nextOver, nextUnder := midOver+odd*over, midUnder+odd*under

		scale := 1 / nextUnder
		before := over
		wasOver, wasUnder = midOver*scale, midUnder*scale
		over, under = nextOver*scale, 1
		if math.Abs(over-before) < fractionClose*over {
			break
		}
	}
	return over
}
