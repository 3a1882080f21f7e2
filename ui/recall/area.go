package recall

import (
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
)

// OpenArea keeps what is shown to the homes drawn around on the map.
func (m *Model) OpenArea(homes []inventory.PersonID) {
	m.Area = homes
	m.Load()
}

// Everywhere lets the area go.
func (m *Model) Everywhere() { m.OpenArea(nil) }

func (m *Model) here(who inventory.PersonID) bool { return slices.Contains(m.Area, who) }

// unitsHere are those of a file that are in homes of the area.
func (m *Model) unitsHere(units []delivery.RecallUnit) []delivery.RecallUnit {
	if len(m.Area) == 0 {
		return units
	}
	return slices.DeleteFunc(units, func(u delivery.RecallUnit) bool { return !m.here(u.Person) })
}

// foundHere is what a search found in homes of the area, or was lent to them.
func (m *Model) foundHere(l store.RecallList) store.RecallList {
	if len(m.Area) == 0 {
		return l
	}
	elsewhere := func(r store.Recalled) bool { return !m.here(r.Person) && !slices.ContainsFunc(r.Persons, m.here) }
	for _, list := range []*[]store.Recalled{&l.Homes, &l.Places, &l.Before, &l.Unsure} {
		*list = slices.DeleteFunc(*list, elsewhere)
	}
	l.Homes = slices.DeleteFunc(l.Homes, func(r store.Recalled) bool { return !m.here(r.Person) })
	l.Stock = nil
	l.Given = slices.DeleteFunc(l.Given, func(g inventory.LotGiven) bool { return !m.here(g.Person) })
	return l
}

// tellArea says what is shown keeps to an area.
func (m *Model) tellArea() {
	if len(m.Area) == 0 {
		return
	}
	words := "Only " + delivery.Count(len(m.Area), "home") + " drawn around on the map"
	if m.Title == "" {
		words += ": search what the notice names (1), or open a file"
	}
	m.Below = strings.TrimSuffix(words+" · "+m.Below, " · ")
}

// onlyHere warns that what lies elsewhere is not marked.
func (m *Model) onlyHere() string {
	if len(m.Area) == 0 {
		return ""
	}
	return "Only what the homes of the area drawn have or had is marked: mark the rest of the notice too (7 shows everywhere)."
}
