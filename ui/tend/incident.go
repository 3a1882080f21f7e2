package tend

import (
	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// Incident is the form for what happened with the item: it is kept as it is,
// with its readings and lots.
func (t Tender) Incident() ask.Form {
	before := "Anything burns, somebody is hurt: the emergency number first. The item is kept as it is, and nobody lends, cleans or fills it."
	if t.Item.Lent() {
		before += " It is in a home: a swap opens for who has it."
	}
	return ask.Form{
		Title: t.title("Incident with"), Button: "Keep it and note", Danger: true, Before: before,
		Fields: []ask.Field{
			{Key: "what", Label: "What happened", Hint: "fire, burn, fall, leak, smoking seen"},
			{Key: "told", Label: "Told by", Hint: "driver, family, neighbour, bench"},
			{Key: "touched", Label: "Since then", Kind: ask.Pick, Value: "no", Options: []ask.Option{{Value: "no", Label: "untouched"}, {Value: "yes", Label: "moved, cleaned or used"}}},
			ask.When(t.Work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.Incident{
				What: r.Need("what", "write what was seen"), ToldBy: r.Need("told", "write who told it"),
				Items: []inventory.ItemID{t.Item.ID}, Touched: a.Is("touched", "yes"),
			}
			if t.Item.Lent() {
				act.Person = t.Item.Person
			}
			return t.try(r, act, closed)
		},
	}
}
