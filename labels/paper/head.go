package paper

import (
	"time"

	"lungwort/inventory/refusal"
)

// Format is a size of paper, upright.
type Format struct {
	Name          string // as people call it
	Width, Height MM
}

// The formats offices have in the drawer.
var (
	A4     = Format{"A4", 210, 297}         // ISO 216
	Letter = Format{"Letter", 215.9, 279.4} // ANSI/ASME Y14.1, size A
)

// turned returns the format lying on its side.
func (f Format) turned() Format { return Format{f.Name, f.Height, f.Width} }

// Head is what every paper for people carries on each page.
type Head struct {
	Programme string    // the programme's name
	Emergency string    // the number of the emergency services; must be set
	OnCall    string    // the programme's own number at any hour, with who answers; may be empty
	Format    Format    // A4 or Letter; must be set
	Printed   time.Time // when it was printed, in the programme's zone; must be set
	FactsAsOf time.Time // the newest fact it rests on; must be set
	Code      string    // what the paper's own QR code says (ASCII); empty for no code
}

// check refuses a head that would print a paper nobody can rely on.
func (h Head) check() error {
	switch {
	case h.Emergency == "":
		return refusal.New(refusal.Invalid, "This paper has no emergency number.",
			"Set the programme's emergency number in Settings, then print again.")
	case h.Format.Width <= 0 || h.Format.Height <= 0:
		return refusal.New(refusal.Ask, "The size of the paper isn't set.", "Choose A4 or Letter.")
	case h.Printed.IsZero() || h.FactsAsOf.IsZero():
		return refusal.New(refusal.Internal, "This paper doesn't know its time of printing or of its facts.", "")
	}
	return nil
}
