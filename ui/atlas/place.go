package atlas

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/outline"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/scene"
	"lungwort/ui/ask"
)

// far is how far from every depot a home may lie before it is asked about, in
// metres.
const far = 200_000

// PinAt puts the pin where the place of the home in hand is to be.
func (m *Model) PinAt(p scene.Position) {
	m.Pin = &p
	m.Changed()
}

// PlaceForm asks where the home in hand lies: at the pin, or typed.
func (m *Model) PlaceForm() (ask.Form, error) {
	h, found := m.Hand()
	if !found || h.Address.ID == "" {
		return ask.Form{}, refusal.New(refusal.NotFound, "No home with an address is in hand.", "Take one on the map or in the list, then press 3.")
	}
	pinned, given := "", ""
	switch {
	case m.Pin != nil:
		pinned = fmt.Sprintf("%.5f, %.5f", m.Pin.Lat, m.Pin.Lon)
		given = pinned
	case h.Address.Point.Known():
		given = fmt.Sprintf("%.5f, %.5f", h.Address.Point.Lat, h.Address.Point.Lon)
	}
	choice := m.choiceFor(h)
	doubted := ""
	return ask.Form{
		Title: "Set the place of " + h.Address.Where(), Button: "Set place",
		Before: m.placeHelp(h, choice),
		Fields: []ask.Field{
			{Key: "where", Label: "Where", Value: given, Hint: "latitude, longitude: 36.512, -40.521 or 36° 30.72' N, 40° 31.26' W"},
			{Key: "sure", Label: "How sure", Kind: ask.Pick, Value: "exact", Options: []ask.Option{{Value: "exact", Label: "exact"}, {Value: "rough", Label: "about right"}}},
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			at, by, err := written(a.Text("where"), choice)
			if err != nil {
				return ask.Wrong{"where": err}
			}
			if doubt := m.doubt(at); doubt != "" && doubted != a.Text("where") {
				doubted = a.Text("where")
				return ask.Wrong{"where": errors.New(doubt + ": set it again if that is right")}
			}
			act := delivery.Place{Person: h.ID, Address: h.Address.ID, At: at, By: by, Rough: a.Is("sure", "rough")}
			if pinned != "" && a.Text("where") == pinned {
				act.By = delivery.OnTheMap
			}
			m.work.Try("place", m.work.Hand(inventory.Keyed), act, func(_ store.Outcome, err error) {
				if closed(err); err == nil {
					m.Pin = nil
					m.Load()
				}
			})
			return nil
		},
	}, nil
}

// choiceFor returns the places a home without a place may lie at by its name.
func (m *Model) choiceFor(h Home) delivery.PlaceChoice {
	c := delivery.PlaceChoice{Person: h.ID, Address: h.Address}
	if !h.Address.Point.Known() {
		c.Matches = h.Address.Matches(m.gazetteer)
	}
	return c
}

func (m *Model) placeHelp(h Home, choice delivery.PlaceChoice) string {
	switch {
	case m.Pin == nil && len(choice.Matches) > 0:
		return choice.Listed() + " Write the number of one, or latitude and longitude; a click on the map puts a pin."
	case m.Pin == nil && h.Address.Rough:
		return "Only about right until now. Set it as it is to confirm it, write another, or click on the map for a pin."
	}
	return "Click on the map beside every home, or press P for its middle, and the pin's place stands here."
}

// written returns the place written: latitude and longitude, or the number of one
// that may be meant.
func written(text string, choice delivery.PlaceChoice) (delivery.Point, delivery.PlacedBy, error) {
	if n, err := strconv.Atoi(strings.TrimSpace(text)); err == nil && len(choice.Matches) > 0 {
		act, err := choice.Choose(n)
		return act.At, act.By, err
	}
	at, err := delivery.ReadPoint(text)
	return at, delivery.ByTyping, err
}

// doubt says why a place can hardly be right; empty when it can.
func (m *Model) doubt(at delivery.Point) string {
	if !m.outline.Dry(outline.Position{Lat: at.Lat, Lon: at.Lon}) {
		return "this lies in the sea"
	}
	near := len(m.prog.Depots) == 0
	for _, d := range m.prog.Depots {
		near = near || !d.Point.Known() || delivery.GreatCircle(at, d.Point) < far
	}
	if !near {
		return "this is over 200 km from every depot"
	}
	return ""
}

// place says how the place of a home is known.
func (h Home) place() string {
	p := h.Address.Point
	switch {
	case !p.Known():
		return "not known: press 3 to set it"
	case h.Address.Rough:
		return fmt.Sprintf("%.4f, %.4f, only about right: press 3 to confirm", p.Lat, p.Lon)
	}
	return fmt.Sprintf("%.4f, %.4f", p.Lat, p.Lon)
}
