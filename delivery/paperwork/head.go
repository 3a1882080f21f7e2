package paperwork

import (
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
)

// Desk is what a paper rests on: the programme's settings, the moment it is
// printed, and when the newest fact it rests on was recorded.
type Desk struct {
	Programme delivery.Programme
	Now       time.Time
	FactsAsOf time.Time // zero: they are those of Now
	Format    paper.Format
}

// NewDesk returns what papers rest on, laid out for the programme's paper.
func NewDesk(p delivery.Programme, now time.Time) Desk {
	d := Desk{Programme: p, Now: now, Format: paper.Letter}
	if p.OfficePaper() == delivery.PaperA4 {
		d.Format = paper.A4
	}
	return d
}

func (d Desk) head(code string) paper.Head {
	h := paper.Head{
		Programme: d.Programme.Name, Emergency: d.Programme.Emergency,
		Format: d.Format, Printed: d.Now, FactsAsOf: d.FactsAsOf, Code: code,
	}
	if h.FactsAsOf.IsZero() {
		h.FactsAsOf = d.Now
	}
	if who, ok := d.Programme.Duty(d.Now); ok {
		h.OnCall = who.Name + " " + who.Phone
	}
	return h
}

func (d Desk) fireDistance() string {
	return fmt.Sprintf("%g m (%.0f ft)", d.Programme.FireMetres, d.Programme.FireMetres/0.3048)
}

func phones(p delivery.Person) []paper.Phone {
	list := make([]paper.Phone, len(p.Phones))
	for i, ph := range p.Phones {
		list[i] = paper.Phone{Whose: ph.Whose, Number: ph.Number}
	}
	return list
}

// order returns the ordered flows in words.
func order(c delivery.Care) string {
	words := "no order"
	if c.Order != nil {
		words = c.Order.InWords()
	}
	return strings.Join(append([]string{words}, c.OrderNotes()...), ". ")
}

// thing returns an item as papers name it.
func thing(i inventory.Item) paper.Item {
	t := tag.Mint(i.Tag)
	return paper.Item{What: i.Spec.What(), Tag: t.Printed(), Serial: i.Spec.Serial, Code: t.Payload()}
}

// wanted returns a line of a task in words where no item is set aside yet.
func wanted(w delivery.Wanted) string {
	return inventory.Spec{Kind: w.Kind, Size: w.Size, Rated: w.Rated}.What()
}

func letter(code gas.SizeCode) string { return code.Letter() }
