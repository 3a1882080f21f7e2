package gas

// Real-gas contents. A gauge falls in step with the gas only for an ideal
// gas; oxygen at cylinder pressure is 5 to 7 % denser than that, so counting
// in proportion to the gauge overstates a part-used cylinder by 2 to 5 %.
// Contents here are the label's, scaled by density.

// UsualReserve is the gauge pressure commonly left in a cylinder as a safe
// residual: 200 psi in respiratory-therapy teaching.
const UsualReserve Pressure = 200 * pascalsPerPSI

// ContentsAt returns the gas that can flow out of the cylinder, down to zero
// on the gauge, when the gauge shows p at temperature t.
//
// At the same gauge reading a warmer cylinder holds less. A cylinder that
// warms shows a higher gauge for the gas it had, so warmth adds no minutes as
// long as t is the temperature at the reading. Where t is not known, Room
// understates a cold cylinder (safe) and overstates one at 40 °C by 9 %.
func (s Size) ContentsAt(p Pressure, t Celsius) Litres {
	return s.Usable(p, 0, t)
}

// Usable returns the gas above the reserve, never less than zero.
func (s Size) Usable(p, reserve Pressure, t Celsius) Litres {
	reserve = max(0, reserve)
	if !(p > reserve) {
		return 0
	}
	iso := isothermAt(t)
	held, kept := iso.density(p.Absolute()), iso.air
	if reserve > 0 {
		kept = iso.density(reserve.Absolute())
	}
	return s.litresPerDensity() * Litres(held-kept)
}

// GaugeFor returns what the gauge shows when l litres are left: the inverse
// of ContentsAt, for ageing a reading.
func (s Size) GaugeFor(l Litres, t Celsius) Pressure {
	share := s.litresPerDensity()
	if l <= 0 || share == 0 {
		return 0
	}
	iso := isothermAt(t)
	absolute, _ := iso.pressure((iso.air + float64(l/share)) / molarMass)
	return max(0, Pressure(absolute-atmosphere))
}

// litresPerDensity is the label contents for each kg/m³ between empty and
// full at room temperature: in effect the water volume the label implies.
func (s Size) litresPerDensity() Litres {
	if s.Service <= 0 {
		return 0
	}
	return s.Contents / Litres(s.fullDensity()-room.air)
}

// AtTemperature returns what the gauge of a closed cylinder shows after its
// temperature has gone from one value to another with no gas lost.
func AtTemperature(p Pressure, from, to Celsius) Pressure {
	absolute, _ := isothermAt(to).pressure(Density(p.Absolute(), from) / molarMass)
	return Pressure(absolute - atmosphere)
}

// fullDensity returns the density in kg/m³ in a full cylinder at room
// temperature, worked out once for the sizes of the table.
func (s Size) fullDensity() float64 {
	if s.full.pressure == s.Service {
		return s.full.density
	}
	return room.density(s.Service.Absolute())
}

// densityAt is a density worked out ahead, and the gauge pressure it is for.
type densityAt struct {
	pressure Pressure
	density  float64
}
