package store

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Board returns the day as it stands: every run, and what waits for one.
func (d *Desk) Board(ctx context.Context, now time.Time) (board delivery.Board, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		board, err = d.board(tx, now)
		return err
	})
	return board, err
}

func (d *Desk) board(tx *book.Tx, now time.Time) (delivery.Board, error) {
	var board delivery.Board
	p, err := d.programme(tx)
	if err != nil {
		return board, err
	}
	now = p.OnTheWall(now)
	planner := delivery.Planner{Programme: p, Now: now, Day: now, Seed: 1, Aboard: make(map[string][]inventory.Item)}
	if planner.Out, err = withdrawn(tx, d.words, now); err != nil {
		return board, err
	}
	var s delivery.Standing
	if s.Runs, err = book.List(tx, derived[delivery.Run], `SELECT body FROM run_now WHERE ended = 0 ORDER BY day, vehicle, run_id`); err != nil {
		return board, err
	}
	if s.Errands, err = d.tasks(tx, now); err != nil {
		return board, err
	}
	s.Addresses = make(map[inventory.AddressID]delivery.Address)
	for _, r := range s.Runs {
		for _, stop := range r.Open() {
			if s.Addresses[stop.Address], err = address(tx, stop.Address); err != nil {
				return board, err
			}
		}
	}
	for _, v := range p.Vehicles {
		found, _, err := items.Items(tx, items.Filter{Place: inventory.At(inventory.AtVehicle, v.Name)})
		if err != nil {
			return board, err
		}
		planner.Aboard[v.Name] = found
	}
	return delivery.NewBoard(planner, s)
}

// Withdrawn returns until when each vehicle is out of service.
func (d *Desk) Withdrawn(ctx context.Context, now time.Time) (out map[string]time.Time, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		out, err = withdrawn(tx, d.words, now)
		return err
	})
	return out, err
}

// withdrawn returns until when each vehicle is out of service.
func withdrawn(tx *book.Tx, words inventory.Vocabulary, now time.Time) (map[string]time.Time, error) {
	facts, err := items.Facts(tx, words, items.About{Says: new(delivery.StoodDown).Says()})
	if err != nil {
		return nil, err
	}
	out := make(map[string]time.Time)
	for _, f := range inventory.Standing(facts) {
		s, is := f.Statement.(*delivery.StoodDown)
		if is && !s.From.After(now) && s.Until.After(now) {
			out[s.Vehicle] = s.Until
		}
	}
	return out, nil
}

// HandOver does a discharge and, in the same transaction, puts its delivery
// on the runs at the promised time.
func (d *Desk) HandOver(ctx context.Context, hand Hand, act delivery.Admission) (Outcome, error) {
	var out Outcome
	err := d.book.Write(ctx, func(tx *book.Tx) (err error) {
		if out, err = d.do(tx, hand, act); err != nil {
			return err
		}
		slot := delivery.TakeSlot{Person: out.Facts[0].Person, Promised: act.Discharge.Arrives, By: act.Discharge.Arrives}
		taken, err := d.do(tx, hand, slot)
		out = Outcome{Says: out.Says + " " + taken.Says, Facts: append(out.Facts, taken.Facts...)}
		return err
	})
	if err != nil {
		return Outcome{}, err
	}
	return out, nil
}
