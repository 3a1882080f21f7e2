package settings

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"slices"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
	"lungwort/ui/work"
)

// Save puts everything changed in force in one act.
func (m *Model) Save() {
	if m.Changes() == 0 {
		m.work.Say("Nothing is changed.")
		return
	}
	m.putInForce(m.draft, "")
}

// putInForce writes a programme; says tells it, or is left to the act.
func (m *Model) putInForce(p delivery.Programme, says string) {
	hand, before := m.work.Hand(inventory.Keyed), m.inForce
	work.Ask(m.work, "put in force", func(ctx context.Context) (store.Outcome, error) {
		if err := m.emptied(ctx, p); err != nil {
			return store.Outcome{}, err
		}
		return m.work.Desk.Do(ctx, hand, delivery.Settings{Programme: p})
	}, func(out store.Outcome) {
		m.inForce, m.draft = p, p
		m.work.Offer(cmp.Or(says, out.Says), "Undo", func() { m.putInForce(before, "The settings before are in force again.") })
		m.work.Changed()
		m.Changed()
	})
}

// emptied refuses to remove a place where things still are.
func (m *Model) emptied(ctx context.Context, p delivery.Programme) error {
	kept, gone := standing(p), standing(m.inForce)
	for _, place := range slices.Sorted(maps.Keys(gone)) {
		if _, stays := kept[place]; stays {
			continue
		}
		_, n, err := m.work.Desk.Items(ctx, items.Filter{Place: place, Limit: 1})
		if err != nil {
			return err
		}
		if n > 0 {
			return refusal.New(refusal.Conflict, fmt.Sprintf("%s can't go: the book has %d items there.", gone[place], n), "Move them first, or discard the change.")
		}
	}
	for _, code := range dropped(m.inForce.Sizes, p.Sizes) {
		_, n, err := m.work.Desk.Items(ctx, items.Filter{Kind: inventory.Cylinder, Size: code, Limit: 1})
		if err != nil {
			return err
		}
		if n > 0 {
			return refusal.New(refusal.Conflict, fmt.Sprintf("%s can't go: the book has %d cylinders of it.", code, n), "Nothing could be said of their gas. Discard the change.")
		}
	}
	return m.parked(ctx, p)
}

// parked refuses to remove a vehicle with a run that is not ended.
func (m *Model) parked(ctx context.Context, p delivery.Programme) error {
	runs, err := m.work.Desk.Runs(ctx, "")
	if err != nil {
		return err
	}
	for _, r := range runs {
		_, stays := p.Vehicle(r.Vehicle)
		if _, was := m.inForce.Vehicle(r.Vehicle); was && !stays {
			return refusal.New(refusal.Conflict, fmt.Sprintf("%s can't go: its run of %s is not ended.", r.Vehicle, r.Day), "Close the run first, or discard the change.")
		}
	}
	return nil
}
