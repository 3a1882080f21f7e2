package takein

import (
	"context"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/work"
)

// LookBack reads what was taken in before.
func (m *Model) LookBack() {
	work.Ask(m.work, "lists taken in", func(ctx context.Context) ([]store.Taken, error) {
		return m.work.Desk.Lists(ctx)
	}, func(lists []store.Taken) {
		m.Earlier = lists
		m.Changed()
	})
}

// TakeBack returns the form that takes everything back that a list wrote.
func (m *Model) TakeBack(list inventory.FactID) (ask.Form, bool) {
	for _, l := range m.Earlier {
		if l.Fact == list && !l.Back {
			return m.takeBack(l), true
		}
	}
	return ask.Form{}, false
}

func (m *Model) takeBack(l store.Taken) ask.Form {
	return ask.Form{
		Title: "Take a list back", Button: "Take all of it back", Danger: true,
		Before: delivery.Clock(l.At.In(m.work.Now().Location()), m.work.Now()) + ": " + l.Says +
			". Every fact it wrote is taken back by a new one. Where later facts rest on it, they are named and nothing is done.",
		Fields: []ask.Field{{Key: "why", Label: "Why", Hint: "the wrong file, columns mixed up, a list of last year"}},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			read := ask.Read(a)
			why := read.Need("why", "write the reason: it stays with the facts")
			if len(read.Wrong()) > 0 {
				return read.Wrong()
			}
			m.work.Try("take back", m.work.Hand(inventory.Keyed), delivery.TakeBack{TookIn: l.Fact, Why: why}, func(_ store.Outcome, err error) {
				closed(err)
				if err == nil {
					m.LookBack()
				}
			})
			return nil
		},
	}
}
