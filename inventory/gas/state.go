package gas

import "math"

// The equation of state of oxygen by Schmidt and Wagner (Fluid Phase
// Equilibria 19, 1985), adopted by IUPAC (International Thermodynamic Tables
// of the Fluid State, vol. 9, 1987) and by Stewart, Jacobsen and Wagner
// (J. Phys. Chem. Ref. Data 20, 1991). Stated uncertainty in density 0.10 %,
// from the freezing line to 300 K and to 80 MPa; up to 60 °C it is
// extrapolated mildly.
const (
	reducingTemperature = 154.581    // K
	reducingDensity     = 13630.0    // mol/m³
	gasConstant         = 8.31434    // J/(mol K), the value the equation was fitted with
	molarMass           = 31.9988e-3 // kg/mol
)

// residualTerm is one term n δ^d τ^t exp(-δ^l) of the residual Helmholtz
// energy; there is no exponential where l is 0.
type residualTerm struct {
	n float64
	d int
	t float64
	l int
}

var residualTerms = [...]residualTerm{
	{0.3983768749, 1, 0, 0}, {-1.846157454, 1, 1.5, 0}, {0.4183473197, 1, 2.5, 0},
	{0.02370620711, 2, -0.5, 0}, {0.09771730573, 2, 1.5, 0}, {0.03017891294, 2, 2, 0},
	{0.02273353212, 3, 0, 0}, {0.01357254086, 3, 1, 0}, {-0.04052698943, 3, 2.5, 0},
	{0.0005454628515, 6, 0, 0}, {0.0005113182277, 7, 2, 0}, {2.953466883e-07, 7, 5, 0},
	{-8.687645072e-05, 8, 2, 0},
	{-0.2127082589, 1, 5, 2}, {0.08735941958, 1, 6, 2}, {0.127550919, 2, 3.5, 2},
	{-0.09067701064, 2, 5.5, 2}, {-0.03540084206, 3, 3, 2}, {-0.03623278059, 3, 7, 2},
	{0.0132769929, 5, 6, 2}, {-0.0003254111865, 6, 8.5, 2}, {-0.008313582932, 7, 4, 2},
	{0.002124570559, 8, 6.5, 2}, {-0.0008325206232, 10, 5.5, 2},
	{-2.626173276e-05, 2, 22, 4}, {0.002599581482, 3, 11, 4}, {0.009984649663, 3, 18, 4},
	{0.002199923153, 4, 11, 4}, {-0.02591350486, 4, 23, 4}, {-0.1259630848, 5, 17, 4},
	{0.1478355637, 5, 18, 4}, {-0.01011251078, 5, 23, 4},
}

// polynomial holds its coefficients from the constant upwards.
type polynomial [13]float64

// at returns the value and the slope at x.
func (p *polynomial) at(x float64) (value, slope float64) {
	for i := len(p) - 1; i >= 0; i-- {
		slope = slope*x + value
		value = value*x + p[i]
	}
	return value, slope
}

// isotherm is the equation of state at one temperature, where its 32 terms
// fall together into three polynomials of the reduced density δ:
//
//	Z = 1 + plain(δ) + exp(-δ²) second(δ) + exp(-δ⁴) fourth(δ)
type isotherm struct {
	kelvin                float64
	plain, second, fourth polynomial
	air                   float64 // density at zero gauge, kg/m³
}

var room = newIsotherm(Room)

func newIsotherm(t Celsius) *isotherm {
	iso := &isotherm{kelvin: t.kelvin()}
	roots := rootPowers(reducingTemperature / iso.kelvin)
	for _, term := range residualTerms {
		c := term.n * roots[int(2*term.t)+1]
		p := &iso.plain
		switch term.l {
		case 2:
			p = &iso.second
		case 4:
			p = &iso.fourth
		}
		// δ ∂/∂δ of c δ^d exp(-δ^l) is c (d δ^d - l δ^(d+l)) exp(-δ^l).
		p[term.d] += c * float64(term.d)
		if term.l > 0 {
			p[term.d+term.l] -= c * float64(term.l)
		}
	}
	iso.air = iso.density(atmosphere)
	return iso
}

// rootPowers returns τ^(-1/2), τ^0, τ^(1/2) and so on to τ^23: every power of
// τ in the equation is a multiple of one half.
func rootPowers(tau float64) (powers [48]float64) {
	root := math.Sqrt(tau)
	powers[0] = 1 / root
	for i := 1; i < len(powers); i++ {
		powers[i] = powers[i-1] * root
	}
	return powers
}

// isothermAt returns the isotherm of t, ready made for room temperature.
func isothermAt(t Celsius) *isotherm {
	if t == Room {
		return room
	}
	return newIsotherm(t)
}

// pressure returns the absolute pressure in Pa at a density in mol/m³, and
// its slope.
func (iso *isotherm) pressure(molar float64) (absolute, slope float64) {
	d := molar / reducingDensity
	z, dz := iso.plain.at(d)
	z2, dz2 := iso.second.at(d)
	z4, dz4 := iso.fourth.at(d)
	e2, e4 := math.Exp(-d*d), math.Exp(-d*d*d*d)
	compressibility := 1 + z + e2*z2 + e4*z4
	gradient := dz + e2*(dz2-2*d*z2) + e4*(dz4-4*d*d*d*z4)
	rt := gasConstant * iso.kelvin
	return molar * rt * compressibility, rt * (compressibility + d*gradient)
}

// density returns the density in kg/m³ at an absolute pressure in Pa, by
// Newton's method from the ideal gas: above the critical temperature the
// pressure rises with density all the way, so there is one answer. Each step
// about squares the relative error, so after one under 1e-4 the rest is noise.
func (iso *isotherm) density(absolute float64) float64 {
	if !(absolute > 0) {
		return 0
	}
	molar := absolute / (gasConstant * iso.kelvin)
	for range 12 {
		p, slope := iso.pressure(molar)
		step := (absolute - p) / slope
		molar += step
		if math.Abs(step) < 1e-4*molar {
			break
		}
	}
	return molar * molarMass
}

// Density returns the density of oxygen in kg/m³ at an absolute pressure in
// pascals. It holds from Coldest to Warmest and to 80 MPa, to 0.1 %.
func Density(absolute float64, t Celsius) float64 {
	return isothermAt(t).density(absolute)
}
