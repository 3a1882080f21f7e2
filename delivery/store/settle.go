package store

import (
	"time"

	"lungwort/delivery"
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
	whole  *story // nil: all facts are read from the book
	each   func() // called when one thing, person or run is derived; may be nil
}

// story is every fact about the things and persons that came into the book in
// this transaction, so that they need not be read back.
type story struct {
	items  map[inventory.ItemID][]*inventory.Fact
	people map[inventory.PersonID][]*inventory.Fact
}

func newStory() *story {
	return &story{map[inventory.ItemID][]*inventory.Fact{}, map[inventory.PersonID][]*inventory.Fact{}}
}

func (s *story) note(f *inventory.Fact) {
	_, enrolled := f.Statement.(*inventory.Enrolled)
	if s.items[f.Item] != nil || enrolled {
		s.items[f.Item] = append(s.items[f.Item], f)
	}
	_, registered := f.Statement.(*delivery.Registered)
	if s.people[f.Person] != nil || registered {
		s.people[f.Person] = append(s.people[f.Person], f)
	}
}

// of returns all facts about a thing, if it came in here.
func (s *story) of(id inventory.ItemID) []inventory.Fact {
	if s == nil {
		return nil
	}
	return values(s.items[id])
}

// around returns the facts about a person who came in here and about every
// item the person had, if those came in here too.
func (s *story) around(who inventory.PersonID) []inventory.Fact {
	if s == nil || s.people[who] == nil {
		return nil
	}
	own := values(s.people[who])
	ofItem := map[inventory.ItemID][]inventory.Fact{}
	for _, id := range different(own, func(f inventory.Fact) inventory.ItemID { return f.Item }) {
		if s.items[id] == nil {
			return nil
		}
		ofItem[id] = values(s.items[id])
	}
	return around(who, own, ofItem)
}

func values(facts []*inventory.Fact) []inventory.Fact {
	all := make([]inventory.Fact, len(facts))
	for i, f := range facts {
		all[i] = *f
	}
	return all
}

// note adds what facts are about.
func (t *touched) note(facts []inventory.Fact) {
	if t.seen == nil {
		t.seen, t.since = map[any]bool{}, map[inventory.ItemID]time.Time{}
	}
	for i, f := range facts {
		if t.whole != nil {
			t.whole.note(&facts[i])
		}
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
// about and those who had the items, and the runs.
func (d *Desk) settle(tx *book.Tx, t touched) error {
	if t.each == nil {
		t.each = func() {}
	}
	for _, id := range t.items {
		if err := d.settleItem(tx, &t, id); err != nil {
			return err
		}
		t.each()
	}
	for _, id := range t.people {
		if err := d.settlePerson(tx, t.whole, id); err != nil {
			return err
		}
		t.each()
	}
	for _, id := range t.runs {
		if err := refoldRun(tx, d.words, id); err != nil {
			return err
		}
		t.each()
	}
	return nil
}

func (d *Desk) settleItem(tx *book.Tx, t *touched, id inventory.ItemID) error {
	if facts := t.whole.of(id); len(facts) > 0 { // everybody who had it is touched too
		return items.Put(tx, inventory.Fold(id, facts))
	}
	if err := items.Refold(tx, d.words, id); err != nil {
		return err
	}
	borrowers, err := items.Borrowers(tx, id, t.since[id])
	for _, who := range borrowers {
		t.person(who)
	}
	return err
}

func (d *Desk) settlePerson(tx *book.Tx, whole *story, id inventory.PersonID) error {
	if facts := whole.around(id); len(facts) > 0 {
		return putPerson(tx, id, facts)
	}
	return refoldPerson(tx, d.words, id)
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
