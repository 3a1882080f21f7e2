package paperwork

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/sheet"
)

// Recalls returns the marked items of every recall, in the order of risk.
func (c Clerk) Recalls(ctx context.Context) (sheet.Out, error) {
	notices, err := c.book.Recalls(ctx)
	if err != nil {
		return sheet.Out{}, err
	}
	var units []delivery.RecallUnit
	for _, notice := range notices {
		of, err := c.book.RecallFile(ctx, notice, c.Now)
		if err != nil {
			return sheet.Out{}, err
		}
		units = append(units, of...)
	}
	names, err := c.book.Names(ctx)
	return RecallSheet(units, names, c.Now), err
}

// RecallSheet returns the units of recalls as a sheet.
func RecallSheet(units []delivery.RecallUnit, names map[inventory.PersonID]string, now time.Time) sheet.Out {
	out := sheet.Out{
		Name: "Recalls", Title: "Recalled items, in the order of risk", AsOf: now, What: "recall list",
		Columns: []sheet.Column{
			{Heading: "Notice", Width: 20}, {Heading: "Serial", Width: 16}, {Heading: "What it is", Width: 26}, {Heading: "Model", Width: 14}, {Heading: "State", Width: 14},
			{Heading: "Person", Width: 24, Note: "who has it, or had it last"}, {Heading: "Marked", Kind: sheet.Time}, {Heading: "Told", Kind: sheet.Time}, {Heading: "Reply", Width: 40},
			{Heading: "Located", Kind: sheet.Time, Note: "seen by one of us, or told by who has it"}, {Heading: "Swap due", Kind: sheet.Time}, {Heading: "Visit", Kind: sheet.Time},
			{Heading: "Cover", Kind: sheet.Duration, Note: "how long the home's gas lasts without the machine"}, {Heading: "Out of the home"},
		},
	}
	for _, u := range units {
		done := "no"
		if u.Done {
			done = "yes"
		}
		out.Rows = append(out.Rows, []any{
			u.Item.Recall, u.Item.Label(), u.Item.Spec.What(), u.Item.Spec.Model, string(u.Item.State), names[u.Person],
			when(u.Marked, now), when(u.Told, now), u.Reply, when(u.Located, now), when(u.Due, now), when(u.Visit, now), cover(!u.Done, u.Cover), done,
		})
	}
	return out
}
