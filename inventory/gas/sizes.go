package gas

import "fmt"

// Size is one size of cylinder. Water volume and masses are zero where no
// figure is known. One cylinder may differ from its size: see Marked.
type Size struct {
	Code        SizeCode `json:"code"`
	Region      string   `json:"region"`
	Letter      string   `json:"letter"`
	Also        []string `json:"also,omitempty"`   // other letters for the same size
	WaterVolume float64  `json:"water,omitempty"`  // L
	Service     Pressure `json:"service"`          // gauge pressure of a full cylinder
	Contents    Litres   `json:"contents"`         // what the label says a full cylinder holds
	Factor      float64  `json:"factor,omitempty"` // textbook litres per psi; 0 where none is published
	EmptyMass   float64  `json:"empty,omitempty"`  // kg, with valve
	GrossMass   float64  `json:"gross,omitempty"`  // kg, full, without regulator
	Valve       string   `json:"valve,omitempty"`  // post, threaded, or integral
	Figures     Figures  `json:"figures,omitzero"` // how far each of these can be trusted
	full        densityAt
}

// overfilled times service pressure is more than a cylinder shows when full
// and left in the heat; beyond it gauge, unit or size is wrong.
const overfilled = 1.25

// LookUp returns the size that comes with the program under a code such as
// "US-E"; another letter for the same size and lower case will do.
func LookUp(code SizeCode) (Size, bool) { return Table(nil).LookUp(code) }

// ParseSize is Table.Parse of the sizes that come with the program.
func ParseSize(text, region string) (Size, error) { return Table(nil).Parse(text, region) }

// Check refuses a size that cannot be: an E filled to 6,000 psi, or contents
// that do not fit the water volume.
func (s Size) Check() error {
	usual, shipped := LookUp(s.Code)
	if !shipped {
		usual = s
	}
	return s.checkAgainst(usual)
}

func (s Size) checkAgainst(usual Size) error {
	switch {
	case !(s.Service >= Bar(30)) || s.Service > Bar(310):
		return fmt.Errorf("%s: a full pressure of %s is outside 30 to 310 bar. Read it from the cylinder's shoulder", s.name(), s.Service)
	case !(s.Contents >= 10) || s.Contents > 20_000:
		return fmt.Errorf("%s: contents of %s are outside 10 to 20,000 L. Read them from the cylinder's label", s.name(), s.Contents)
	case s.Service > usual.Service*overfilled:
		return fmt.Errorf("%s: a full pressure of %s is far above the usual %s. Read it from the cylinder's shoulder", s.name(), s.Service, usual.Service)
	case s.Contents > usual.Contents*overfilled:
		return fmt.Errorf("%s: contents of %s are far above the usual %s. Read them from the cylinder's label", s.name(), s.Contents, usual.Contents)
	case s.Factor < 0 || Litres(s.Service.PSI()*s.Factor) > s.Contents*overfilled:
		return fmt.Errorf("%s: a factor of %s L/psi makes more than the contents of %s. Leave it out if no textbook gives one", s.name(), trimmed(s.Factor, 3), s.Contents)
	case s.EmptyMass < 0 || s.GrossMass < s.EmptyMass:
		return fmt.Errorf("%s: the full mass is below the empty mass. Weigh the cylinder, or leave both out", s.name())
	}
	return s.checkVolume()
}

// checkVolume compares label and water volume. Published pairs differ by up
// to 16 %, so only a fifth and more is called wrong.
func (s Size) checkVolume() error {
	if s.WaterVolume == 0 {
		return nil
	}
	byVolume := Litres(s.WaterVolume * (s.fullDensity() - room.air) / room.air)
	if ratio := s.Contents / byVolume; !(ratio > 0.8 && ratio < 1.2) {
		return fmt.Errorf("%s: %s do not fit %s L of water at %s, which hold about %s. Read all three from the cylinder",
			s.name(), s.Contents, trimmed(s.WaterVolume, 2), s.Service, byVolume)
	}
	return nil
}

// Marks are what one cylinder says of itself on shoulder and label, where that
// differs from its size; zero: as its size.
type Marks struct {
	Contents Litres   `json:"contents,omitempty"`
	Service  Pressure `json:"service,omitempty"`
	Water    float64  `json:"water,omitempty"` // L
}

// Marked returns the size with what one cylinder is marked with in place of the
// table's figures. The textbook factor goes with the figures it belongs to, and
// so does the mass of the gas.
func (s Size) Marked(m Marks) (Size, error) {
	if m == (Marks{}) {
		return s, nil
	}
	usual := s
	if m.Contents > 0 {
		s.Contents, s.Figures.Contents = m.Contents, OnLabel
	}
	if m.Service > 0 {
		s.Service, s.Figures.Service = m.Service, OnLabel
	}
	if m.Water > 0 {
		s.WaterVolume, s.Figures.Volume = m.Water, OnLabel
	} else if m.Contents > 0 || m.Service > 0 {
		s.WaterVolume, s.Figures.Volume = 0, ""
	}
	if s.Factor > 0 && Litres(s.Service.PSI()*s.Factor) > s.Contents {
		s.Factor, s.Figures.Factor = 0, ""
	}
	s.weigh()
	if m.Contents < 0 || m.Service < 0 || m.Water < 0 {
		return s, fmt.Errorf("%s: a mark below zero can't be. Read it again", s.name())
	}
	return s, s.checkAgainst(usual)
}

// weigh works out the full mass from the empty one and the gas.
func (s *Size) weigh() {
	if s.EmptyMass > 0 {
		s.GrossMass = s.EmptyMass + float64(s.Contents)*room.air/1000
	}
}

func (s Size) name() string {
	if s.Code == "" {
		return "cylinder"
	}
	return string(s.Code)
}
