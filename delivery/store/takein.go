package store

import (
	"context"
	"fmt"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// TakeIn writes the clear rows of a reading in one transaction, and closes
// them with a fact by which they can be taken back together. It returns the
// number of that fact; zero when nothing was new. Tell is told how far it is,
// from 0 to 1; it may be nil.
func (d *Desk) TakeIn(ctx context.Context, reading intake.Reading, hand Hand, tell func(share float64)) (closed inventory.FactID, err error) {
	acts, decided := reading.Acts(), reading.Decided()
	if len(acts)+len(decided) == 0 {
		return 0, nil
	}
	if tell == nil {
		tell = func(float64) {}
	}
	err = d.book.Write(ctx, func(tx *book.Tx) error {
		t := takeIn{view: newView(tx, d, hand.At), desk: d, hand: hand}
		if t.hand, err = d.admitted(t.view, hand, delivery.TakeIn{}); err != nil {
			return err
		}
		if err := t.lookUp(); err != nil {
			return err
		}
		if len(decided) > 0 { // they stay when the list is taken back
			if _, err := d.do(tx, hand, delivery.AnswerSheet{Answers: decided}); err != nil || len(acts) == 0 {
				return err
			}
		}
		for i, act := range acts {
			if err := ctx.Err(); err != nil {
				return err
			}
			t.tell = func(share float64) { tell(actsShare * (float64(i) + share) / float64(len(acts))) }
			if err := t.do(act); err != nil {
				return fmt.Errorf("act %d: %w", i+1, err)
			}
			t.tell(1)
		}
		t.tell = func(share float64) { tell(actsShare + (1-actsShare)*share) }
		closed, err = t.close(reading)
		return err
	})
	return closed, err
}

// actsShare is the share of a take-in that is done when its acts are; the rest
// is what follows from them.
const actsShare = 0.9

// writtenTogether is how many facts are derived from at once: enough that few
// things are derived twice, and few enough that the memory stays small.
// recordedTogether of them are written between two moves of the progress, some
// ten milliseconds.
const (
	writtenTogether  = 20_000
	recordedTogether = 200
)

// takeIn is a list while it is written, many rows at once. It is a view of its
// own, which finds the things the list brought before they are written.
type takeIn struct {
	*view
	desk   *Desk
	hand   Hand
	serial map[string][]named
	facts  []inventory.Fact // decided, not yet written
	people []inventory.Fact // about each person touched, to follow up
	first  inventory.FactID
	tell   func(share float64) // of the act under way, or of the end
}

// named is a thing as lists name it: there may be a hundred thousand.
type named struct {
	id   inventory.ItemID
	tag  uint32
	spec *inventory.Spec
}

// lookUp reads the things of the book once: a list may name each many times.
func (t *takeIn) lookUp() error {
	known, _, err := items.Items(t.tx, items.Filter{})
	t.serial = make(map[string][]named, len(known))
	for _, item := range known {
		spec := item.Spec
		t.enter(named{item.ID, item.Tag, &spec})
	}
	return err
}

func (t *takeIn) enter(n named) {
	if key := inventory.SerialKey(n.spec.Serial); key != "" {
		t.serial[key] = append(t.serial[key], n)
	}
}

// Serial returns the things of a serial, those of the list included: what a list
// asks of them, not how they stand.
func (t *takeIn) Serial(serial string) ([]inventory.Item, error) {
	var found []inventory.Item
	for _, n := range t.serial[inventory.SerialKey(serial)] {
		found = append(found, inventory.Item{ID: n.id, Tag: n.tag, Spec: *n.spec})
	}
	return found, nil
}

func (t *takeIn) do(act delivery.Act) error {
	change, err := act.Decide(t)
	if err != nil {
		return err
	}
	if err := keepIdentities(t.tx, change); err != nil {
		return err
	}
	t.facts = append(t.facts, change.Facts...)
	for _, f := range change.Facts {
		switch s := f.Statement.(type) {
		case *delivery.Decided:
			t.held = nil // other settings hold from here on
			return t.write()
		case *inventory.Enrolled:
			t.enter(named{f.Item, s.Tag, &s.Spec})
		}
	}
	if len(t.facts) < writtenTogether {
		return nil
	}
	return t.write()
}

// write writes what was decided since the last time, and derives what it
// touches.
func (t *takeIn) write() error {
	const recorded = 0.5 // of the work
	stale := touched{whole: newStory()}
	done := 0
	for some := range slices.Chunk(t.facts, recordedTogether) {
		facts, err := t.record(t.hand, some)
		if err != nil {
			return err
		}
		if t.first == 0 {
			t.first = facts[0].ID
		}
		stale.note(facts)
		done += len(some)
		t.tell(recorded * float64(done) / float64(len(t.facts)))
	}
	derived := 0
	stale.each = func() {
		derived++
		t.tell(recorded + (1-recorded)*min(1, float64(derived)/float64(len(stale.items)+len(stale.people))))
	}
	err := t.desk.settle(t.tx, stale)
	for _, id := range stale.people {
		t.people = append(t.people, inventory.Fact{Person: id})
	}
	t.facts = t.facts[:0]
	return err
}

// close writes the rest, opens what follows from the list, and writes the fact
// that closes it.
func (t *takeIn) close(r intake.Reading) (inventory.FactID, error) {
	const together, written = 50, 0.2
	tell := t.tell
	t.tell = func(share float64) { tell(written * share) }
	if err := t.write(); err != nil {
		return 0, err
	}
	for from := 0; from < len(t.people); from += together {
		if _, err := t.desk.followUp(t.view, t.hand, t.people[from:min(from+together, len(t.people))]); err != nil {
			return 0, err
		}
		tell(written + (1-written)*float64(from)/float64(len(t.people)))
	}
	tell(1)
	facts, err := t.record(t.hand, []inventory.Fact{{Statement: &delivery.TookIn{
		First: t.first, Rows: r.Taken, Things: r.Added.Things, Persons: r.Added.Persons, Facts: r.Added.Facts, Changed: r.Changed,
	}}})
	if err != nil {
		return 0, err
	}
	return facts[0].ID, nil
}

// Taken is one list that was taken in.
type Taken struct {
	Fact inventory.FactID `json:"fact"`
	At   time.Time        `json:"at"`
	By   string           `json:"by"`
	Says string           `json:"says"`
	Back bool             `json:"back"` // it was taken back
}

// Lists returns the lists that were taken in, the last one first.
func (d *Desk) Lists(ctx context.Context) ([]Taken, error) {
	facts, err := d.Facts(ctx, items.About{Says: new(delivery.TookIn).Says()})
	if err != nil {
		return nil, err
	}
	corrected, all := inventory.Corrections(facts), []Taken{}
	for i := len(facts) - 1; i >= 0; i-- {
		f := facts[i]
		if _, is := f.Statement.(*delivery.TookIn); is {
			_, back := corrected[f.ID]
			all = append(all, Taken{Fact: f.ID, At: f.Recorded, By: f.By, Says: delivery.Sentence(f), Back: back})
		}
	}
	return all, nil
}
