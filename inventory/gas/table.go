package gas

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Table is the sizes of cylinders somebody reckons with: those that come with
// the program, and its own, which are its elements. An own size under a code of
// the program's takes its place. The zero value is what comes with the program.
type Table []Size

// LookUp returns the size with a code such as "US-E"; another letter for the
// same size and lower case will do.
func (own Table) LookUp(code SizeCode) (Size, bool) {
	name := strings.ToUpper(string(code))
	for _, s := range own {
		if slices.Contains(s.codes(), name) {
			return s, true
		}
	}
	s, found := sizeByCode[name]
	return s, found
}

// All returns every size, by region and rising contents as far as they come
// with the program, then the own ones.
func (own Table) All() []Size {
	all := slices.DeleteFunc(slices.Clone(sizeTable), func(s Size) bool {
		return slices.ContainsFunc(own, func(o Size) bool { return o.Code == s.Code })
	})
	return append(all, own...)
}

// codes are all codes that name the size, in capitals.
func (s Size) codes() []string {
	all := []string{s.Region + "-" + s.Letter}
	for _, letter := range s.Also {
		all = append(all, s.Region+"-"+letter)
	}
	return all
}

// Parse reads a size, "US-E" or "E" with the region "US". The same letter
// names different cylinders in different regions, so a letter without a
// region comes back as a *Question, with the smallest as the careful one.
func (own Table) Parse(text, region string) (Size, error) {
	letter := strings.ToUpper(tidy(text))
	for _, word := range []string{"SIZE ", " SIZE", " CYLINDER", " CYL", " TANK"} {
		letter = strings.TrimSuffix(strings.TrimPrefix(letter, word), word)
	}
	if s, found := own.LookUp(SizeCode(letter)); found {
		return s, nil
	}
	if letter == "" {
		return Size{}, fmt.Errorf("no cylinder size is given. Read the size from the cylinder's label, as US-E")
	}
	if region = strings.ToUpper(tidy(region)); region != "" {
		if s, found := own.LookUp(SizeCode(region + "-" + letter)); found {
			return s, nil
		}
		return Size{}, fmt.Errorf("%q is not a size known in %s. Read size, contents and full pressure from the cylinder's label", text, region)
	}
	if q := own.whichRegion(text, letter); q != nil {
		return Size{}, q
	}
	return Size{}, fmt.Errorf("%q is not a known cylinder size. Read size, contents and full pressure from the cylinder's label, and write the size as US-E", text)
}

func (own Table) whichRegion(text, letter string) error {
	q := &Question{Text: text, Asks: "in which region?"}
	least := Litres(math.Inf(1))
	for _, s := range own.All() {
		if !slices.Contains(s.codes(), s.Region+"-"+letter) {
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

// Valves are the kinds of valve a size can have.
func Valves() []string { return []string{post, threaded, integral} }

// Own returns a size of a programme's own: region and letter are read as they
// are written on the cylinder, its code, mass and statuses are worked out, and
// what can't be is refused.
func Own(s Size) (Size, error) {
	s.Region, s.Letter = strings.ToUpper(tidy(s.Region)), strings.ToUpper(tidy(s.Letter))
	s.Code = SizeCode(s.Region + "-" + s.Letter)
	switch {
	case s.Region == "" || s.Letter == "" || strings.ContainsAny(s.Region, "- ") || len(s.Code) > 20:
		return s, fmt.Errorf("a size needs a region in one word and a letter, as US and E")
	case s.Valve != "" && !slices.Contains(Valves(), s.Valve):
		return s, fmt.Errorf("%q is no kind of valve. Choose one of %s", s.Valve, strings.Join(Valves(), ", "))
	case s.WaterVolume < 0:
		return s, fmt.Errorf("%s: a water volume below zero can't be. Read it from the cylinder's shoulder", s.name())
	}
	s.Figures = Figures{Contents: Set, Service: Set}
	if s.WaterVolume > 0 {
		s.Figures.Volume = Set
	}
	if s.EmptyMass > 0 {
		s.Figures.Mass = Set
	}
	s.weigh()
	return s, s.Check()
}

// Check refuses a table with a size that can't be, or with two under one name.
func (own Table) Check() error {
	seen := make(map[string]bool)
	for _, s := range own {
		if err := s.Check(); err != nil {
			return err
		}
		for _, code := range s.codes() {
			if seen[code] {
				return fmt.Errorf("%s is there twice. Keep one of them", code)
			}
			seen[code] = true
		}
	}
	return nil
}
