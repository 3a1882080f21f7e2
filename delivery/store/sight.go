package store

import (
	"context"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
)

// sight is how much of people whoever reads is shown. It travels with the
// context of the reading, so that every query of it is held to it; acts are
// decided on everything.
type sight struct {
	delivery.Sees
	veiled bool // somebody may be looking over the shoulder
}

type (
	sightKey struct{}
	veilKey  struct{}
)

// Veiled returns a context in which initials and numbers are told in the place
// of names, streets and phones: the privacy view.
func Veiled(ctx context.Context) context.Context { return context.WithValue(ctx, veilKey{}, true) }

// Unveiled returns the desk for what shows who people are also under the
// privacy view: papers, and forms a person is written in.
func (d *Desk) Unveiled() *Desk {
	return &Desk{book: d.book, words: d.words, ruling: d.ruling, signedIn: d.signedIn, instead: d.instead, plain: true}
}

func (d *Desk) veils(ctx context.Context) bool { return !d.plain && ctx.Value(veilKey{}) != nil }

// sightOf returns what a reading may show; everything inside an act.
func sightOf(tx *book.Tx) sight {
	if s, reading := tx.Context().Value(sightKey{}).(*sight); reading {
		return *s
	}
	return sight{Sees: delivery.Sees{Persons: true, Clinical: true}}
}

// read lets look see the book as it stands, as far as whoever is at the desk
// may.
func (d *Desk) read(ctx context.Context, look func(*book.Tx) error) error {
	s := &sight{veiled: d.veils(ctx)}
	return d.book.Read(context.WithValue(ctx, sightKey{}, s), func(tx *book.Tx) error {
		user, asked, err := d.present(tx)
		if err != nil {
			return err
		}
		s.Sees = delivery.Sees{Persons: true, Clinical: true}
		if asked {
			s.Sees = user.Role.Sees()
		}
		return look(tx)
	})
}

// readFor is read with everything shown, for those whose work an act is.
func (d *Desk) readFor(ctx context.Context, act delivery.Act, look func(*book.Tx) error) error {
	s := &sight{Sees: delivery.Sees{Persons: true, Clinical: true}}
	return d.book.Read(context.WithValue(ctx, sightKey{}, s), func(tx *book.Tx) error {
		user, asked, err := d.present(tx)
		if err == nil && asked {
			err = user.May(act, newView(tx, d, tx.Now))
		}
		if err != nil {
			return err
		}
		return look(tx)
	})
}

// person returns a person as the reading may show them.
func (s sight) person(p delivery.Person) delivery.Person {
	switch {
	case p.Erased || p.ID == "":
		return p
	case !s.Persons:
		return p.Hidden()
	case s.veiled:
		return p.Veil()
	}
	return p
}

func (s sight) address(a delivery.Address) delivery.Address {
	if s.Persons && !s.veiled || a.ID == "" {
		return a
	}
	return a.Veil()
}

// facts leaves out of facts what the reading may not show.
func (s sight) facts(all []inventory.Fact) []inventory.Fact {
	if s.Clinical {
		return all
	}
	kept := all[:0:0]
	for _, f := range all {
		if f, may := s.Shown(f); may {
			kept = append(kept, f)
		}
	}
	return kept
}

// shown reads a body of what readings may not show whole.
func shown[T any](tx *book.Tx, as func(sight, T) T) func(book.Row) (T, error) {
	s := sightOf(tx)
	return func(row book.Row) (T, error) {
		v, err := derived[T](row)
		return as(s, v), err
	}
}

func seenPerson(tx *book.Tx) func(book.Row) (delivery.Person, error) { return shown(tx, sight.person) }

func seenAddress(tx *book.Tx) func(book.Row) (delivery.Address, error) {
	return shown(tx, sight.address)
}

func seenCare(tx *book.Tx) func(book.Row) (delivery.Care, error) {
	return shown(tx, func(s sight, c delivery.Care) delivery.Care { return s.Care(c) })
}
