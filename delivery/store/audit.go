package store

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"slices"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Audit is the outcome of rebuilding every derived state from the facts.
type Audit struct {
	Facts      int      `json:"facts"`
	Mismatches []string `json:"mismatches"`
}

// Audit rebuilds every derived state from the facts and compares it with what
// is stored. It reads only.
func (d *Desk) Audit(ctx context.Context) (Audit, error) {
	a := Audit{Mismatches: []string{}}
	err := d.book.Read(ctx, func(tx *book.Tx) error {
		facts, err := items.Facts(tx, d.words, items.About{})
		if err != nil {
			return err
		}
		a.Facts = len(facts)
		for _, part := range []struct {
			table, key string
			rebuilt    map[string]any
		}{
			{"item_now", "item_id", rebuild(facts, func(f inventory.Fact) inventory.ItemID { return f.Item }, inventory.Fold)},
			{"person_now", "person_id", rebuildPersons(facts)},
			{"run_now", "run_id", rebuild(facts, func(f inventory.Fact) inventory.RunID { return f.Run }, delivery.FoldRun)},
		} {
			wrong, err := compare(tx, part.table, part.key, part.rebuilt)
			if err != nil {
				return err
			}
			a.Mismatches = append(a.Mismatches, wrong...)
		}
		return nil
	})
	return a, err
}

// rebuild folds the facts of each subject.
func rebuild[ID ~string, S any](facts []inventory.Fact, id func(inventory.Fact) ID, fold func(ID, []inventory.Fact) S) map[string]any {
	by := make(map[ID][]inventory.Fact)
	for _, f := range facts {
		if x := id(f); x != "" {
			by[x] = append(by[x], f)
		}
	}
	states := make(map[string]any, len(by))
	for x, of := range by {
		states[string(x)] = fold(x, of)
	}
	return states
}

// rebuildPersons folds the facts of each person and of every item the person
// ever had.
func rebuildPersons(facts []inventory.Fact) map[string]any {
	ofItem := make(map[inventory.ItemID][]inventory.Fact)
	own := make(map[inventory.PersonID][]inventory.Fact)
	for _, f := range facts {
		if f.Item != "" {
			ofItem[f.Item] = append(ofItem[f.Item], f)
		}
		if f.Person != "" {
			own[f.Person] = append(own[f.Person], f)
		}
	}
	states := make(map[string]any, len(own))
	for who, about := range own {
		around := slices.Clone(about)
		for _, item := range touched(about, func(f inventory.Fact) inventory.ItemID { return f.Item }) {
			for _, f := range ofItem[item] {
				if f.Person != who {
					around = append(around, f)
				}
			}
		}
		slices.SortFunc(around, func(a, b inventory.Fact) int { return cmp.Compare(a.ID, b.ID) })
		states[string(who)] = delivery.FoldCare(who, around)
	}
	return states
}

// compare lists where a derived table differs from what was rebuilt.
func compare(tx *book.Tx, table, key string, rebuilt map[string]any) ([]string, error) {
	type stored struct{ id, body string }
	rows, err := book.List(tx, func(row book.Row) (stored, error) {
		var s stored
		return s, row.Scan(&s.id, &s.body)
	}, `SELECT `+key+`, body FROM `+table+` ORDER BY `+key)
	if err != nil {
		return nil, err
	}
	var wrong []string
	for _, s := range rows {
		state, ok := rebuilt[s.id]
		if !ok {
			wrong = append(wrong, fmt.Sprintf("%s %s is stored but no fact speaks of it", table, s.id))
			continue
		}
		body, err := json.Marshal(state)
		if err != nil {
			return nil, err
		}
		if string(body) != s.body {
			wrong = append(wrong, fmt.Sprintf("%s %s differs from its facts", table, s.id))
		}
		delete(rebuilt, s.id)
	}
	for id := range rebuilt {
		wrong = append(wrong, fmt.Sprintf("%s %s has facts but is not stored", table, id))
	}
	return wrong, nil
}
