package intake

import (
	"crypto/sha256"
	"encoding/hex"
	"math"
	"strconv"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/sheet"
)

// MarkHeading heads the column of marks in a sheet that can come back.
const MarkHeading = "Lungwort mark"

// What the sheets that can come back are called in their heads.
const (
	OurItems  = "items"
	OurLoans  = "loans"
	OurPeople = "people"
)

// field is one column of a sheet of ours whose edits are taken in, with the
// text the book has for it.
type field[T any] struct {
	key  string // in the vocabulary
	text func(T) string
}

var itemFields = []field[inventory.Item]{
	{"serial", func(i inventory.Item) string { return i.Spec.Serial }},
	{"kind", func(i inventory.Item) string { return string(i.Spec.Kind) }},
	{"size", func(i inventory.Item) string { return string(i.Spec.Size) }},
	{"model", func(i inventory.Item) string { return i.Spec.Model }},
	{"rated", func(i inventory.Item) string { return numberOrNothing(float64(i.Spec.Rated)) }},
	{"owner", func(i inventory.Item) string { return i.Spec.Owner }},
	{"status", func(i inventory.Item) string { return string(i.State) }},
	{"place", func(i inventory.Item) string { return i.Place.InWords() }},
	{"gauge", gaugeText},
	{"hours", hoursText},
	{"lot", lotText},
	{"requalify by", func(i inventory.Item) string { return i.Spec.Requal }},
}

func gaugeText(i inventory.Item) string {
	if i.Gauge == nil {
		return ""
	}
	return number(i.Gauge.Value.PSI())
}

func hoursText(i inventory.Item) string {
	if i.Hours == nil {
		return ""
	}
	return number(i.Hours.Value)
}

func lotText(i inventory.Item) string {
	if i.Fill == nil {
		return ""
	}
	return i.Fill.Lot
}

var personFields = []field[Resident]{
	{"record", func(p Resident) string { return p.Person.Record }},
	{"family", func(p Resident) string { return p.Person.Family }},
	{"given", func(p Resident) string { return p.Person.Given }},
	{"born", func(p Resident) string { return p.Person.Born }},
	{"phone", func(p Resident) string { return PhonesText(p.Person.Phones) }},
	{"language", func(p Resident) string { return p.Person.Language }},
	{"street", func(p Resident) string { return p.Address.Street }},
	{"town", func(p Resident) string { return p.Address.Town }},
	{"area", func(p Resident) string { return p.Address.Point.Area }},
	{"power line", func(p Resident) string { return p.Address.Line }},
	{"mains", func(p Resident) string { return string(p.Address.Mains) }},
	{"floors", func(p Resident) string { return numberOrNothing(float64(p.Address.Stairs)) }},
	{"smoker", func(p Resident) string { return p.Address.Smoker }},
	{"heater", func(p Resident) string { return p.Address.Heater }},
	{"pets", func(p Resident) string { return p.Address.Pets }},
	{"access", func(p Resident) string { return p.Address.Access }},
	{"notes", func(p Resident) string { return p.Person.Note }},
}

// PhonesText writes phones as they are read: 555-0142, 555-0177 (son Ben).
func PhonesText(phones []delivery.Phone) string {
	words := make([]string, len(phones))
	for i, p := range phones {
		words[i] = p.Number
		if p.Whose != "" {
			words[i] += " (" + p.Whose + ")"
		}
	}
	return strings.Join(words, ", ")
}

// number writes a measure as a spreadsheet shows it, which keeps fewer digits
// than the book.
func number(v float64) string {
	const kept = 1e6
	return strconv.FormatFloat(math.Round(v*kept)/kept, 'f', -1, 64)
}

func numberOrNothing(v float64) string {
	if v == 0 {
		return ""
	}
	return number(v)
}

// ItemMark marks an item's row in a sheet given out: which item it is, and
// what each cell that can come back held.
func ItemMark(i inventory.Item) string { return mark("item", string(i.ID), itemFields, i) }

// PersonMark marks a person's row.
func PersonMark(p Resident) string { return mark("person", string(p.Person.ID), personFields, p) }

func mark[T any](sort, id string, fields []field[T], of T) string {
	words := []string{sort, id}
	for _, f := range fields {
		words = append(words, digest(f.text(of)))
	}
	return strings.Join(words, " ")
}

// digest is a short sign of a cell's text, by which an edit shows.
func digest(text string) string {
	sum := sha256.Sum256([]byte(sheet.Shown(text)))
	return hex.EncodeToString(sum[:4])
}

// marked is a mark that came back.
type marked struct {
	sort, id string
	cells    []string // digests, in the order of the fields
}

// readMark reads a mark; ok is false when it is none, or one of a program with
// other columns.
func readMark(text string) (m marked, ok bool) {
	words := strings.Fields(text)
	if len(words) < 2 {
		return m, false
	}
	m = marked{words[0], words[1], words[2:]}
	switch m.sort {
	case "item":
		return m, len(m.cells) == len(itemFields)
	case "person":
		return m, len(m.cells) == len(personFields)
	}
	return m, false
}
