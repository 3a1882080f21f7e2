package gas

import (
	"fmt"
	"math"
	"strings"
)

// Size is one size of cylinder. Water volume and masses are zero where no
// figure is known. One cylinder may differ from its size: copy the Size, set
// what its own label says, and call Check.
type Size struct {
	Code        SizeCode
	Region      string
	Letter      string
	Also        []string // other letters for the same size
	WaterVolume float64  // L
	Service     Pressure // gauge pressure of a full cylinder
	Contents    Litres   // what the label says a full cylinder holds
	Factor      float64  // textbook litres per psi; 0 where none is published
	EmptyMass   float64  // kg, with valve
	GrossMass   float64  // kg, full, without regulator
	Valve       string   // post, threaded, or integral
	Figures     Figures  // how far each of these can be trusted
	full        densityAt
}

// overfilled times service pressure is more than a cylinder shows when full
// and left in the heat; beyond it gauge, unit or size is wrong.
const overfilled = 1.25

// LookUp returns the size with a code such as "US-E"; another letter for the
// same size and lower case will do.
func LookUp(code SizeCode) (Size, bool) {
	s, found := sizeByCode[strings.ToUpper(string(code))]
	return s, found
}

// Sizes returns every size in the table, by region and rising contents.
func Sizes() []Size {
	return append([]Size(nil), sizeTable...)
}

// ParseSize reads a size, "US-E" or "E" with the region "US". The same letter
// names different cylinders in different regions, so a letter without a
// region comes back as a *Question, with the smallest as the careful one.
func ParseSize(text, region string) (Size, error) {
	letter := strings.ToUpper(tidy(text))
	for _, word := range []string{"SIZE ", " SIZE", " CYLINDER", " CYL", " TANK"} {
		letter = strings.TrimSuffix(strings.TrimPrefix(letter, word), word)
	}
	if s, found := LookUp(SizeCode(letter)); found {
		return s, nil
	}
	if letter == "" {
		return Size{}, fmt.Errorf("no cylinder size is given. Read the size from the cylinder's label, as US-E")
	}
	if region = strings.ToUpper(tidy(region)); region != "" {
		if s, found := LookUp(SizeCode(region + "-" + letter)); found {
			return s, nil
		}
		return Size{}, fmt.Errorf("%q is not a size known in %s. Read size, contents and full pressure from the cylinder's label", text, region)
	}
	if q := whichRegion(text, letter); q != nil {
		return Size{}, q
	}
	return Size{}, fmt.Errorf("%q is not a known cylinder size. Read size, contents and full pressure from the cylinder's label, and write the size as US-E", text)
}

func whichRegion(text, letter string) error {
	q := &Question{Text: text, Asks: "in which region?"}
	least := Litres(math.Inf(1))
	for _, s := range sizeTable {
		if sizeByCode[s.Region+"-"+letter].Code != s.Code {
			continue
		}
		if s.Contents < least {
			least, q.Careful = s.Contents, len(q.Candidates)
		}
		says := fmt.Sprintf("%s (%s at %s)", s.Code, s.Contents, s.Service)
		q.Candidates = append(q.Candidates, Candidate{Says: says, Pressure: s.Service, Size: s.Code})
	}
	if len(q.Candidates) == 0 {
		return nil
	}
	return q
}

// Check refuses a size that cannot be: an E filled to 6,000 psi, or contents
// that do not fit the water volume.
func (s Size) Check() error {
	switch known, found := LookUp(s.Code); {
	case !(s.Service >= Bar(30)) || s.Service > Bar(310):
		return fmt.Errorf("%s: a full pressure of %s is outside 30 to 310 bar. Read it from the cylinder's shoulder", s.name(), s.Service)
	case !(s.Contents >= 10) || s.Contents > 20_000:
		return fmt.Errorf("%s: contents of %s are outside 10 to 20,000 L. Read them from the cylinder's label", s.name(), s.Contents)
	case found && s.Service > known.Service*overfilled:
		return fmt.Errorf("%s: a full pressure of %s is far above the usual %s. Read it from the cylinder's shoulder", s.name(), s.Service, known.Service)
	case found && s.Contents > known.Contents*overfilled:
		return fmt.Errorf("%s: contents of %s are far above the usual %s. Read them from the cylinder's label", s.name(), s.Contents, known.Contents)
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

// ByLabel returns the size with what the label of one cylinder says in place of
// the table's figures; zero leaves the table's. The textbook factor goes with
// the figures it belongs to.
func (s Size) ByLabel(contents Litres, service Pressure, waterVolume float64) (Size, error) {
	if contents > 0 {
		s.Contents, s.Figures.Contents = contents, OnLabel
	}
	if service > 0 {
		s.Service, s.Figures.Service = service, OnLabel
	}
	if waterVolume > 0 {
		s.WaterVolume, s.Figures.Volume = waterVolume, OnLabel
	} else if contents > 0 || service > 0 {
		s.WaterVolume, s.Figures.Volume = 0, ""
	}
	if s.Factor > 0 && Litres(s.Service.PSI()*s.Factor) > s.Contents {
		s.Factor, s.Figures.Factor = 0, ""
	}
	return s, s.Check()
}

func (s Size) name() string {
	if s.Code == "" {
		return "cylinder"
	}
	return string(s.Code)
}
