// Package measures answers "are we any good?": what the programme is judged
// by, each with its definition, month by month, down to the cases.
package measures

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strconv"

	"lungwort/delivery"
	"lungwort/delivery/measures"
	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/work"
)

// Row is one measure, its words ready.
type Row struct {
	Name, Cases, Says string
	Few               bool
}

// Case is one case of the measure in hand, its words ready.
type Case struct {
	Key, Who, When, Says, Why string
	Open                      bool
}

// Model is what the screen shows.
type Model struct {
	work *work.Work

	Rows  []Row
	Cases []Case // of the measure in hand, the last first

	list   []measures.Measure
	names  map[inventory.PersonID]string
	labels map[inventory.ItemID]string
	here   int

	Changed func() // the measures are worked out anew
	Chosen  func() // another measure is in hand
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model { return &Model{work: w, Changed: func() {}, Chosen: func() {}} }

// read is the measures with the names their cases go by.
type read struct {
	list   []measures.Measure
	names  map[inventory.PersonID]string
	labels map[inventory.ItemID]string
}

// Load works the measures out anew, off the window's goroutine.
func (m *Model) Load() {
	now := m.work.Now()
	work.Ask(m.work, "measures", func(ctx context.Context) (r read, err error) {
		if r.list, err = m.work.Desk.Measures(ctx, now); err != nil {
			return r, err
		}
		if r.names, err = m.work.Desk.Names(ctx); err != nil {
			return r, err
		}
		r.labels, err = m.work.Desk.Labels(ctx)
		return r, err
	}, m.show)
}

func (m *Model) show(r read) {
	m.list, m.names, m.labels = r.list, r.names, r.labels
	m.Rows = make([]Row, len(r.list))
	for i, l := range r.list {
		f := l.Figure()
		m.Rows[i] = Row{Name: l.Name, Cases: strconv.Itoa(f.N), Says: l.Says(f), Few: f.N > 0 && f.Few}
	}
	m.here = min(m.here, max(0, len(r.list)-1))
	m.cases()
	m.Changed()
}

// Choose takes a measure in hand.
func (m *Model) Choose(name string) {
	i := slices.IndexFunc(m.list, func(l measures.Measure) bool { return l.Name == name })
	if i < 0 || i == m.here {
		return
	}
	m.here = i
	m.cases()
	m.Chosen()
}

// Name is the measure in hand.
func (m *Model) Name() string { return m.measure().Name }

func (m *Model) measure() measures.Measure {
	if m.here >= len(m.list) {
		return measures.Measure{}
	}
	return m.list[m.here]
}

// shown is how many cases the list holds: the last ones.
const shown = 500

func (m *Model) cases() {
	m.Cases = nil
	of, now := m.measure(), m.work.Now()
	for i := len(of.Cases) - 1; i >= 0 && len(m.Cases) < shown; i-- {
		c := of.Cases[i]
		m.Cases = append(m.Cases, Case{
			Key: strconv.Itoa(i), Who: cmp.Or(m.names[c.Person], m.labels[c.Item], "nobody"),
			When: delivery.Clock(c.At, now), Says: told(of, c), Why: why(c, m.labels), Open: c.Open,
		})
	}
}

// why tells what a case is split by, and the thing where a person stands for
// it.
func why(c measures.Case, labels map[inventory.ItemID]string) string {
	label := labels[c.Item]
	switch {
	case c.Person == "" || label == "":
		return c.Why
	case c.Why == "":
		return label
	}
	return label + ", " + c.Why
}

func told(of measures.Measure, c measures.Case) string {
	switch {
	case of.Sort == measures.Lasts && c.Open:
		return "for " + measures.Spell(c.Took) + ", open"
	case of.Sort == measures.Lasts:
		return measures.Spell(c.Took)
	case of.Sort == measures.Sums:
		return fmt.Sprintf("%.0f", c.Amount)
	case of.Sort == measures.Counts:
		return ""
	case c.Open:
		return "open"
	case c.Met:
		return of.Asked
	}
	return "not " + of.Asked
}

// OpenCase goes to the person or the thing of a case.
func (m *Model) OpenCase(key string) {
	i, err := strconv.Atoi(key)
	if err != nil || i >= len(m.measure().Cases) {
		return
	}
	switch c := m.measure().Cases[i]; {
	case c.Person != "":
		m.work.Open(work.Target{Room: work.Person, Person: c.Person})
	case c.Item != "":
		m.work.Open(work.Target{Room: work.Item, Item: c.Item})
	}
}

// Definition says what the measure in hand counts.
func (m *Model) Definition() string { return m.measure().Definition }

// Parts tells the measure in hand by cause, kind or reason.
func (m *Model) Parts() []string { return paperwork.PartsInWords(m.measure()) }

// Chart is the measure in hand month by month.
func (m *Model) Chart() scene.MonthData { return paperwork.MonthData(m.measure(), m.work.Now()) }

// Print prints all measures.
func (m *Model) Print() {
	m.work.Paper("measures", "The pages of the measures are", func(ctx context.Context, c paperwork.Clerk) (paperwork.Printable, error) {
		return c.MeasurePages(ctx)
	})
}
