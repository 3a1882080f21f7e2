// Package chase is the screen of what stands in homes and is not needed there:
// where it is, how far away, who was asked how often, and what comes next. After
// a death nobody is pressed.
package chase

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/ui/ask"
	"lungwort/ui/work"
)

// Order is what the list begins with.
type Order string

// The orders: by the next step for an ordinary day, by distance for a surge.
const (
	ByDue      Order = "due"
	ByDistance Order = "near"
)

// Row is one home, its words ready.
type Row struct {
	ID     inventory.PersonID
	Name   string
	Where  string
	Things string
	Idle   string // not needed for so long
	Asked  string
	Last   string // what was answered
	Next   string
	Due    string
	Over   bool // the next step is due
	Silent bool // nobody may be asked yet
}

// Model is what the screen shows and does.
type Model struct {
	work *work.Work

	Order Order
	Rows  []Row
	Title string

	list    []delivery.Hidden
	now     time.Time
	Changed func()
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model { return &Model{work: w, Order: ByDue, Changed: func() {}} }

// Load reads what is not needed anew.
func (m *Model) Load() {
	m.now = m.work.Now()
	work.Ask(m.work, "chase", func(ctx context.Context) ([]delivery.Hidden, error) {
		return m.work.Desk.Hidden(ctx, m.now)
	}, m.show)
}

// Sort shows the list in another order.
func (m *Model) Sort(by Order) {
	m.Order = by
	m.show(m.list)
}

func (m *Model) show(list []delivery.Hidden) {
	m.list, m.Rows = list, nil
	if m.Order == ByDistance {
		delivery.ByDistance(m.list)
	} else {
		slices.SortStableFunc(m.list, func(a, b delivery.Hidden) int { return cmp.Or(a.Due.Compare(b.Due), a.Since.Compare(b.Since)) })
	}
	things := 0
	for _, h := range m.list {
		things += len(h.Things)
		m.Rows = append(m.Rows, m.row(h))
	}
	m.Title = ""
	if things > 0 {
		m.Title = plural(things, "thing") + " in " + plural(len(m.Rows), "home")
	}
	m.Changed()
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func (m *Model) row(h delivery.Hidden) Row {
	r := Row{
		ID: h.Person.ID, Name: h.Person.Name(), Where: h.Address.Where(), Things: h.Labels(),
		Idle: delivery.Spell(m.now.Sub(h.Since)), Asked: "not yet", Next: h.Step, Due: delivery.Clock(h.Due, m.now),
		Over: !h.Silent && !h.Due.After(m.now), Silent: h.Silent,
	}
	if h.Ride > 0 {
		r.Where = delivery.Spell(h.Ride) + " · " + r.Where
	}
	if n := len(h.Asked); n > 0 {
		last := h.Asked[n-1]
		r.Asked, r.Last = fmt.Sprintf("%d × · %s", n, delivery.Clock(last.At, m.now)), strings.Trim(last.Step+": "+last.Reply, ": ")
	}
	return r
}

// InHand returns the home of a row.
func (m *Model) InHand(id inventory.PersonID) (delivery.Hidden, bool) {
	i := slices.IndexFunc(m.list, func(h delivery.Hidden) bool { return h.Person.ID == id })
	if i < 0 {
		return delivery.Hidden{}, false
	}
	return m.list[i], true
}

// AskedForm records that somebody was asked, in the tone the home needs.
func (m *Model) AskedForm(h delivery.Hidden) ask.Form {
	before := "Next: " + h.Step + "."
	if h.Died {
		before = "This person died. " + before + " Nobody is pressed, and no value is named."
	}
	return ask.Form{
		Title: "Asked " + h.Person.Name(), Button: "Note it", Before: before,
		Fields: []ask.Field{
			{Key: "step", Label: "What was done", Value: h.Step},
			{Key: "reply", Label: "The answer", Hint: "as they said it; empty: none"},
			ask.When(m.work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			return m.try(r, delivery.Chase{Person: h.Person.ID, Step: r.Need("step", "write what was done"), Reply: a.Text("reply")}, closed)
		},
	}
}

// LostForm enters one of the things as lost. After a death it is not offered
// before the one person named was asked.
func (m *Model) LostForm(h delivery.Hidden) (ask.Form, bool) {
	if h.Silent || len(h.Things) == 0 {
		return ask.Form{}, false
	}
	var things []ask.Option
	for _, t := range h.Things {
		things = append(things, ask.Option{Value: string(t.Item), Label: cmp.Or(t.Spec.Serial, t.Spec.What())})
	}
	return ask.Form{
		Title: "Lost at " + h.Person.Name(), Button: "Enter it as lost", Danger: true,
		Before: "Its history stays, and it is taken in again when it is found.",
		Fields: []ask.Field{
			{Key: "item", Label: "What", Kind: ask.Pick, Options: things, Value: things[0].Value},
			{Key: "worth", Label: "Its value", Kind: ask.Number, Hint: "to replace it, in the money of the programme; blank: as the settings say"},
			{Key: "why", Label: "Why", Hint: "moved away, thrown away, stolen"},
			ask.When(m.work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.Lose{Item: inventory.ItemID(r.Need("item", "choose what is lost")), Why: r.Need("why", "write what is known of it")}
			act.Worth = r.Number("worth", "", 0, 1e9)
			return m.try(r, act, closed)
		},
	}, true
}

// Mute refuses to ask while nobody may be asked.
func (m *Model) Mute(h delivery.Hidden) bool {
	if h.Silent {
		m.work.Refuse(refusal.New(refusal.Conflict, "This person died. Nobody is asked before "+h.Due.Format("Mon 2 Jan")+".", "Then "+h.Step+"."))
	}
	return h.Silent
}

// Open goes to the page of a home's person.
func (m *Model) Open(id inventory.PersonID) {
	m.work.Open(work.Target{Room: work.Person, Person: id})
}

func (m *Model) try(r *ask.Reader, act delivery.Act, closed func(error)) ask.Wrong {
	hand := m.work.Hand(inventory.Keyed)
	hand.At = r.Past("when", m.work.Now())
	if len(r.Wrong()) > 0 {
		return r.Wrong()
	}
	m.work.Try("chase", hand, act, func(out store.Outcome, err error) {
		closed(err)
		if err == nil {
			m.work.OfferUndo(out, m.Load)
			m.Load()
		}
	})
	return nil
}
