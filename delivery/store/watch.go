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

// Watch returns every person on oxygen of ours, most urgent first.
func (d *Desk) Watch(ctx context.Context, now time.Time) ([]delivery.Watch, error) {
	var rows []delivery.Watch
	err := d.read(ctx, func(tx *book.Tx) error {
		homes, err := d.homes(tx, now, `watched = 1`)
		if err != nil {
			return err
		}
		p, err := d.programme(tx)
		if err != nil {
			return err
		}
		rows = make([]delivery.Watch, len(homes))
		for i, h := range homes {
			rows[i] = delivery.WatchHome(p, h.person, h.Home, now)
			rows[i].Run = h.run
		}
		return nil
	})
	delivery.ByUrgency(rows)
	return rows, err
}

// Calls returns the calls that are due now, in the order in which to make
// them, and what the clinician has not heard of yet, the most pressing first.
func (d *Desk) Calls(ctx context.Context, now time.Time) (due, tell []delivery.CheckIn, err error) {
	p, err := d.Programme(ctx)
	if err != nil {
		return nil, nil, err
	}
	rows, err := d.Watch(ctx, now)
	if err != nil {
		return nil, nil, err
	}
	return delivery.DueCalls(p, rows, now), delivery.ToTell(p, rows, now), nil
}

// WatchOne returns the watch row of one person, watched or not.
func (d *Desk) WatchOne(ctx context.Context, id inventory.PersonID, now time.Time) (delivery.Watch, error) {
	var row delivery.Watch
	err := d.read(ctx, func(tx *book.Tx) error {
		homes, err := d.homes(tx, now, `person_id = $1`, string(id))
		if err != nil {
			return err
		}
		if len(homes) == 0 {
			_, err := care(tx, id)
			return err
		}
		p, err := d.programme(tx)
		if err != nil {
			return err
		}
		row = delivery.WatchHome(p, homes[0].person, homes[0].Home, now)
		row.Run = homes[0].run
		return nil
	})
	return row, err
}

// home is a home with the person and the run that goes there next.
type home struct {
	delivery.Home
	person delivery.Person
	run    inventory.RunID
}

// homes returns the homes of the persons chosen by a condition on person_now.
func (d *Desk) homes(tx *book.Tx, now time.Time, where string, args ...any) ([]home, error) {
	cares, err := book.List(tx, seenCare(tx), `SELECT body FROM person_now WHERE `+where+` ORDER BY person_id`, args...)
	if err != nil {
		return nil, err
	}
	persons, addresses, err := identities(tx, where, args...)
	if err != nil {
		return nil, err
	}
	cuts, err := powerCuts(tx, d.words, now)
	if err != nil {
		return nil, err
	}
	p, err := d.programme(tx)
	if err != nil {
		return nil, err
	}
	visits, err := visits(tx)
	if err != nil {
		return nil, err
	}
	homes := make([]home, len(cares))
	for i, c := range cares {
		if err := sayWhere(tx, c.Tasks); err != nil {
			return nil, err
		}
		address, err := addressAt(tx, addresses, c, now)
		if err != nil {
			return nil, err
		}
		visit := visits[c.Person]
		homes[i] = home{
			Home: delivery.Home{
				Care: c, Address: address, Cuts: touching(cuts, address),
				Visit: visit.at, Nearest: p.Nearest(address.Point, now),
			},
			person: persons[c.Person],
			run:    visit.run,
		}
	}
	return homes, nil
}

// addressAt returns where a person sleeps at now: among the homes, or where a
// stay is.
func addressAt(tx *book.Tx, homes map[inventory.AddressID]delivery.Address, c delivery.Care, now time.Time) (delivery.Address, error) {
	id := c.AddressAt(now)
	if id == c.Address {
		return homes[id], nil
	}
	return address(tx, id)
}

// identities returns the persons and addresses of the persons chosen by a
// condition on person_now.
func identities(tx *book.Tx, where string, args ...any) (map[inventory.PersonID]delivery.Person, map[inventory.AddressID]delivery.Address, error) {
	persons, err := book.List(tx, seenPerson(tx), `
		SELECT body FROM identity
		WHERE id IN (SELECT person_id FROM person_now WHERE `+where+`)
		ORDER BY id`, args...)
	if err != nil {
		return nil, nil, err
	}
	addresses, err := book.List(tx, seenAddress(tx), `
		SELECT body FROM identity
		WHERE id IN (SELECT address_id FROM person_now WHERE `+where+`)
		ORDER BY id`, args...)
	if err != nil {
		return nil, nil, err
	}
	byPerson := make(map[inventory.PersonID]delivery.Person, len(persons))
	for _, p := range persons {
		byPerson[p.ID] = p
	}
	byAddress := make(map[inventory.AddressID]delivery.Address, len(addresses))
	for _, a := range addresses {
		byAddress[a.ID] = a
	}
	return byPerson, byAddress, nil
}

// powerCuts returns the cuts that are not over at now.
func powerCuts(tx *book.Tx, words inventory.Vocabulary, now time.Time) ([]delivery.PowerCut, error) {
	facts, err := items.Facts(tx, words, items.About{Says: new(delivery.PowerCut).Says()})
	if err != nil {
		return nil, err
	}
	ends, err := items.Facts(tx, words, items.About{Says: new(delivery.PowerBack).Says()})
	if err != nil {
		return nil, err
	}
	return delivery.OpenCuts(append(inventory.Standing(facts), inventory.Standing(ends)...), now), nil
}

// PowerCuts returns the cuts that are not over at now, in the order they
// begin.
func (d *Desk) PowerCuts(ctx context.Context, now time.Time) (cuts []delivery.PowerCut, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		cuts, err = powerCuts(tx, d.words, now)
		return err
	})
	return cuts, err
}

func touching(cuts []delivery.PowerCut, a delivery.Address) []delivery.PowerCut {
	return slices.DeleteFunc(slices.Clone(cuts), func(c delivery.PowerCut) bool { return !c.Touches(a) })
}

type visit struct {
	at  time.Time
	run inventory.RunID
}

// visits returns the next planned visit of each person on a run not ended.
func visits(tx *book.Tx) (map[inventory.PersonID]visit, error) {
	runs, err := book.List(tx, derived[delivery.Run], `SELECT body FROM run_now WHERE ended = 0 ORDER BY run_id`)
	if err != nil {
		return nil, err
	}
	next := make(map[inventory.PersonID]visit)
	for _, r := range runs {
		for _, s := range r.Open() {
			for _, who := range s.Persons {
				if v, has := next[who]; s.Waits(who) && (!has || s.Arrive.Before(v.at)) {
					next[who] = visit{s.Arrive, r.ID}
				}
			}
		}
	}
	return next, nil
}
