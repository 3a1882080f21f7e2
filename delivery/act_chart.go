package delivery

import (
	"fmt"

	"lungwort/delivery/outline"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// MostOutline is how many positions of an outline are kept: more than a screen
// or a sheet shows.
const MostOutline = 20_000

// TakeOutline puts the outline that maps are drawn from in force. It is kept in
// the book; the file is not needed any more.
type TakeOutline struct {
	File    string // its name alone
	Outline outline.Outline
}

// Decide thins the outline to what a map can show and keeps it.
func (a TakeOutline) Decide(View) (Change, error) {
	if a.Outline.Empty() {
		return Change{}, refusal.New(refusal.Invalid, "The outline is empty.", "Choose a GeoJSON file with coast or roads.")
	}
	kept, metres := a.Outline.Thin(MostOutline)
	says := fmt.Sprintf("The map is drawn from %s: %s.", a.File, count(kept.Size(), "point"))
	if metres > 0 {
		says = fmt.Sprintf("The map is drawn from %s: %d of %d points are kept, lines true to %.0f m.", a.File, kept.Size(), a.Outline.Size(), metres)
	}
	return Change{Facts: []inventory.Fact{{Statement: &Charted{File: a.File, Outline: kept}}}, Says: says}, nil
}
