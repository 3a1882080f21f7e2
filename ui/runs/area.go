package runs

import (
	"fmt"
	"slices"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// OpenArea keeps what waits, and what is planned of it, to the homes drawn
// around on the map.
func (m *Model) OpenArea(homes []inventory.PersonID) {
	m.Area = homes
	m.proposal.Runs, m.Troubles = nil, nil
	m.Load()
}

// Everywhere lets the area go.
func (m *Model) Everywhere() { m.OpenArea(nil) }

func (m *Model) here(who inventory.PersonID) bool {
	return len(m.Area) == 0 || slices.Contains(m.Area, who)
}

// WaitingTitle counts what waits, with an area those in it first.
func (m *Model) WaitingTitle() string {
	if len(m.Area) == 0 {
		return fmt.Sprint(len(m.Waiting))
	}
	return fmt.Sprintf("%d of %d", len(m.Waiting), len(m.Waiting)+m.Elsewhere)
}

// nothingWaits refuses to plan what is not there.
func (m *Model) nothingWaits() error {
	switch {
	case len(m.Waiting) > 0:
		return nil
	case len(m.Area) > 0:
		return refusal.New(refusal.NotFound, "No task waits for a run in the area drawn.", "Press Everywhere, or draw another area on the map.")
	}
	return refusal.New(refusal.NotFound, "No task waits for a run.", "A discharge, a stop or a low backup opens one.")
}
