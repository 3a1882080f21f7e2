package atlas

import (
	"context"
	"path/filepath"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/work"
)

// TakeFile takes in what the map and the rides rest on: an outline, a place file
// or a file of rides. What it is its content says.
func (m *Model) TakeFile(path string) {
	switch strings.ToLower(filepath.Ext(path)) {
	case ".geojson", ".json", ".kml", ".topojson":
		m.TakeOutline(path)
	default:
		m.TakeTable(path)
	}
}

// TakeTable keeps the places of a place file, and looks up the homes without
// one; or the travel times of a file of rides.
func (m *Model) TakeTable(path string) {
	hand := m.work.Hand(inventory.Keyed)
	work.Ask(m.work, "places", func(ctx context.Context) (store.Outcome, error) {
		act, err := intake.ReadMapTable(ctx, path)
		if err != nil {
			return store.Outcome{}, err
		}
		return m.work.Desk.Do(ctx, hand, act)
	}, func(out store.Outcome) {
		m.work.Say(out.Says)
		m.work.Changed()
		m.Load()
	})
}

// LookUp looks up the homes without a place: in the place file, then by
// postcode.
func (m *Model) LookUp() {
	m.work.Do("look up", m.work.Hand(inventory.Keyed), delivery.FindPlaces{}, func(store.Outcome) { m.Load() })
}
