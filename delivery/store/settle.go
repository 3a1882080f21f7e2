package store

import (
	"time"

	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// touched is what facts were written about and has to be derived anew, in the
// order it was met. One act settles it at once; a take-in of thousands of rows
// settles each thing and person once, at its end.
type touched struct {
	items  []inventory.ItemID
	since  map[inventory.ItemID]time.Time // the earliest fact about the item
	people []inventory.PersonID
	runs   []inventory.RunID
	seen   map[any]bool
}

// note adds what facts are about.
func (t *touched) note(facts []inventory.Fact) {
	if t.seen == nil {
		t.seen, t.since = map[any]bool{}, map[inventory.ItemID]time.Time{}
	}
	for _, f := range facts {
		if f.Item != "" {
			if since, met := t.since[f.Item]; !met {
				t.items = append(t.items, f.Item)
				t.since[f.Item] = f.Happened
			} else if f.Happened.Before(since) {
				t.since[f.Item] = f.Happened
			}
		}
		t.person(f.Person)
		if f.Run != "" && !t.seen[f.Run] {
			t.seen[f.Run] = true
			t.runs = append(t.runs, f.Run)
		}
	}
}

func (t *touched) person(id inventory.PersonID) {
	if id != "" && !t.seen[id] {
		t.seen[id] = true
		t.people = append(t.people, id)
	}
}

// settle derives anew what was touched: the items, the persons the facts are
// about and those who had the items, and the runs. Tell is told how far that
// is, from 0 to 1; it may be nil.
func (d *Desk) settle(tx *book.Tx, t touched, tell func(share float64)) error {
	done, all := 0, len(t.items)+len(t.people)+len(t.runs)
	step := func(err error) error {
		if done++; tell != nil {
			tell(float64(done) / float64(max(done, all)))
		}
		return err
	}
	for _, id := range t.items {
		if err := step(items.Refold(tx, d.words, id)); err != nil {
			return err
		}
		borrowers, err := items.Borrowers(tx, id, t.since[id])
		if err != nil {
			return err
		}
		for _, who := range borrowers {
			t.person(who)
		}
	}
	all = len(t.items) + len(t.people) + len(t.runs)
	for _, id := range t.people {
		if err := step(refoldPerson(tx, d.words, id)); err != nil {
			return err
		}
	}
	for _, id := range t.runs {
		if err := step(refoldRun(tx, d.words, id)); err != nil {
			return err
		}
	}
	return nil
}

// different returns the different non-empty ids of facts, in order.
func different[ID comparable](facts []inventory.Fact, id func(inventory.Fact) ID) []ID {
	var none ID
	seen := make(map[ID]bool)
	var ids []ID
	for _, f := range facts {
		if x := id(f); x != none && !seen[x] {
			seen[x] = true
			ids = append(ids, x)
		}
	}
	return ids
}
