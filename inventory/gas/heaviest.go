package gas

import "math"

// heaviest is more than any cylinder of the table weighs empty, with its valve,
// for each litre of water it holds: the M in steel has 1.58 kg.
const heaviest = 1.7

// Volume returns the water volume in litres; where no figure is known, that of
// an ideal gas in its place.
func (s Size) Volume() float64 {
	if s.WaterVolume > 0 {
		return s.WaterVolume
	}
	return float64(s.Contents) / (1 + s.Service.Bar())
}

// workOut fills in what no source gives: the water volume of an ideal gas, and as
// much as no cylinder of that volume exceeds empty.
func (s *Size) workOut() {
	if s.WaterVolume == 0 {
		s.WaterVolume, s.Figures.Volume = math.Round(10*s.Volume())/10, Derived
	}
	if s.EmptyMass == 0 {
		s.EmptyMass, s.Figures.Mass = s.WaterVolume*heaviest, Derived
	}
}

// GrossAtMost returns what a full cylinder weighs in kg; where no figure is
// known, what none of its volume exceeds: a load is not to be counted too light.
func (s Size) GrossAtMost() float64 {
	if s.GrossMass > 0 {
		return s.GrossMass
	}
	return s.Volume()*heaviest + float64(s.Contents/gasPerKilogram)
}
