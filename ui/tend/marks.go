package tend

import (
	"strconv"

	"lungwort/delivery"
	"lungwort/inventory/gas"
	"lungwort/ui/ask"
)

// Marks is the form for what one cylinder is marked with, where that differs
// from its size.
func (t Tender) Marks() ask.Form {
	before, marks := "Its size is not known.", t.Item.Spec.Marked
	if size, known := t.Programme.Sizes.LookUp(t.Item.Spec.Size); known {
		before = string(size.Code) + " as a rule: " + size.Sources() + ". What is left empty is as the size has it."
	}
	shown := func(v float64, unit string) string {
		if v == 0 {
			return ""
		}
		return strconv.FormatFloat(v, 'f', -1, 64) + unit
	}
	full := ""
	if marks.Service > 0 {
		full = strconv.FormatFloat(marks.Service.PSI(), 'f', 0, 64)
	}
	return ask.Form{
		Title: t.title("Marks on"), Button: "Record marks", Before: before,
		Fields: []ask.Field{
			{Key: "contents", Label: "Holds", Value: shown(float64(marks.Contents), " L"), Hint: "as 660 L, on its label"},
			{Key: "full", Label: "Full at", Kind: ask.Gauge, Value: full, Hint: "stamped on its shoulder"},
			{Key: "water", Label: "Water volume", Value: shown(marks.Water, " L"), Hint: "as 4.6 L, stamped on its shoulder"},
			ask.When(t.Work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			litres := func(key string) *gas.Litres {
				if a.Text(key) == "" {
					return nil
				}
				l, err := gas.ParseLitres(a.Text(key))
				r.Fail(key, err)
				return &l
			}
			return t.try(r, delivery.Mark{Item: t.Item.ID, Contents: litres("contents"), Full: r.Gauge("full"), Water: litres("water")}, closed)
		},
	}
}
