// Package season drives the real program through a simulated season: its book,
// its acts, its forecasts, its runs and its bench, through the same door as the
// window. What happens is drawn by fate and is the same for every policy; what
// is really so is kept by truth; the office knows only what it is told.
package season

import (
	"context"
	"errors"
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// Outcome is what one policy made of a season.
type Outcome struct {
	Policy string
	tally
	Lacks   map[truth.Why]float64 // minutes without oxygen
	Saved   float64
	Audit   store.Audit
	Differs []string // items that are not where the book has them
}

// Live lets one policy live through a season, in a new book at path. It tells
// how far it is, from 0 to 1.
func Live(ctx context.Context, path string, s fate.Season, policy string, tell func(share float64)) (out Outcome, err error) {
	o := &office{
		ctx: ctx, season: s, settings: settingsOf(policy), policy: policyOf(policy), clock: fate.Begins,
		items: map[inventory.ItemID]*truth.Item{}, homes: map[inventory.PersonID]*truth.Home{},
		rounds: map[inventory.RunID]*round{}, loaded: map[inventory.ItemID]bool{}, cuts: map[inventory.FactID]bool{},
		asked: map[string]int{}, waits: map[int]bool{},
	}
	b, err := book.Create(ctx, path, book.Options{Now: func() time.Time { return o.clock }, Sets: store.Migrations()})
	if err != nil {
		return out, err
	}
	o.desk = store.NewDesk(b)
	if out, err = o.whole(tell); err != nil {
		return out, errors.Join(fmt.Errorf("policy %s: %w", policy, err), b.Abandon())
	}
	tell(1)
	out.Policy = policy
	return out, b.Close()
}

// whole lives the season and holds the book against what is really so.
func (o *office) whole(tell func(share float64)) (out Outcome, err error) {
	if _, err := o.do(fate.Desk, delivery.Settings{Programme: o.settings}); err != nil {
		return out, err
	}
	if err := o.stock(); err != nil {
		return out, err
	}
	o.schedule()
	if err := o.live(tell); err != nil {
		return out, err
	}
	out.tally, out.Lacks = o.tally, make(map[truth.Why]float64)
	for _, h := range o.order {
		for why, m := range h.Lacks {
			out.Lacks[why] += m
		}
		out.Saved += h.Saved
		out.IdleDays += h.Idle(o.clock) * float64(len(h.Kit))
		if len(h.Lacks) > 0 {
			out.Persons++
		}
	}
	if out.Audit, err = o.desk.Audit(o.ctx); err != nil {
		return out, err
	}
	out.Differs, err = o.differing()
	return out, err
}

// schedule tells everything that happens by itself, and the desk's own hours.
func (o *office) schedule() {
	for _, p := range o.season.People {
		o.at(p.Wants, func() error { return o.discharge(p, nil) })
	}
	for _, c := range o.season.Cuts {
		o.cut(c)
	}
	for day := fate.Begins; day.Before(o.season.Ends); day = day.AddDate(0, 0, 1) {
		for at := deskOpens; at < deskCloses; at += halfHour {
			o.at(day.Add(at), func() error { return o.policy.look(o) })
		}
		for _, v := range o.settings.Vehicles {
			if v.Name != fate.OnCall && o.season.Happens(fate.VanOut, "van out", v.Name, day.Unix()) {
				o.at(day.Add(vansFail), func() error { return o.standDown(v) })
			}
		}
		for _, at := range []time.Duration{10*time.Hour + 10*time.Minute, 15*time.Hour + 10*time.Minute} {
			o.at(day.Add(at), o.bench)
		}
		if wd := day.Weekday(); wd == time.Monday || wd == time.Wednesday || wd == time.Friday {
			o.at(day.Add(9*time.Hour+20*time.Minute), o.exchange)
		}
	}
}
