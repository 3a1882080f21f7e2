package paperwork

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/inventory/sheet"
)

// rentalPeriod is how far back the rental sheet counts days.
const rentalPeriod = 30

// Rental returns every rented cylinder with when it was with us, by owner and
// size.
func (c Clerk) Rental(ctx context.Context) (sheet.Out, error) {
	all, err := c.book.Rentals(ctx, "", "")
	return RentalSheet(all, c.Now), err
}

// RentalSheet returns rented cylinders as a sheet: one row for each time one was
// with us.
func RentalSheet(all []delivery.Rental, now time.Time) sheet.Out {
	out := sheet.Out{
		Name: "Rental", What: "rental statement", Title: "Rented cylinders, by the book", AsOf: now,
		Columns: []sheet.Column{
			{Heading: "Owner", Width: 20}, {Heading: "Size"}, {Heading: "Serial", Width: 16},
			{Heading: "Delivered", Kind: sheet.Time, Note: "proof of delivery"}, {Heading: "Returned", Kind: sheet.Time, Note: "proof of return; blank while it is with us"},
			{Heading: "Days", Kind: sheet.Whole, Note: "of the last 30; the day it came counts, the day it went back does not"},
			{Heading: "State", Width: 14}, {Heading: "Last evidence", Width: 60},
		},
	}
	for _, r := range all {
		for _, t := range r.Times {
			out.Rows = append(out.Rows, []any{
				r.Item.Spec.Owner, string(r.Item.Spec.Size), r.Item.Label(), when(t.From, now), when(t.Until, now),
				t.Days(now.AddDate(0, 0, -rentalPeriod), now), string(r.Item.State), r.Evidence(now),
			})
		}
	}
	return out
}
