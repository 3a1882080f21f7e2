package store

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Audit is the outcome of rebuilding every derived state from the facts, and of
// proving the chain of their seals.
type Audit struct {
	Facts      int      `json:"facts"`
	Mismatches []string `json:"mismatches"`
}

// Audit rebuilds every derived state from the facts and compares it with what
// is stored, and says where a seal does not hold. It reads only.
func (d *Desk) Audit(ctx context.Context) (Audit, error) {
	a := Audit{Mismatches: []string{}}
	err := d.book.Read(ctx, func(tx *book.Tx) error {
		facts, err := items.Facts(tx, d.words, items.About{})
		if err != nil {
			return err
		}
		a.Facts = len(facts)
		for _, part := range []struct {
			table, columns string
			rebuilt        map[string][]any
		}{
			{"item_now", items.Columns, rebuild(facts, func(f inventory.Fact) inventory.ItemID { return f.Item }, inventory.Fold, items.Row)},
			{"person_now", personColumns, rebuildPersons(facts)},
			{"run_now", runColumns, rebuild(facts, func(f inventory.Fact) inventory.RunID { return f.Run }, delivery.FoldRun, runRow)},
		} {
			wrong, err := compare(tx, part.table, part.columns, part.rebuilt)
			if err != nil {
				return err
			}
			a.Mismatches = append(a.Mismatches, wrong...)
		}
		wrong, err := broken(tx)
		a.Mismatches = append(a.Mismatches, wrong...)
		return err
	})
	return a, err
}

// rebuild returns the row of each subject, from the fold of its facts. A state
// that can't be written makes an empty row, which matches nothing.
func rebuild[ID ~string, S any](facts []inventory.Fact, id func(inventory.Fact) ID, fold func(ID, []inventory.Fact) S, row func(S) ([]any, error)) map[string][]any {
	by := make(map[ID][]inventory.Fact)
	for _, f := range facts {
		if x := id(f); x != "" {
			by[x] = append(by[x], f)
		}
	}
	rows := make(map[string][]any, len(by))
	for x, of := range by {
		if len(inventory.Standing(of)) > 0 {
			rows[string(x)], _ = row(fold(x, of))
		}
	}
	return rows
}

// rebuildPersons folds the facts of each person and of every item the person
// ever had.
func rebuildPersons(facts []inventory.Fact) map[string][]any {
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
	rows := make(map[string][]any, len(own))
	for who, about := range own {
		around := around(who, about, ofItem)
		if !speaksOf(who, inventory.Standing(around)) {
			continue
		}
		rows[string(who)], _ = personRow(delivery.FoldCare(who, around))
	}
	return rows
}

// around returns the facts about a person with those about every item the
// person ever had, in the order of recording.
func around(who inventory.PersonID, own []inventory.Fact, ofItem map[inventory.ItemID][]inventory.Fact) []inventory.Fact {
	all := slices.Clone(own)
	for _, item := range different(own, func(f inventory.Fact) inventory.ItemID { return f.Item }) {
		for _, f := range ofItem[item] {
			if f.Person != who {
				all = append(all, f)
			}
		}
	}
	slices.SortFunc(all, func(a, b inventory.Fact) int { return cmp.Compare(a.ID, b.ID) })
	return all
}

// compare lists where a derived table differs from what was rebuilt, in any
// column. The key is the first of the columns.
func compare(tx *book.Tx, table, columns string, rebuilt map[string][]any) ([]string, error) {
	names := strings.Split(columns, ", ")
	stored, err := book.List(tx, func(row book.Row) ([]string, error) {
		cells := make([]string, len(names))
		into := make([]any, len(names))
		for i := range cells {
			into[i] = &cells[i]
		}
		return cells, row.Scan(into...)
	}, `SELECT `+columns+` FROM `+table+` ORDER BY `+names[0])
	if err != nil {
		return nil, err
	}
	var wrong []string
	for _, cells := range stored {
		id := cells[0]
		want, ok := rebuilt[id]
		if !ok {
			wrong = append(wrong, fmt.Sprintf("%s %s is stored but no fact speaks of it", table, id))
			continue
		}
		if different := differs(names, cells, want); len(different) > 0 {
			wrong = append(wrong, fmt.Sprintf("%s %s differs from its facts: %s", table, id, strings.Join(different, ", ")))
		}
		delete(rebuilt, id)
	}
	for _, id := range slices.Sorted(maps.Keys(rebuilt)) {
		wrong = append(wrong, fmt.Sprintf("%s %s has facts but is not stored", table, id))
	}
	return wrong, nil
}

// differs returns the names of the cells that are not as rebuilt.
func differs(names, cells []string, want []any) []string {
	var different []string
	for i, name := range names {
		if i >= len(want) || fmt.Sprint(want[i]) != cells[i] {
			different = append(different, name)
		}
	}
	return different
}
