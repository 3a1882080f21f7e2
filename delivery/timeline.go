package delivery

import (
	"fmt"
	"slices"

	"lungwort/inventory"
)

// Entry is one fact as a timeline tells it.
type Entry struct {
	inventory.Fact
	Words string // what happened
	// Corrected says by what the fact was corrected; empty while it stands.
	Corrected string
}

// Timeline returns facts in words, newest first. Corrected facts stay in
// their place and say so; the retraction itself is not told twice.
func Timeline(facts []inventory.Fact) []Entry {
	corrected := inventory.Corrections(facts)
	var list []Entry
	for _, f := range inventory.InOrder(facts) {
		if _, bare := f.Statement.(*inventory.Retracted); bare {
			continue
		}
		e := Entry{Fact: f, Words: Sentence(f)}
		if by, gone := corrected[f.ID]; gone {
			e.Corrected = correctedBy(by)
		}
		list = append(list, e)
	}
	slices.Reverse(list)
	return list
}

func correctedBy(f inventory.Fact) string {
	if s, bare := f.Statement.(*inventory.Retracted); bare {
		return fmt.Sprintf("taken back by %s: %s", f.By, s.Why)
	}
	return fmt.Sprintf("corrected by fact %d: %s", f.ID, Sentence(f))
}
