package measures

import (
	"cmp"
	"slices"
	"strings"
	"time"
)

func (b Book) firstOrder() Measure {
	return Measure{
		Name: "First order to running", Sort: Lasts,
		Definition: "The first order for this time at home until the concentrator was confirmed running. Who is not running yet counts as longer.",
		Cases:      b.fromOrder(func(e Episode) time.Time { return e.First }),
	}
}

func (b Book) completeOrder() Measure {
	return Measure{
		Name: "Complete order to running", Sort: Lasts,
		Definition: "The last order before the valve was opened until the concentrator was confirmed running: what lies with the programme.",
		Cases:      b.fromOrder(func(e Episode) time.Time { return e.Complete }),
	}
}

// fromOrder leaves out whose order is not in the book, and who ended before a
// concentrator ran: nothing was to run then.
func (b Book) fromOrder(order func(Episode) time.Time) []Case {
	var cases []Case
	for _, e := range b.Episodes {
		from := order(e)
		if from.IsZero() || e.Running.IsZero() && !e.Ended.IsZero() {
			continue
		}
		cases = append(cases, b.lasted(Case{Person: e.Person}, from, e.Running))
	}
	return cases
}

func (b Book) margin() Measure {
	m := Measure{
		Name: "Bridge margin", Sort: Lasts, Least: true,
		Definition: "Planning minutes left in the cylinder when the concentrator was confirmed, by the gauge read then; where none was read nothing is counted.",
	}
	for _, e := range b.Episodes {
		if e.MarginSet {
			m.Cases = append(m.Cases, Case{Person: e.Person, At: e.Running, Took: e.Margin})
		}
	}
	return m
}

func (b Book) without() Measure {
	m := Measure{
		Name: "Without oxygen", Sort: Counts,
		Definition: "Every cylinder in the home at zero while the person breathed from the cylinder, counted once until gas is brought or read, or told on the phone that the flow was turned down to save gas. People seldom call: ask on every call.",
	}
	for _, e := range b.Episodes {
		for _, l := range e.Without {
			m.Cases = append(m.Cases, Case{Person: e.Person, At: l.At, Why: l.Why})
		}
	}
	return oldestFirst(m)
}

func (b Book) emergencies() Measure {
	m := Measure{
		Name: "Trips outside the shift", Sort: Counts,
		Definition: "Visits made outside the shift of every vehicle, by what they were for.",
	}
	for _, trips := range b.Trips {
		for _, t := range trips {
			if t.Outside {
				m.Cases = append(m.Cases, Case{Person: t.Person, At: t.At, Why: t.Cause})
			}
		}
	}
	return oldestFirst(m)
}

func (b Book) tried() Measure {
	return Measure{
		Name: "First call tried in time", Sort: Shares, Asked: "tried in time",
		Definition: "The first call was made by the programme's latest time after the valve was opened, answered or not.",
		Cases:      b.firstCalls(func(e Episode) time.Time { return e.Tried }),
	}
}

func (b Book) reached() Measure {
	return Measure{
		Name: "First call answered in time", Sort: Shares, Asked: "answered in time",
		Definition: "Somebody answered by the programme's latest time after the valve was opened. A try is not an answer.",
		Cases:      b.firstCalls(func(e Episode) time.Time { return e.Reached }),
	}
}

// firstCalls leaves out who ended before the call was due.
func (b Book) firstCalls(call func(Episode) time.Time) []Case {
	var cases []Case
	for _, e := range b.Episodes {
		due, at := e.Opened.Add(b.Programme.Calls.Latest), call(e)
		if !e.Ended.IsZero() && e.Ended.Before(due) {
			continue
		}
		met := !at.IsZero() && !at.After(due)
		cases = append(cases, Case{Person: e.Person, At: e.Opened, Met: met, Open: !met && b.Now.Before(due)})
	}
	return cases
}

func (b Book) papers() Measure {
	m := Measure{
		Name: "Papers complete", Sort: Shares, Asked: "complete",
		Definition: "Proof of delivery for everything lent, the questions of consent answered, a gauge read; by what is lacking.",
	}
	for _, e := range b.Episodes {
		lacks := e.lacksPapers()
		m.Cases = append(m.Cases, Case{Person: e.Person, At: e.Opened, Met: lacks == "", Why: lacks})
	}
	return m
}

func (e Episode) lacksPapers() string {
	var lacks []string
	for _, item := range e.Lent {
		if !e.Proven[item] {
			lacks = append(lacks, "proof")
			break
		}
	}
	if !e.Consents {
		lacks = append(lacks, "consent")
	}
	if !e.Read {
		lacks = append(lacks, "reading")
	}
	return strings.Join(lacks, ", ")
}

func oldestFirst(m Measure) Measure {
	slices.SortStableFunc(m.Cases, func(a, b Case) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Person, b.Person), cmp.Compare(a.Item, b.Item))
	})
	return m
}
