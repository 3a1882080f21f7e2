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

// PersonPage is everything about one person.
type PersonPage struct {
	Person   delivery.Person
	Address  delivery.Address
	Care     delivery.Care
	Kit      []inventory.Item // on loan
	Reserved []inventory.Item
	Last     []inventory.Item // had it, not back yet: with a driver
	House    []delivery.Watch // others at the same address
	Theirs   []inventory.Item // another supplier's, seen there and left alone
	Runs     []delivery.Run   // that stop there and are not ended
	Facts    []inventory.Fact // newest first
}

// Programme returns the settings in force.
func (d *Desk) Programme(ctx context.Context) (p delivery.Programme, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		p, err = d.programme(tx)
		return err
	})
	return p, err
}

// Page returns the page of a person.
func (d *Desk) Page(ctx context.Context, id inventory.PersonID, now time.Time) (PersonPage, error) {
	var page PersonPage
	err := d.read(ctx, func(tx *book.Tx) (err error) {
		if page.Care, err = care(tx, id); err != nil {
			return err
		}
		if err := sayWhere(tx, page.Care.Tasks); err != nil {
			return err
		}
		if page.Person, err = person(tx, id); err != nil {
			return err
		}
		if now := page.Care.AddressAt(now); now != "" {
			if page.Address, err = address(tx, now); err != nil {
				return err
			}
		}
		if err := d.pageKit(tx, &page); err != nil {
			return err
		}
		return d.pageAround(tx, &page, now)
	})
	return page, err
}

func (d *Desk) pageKit(tx *book.Tx, page *PersonPage) error {
	found, _, err := items.Items(tx, items.Filter{Person: page.Care.Person})
	if err != nil {
		return err
	}
	for _, i := range found {
		if i.Lent() {
			page.Kit = append(page.Kit, i)
		} else {
			page.Reserved = append(page.Reserved, i)
		}
	}
	page.Last, err = withDriver(tx, page.Care.Person)
	return err
}

// withDriver returns what was taken from a person and has not come back yet.
func withDriver(tx *book.Tx, id inventory.PersonID) ([]inventory.Item, error) {
	found, _, err := items.Items(tx, items.Filter{States: []inventory.State{inventory.WithDriver}})
	if err != nil {
		return nil, err
	}
	var last []inventory.Item
	for _, i := range found {
		if i.Last == id {
			last = append(last, i)
		}
	}
	return last, nil
}

func (d *Desk) pageAround(tx *book.Tx, page *PersonPage, now time.Time) error {
	facts, err := items.Facts(tx, d.words, items.About{Person: page.Care.Person})
	if err != nil {
		return err
	}
	facts = sightOf(tx).facts(facts)
	for i := len(facts) - 1; i >= 0; i-- {
		page.Facts = append(page.Facts, facts[i])
	}
	p, err := d.programme(tx)
	if err != nil {
		return err
	}
	others, err := d.homes(tx, now, `watched = 1 AND address_id = $1 AND address_id <> '' AND person_id <> $2`,
		string(page.Address.ID), string(page.Care.Person))
	if err != nil {
		return err
	}
	for _, h := range others {
		page.House = append(page.House, delivery.WatchHome(p, h.person, h.Home, now))
	}
	if page.Theirs, err = theirs(tx, page.Address.ID); err != nil {
		return err
	}
	page.Runs, err = runsTo(tx, page.Care.Person)
	return err
}

// theirs returns what belongs to others and stands at an address.
func theirs(tx *book.Tx, home inventory.AddressID) ([]inventory.Item, error) {
	if home == "" {
		return nil, nil
	}
	there, _, err := items.Items(tx, items.Filter{Place: inventory.At(inventory.AtAddress, string(home)), States: []inventory.State{inventory.NotOurs}})
	return there, err
}

// runsTo returns the runs that still go to a person.
func runsTo(tx *book.Tx, id inventory.PersonID) ([]delivery.Run, error) {
	runs, err := book.List(tx, derived[delivery.Run], `SELECT body FROM run_now WHERE ended = 0 ORDER BY run_id`)
	return slices.DeleteFunc(runs, func(r delivery.Run) bool {
		_, stops := r.Visit(id)
		return !stops
	}), err
}

// ItemPage is everything about one item.
type ItemPage struct {
	Item   inventory.Item
	Person delivery.Person  // who has it, when somebody has
	Facts  []inventory.Fact // oldest first
	Names  map[inventory.PersonID]string
}

// ItemPage returns the page of an item.
func (d *Desk) ItemPage(ctx context.Context, id inventory.ItemID) (ItemPage, error) {
	page := ItemPage{Names: make(map[inventory.PersonID]string)}
	err := d.read(ctx, func(tx *book.Tx) (err error) {
		if page.Item, err = items.Item(tx, id); err != nil {
			return err
		}
		if page.Facts, err = items.Facts(tx, d.words, items.About{Item: id}); err != nil {
			return err
		}
		page.Facts = sightOf(tx).facts(page.Facts)
		for _, who := range different(page.Facts, func(f inventory.Fact) inventory.PersonID { return f.Person }) {
			p, err := person(tx, who)
			if err != nil {
				return err
			}
			page.Names[who] = p.Short()
			if who == page.Item.Person {
				page.Person = p
			}
		}
		return nil
	})
	return page, err
}

// Items returns the chosen items, and how many there are in all.
func (d *Desk) Items(ctx context.Context, f items.Filter) (found []inventory.Item, total int, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		found, total, err = items.Items(tx, f)
		return err
	})
	return found, total, err
}

// Tallies counts items by kind, size and state.
func (d *Desk) Tallies(ctx context.Context) (tallies []items.Tally, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		tallies, err = items.Tallies(tx)
		return err
	})
	return tallies, err
}

// PlaceTallies counts items by place, kind, size and state.
func (d *Desk) PlaceTallies(ctx context.Context) (tallies []items.PlaceTally, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		tallies, err = items.PlaceTallies(tx)
		return err
	})
	return tallies, err
}

// Alternative returns the best ready item of what is wanted.
func (d *Desk) Alternative(ctx context.Context, want delivery.Wanted) (item inventory.Item, ok bool, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		item, ok, err = newView(tx, d, tx.Now).Alternative(want)
		return err
	})
	return item, ok, err
}

// Runs returns the runs of a day (2006-01-02); of every day not ended when
// day is empty.
func (d *Desk) Runs(ctx context.Context, day string) (runs []delivery.Run, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		if day == "" {
			runs, err = book.List(tx, derived[delivery.Run], `SELECT body FROM run_now WHERE ended = 0 ORDER BY day, vehicle, run_id`)
		} else {
			runs, err = book.List(tx, derived[delivery.Run], `SELECT body FROM run_now WHERE day = $1 ORDER BY vehicle, run_id`, day)
		}
		return err
	})
	return runs, err
}

// Tasks returns the homes with open tasks, most urgent first, whether on
// oxygen or not.
func (d *Desk) Tasks(ctx context.Context, now time.Time) (open []delivery.Errand, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		open, err = d.tasks(tx, now)
		return err
	})
	return open, err
}

func (d *Desk) tasks(tx *book.Tx, now time.Time) ([]delivery.Errand, error) {
	homes, err := d.homes(tx, now, `tasks > 0`)
	if err != nil {
		return nil, err
	}
	p, err := d.programme(tx)
	if err != nil {
		return nil, err
	}
	v := newView(tx, d, tx.Now)
	watched := make([]delivery.Watch, len(homes))
	for i, h := range homes {
		watched[i] = delivery.WatchHome(p, h.person, h.Home, now)
		watched[i].Run = h.run
	}
	delivery.ByUrgency(watched)
	open := make([]delivery.Errand, 0, len(watched))
	for _, w := range watched {
		reserved, err := v.Reserved(w.Care.Person)
		if err != nil {
			return nil, err
		}
		open = append(open, delivery.Errand{Watch: w, Reserved: reserved})
	}
	return open, nil
}

// Ask runs a question on the book as it stands; the view is only good inside.
func (d *Desk) Ask(ctx context.Context, at time.Time, question func(delivery.View) error) error {
	return d.read(ctx, func(tx *book.Tx) error {
		return question(newView(tx, d, at))
	})
}

// Facts returns the chosen facts in the order of recording.
func (d *Desk) Facts(ctx context.Context, about items.About) (facts []inventory.Fact, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		facts, err = items.Facts(tx, d.words, about)
		facts = sightOf(tx).facts(facts)
		return err
	})
	return facts, err
}

// Homes returns every person in the book with the home, by name: those whose
// name, record number, phone or street holds each word of text.
func (d *Desk) Homes(ctx context.Context, text string, limit int) (found []Found, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		found, err = findPersons(tx, sought(text), limit)
		return err
	})
	return found, err
}

// Names returns the names of every person in the book.
func (d *Desk) Names(ctx context.Context) (map[inventory.PersonID]string, error) {
	names := make(map[inventory.PersonID]string)
	err := d.read(ctx, func(tx *book.Tx) error {
		all, err := book.List(tx, seenPerson(tx), `SELECT body FROM identity WHERE sort = 'person' ORDER BY id`)
		for _, p := range all {
			names[p.ID] = p.Name()
		}
		return err
	})
	return names, err
}

// Streets returns where every address in the book is.
func (d *Desk) Streets(ctx context.Context) (map[inventory.AddressID]string, error) {
	streets := make(map[inventory.AddressID]string)
	err := d.read(ctx, func(tx *book.Tx) error {
		all, err := book.List(tx, seenAddress(tx), `SELECT body FROM identity WHERE sort = 'address' ORDER BY id`)
		for _, a := range all {
			streets[a.ID] = a.Where()
		}
		return err
	})
	return streets, err
}
