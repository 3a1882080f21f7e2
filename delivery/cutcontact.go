package delivery

import (
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// Found is how a home stood when it was called in a power cut.
type Found string

// What a call in a power cut can find.
const (
	FoundRunning Found = "running"     // the concentrator runs all the same
	FoundBackup  Found = "on backup"   // breathes from a cylinder
	FoundSaving  Found = "turned down" // on the cylinder, below the order, to make it last
	FoundNobody  Found = "unreachable"
)

// Findings are the findings in the order they are asked.
var Findings = []Found{FoundRunning, FoundBackup, FoundSaving, FoundNobody}

// CutContact is what the calls about one power cut have found so far.
type CutContact struct {
	Cut   inventory.FactID `json:"cut"`
	At    time.Time        `json:"at"`              // of the last try
	Found Found            `json:"found,omitempty"` // of the last call somebody answered
	Flow  *gas.Flow        `json:"flow,omitempty"`  // in use then
	Tried int              `json:"tried,omitempty"` // without an answer since
}

// hearInCut takes up a call about a power cut. The calls about an earlier one
// are forgotten.
func (c *Care) hearInCut(s *Called, f inventory.Fact) {
	if c.InCut == nil || c.InCut.Cut != s.Cut {
		c.InCut = &CutContact{Cut: s.Cut}
	}
	c.InCut.At = f.Happened
	if !s.Answered {
		c.InCut.Tried++
		return
	}
	c.InCut.Found, c.InCut.Flow, c.InCut.Tried = s.Found, s.Flow, 0
}

// contact returns the calls made about a power cut.
func (c Care) contact(cut inventory.FactID) CutContact {
	if c.InCut == nil || cut == 0 || c.InCut.Cut != cut {
		return CutContact{}
	}
	return *c.InCut
}
