package stocktake

import (
	"fmt"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/ask"
	"lungwort/ui/work"
)

// FinishForm asks who settles the differences, and holds the count against the
// book.
func (m *Model) FinishForm() ask.Form {
	return ask.Form{
		Title: "Count of " + m.Act().Where(), Button: "Finish",
		Before: fmt.Sprintf("%d scanned. Nothing is moved by finishing: the differences are shown, each with its next step.", len(m.Rows)),
		Fields: []ask.Field{
			{Key: "owner", Label: "Settles them", Value: m.work.By, Hint: "who looks after the differences"},
			ask.When(m.work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r, act := ask.Read(a), m.Act()
			act.Owner = r.Need("owner", "write who settles the differences")
			hand := m.work.Hand(inventory.Scanned)
			hand.At = r.Past("when", m.work.Now())
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			m.work.Try("stocktake", hand, act, func(out store.Outcome, err error) {
				closed(err)
				if err == nil {
					m.finished(out)
				}
			})
			return nil
		},
	}
}

func (m *Model) finished(out store.Outcome) {
	m.Rows, m.Sign = nil, scene.Sign{Verdict: scene.Holds, Word: "IT FITS", Below: m.Act().Where()}
	for _, f := range out.Facts {
		s, is := f.Statement.(*inventory.Stocktaken)
		if !is {
			continue
		}
		m.Shown = key(f)
		if n := len(s.Different); n > 0 {
			m.Sign = scene.Sign{Verdict: scene.Tight, Word: fmt.Sprintf("%d DIFFER", n), Below: s.Owner + " settles them"}
		}
	}
	m.Load()
}

// Settle does the next step of a difference: it moves the thing in the book,
// or goes on to where more is asked: the page of a retired thing, the returns.
func (m *Model) Settle(key string) {
	count, shown := m.count()
	for _, d := range m.Differences {
		if !shown || differenceKey(d) != key || d.Settled {
			continue
		}
		act, moves := d.Step(count.taken)
		if !moves && (d.Thing.State == inventory.Gone || d.Sort == inventory.OtherZone) {
			m.OpenItem(d.Item)
			return
		}
		if !moves {
			m.work.Open(work.Target{Room: work.Return, Text: d.Serial})
			return
		}
		m.work.Do("stocktake settle", m.work.Hand(inventory.Keyed), act, func(out store.Outcome) {
			m.work.OfferUndo(out, m.Load)
			m.Load()
		})
		return
	}
}

// OpenItem goes to the page of a thing the book knows.
func (m *Model) OpenItem(id inventory.ItemID) {
	if id != "" {
		m.work.Open(work.Target{Room: work.Item, Item: id})
	}
}

func differenceKey(d delivery.CountDifference) string {
	return d.Sort + " " + string(d.Item) + d.Serial
}
