package inventory

import "time"

// Span is a time in which an item was in one state. Until is zero while it
// lasts.
type Span struct {
	State  State
	Person PersonID // who had it, or whom it was reserved for
	From   time.Time
	Until  time.Time
}

// Course returns the states one item went through, oldest first, from the
// facts about it. The last is the state Fold tells.
func Course(id ItemID, facts []Fact) []Span {
	item := Item{ID: id, State: InQuarantine, Place: At(AtMissing, ""), trail: new(trail)}
	var spans []Span
	for _, f := range Standing(facts) {
		if f.Item != id {
			continue
		}
		item.apply(f)
		n := len(spans)
		if n > 0 && spans[n-1].State == item.State && spans[n-1].Person == item.Person {
			continue
		}
		if n > 0 {
			spans[n-1].Until = f.Happened
		}
		spans = append(spans, Span{State: item.State, Person: item.Person, From: f.Happened})
	}
	return spans
}
