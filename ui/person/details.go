package person

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
)

// details are the lines of what is known of the person. What is missing and
// matters is said.
func details(l loaded) []Detail {
	p, a, care := l.page.Person, l.page.Address, l.page.Care
	lines := []Detail{
		{"stands", situation(l), false},
		{"person", identity(p), false},
		{"phones", cmp.Or(phones(p), "no number"), len(p.Phones) == 0},
		{"home", cmp.Or(a.Where(), "no address yet"), a.Street == ""},
	}
	if a.Street != "" {
		lines = append(lines,
			Detail{"way in", wayIn(a), false},
			Detail{"there", there(a), hazard(a)})
	}
	lines = append(lines,
		Detail{"speaks", p.Language, false},
		Detail{"note", p.Note, false},
		Detail{"ordered", ordered(care, l.now), care.Order == nil})
	for _, t := range care.Tasks {
		lines = append(lines, Detail{"to do", taskLine(t, l.now), false})
	}
	for _, r := range l.page.Runs {
		if at, stops := r.Visit(care.Person); stops {
			lines = append(lines, Detail{"run", fmt.Sprintf("%s stops there %s", r.Vehicle, delivery.Clock(at, l.now)), false})
		}
	}
	lines = append(lines, events(l)...)
	if care.Phase == delivery.Over && care.Died == nil {
		lines = append(lines, Detail{"stopped", fmt.Sprintf("%s, ordered by %s", delivery.Clock(care.Since, l.now), care.StoppedBy), false})
	}
	if !care.Watched() {
		lines = append(lines, Detail{"next", l.watch.Next, false})
	}
	for _, d := range care.Doubts {
		lines = append(lines, Detail{"doubt", d, true})
	}
	return append(lines, Detail{"agreed to", strings.Join(care.Consented(), ", "), false})
}

// events says what happened to the person that changed every list.
func events(l loaded) []Detail {
	care := l.page.Care
	var lines []Detail
	if care.Died != nil {
		whom := "nobody"
		if c := l.page.Person.Contact; c != nil {
			whom = c.Whose + " " + c.Number
		}
		lines = append(lines, Detail{"died", fmt.Sprintf("%s; only %s is called, not before %s", delivery.Clock(care.Died.At, l.now), whom, care.Died.NotBefore.Format("Mon 2 Jan")), true})
	}
	if care.Phase == delivery.InHospital && care.Hold != nil {
		lines = append(lines, Detail{"held", fmt.Sprintf("until %s, on ward %s", care.Hold.Until.Format("Mon 2 Jan"), care.Hold.Ward), care.Hold.Until.Before(l.now)})
	}
	if r, is := care.Refused(delivery.TheBackup, l.now); is {
		lines = append(lines, Detail{"no backup", fmt.Sprintf("refused %s: %s", delivery.Clock(r.At, l.now), r.Why), true})
	}
	for _, t := range care.Trips {
		if t.Until.After(l.now) {
			lines = append(lines, Detail{"trip", fmt.Sprintf("%s to %s, on the cylinder", delivery.Clock(t.From, l.now), delivery.Clock(t.Until, l.now)), false})
		}
	}
	if note := depletion.TubingNote(care.Tubing); note != "" {
		lines = append(lines, Detail{"tubing", note, true})
	}
	return lines
}

// situation says where the person stands, and since when.
func situation(l loaded) string {
	care := l.page.Care
	words := cmp.Or(l.watch.Situation, string(care.Phase))
	if care.Phase == delivery.Known {
		return "not yet discharged"
	}
	if words != string(care.Phase) {
		words += ", " + string(care.Phase)
	}
	if !care.Since.IsZero() {
		words += " since " + delivery.Clock(care.Since, l.now)
	}
	return words
}

func identity(p delivery.Person) string {
	var parts []string
	if p.Record != "" {
		parts = append(parts, "record "+p.Record)
	}
	if p.Born != "" {
		parts = append(parts, "born "+p.Born)
	}
	return cmp.Or(strings.Join(parts, " · "), "no record number")
}

func phones(p delivery.Person) string {
	parts := make([]string, len(p.Phones))
	for i, ph := range p.Phones {
		parts[i] = strings.TrimSpace(ph.Whose + " " + ph.Number)
	}
	return strings.Join(parts, " · ")
}

func wayIn(a delivery.Address) string {
	var parts []string
	if a.Access != "" {
		parts = append(parts, a.Access)
	}
	if a.Stairs > 0 {
		parts = append(parts, fmt.Sprintf("%d floors by stairs", a.Stairs))
	}
	if a.Pets != "" {
		parts = append(parts, a.Pets)
	}
	return strings.Join(parts, " · ")
}

// there says what power and what flames the home has.
func there(a delivery.Address) string {
	parts := []string{string(a.Mains)}
	if a.Mains == delivery.MainsUnknown {
		parts[0] = "mains power not asked"
	}
	if a.Line != "" {
		parts[0] += " (" + a.Line + ")"
	}
	switch a.Smoker {
	case "":
		parts = append(parts, "smoking not asked")
	case "yes":
		parts = append(parts, "somebody smokes")
	case "no":
		parts = append(parts, "nobody smokes")
	default:
		parts = append(parts, "smoking: "+a.Smoker)
	}
	if a.Heater != "" {
		parts = append(parts, a.Heater)
	}
	return strings.Join(parts, " · ")
}

func hazard(a delivery.Address) bool {
	return a.Smoker == "yes" || a.Heater != "" || a.Mains == delivery.MainsNo || a.Mains == delivery.MainsUnknown
}

func ordered(c delivery.Care, now time.Time) string {
	if c.Order == nil {
		return "no order"
	}
	words := c.Order.InWords()
	if c.Order.Device != "" {
		words += ", " + c.Order.Device
	}
	words += "; since " + delivery.Clock(c.OrderedAt, now)
	if !c.Order.Review.IsZero() {
		words += "; review " + c.Order.Review.Format("Mon 2 Jan")
	}
	return strings.Join(append([]string{words}, c.OrderNotes()...), ". ")
}

func taskLine(t delivery.OpenTask, now time.Time) string {
	words := string(t.Tasked.Task) + ": " + t.Why
	switch {
	case !t.Due.IsZero():
		words += ", due " + delivery.Clock(t.Due, now)
	case !t.Until.IsZero():
		words += fmt.Sprintf(", promised %s to %s", delivery.Clock(t.From, now), delivery.Clock(t.Until, now))
	}
	if n := len(t.Tries); n > 0 {
		words += fmt.Sprintf("; %d visits failed, last: %s", n, t.Tries[n-1])
	}
	return words
}

// things are the kit in order of use, what is set aside, what is on its way
// back, and what belongs to others in the house.
func things(l loaded) []Thing {
	var list []Thing
	for _, h := range l.page.Care.Kit {
		t := ofItem(l.items[h.Item], string(h.Role), l.now)
		t.ID, t.What, t.Read = h.Item, short(h.Spec), reading(h, l.now)
		if recall := l.items[h.Item].Recall; recall != "" {
			t.Stands += ", recall " + recall
		}
		list = append(list, t)
	}
	for _, item := range l.page.Reserved {
		list = append(list, ofItem(item, "set aside", l.now))
	}
	for _, item := range l.page.Last {
		list = append(list, ofItem(item, "on its way back, "+item.Place.InWords(), l.now))
	}
	for _, other := range l.page.House {
		for _, h := range other.Care.Kit {
			list = append(list, Thing{
				ID: h.Item, Label: h.Spec.Serial, What: short(h.Spec), Read: reading(h, l.now), Theirs: true,
				Stands: "do not touch: " + other.Person.Short(),
			})
		}
	}
	for _, i := range l.page.Theirs {
		theirs := ofItem(i, "leave alone: "+i.Spec.Owner, l.now)
		theirs.Theirs = true
		list = append(list, theirs)
	}
	return list
}

// short returns what a thing is in few words: "cylinder E".
func short(s inventory.Spec) string {
	if s.Kind == inventory.Cylinder && s.Size != "" {
		return "cylinder " + s.Size.Letter()
	}
	if s.Kind == inventory.Concentrator && s.Rated > 0 {
		return "concentrator " + s.Rated.String()
	}
	return s.What()
}

// reading returns the last reading of a thing with its age.
func reading(h delivery.Holding, now time.Time) string {
	switch {
	case h.Gauge != nil:
		return fmt.Sprintf("%s, %s old", h.Gauge.Value, delivery.Spell(now.Sub(h.Gauge.At)))
	case h.Spec.Kind == inventory.Cylinder:
		return "not read"
	case h.Hours != nil:
		return fmt.Sprintf("%.0f h, %s old", h.Hours.Value, delivery.Spell(now.Sub(h.Hours.At)))
	}
	return ""
}

func ofItem(item inventory.Item, stands string, now time.Time) Thing {
	return Thing{
		ID: item.ID, Label: item.Label(), What: short(item.Spec), Stands: stands,
		Read: reading(delivery.Holding{Spec: item.Spec, Gauge: item.Gauge, Hours: item.Hours}, now),
	}
}
