package store

import (
	"context"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Since returns what stands otherwise than the book knew it at an instant:
// persons, then runs, then things that are with nobody. What was keyed in late
// counts by when it was recorded.
func (d *Desk) Since(ctx context.Context, from, now time.Time) (news []delivery.News, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		facts, err := items.Facts(tx, d.words, items.About{Since: from})
		if err != nil {
			return err
		}
		if news, err = d.personNews(tx, facts, from, now); err != nil {
			return err
		}
		runs, err := d.runNews(tx, facts, from)
		if err != nil {
			return err
		}
		things, err := d.itemNews(tx, facts, from)
		news = append(append(news, runs...), things...)
		return err
	})
	return news, err
}

// known returns the facts recorded by an instant.
func known(facts []inventory.Fact, at time.Time) []inventory.Fact {
	return slices.DeleteFunc(slices.Clone(facts), func(f inventory.Fact) bool { return f.Recorded.After(at) })
}

func (d *Desk) personNews(tx *book.Tx, since []inventory.Fact, from, now time.Time) ([]delivery.News, error) {
	var t touched
	t.note(since)
	var news []delivery.News
	for _, id := range t.people {
		facts, err := items.Facts(tx, d.words, items.About{Around: id})
		if err != nil {
			return nil, err
		}
		says := delivery.FoldCare(id, facts).News(delivery.FoldCare(id, known(facts, from)), now)
		if len(says) == 0 {
			continue
		}
		who, err := person(tx, id)
		if err != nil {
			return nil, err
		}
		news = append(news, delivery.News{Person: id, Name: who.Name(), Says: says})
	}
	return news, nil
}

func (d *Desk) runNews(tx *book.Tx, since []inventory.Fact, from time.Time) ([]delivery.News, error) {
	var news []delivery.News
	for _, id := range different(since, func(f inventory.Fact) inventory.RunID { return f.Run }) {
		facts, err := items.Facts(tx, d.words, items.About{Run: id})
		if err != nil {
			return nil, err
		}
		run := delivery.FoldRun(id, facts)
		if says := run.News(delivery.FoldRun(id, known(facts, from))); len(says) > 0 {
			news = append(news, delivery.News{Run: id, Name: run.Vehicle + " on " + run.Day, Says: says})
		}
	}
	return news, nil
}

// itemNews tells of things that are with nobody now: the rest stands with the
// persons.
func (d *Desk) itemNews(tx *book.Tx, since []inventory.Fact, from time.Time) ([]delivery.News, error) {
	var news []delivery.News
	for _, id := range different(since, func(f inventory.Fact) inventory.ItemID { return f.Item }) {
		facts, err := items.Facts(tx, d.words, items.About{Item: id})
		if err != nil {
			return nil, err
		}
		item := inventory.Fold(id, facts)
		if item.Lent() {
			continue
		}
		if says := delivery.ItemNews(item, inventory.Fold(id, known(facts, from))); len(says) > 0 {
			news = append(news, delivery.News{Item: id, Name: item.Label(), Says: says})
		}
	}
	return news, nil
}
