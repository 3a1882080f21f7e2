package discharge

import (
	"context"
	"strings"

	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/finder"
	"lungwort/ui/work"
)

// findStreet looks for homes in the street written, to know where it lies.
func (m *Model) findStreet(text string) {
	street := streetName(text)
	if len(street) < 3 {
		m.spots = nil
		return
	}
	work.Ask(m.work, "discharge street", func(ctx context.Context) ([]store.Found, error) {
		return m.work.Desk.Homes(ctx, street, 20)
	}, func(found []store.Found) {
		m.spots = nil
		for _, f := range found {
			if f.Address.Point.Known() && strings.EqualFold(streetName(f.Address.Street), street) {
				m.spots = append(m.spots, f.Address)
			}
		}
		m.recompute()
	})
}

// streetName returns a street without its house number.
func streetName(text string) string {
	return strings.TrimSpace(strings.TrimRight(strings.TrimSpace(text), "0123456789abc-/ "))
}

// look finds the one item of a scan.
func (m *Model) look(text string, found func(inventory.Item)) {
	work.Ask(m.work, "discharge scan "+text, func(ctx context.Context) (inventory.Item, error) {
		return finder.Item(ctx, m.work.Desk, text)
	}, found)
}
