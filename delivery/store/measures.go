package store

import (
	"context"
	"maps"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/measures"
	"lungwort/delivery/stocking"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Measures returns what the programme is judged by, from every fact of the
// book.
func (d *Desk) Measures(ctx context.Context, now time.Time) (list []measures.Measure, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		b := measures.Book{Now: now}
		if b.Programme, err = d.programme(tx); err != nil {
			return err
		}
		if b.Items, _, err = items.Items(tx, items.Filter{}); err != nil {
			return err
		}
		facts, err := items.Facts(tx, d.words, items.About{})
		if err != nil {
			return err
		}
		if err := judge(ctx, &b, facts); err != nil {
			return err
		}
		list = b.Measures()
		return nil
	})
	return list, err
}

// judge sorts the facts by things and persons and draws the conclusions of
// each.
func judge(ctx context.Context, b *measures.Book, facts []inventory.Fact) error {
	b.Facts, b.Cycles, b.Trips = make(map[inventory.ItemID][]inventory.Fact), make(map[inventory.ItemID][]stocking.Cycle), make(map[inventory.PersonID][]measures.Trip)
	own := make(map[inventory.PersonID][]inventory.Fact)
	for _, f := range facts {
		if f.Item != "" {
			b.Facts[f.Item] = append(b.Facts[f.Item], f)
		} else if f.Person != "" {
			own[f.Person] = append(own[f.Person], f)
		}
	}
	had := make(map[inventory.PersonID][]inventory.ItemID)
	for _, item := range b.Items {
		about := b.Facts[item.ID]
		b.Cycles[item.ID] = stocking.Cycles(item.ID, inventory.Course(item.ID, about))
		for _, who := range different(about, func(f inventory.Fact) inventory.PersonID { return f.Person }) {
			had[who] = append(had[who], item.ID)
		}
		if item.Recall != "" {
			b.Recalled = append(b.Recalled, delivery.RecallUnitOf(item, about))
		}
	}
	for _, id := range slices.Sorted(maps.Keys(own)) {
		if err := ctx.Err(); err != nil {
			return err
		}
		around := own[id]
		for _, item := range had[id] {
			around = append(around, b.Facts[item]...)
		}
		b.Episodes = append(b.Episodes, measures.Episodes(id, around, b.Programme)...)
		b.Trips[id] = measures.Trips(id, around, b.Programme)
	}
	return nil
}

// Labels returns how every item in the book is named.
func (d *Desk) Labels(ctx context.Context) (map[inventory.ItemID]string, error) {
	labels := make(map[inventory.ItemID]string)
	err := d.read(ctx, func(tx *book.Tx) error {
		all, _, err := items.Items(tx, items.Filter{})
		for _, item := range all {
			labels[item.ID] = item.Label()
		}
		return err
	})
	return labels, err
}
