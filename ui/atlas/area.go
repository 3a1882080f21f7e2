package atlas

import (
	"fmt"
	"slices"

	"lungwort/delivery"
	"lungwort/delivery/outline"
	"lungwort/inventory/refusal"
	"lungwort/labels/scene"
	"lungwort/ui/work"
)

// Draw takes the line drawn on the map, which chooses the homes inside it.
func (m *Model) Draw(line []scene.Position, done bool) {
	m.Area = line
	if m.choose(); done && len(m.Chosen) == 0 {
		m.Area = nil
		m.work.Say("No home lies in the area drawn.")
	}
	m.Changed()
}

// Clear lets the area and the pin go.
func (m *Model) Clear() {
	m.Area, m.Chosen, m.Pin = nil, nil, nil
	m.Changed()
}

// choose finds the homes inside the area, most urgent first.
func (m *Model) choose() {
	m.Chosen = m.Chosen[:0:0]
	ring := make([]outline.Position, len(m.Area))
	for i, p := range m.Area {
		ring[i] = outline.Position(p)
	}
	for _, h := range m.Homes {
		if p := h.Address.Point; outline.Within(outline.Position{Lat: p.Lat, Lon: p.Lon}, ring) {
			m.Chosen = append(m.Chosen, h.ID)
		}
	}
}

// ChosenTitle counts the homes chosen by verdict: "12 homes chosen: 1 short".
func (m *Model) ChosenTitle() string {
	if len(m.Chosen) == 0 {
		return "Shift and pull draws a rectangle, Ctrl and pull a line around an area."
	}
	worst := 0
	for _, h := range m.Homes {
		for _, id := range m.Chosen {
			if h.ID == id && h.Verdict != "" && h.Verdict != scene.Holds {
				worst++
			}
		}
	}
	return fmt.Sprintf("%s chosen, %d do not hold", delivery.Count(len(m.Chosen), "home"), worst)
}

// TakeTo takes the homes chosen to a screen that works on them: power cuts,
// recalls, runs.
func (m *Model) TakeTo(room work.Room) {
	if len(m.Chosen) == 0 {
		m.work.Refuse(refusal.New(refusal.Invalid, "No homes are chosen.", "Draw around them on the map: Shift and pull for a rectangle, Ctrl and pull for a line."))
		return
	}
	m.work.Open(work.Target{Room: room, Homes: slices.Clone(m.Chosen)})
}
