package atlas

import (
	"context"

	"lungwort/delivery/paperwork"
	"lungwort/labels/scene"
)

// Print prints a page of the map as it is seen.
func (m *Model) Print(sight scene.Sight, w, h float64) {
	data, says := m.Data(sight), m.Title()
	m.work.Paper("map", "Map", func(_ context.Context, c paperwork.Clerk) (paperwork.Printable, error) {
		return c.MapPage(data, says, w, h), nil
	})
}
