package delivery

import (
	"fmt"
	"strings"

	"lungwort/inventory/refusal"
)

// The sizes of office paper, by the name people call them.
const (
	PaperLetter = "Letter"
	PaperA4     = "A4"
	PaperRoll   = "Roll" // of single labels; label stocks only
)

// LabelStock is label paper of the programme's own, described by its
// dimensions in millimetres.
type LabelStock struct {
	Name    string  `json:"name"`
	Page    string  `json:"page"` // A4, Letter or Roll
	Rows    int     `json:"rows"`
	Columns int     `json:"columns"`
	Width   float64 `json:"width"` // of one label
	Height  float64 `json:"height"`
	Left    float64 `json:"left,omitempty"` // from the page's corner to the first label
	Top     float64 `json:"top,omitempty"`
	Across  float64 `json:"across,omitempty"` // gap between neighbours
	Down    float64 `json:"down,omitempty"`
}

// OfficePaper is the paper every printed page is laid out for.
func (p Programme) OfficePaper() string {
	if p.Paper == "" { // books from before the setting
		return PaperLetter
	}
	return p.Paper
}

// checkPapers refuses paper the program does not know, and two label stocks of
// one name.
func (p Programme) checkPapers() error {
	if paper := p.OfficePaper(); paper != PaperLetter && paper != PaperA4 {
		return refusal.New(refusal.Invalid, fmt.Sprintf("%q is no paper the program lays pages out for.", paper), "Choose Letter or A4.")
	}
	seen := map[string]bool{}
	for _, s := range p.Stocks {
		name := strings.ToLower(strings.TrimSpace(s.Name))
		switch {
		case name == "":
			return refusal.New(refusal.Invalid, "A label stock has no name.", "Give it the name on its box.")
		case seen[name]:
			return refusal.New(refusal.Invalid, fmt.Sprintf("Two label stocks are called %q.", s.Name), "Give each a name of its own.")
		case s.Page != PaperA4 && s.Page != PaperLetter && s.Page != PaperRoll:
			return refusal.New(refusal.Invalid, fmt.Sprintf("The label stock %q is on %q.", s.Name, s.Page), "Say A4, Letter or Roll.")
		}
		seen[name] = true
	}
	return nil
}
