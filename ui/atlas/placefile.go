package atlas

import (
	"context"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// TakePlaces keeps the places of a file and looks up the homes without one.
func (m *Model) TakePlaces(path string) {
	hand := m.work.Hand(inventory.Keyed)
	work.Ask(m.work, "places", func(ctx context.Context) (store.Outcome, error) {
		act, err := intake.ReadPlaces(ctx, path)
		if err != nil {
			return store.Outcome{}, err
		}
		return m.work.Desk.Do(ctx, hand, act)
	}, m.looked)
}

// LookUp looks up the homes without a place: in the place file, then by
// postcode.
func (m *Model) LookUp() {
	m.work.Do("look up", m.work.Hand(inventory.Keyed), delivery.FindPlaces{}, func(store.Outcome) { m.Load() })
}

func (m *Model) looked(out store.Outcome) {
	m.work.Say(out.Says)
	m.work.Changed()
	m.Load()
}

func (v *View) askPlaces() {
	if win := widgets.WindowOf(v.content); win != nil {
		v.pickFile(win, v.model.TakePlaces)
	}
}
