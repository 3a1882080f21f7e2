// Package store keeps persons and promises in a book. A Desk is the one door
// to it: the window, the commands and the intake all read and act through
// one.
package store

import (
	"context"
	"errors"
	"fmt"
	"sync/atomic"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store/migration"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
	"lungwort/inventory/wall"
)

// Migrations are all tables of a book, in the order they depend on each
// other.
func Migrations() []book.Set {
	return []book.Set{items.Migrations(), {Name: "delivery", Files: migration.Files, Settle: upToDate}}
}

// upToDate seals the facts that a version before left without a seal, keeps by
// what persons are compared, and derives every state by the rules of this one.
func upToDate(tx *book.Tx) error {
	if err := errors.Join(sealAll(tx), keepAllTwinKeys(tx)); err != nil {
		return err
	}
	return derive(tx, delivery.Words())
}

// Desk is a book at which somebody works.
type Desk struct {
	book     *book.Book
	words    inventory.Vocabulary
	ruling   *ruling
	signedIn *atomic.Pointer[delivery.User] // where names are asked for
	instead  *delivery.User                 // who looks, whatever this book says
	plain    bool                           // also under the privacy view
}

// NewDesk returns a desk on an open book.
func NewDesk(b *book.Book) *Desk {
	return &Desk{book: b, words: delivery.Words(), ruling: new(ruling), signedIn: new(atomic.Pointer[delivery.User])}
}

// On returns a desk on another book, as one of the past, with who is at this
// desk now.
func (d *Desk) On(b *book.Book) *Desk {
	other := NewDesk(b)
	if u, ok := d.User(); ok {
		other.instead = &u
	}
	return other
}

// Book returns the book of the desk.
func (d *Desk) Book() *book.Book { return d.book }

// Hand is who does an act, how it reached the book, and when it happened.
// The time carries the offset of the place.
type Hand struct {
	By     string
	Source inventory.Source
	At     time.Time
}

// Outcome is what an act wrote.
type Outcome struct {
	Says  string
	Facts []inventory.Fact
}

// Do does an act: it is decided on the book as it stands and written whole,
// or refused and nothing is written.
func (d *Desk) Do(ctx context.Context, hand Hand, act delivery.Act) (Outcome, error) {
	var out Outcome
	err := d.book.Write(ctx, func(tx *book.Tx) error {
		var err error
		out, err = d.do(tx, hand, act)
		return err
	})
	if err != nil {
		return Outcome{}, err
	}
	return out, nil
}

// DoAll does several acts in one transaction: all of them, or none. Progress
// is told after each.
func (d *Desk) DoAll(ctx context.Context, acts []Dated, progress func(done int)) error {
	return d.book.Write(ctx, func(tx *book.Tx) error {
		for i, a := range acts {
			if err := ctx.Err(); err != nil {
				return err
			}
			if _, err := d.do(tx, a.Hand, a.Act); err != nil {
				return fmt.Errorf("act %d: %w", i+1, err)
			}
			if progress != nil {
				progress(i + 1)
			}
		}
		return nil
	})
}

// Dated is an act with its hand.
type Dated struct {
	Hand Hand
	Act  delivery.Act
}

func (d *Desk) do(tx *book.Tx, hand Hand, act delivery.Act) (Outcome, error) {
	v := newView(tx, d, hand.At)
	settings, err := v.Programme()
	if err != nil {
		return Outcome{}, err
	}
	hand.At = settings.OnTheWall(hand.At)
	v.at = hand.At
	v.silent.veiled = d.veils(tx.Context())
	hand, err = d.admitted(v, hand, act)
	if err != nil {
		return Outcome{}, err
	}
	change, err := act.Decide(v)
	if err != nil {
		return Outcome{}, v.told(v.meanwhile(hand, err))
	}
	if err := keepIdentities(tx, change); err != nil {
		return Outcome{}, err
	}
	facts, err := d.write(v, hand, change.Facts)
	if err != nil {
		return Outcome{}, err
	}
	more, err := d.followUp(v, hand, facts)
	if err != nil {
		return Outcome{}, err
	}
	return Outcome{Says: v.tell(change.Says), Facts: append(facts, more...)}, nil
}

// write appends facts with the act's hand and brings everything they touch up
// to date.
func (d *Desk) write(v *view, hand Hand, facts []inventory.Fact) ([]inventory.Fact, error) {
	facts, err := v.record(hand, facts)
	if err != nil {
		return nil, err
	}
	var stale touched
	stale.note(facts)
	return facts, d.settle(v.tx, stale)
}

// record appends facts with the act's hand and seals them. What they touch is
// stale until it is settled.
func (v *view) record(hand Hand, facts []inventory.Fact) ([]inventory.Fact, error) {
	for i := range facts {
		f := &facts[i]
		if f.Happened.IsZero() {
			f.Happened = wall.Fixed(hand.At) // a named zone never enters a fact
		}
		if f.By == "" {
			f.By = hand.By
		}
		if f.Source == "" {
			f.Source = hand.Source
		}
	}
	facts, err := items.Append(v.tx, facts)
	if err != nil {
		return nil, err
	}
	return facts, v.seals.seal(v.tx, facts)
}

// followUp opens what the program concludes from what was just written: a
// backup task for each home whose cover fell under the programme's hours.
func (d *Desk) followUp(v *view, hand Hand, facts []inventory.Fact) ([]inventory.Fact, error) {
	people := different(facts, func(f inventory.Fact) inventory.PersonID { return f.Person })
	if len(people) == 0 {
		return nil, nil
	}
	p, err := v.Programme()
	if err != nil {
		return nil, err
	}
	var more []inventory.Fact
	for _, id := range people {
		care, err := v.Care(id)
		if refusal.KindOf(err) == refusal.NotFound {
			continue // every fact about the person was taken back
		}
		if err != nil {
			return nil, err
		}
		if task, low := care.BackupTask(p, hand.At); low {
			more = append(more, inventory.Fact{Person: id, Source: inventory.Program, Statement: &task})
		}
	}
	if len(more) == 0 {
		return nil, nil
	}
	return d.write(v, hand, more)
}
