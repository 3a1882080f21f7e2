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

// PlanDay plans the open tasks that no run serves yet for the day of the
// hand's time and puts the runs in force. It returns them with what can't be
// kept.
func (d *Desk) PlanDay(ctx context.Context, hand Hand, steps int) (delivery.DayPlan, error) {
	plan, err := d.Propose(ctx, hand.At, steps, nil, nil)
	if err != nil || len(plan.Runs) == 0 {
		return plan, err
	}
	act := delivery.PlanRuns{}
	for _, r := range plan.Runs {
		act.Runs = append(act.Runs, delivery.RunPlan{Planned: r})
	}
	_, err = d.Do(ctx, hand, act)
	return plan, err
}

// Propose returns the runs it would plan at a time, without writing anything,
// for the open tasks of some homes; with none named, of all. When ctx ends
// early it proposes the best found so far. Tell is told how far the search is,
// from 0 to 1; it may be nil.
func (d *Desk) Propose(ctx context.Context, now time.Time, steps int, among []inventory.PersonID, tell func(share float64)) (delivery.DayPlan, error) {
	errands, err := d.Tasks(ctx, now)
	if err != nil {
		return delivery.DayPlan{}, err
	}
	var waiting []delivery.Errand
	for _, e := range errands {
		if e.Run == "" && (len(among) == 0 || slices.Contains(among, e.Person.ID)) {
			waiting = append(waiting, e)
		}
	}
	if len(waiting) == 0 {
		return delivery.DayPlan{}, nil
	}
	planner, err := d.Planner(ctx, now)
	if err != nil {
		return delivery.DayPlan{}, err
	}
	if len(among) > 0 {
		planner.Programme.CollectWait = 0 // somebody wants these driven
	}
	planner.Steps, planner.Tell = steps, tell
	return planner.Plan(ctx, waiting)
}

// Planner returns the planner of a day as the book stands.
func (d *Desk) Planner(ctx context.Context, now time.Time) (delivery.Planner, error) {
	pl := delivery.Planner{Seed: 1, Scarce: make(map[inventory.Kind]bool)}
	var err error
	if pl.Programme, err = d.Programme(ctx); err != nil {
		return pl, err
	}
	if pl.Back, err = d.Back(ctx); err != nil {
		return pl, err
	}
	if pl.Out, err = d.Withdrawn(ctx, now); err != nil {
		return pl, err
	}
	pl.Now = pl.Programme.OnTheWall(now)
	pl.Day = pl.Now
	return pl, d.read(ctx, func(tx *book.Tx) error {
		shelves, err := items.Shelves(tx)
		for _, s := range shelves {
			pl.Scarce[s.Kind] = delivery.IsScarce(s.Ready, s.All)
		}
		return err
	})
}

// Back returns when each vehicle on a run is back.
func (d *Desk) Back(ctx context.Context) (map[string]time.Time, error) {
	runs, err := d.Runs(ctx, "")
	if err != nil {
		return nil, err
	}
	back := make(map[string]time.Time)
	for _, r := range runs {
		if len(r.Open()) > 0 && r.Back.After(back[r.Vehicle]) {
			back[r.Vehicle] = r.Back
		}
	}
	return back, nil
}

// RunPages returns the pages of every person a run stops for.
func (d *Desk) RunPages(ctx context.Context, run delivery.Run, now time.Time) (map[inventory.PersonID]PersonPage, error) {
	pages := make(map[inventory.PersonID]PersonPage)
	for _, s := range run.Stops {
		for _, who := range s.Persons {
			page, err := d.Page(ctx, who, now)
			if err != nil {
				return nil, err
			}
			pages[who] = page
		}
	}
	return pages, nil
}
