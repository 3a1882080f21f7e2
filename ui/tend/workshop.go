package tend

import (
	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// Repair is the form that sends the item to repair, or takes it in again.
func (t Tender) Repair() ask.Form {
	if t.Item.State == inventory.InRepair {
		return t.repaired()
	}
	return ask.Form{
		Title: t.title("Repair of"), Button: "Send to repair",
		Fields: []ask.Field{
			{Key: "fault", Label: "What is wrong", Value: t.Item.Why},
			{Key: "workshop", Label: "Workshop", Hint: "its name; empty: our own"},
			ask.When(t.Work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			return t.try(r, delivery.SendToRepair{Item: t.Item.ID, Fault: r.Need("fault", "write what is wrong"), To: a.Text("workshop")}, closed)
		},
	}
}

func (t Tender) repaired() ask.Form {
	fields := []ask.Field{
		{Key: "did", Label: "What was done", Hint: "as the workshop's slip says, with the parts"},
		{Key: "cost", Label: "Cost", Kind: ask.Number, Hint: "in the money of the programme; empty: none"},
	}
	meter := t.Item.Spec.Kind == inventory.Concentrator
	if meter {
		fields = append(fields,
			ask.Field{Key: "board", Label: "Hours meter", Kind: ask.Pick, Value: "no", Options: []ask.Option{{Value: "no", Label: "as before"}, {Value: "yes", Label: "new: counts anew"}}},
			ask.Field{Key: "hours", Label: "Hours", Kind: ask.Number, Unit: "h", Hint: "on the meter now"})
	}
	return ask.Form{
		Title: t.title("Back from repair:"), Button: "Take in", Before: "It goes on the bench and is tested before it is lent.",
		Fields: append(fields, t.depot(), ask.When(t.Work.Now())),
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.BackFromRepair{
				Item: t.Item.ID, Depot: r.Need("depot", "choose where it is"), Did: r.Need("did", "write what was done"),
				Board: a.Is("board", "yes"), Hours: r.Number("hours", "h", 0, 1e6),
			}
			if cost := r.Number("cost", "", 0, 1e9); cost != nil {
				act.Cost = *cost
			}
			return t.try(r, act, closed)
		},
	}
}

// Maintain is the form for the first piece of maintenance that is due, and
// whether any is.
func (t Tender) Maintain() (form ask.Form, due bool) {
	all := t.Programme.DueUpkeep(t.Item, t.Work.Now())
	if len(all) == 0 {
		return form, false
	}
	fields := []ask.Field{{Key: "cost", Label: "Cost", Kind: ask.Number, Hint: "in the money of the programme; empty: none"}, ask.When(t.Work.Now())}
	if t.Item.Spec.Kind == inventory.Concentrator {
		fields = append([]ask.Field{{Key: "hours", Label: "Hours", Kind: ask.Number, Unit: "h", Hint: "on the meter now"}}, fields...)
	}
	return ask.Form{
		Title: t.title("Maintenance of"), Button: "It is done", Before: all[0].Says + ". Follow the maker's manual; it is not lent before.",
		Fields: fields,
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.Maintain{Item: t.Item.ID, What: all[0].What, Hours: r.Number("hours", "h", 0, 1e6)}
			if cost := r.Number("cost", "", 0, 1e9); cost != nil {
				act.Cost = *cost
			}
			return t.try(r, act, closed)
		},
	}, true
}
