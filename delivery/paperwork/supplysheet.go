package paperwork

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/sheet"
)

// Supplies returns the counted supplies at each place.
func (c Clerk) Supplies(ctx context.Context) (sheet.Out, error) {
	stock, err := c.book.Supplies(ctx)
	return SupplySheet(c.Programme, stock, c.Now), err
}

// SupplySheet returns supplies as a sheet, those to order first in its notes.
func SupplySheet(p delivery.Programme, stock []inventory.SupplyStock, now time.Time) sheet.Out {
	out := sheet.Out{
		Name: "Supplies", Title: "Counted supplies, by the book", AsOf: now, What: "list of supplies",
		Columns: []sheet.Column{
			{Heading: "Supply", Width: 20}, {Heading: "Place", Width: 18},
			{Heading: "Lot", Width: 14, Note: "blank: no lot was noted; what was given so counts under zero"},
			{Heading: "Count", Kind: sheet.Number}, {Heading: "Expires", Width: 12},
			{Heading: "Counted", Kind: sheet.Time, Note: "last, by somebody"}, {Heading: "Recall", Width: 14},
		},
	}
	for _, low := range p.Low(stock, now) {
		out.Notes = append(out.Notes, "To order: "+low.InWords())
	}
	for _, s := range stock {
		if s.At != "" {
			out.Rows = append(out.Rows, []any{s.Supply, s.At.InWords(), s.Lot, float64(s.Count), s.Expires, when(s.Counted, now), s.Recall})
		}
	}
	return out
}
