package season

import (
	"context"
	"errors"
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// office is the programme at work under one policy: it knows what the book
// says, and meets what is really so only where somebody looks.
type office struct {
	ctx      context.Context
	desk     *store.Desk
	season   fate.Season
	settings delivery.Programme
	policy   policy
	clock    time.Time
	queue    queue

	items map[inventory.ItemID]*truth.Item
	homes map[inventory.PersonID]*truth.Home
	order []*truth.Home // of the homes, as they came
	kept  map[int]*truth.Home

	rounds map[inventory.RunID]*round
	loaded map[inventory.ItemID]bool // on board of a vehicle, to be left somewhere
	filled []inventory.ItemID        // at the plant, to come with the next exchange
	cuts   map[inventory.FactID]bool // power cuts in the book that are not over
	duty   duty
	busy   time.Time // the desk is on the phone until then
	asked  map[string]int
	waits  map[int]bool // people whose discharge was held
	tally  tally
}

// at lets something happen, now at the earliest.
func (o *office) at(t time.Time, do func() error) {
	if t.Before(o.clock) {
		t = o.clock
	}
	o.queue.tell(t, do)
}

// hand is somebody of the office, now.
func (o *office) hand(by string) store.Hand {
	return store.Hand{By: by, Source: inventory.Keyed, At: o.clock}
}

// do does an act that must succeed: in the season only people err, not the
// office's own keying, unless it is drawn so.
func (o *office) do(by string, act delivery.Act) (store.Outcome, error) {
	out, err := o.desk.Do(o.ctx, o.hand(by), act)
	if err != nil {
		return out, fmt.Errorf("%s, %T: %w", o.clock.Format("Mon 2 Jan 15:04"), act, err)
	}
	return out, o.heed(out)
}

// try does an act that the program may refuse; what it refuses is not done.
func (o *office) try(by string, act delivery.Act) (bool, error) {
	_, err := o.do(by, act)
	if refused(err) {
		o.tally.Refused++
		return false, nil
	}
	return err == nil, err
}

// refused reports whether the program said no.
func refused(err error) bool {
	var no *refusal.Error
	return errors.As(err, &no)
}

// doAll does several acts at once.
func (o *office) doAll(by string, acts []delivery.Act) error {
	dated := make([]store.Dated, len(acts))
	for i, a := range acts {
		dated[i] = store.Dated{Hand: store.Hand{By: by, Source: inventory.Scanned, At: o.clock}, Act: a}
	}
	if len(acts) == 0 {
		return nil
	}
	if err := o.desk.DoAll(o.ctx, dated, nil); err != nil {
		return fmt.Errorf("%s: %w", o.clock.Format("Mon 2 Jan 15:04"), err)
	}
	return nil
}

// The hours of the desk. Outside them one person is on call.
const (
	deskOpens  = 8 * time.Hour
	deskCloses = 19 * time.Hour
)

func midnight(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, t.Location())
}

// open reports whether the desk is open at a time.
func open(t time.Time) bool {
	since := t.Sub(midnight(t))
	return since >= deskOpens && since < deskCloses
}

// opening returns a time at which the desk is open: t, or the next morning.
func opening(t time.Time) time.Time {
	day := midnight(t)
	switch since := t.Sub(day); {
	case since < deskOpens:
		return day.Add(deskOpens)
	case since >= deskCloses:
		return day.Add(24*time.Hour + deskOpens)
	}
	return t
}

// tomorrow returns the time of day on the next day.
func tomorrow(t time.Time, hour time.Duration) time.Time {
	return midnight(t).Add(24*time.Hour + hour)
}

// live lets everything happen until the season ends.
func (o *office) live(tell func(share float64)) error {
	whole := o.season.Ends.Sub(fate.Begins)
	for next, any := o.queue.next(); any && next.at.Before(o.season.Ends); next, any = o.queue.next() {
		if err := o.ctx.Err(); err != nil {
			return err
		}
		if tell != nil && midnight(next.at).After(o.clock) {
			tell(float64(next.at.Sub(fate.Begins)) / float64(whole))
		}
		o.clock = next.at
		if err := next.do(); err != nil {
			return err
		}
	}
	o.clock = o.season.Ends
	for _, h := range o.order {
		h.Reckon(o.clock)
	}
	return nil
}
