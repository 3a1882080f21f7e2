package store

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
)

// everyPerson is more persons than a programme ever has.
const everyPerson = 1 << 30

// ReadLists reads spreadsheets against what the book has. It writes nothing.
// Tell is told how far it is, from 0 to 1; it may be nil.
func (d *Desk) ReadLists(ctx context.Context, tables []sheet.Table, answers intake.Answers, at time.Time, tell func(share float64)) (reading intake.Reading, err error) {
	err = d.readFor(ctx, delivery.TakeIn{}, func(tx *book.Tx) error {
		known := intake.Known{Facts: func(item inventory.ItemID, person inventory.PersonID) ([]inventory.Fact, error) {
			return items.Facts(tx, d.words, items.About{Item: item, Person: person})
		}}
		if known.Items, _, err = items.Items(tx, items.Filter{}); err != nil {
			return err
		}
		found, err := findPersons(tx, nil, everyPerson)
		if err != nil {
			return err
		}
		for _, f := range found {
			known.People = append(known.People, intake.Resident(f))
		}
		if known.Decisions, err = decisions(tx, d.words); err != nil {
			return err
		}
		p, err := d.programme(tx)
		if err != nil {
			return err
		}
		reading, err = intake.Read(ctx, tables, known, p, answers, at, tell)
		return err
	})
	return reading, err
}
