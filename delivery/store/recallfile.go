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

// RecallFile returns the marked items of a notice in the order of risk.
func (d *Desk) RecallFile(ctx context.Context, notice string, now time.Time) ([]delivery.RecallUnit, error) {
	watch, err := d.Watch(ctx, now)
	if err != nil {
		return nil, err
	}
	homes := make(map[inventory.PersonID]delivery.Watch, len(watch))
	for _, w := range watch {
		homes[w.Person.ID] = w
	}
	var units []delivery.RecallUnit
	err = d.read(ctx, func(tx *book.Tx) error {
		marked, err := items.Recalled(tx)
		if err != nil {
			return err
		}
		for _, item := range marked {
			if item.Recall != notice {
				continue
			}
			facts, err := items.Facts(tx, d.words, items.About{Item: item.ID})
			if err != nil {
				return err
			}
			u := delivery.RecallUnitOf(item, facts)
			if w, watched := homes[u.Person]; watched && !u.Done {
				u.Cover, u.Urgent, u.Visit = w.Forecast.CoverLow, w.Urgent, w.Visit
				u.Due = dueOf(w.Care, notice)
			}
			units = append(units, u)
		}
		return nil
	})
	delivery.ByRisk(units)
	return units, err
}

// dueOf returns by when the recall's swap of a person is due.
func dueOf(care delivery.Care, notice string) time.Time {
	for _, t := range care.Tasks {
		if t.Tasked.Task == delivery.Swap && t.Why == "recall "+notice {
			return t.Due
		}
	}
	return time.Time{}
}

// Recalls returns the notices with marked items, by name.
func (d *Desk) Recalls(ctx context.Context) ([]string, error) {
	var notices []string
	err := d.read(ctx, func(tx *book.Tx) error {
		marked, err := items.Recalled(tx)
		for _, item := range marked {
			if !slices.Contains(notices, item.Recall) {
				notices = append(notices, item.Recall)
			}
		}
		return err
	})
	slices.Sort(notices)
	return notices, err
}
