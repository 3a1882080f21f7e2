package settings

import (
	"fmt"
	"math"
	"strings"

	"lungwort/delivery"
	"lungwort/ui/ask"
)

// transportRules are the dated rules a loaded vehicle is held against.
var transportRules = rowsOf[delivery.TransportRule]{
	id: "transport", what: "transport rule",
	get: func(p delivery.Programme) []delivery.TransportRule { return p.Transport },
	set: func(p *delivery.Programme, rows []delivery.TransportRule) { p.Transport = rows },
	says: func(_ delivery.Programme, t delivery.TransportRule) (string, string) {
		training, from, until := "", "", ""
		if t.Years > 0 {
			training = fmt.Sprintf("training every %d years", t.Years)
		}
		if t.From != "" {
			from = "from " + t.From
		}
		if t.Until != "" {
			until = "until " + t.Until
		}
		return t.Name, join(fmt.Sprintf("over %s kg: %s", decimals(t.Kg), strings.Join(t.Asks, ", ")), training, from, until, t.Source)
	},
	asks: func(_ delivery.Programme, t delivery.TransportRule) []ask.Field {
		kg, years := "", ""
		if t.Name != "" {
			kg = decimals(t.Kg)
		}
		if t.Years > 0 {
			years = fmt.Sprint(t.Years)
		}
		return []ask.Field{
			{Key: "name", Label: "Name", Value: t.Name, Hint: "as sheets call it"},
			{Key: "kg", Label: "Over", Kind: ask.Number, Unit: "kg", Value: kg, Hint: "gross mass of all cylinders on board above which it asks; 0: always"},
			{Key: "asks", Label: "Asks for", Value: strings.Join(t.Asks, ", "), Hint: "papers and signs that must be on board then, with commas between"},
			{Key: "years", Label: "Training every", Kind: ask.Number, Unit: "years", Value: years, Hint: "blank: asks for none"},
			{Key: "from", Label: "In force from", Value: t.From, Hint: "a day, as 2026-03-06; blank: always"},
			{Key: "until", Label: "Until", Value: t.Until, Hint: "the last day; blank: still"},
			{Key: "source", Label: "Source", Value: t.Source, Hint: "where the rule stands; printed with it"},
		}
	},
	read: func(r *ask.Reader, _ delivery.Programme, a ask.Answers) delivery.TransportRule {
		t := delivery.TransportRule{
			Name: r.Need("name", "write what sheets call it"), Asks: words(a.Text("asks")), Source: r.Need("source", "write where the rule stands"),
		}
		r.Need("kg", "write above how many kilograms it asks; 0 for always")
		if n := r.Number("kg", "kg", 0, 50000); n != nil {
			t.Kg = *n
		}
		if n := r.Number("years", "years", 0, 20); n != nil {
			t.Years = int(math.Round(*n))
		}
		var err error
		t.From, err = date(a.Text("from"))
		r.Fail("from", err)
		t.Until, err = date(a.Text("until"))
		r.Fail("until", err)
		return t
	},
}
