package measures

import (
	"cmp"
	"time"

	"lungwort/delivery/stocking"
	"lungwort/inventory"
)

// span is a part of a loan: its begin and its end, each zero when it has not
// come.
type span func(stocking.Cycle) (from, to time.Time)

func out(c stocking.Cycle) (from, to time.Time) { return c.Lent, c.Back }

func stayOf(stage stocking.Stage) span {
	return func(c stocking.Cycle) (time.Time, time.Time) { return c.Begin(stage), c.End(stage) }
}

// stage is a measure of how long a part of the loans lasts, by kind. What was
// lost counts as longer than until it was lost.
func (b Book) stage(name, definition string, part span) Measure {
	m := Measure{Name: name, Definition: definition, Sort: Lasts}
	b.loans(func(item inventory.Item, c stocking.Cycle) {
		from, to := part(c)
		if from.IsZero() {
			return
		}
		done := b.lasted(Case{Person: c.Person, Item: item.ID, Why: string(item.Spec.Kind)}, from, to)
		if done.Open && !c.Lost.IsZero() {
			done.Took = max(0, c.Lost.Sub(from))
		}
		m.Cases = append(m.Cases, done)
	})
	return oldestFirst(m)
}

// loans calls back with every loan of our things.
func (b Book) loans(each func(inventory.Item, stocking.Cycle)) {
	for _, item := range b.Items {
		if item.Spec.Foreign {
			continue
		}
		for _, c := range b.Cycles[item.ID] {
			each(item, c)
		}
	}
}

func (b Book) recovery() Measure {
	m := Measure{
		Name: "Came back", Sort: Shares, Asked: "came back",
		Definition: "Of the things lent to people whose time on oxygen has ended: taken back or not, by kind and by why it ended. What is not back and not lost is open.",
	}
	exits := make(map[inventory.PersonID][]Episode)
	for _, e := range b.Episodes {
		exits[e.Person] = append(exits[e.Person], e)
	}
	b.loans(func(item inventory.Item, c stocking.Cycle) {
		exit := exitOf(exits[c.Person], c)
		if exit == "" {
			return
		}
		back := !c.Back.IsZero()
		m.Cases = append(m.Cases, Case{
			Person: c.Person, Item: item.ID, At: c.Lent, Met: back, Open: !back && c.Lost.IsZero(),
			Why: string(item.Spec.Kind) + ", " + exit,
		})
	})
	return oldestFirst(m)
}

// exitOf says why the time on oxygen that a loan belongs to ended; empty while
// it goes on.
func exitOf(episodes []Episode, c stocking.Cycle) string {
	if n := nth(episodes, c); n >= 0 {
		return episodes[n].Exit
	}
	return ""
}

func (b Book) lost() Measure {
	m := Measure{
		Name: "Lost", Sort: Sums,
		Definition: "The worth of what is missing now, by the reason entered. What was found again is taken off, its history stays.",
	}
	for _, item := range b.Items {
		if item.Loss != nil && item.Loss.Found.IsZero() && item.State == inventory.Missing {
			m.Cases = append(m.Cases, Case{
				Person: item.Loss.Person, Item: item.ID, At: item.Loss.At, Amount: item.Loss.Worth, Why: cmp.Or(item.Loss.Why, noReason),
			})
		}
	}
	return oldestFirst(m)
}

func (b Book) inUse() Measure {
	m := Measure{
		Name: "In use now", Sort: Shares, Asked: "in use",
		Definition: "Of what is owned and not in repair: with a person who needs it. What stands idle in a home is not in use.",
	}
	for _, item := range b.Items {
		switch {
		case item.Spec.Foreign, item.State == inventory.NotOurs, item.State == inventory.Gone, item.State == inventory.InRepair:
			continue
		}
		used := item.State == inventory.AtWork || item.State == inventory.AsBackup || item.State == inventory.HandedOver
		m.Cases = append(m.Cases, Case{Person: item.Person, Item: item.ID, At: b.Now, Met: used, Why: string(item.Spec.Kind)})
	}
	return m
}

func (b Book) tests() Measure {
	m := Measure{
		Name: "Passed its test", Sort: Shares, Asked: "passed",
		Definition: "Of all tests on the bench, by kind. A fall says that purity, flow or leaks get worse.",
	}
	for _, item := range b.Items {
		for _, f := range inventory.Standing(b.Facts[item.ID]) {
			if s, is := f.Statement.(*inventory.Tested); is {
				m.Cases = append(m.Cases, Case{Item: item.ID, At: f.Happened, Met: s.Passed, Why: string(item.Spec.Kind)})
			}
		}
	}
	return oldestFirst(m)
}

func (b Book) located() Measure {
	m := Measure{
		Name: "Recalled, located within 24 h", Sort: Shares, Asked: "located in time",
		Definition: "Of the things marked by a recall: seen by one of us, or told by who has it, within 24 hours of the mark.",
	}
	for _, u := range b.Recalled {
		due := u.Marked.Add(24 * time.Hour)
		met := !u.Located.IsZero() && !u.Located.After(due)
		m.Cases = append(m.Cases, Case{Item: u.Item.ID, At: u.Marked, Met: met, Open: !met && b.Now.Before(due), Why: u.Item.Recall})
	}
	return oldestFirst(m)
}
