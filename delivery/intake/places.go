package intake

import (
	"fmt"
	"regexp"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
)

// places are the places of the programme, with those the lists add to it.
type places struct {
	programme delivery.Programme
	added     map[inventory.Place]delivery.Site
}

func newPlaces(p delivery.Programme) places {
	return places{p, map[inventory.Place]delivery.Site{}}
}

// plainPlaces are places without a name, and the words for them.
var plainPlaces = map[string]inventory.PlaceKind{
	"workshop": inventory.AtWorkshop, "repair": inventory.AtWorkshop, "in repair": inventory.AtWorkshop,
	"missing": inventory.AtMissing, "lost": inventory.AtMissing,
	"retired": inventory.AtRetired, "scrapped": inventory.AtRetired, "condemned": inventory.AtRetired,
	"home": inventory.AtAddress, "a home": inventory.AtAddress, "at home": inventory.AtAddress, "patient": inventory.AtAddress, "with patient": inventory.AtAddress, "out": inventory.AtAddress,
}

var (
	kindAndName = regexp.MustCompile(`(?i)^(depot|ward|plant|vehicle)\s*:\s*(\S.*)$`)
	nameOfKind  = regexp.MustCompile(`(?i)^(?:(.+?)\s+(depot|ward|plant)|(depot|ward|plant)\s+(\S.*))$`)
)

// find returns the place a text names, of the kind of its column when that
// says one. A place that the text itself says the kind of is new to the
// programme when the programme does not have it.
func (p places) find(text string, kind inventory.PlaceKind) (inventory.Place, bool) {
	if plain, ok := plainPlaces[strings.ToLower(text)]; ok {
		return inventory.At(plain, ""), true
	}
	if m := kindAndName.FindStringSubmatch(text); m != nil {
		kind, text = inventory.PlaceKind(strings.ToLower(m[1])), m[2]
	}
	if at, ok := p.named(text, kind); ok {
		return at, true
	}
	name := text
	if m := nameOfKind.FindStringSubmatch(text); m != nil && kind == "" {
		kind, name = inventory.PlaceKind(strings.ToLower(m[2]+m[3])), m[1]+m[4]
		if at, ok := p.named(name, kind); ok {
			return at, true
		}
	}
	if kind == "" || kind == inventory.AtVehicle {
		return "", false
	}
	return p.add(kind, name, text), true
}

func (p places) named(text string, kind inventory.PlaceKind) (inventory.Place, bool) {
	of := func(at inventory.PlaceKind, sites ...delivery.Site) (inventory.Place, bool) {
		for _, s := range sites {
			if (kind == "" || kind == at) && (strings.EqualFold(s.Name, text) || strings.EqualFold(s.Title, text)) {
				return inventory.At(at, s.Name), true
			}
		}
		return "", false
	}
	if at, ok := of(inventory.AtDepot, p.programme.Depots...); ok {
		return at, ok
	}
	if at, ok := of(inventory.AtWard, append(p.programme.Wards, p.programme.Hospital)...); ok && text != "" {
		return at, ok
	}
	if at, ok := of(inventory.AtPlant, p.programme.Plants...); ok {
		return at, ok
	}
	for _, v := range p.programme.Vehicles {
		if (kind == "" || kind == inventory.AtVehicle) && strings.EqualFold(v.Name, text) {
			return inventory.At(inventory.AtVehicle, v.Name), true
		}
	}
	for _, at := range sortedKeys(p.added) {
		s := p.added[at]
		if (kind == "" || kind == at.Kind()) && strings.EqualFold(s.Name, text) {
			return at, true
		}
	}
	return "", false
}

// add makes a place of the programme; its short name is in lower case, as
// people write it.
func (p places) add(kind inventory.PlaceKind, name, title string) inventory.Place {
	at := inventory.At(kind, strings.ToLower(name))
	if kind == inventory.AtWard {
		at = inventory.At(kind, name)
	}
	p.added[at] = delivery.Site{Name: at.Name(), Title: title}
	return at
}

// known returns the places to choose from.
func (p places) known() []Choice {
	var all []Choice
	for _, s := range p.programme.Depots {
		all = append(all, Choice{string(inventory.At(inventory.AtDepot, s.Name)), s.Title})
	}
	for _, s := range p.programme.Wards {
		all = append(all, Choice{string(inventory.At(inventory.AtWard, s.Name)), s.Title})
	}
	for _, s := range p.programme.Plants {
		all = append(all, Choice{string(inventory.At(inventory.AtPlant, s.Name)), s.Title})
	}
	for _, v := range p.programme.Vehicles {
		all = append(all, Choice{string(inventory.At(inventory.AtVehicle, v.Name)), "vehicle"})
	}
	return all
}

// with returns the programme with the places that are used and new to it.
func (p places) with(used map[inventory.Place]bool) (delivery.Programme, []string) {
	with := p.programme
	var said []string
	for _, at := range sortedKeys(p.added) {
		s := p.added[at]
		if !used[at] {
			continue
		}
		switch at.Kind() {
		case inventory.AtDepot:
			with.Depots = append(with.Depots, s)
		case inventory.AtWard:
			with.Wards = append(with.Wards, s)
		case inventory.AtPlant:
			with.Plants = append(with.Plants, s)
		}
		said = append(said, fmt.Sprintf("%s %s is new to the programme and goes into its settings; say there where it lies.", at.Kind(), s.Name))
	}
	return with, said
}

// place returns where a line's cell says something is; empty when it is
// blank or asked about.
func (r *reader) place(l *line) inventory.Place {
	text, kind := l.text("depot"), inventory.AtDepot
	if text == "" {
		text, kind = l.text("place"), ""
	}
	if text == "" {
		return ""
	}
	if at, ok := r.places.find(text, kind); ok {
		return at
	}
	choices := append(r.places.known(),
		Choice{"new depot", text + " is a depot"}, Choice{"new ward", text + " is a ward store"}, Choice{"new plant", text + " is a filling plant"},
		Choice{"workshop", "in repair"}, Choice{"missing", "nobody knows"}, Choice{"retired", "out of use"})
	answer, ok := r.ask(l, Question{
		Key:     "place:" + strings.ToLower(text),
		Asks:    fmt.Sprintf("“%s” is no place of the programme. Which place is it?", text),
		Choices: choices,
	}, text)
	if !ok {
		return ""
	}
	if kind, isNew := strings.CutPrefix(answer, "new "); isNew {
		at, found := r.places.named(text, inventory.PlaceKind(kind))
		if !found {
			at = r.places.add(inventory.PlaceKind(kind), text, text)
		}
		return at
	}
	return inventory.Place(answer)
}

// depot returns the depot a thing came back to, or is ready in: the line's
// own, or the programme's only one; otherwise it is asked once for the list.
func (r *reader) depot(l *line) (string, bool) {
	if text := l.text("depot"); text != "" {
		at, _ := r.places.find(text, inventory.AtDepot)
		return at.Name(), true
	}
	if all := r.places.programme.Depots; len(all) == 1 {
		return all[0].Name, true
	}
	choices := []Choice{}
	for _, s := range r.places.programme.Depots {
		choices = append(choices, Choice{s.Name, s.Title})
	}
	answer, ok := r.ask(l, Question{
		Key:     "depot:" + l.list.name(),
		Asks:    fmt.Sprintf("%s does not name a depot. Which depot is meant?", l.list.name()),
		Choices: choices, free: true,
	}, "")
	if !ok {
		return "", false
	}
	at, _ := r.places.find(answer, inventory.AtDepot)
	return at.Name(), true
}
