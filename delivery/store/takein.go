package store

import (
	"context"
	"fmt"
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
		t := takeIn{desk: d, view: &view{tx: tx, words: d.words, at: hand.At}, hand: hand}
		if len(decided) > 0 { // they stay when the list is taken back
			if _, err := d.do(tx, hand, delivery.AnswerSheet{Answers: decided}); err != nil || len(acts) == 0 {
				return err
			}
		}
		for i, act := range acts {
			if err := ctx.Err(); err != nil {
				return err
			}
			if err := t.do(act); err != nil {
				return fmt.Errorf("act %d: %w", i+1, err)
			}
			tell(float64(i+1) / float64(len(acts)) / 2)
		}
		closed, err = t.close(reading, func(share float64) { tell((1 + share) / 2) })
		return err
	})
	return closed, err
}

// takeIn is a list while it is written. Things are derived as they come in,
// because the loans name them; all else is derived once, at the end.
type takeIn struct {
	desk  *Desk
	view  *view
	hand  Hand
	stale touched
	first inventory.FactID
}

func (t *takeIn) do(act delivery.Act) error {
	change, err := act.Decide(t.view)
	if err != nil {
		return err
	}
	if err := keepIdentities(t.view.tx, change); err != nil {
		return err
	}
	facts, err := record(t.view.tx, t.hand, change.Facts)
	if err != nil {
		return err
	}
	if t.first == 0 && len(facts) > 0 {
		t.first = facts[0].ID
	}
	t.stale.note(facts)
	t.view.held = nil // the act may have changed the settings
	for _, f := range facts {
		if _, is := f.Statement.(*inventory.Enrolled); is {
			if err := items.Refold(t.view.tx, t.desk.words, f.Item); err != nil {
				return err
			}
		}
	}
	return nil
}

func (t *takeIn) close(r intake.Reading, tell func(share float64)) (inventory.FactID, error) {
	if err := t.desk.settle(t.view.tx, t.stale, tell); err != nil {
		return 0, err
	}
	about := make([]inventory.Fact, len(t.stale.people))
	for i, id := range t.stale.people {
		about[i].Person = id
	}
	if _, err := t.desk.followUp(t.view, t.hand, about); err != nil {
		return 0, err
	}
	facts, err := record(t.view.tx, t.hand, []inventory.Fact{{Statement: &delivery.TookIn{
		First: t.first, Rows: r.Taken, Things: r.Added.Things, Persons: r.Added.Persons, Facts: r.Added.Facts,
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
