// Package needs is the first screen: every home that needs somebody, most
// urgent first, each row with its clock, its verdict and its next action.
package needs

import (
	"context"
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/work"
)

// Horizons are how far ahead the ribbons can look.
var Horizons = []time.Duration{6 * time.Hour, 24 * time.Hour, 72 * time.Hour}

// Row is one home as the list shows it, its words ready.
type Row struct {
	ID      inventory.PersonID
	Verdict string
	Name    string // with the street
	State   string // situation, gas with its age, flow
	Next    string
	Urgent  bool
	Ribbon  scene.RibbonData
}

// Model is what the first screen shows.
type Model struct {
	work *work.Work

	Horizon time.Duration
	All     bool // every home on oxygen, not only those that need somebody
	Rows    []Row
	Total   int       // homes on oxygen
	AsOf    time.Time // of the facts shown
	Stock   string    // what the depots could send now

	Changed func() // the view draws itself anew
}

// NewModel returns an empty first screen.
func NewModel(w *work.Work) *Model {
	return &Model{work: w, Horizon: Horizons[0], Changed: func() {}}
}

// loaded is one reading of the book.
type loaded struct {
	watch []delivery.Watch
	stock string
	now   time.Time
}

// Load reads the watch list anew.
func (m *Model) Load() {
	now := m.work.Now()
	work.Ask(m.work, "needs", func(ctx context.Context) (loaded, error) {
		rows, err := m.work.Desk.Watch(ctx, now)
		if err != nil {
			return loaded{}, err
		}
		stock, err := m.stock(ctx, now)
		return loaded{rows, stock, now}, err
	}, m.show)
}

func (m *Model) show(l loaded) {
	m.Rows, m.Total, m.AsOf, m.Stock = m.Rows[:0:0], len(l.watch), l.now, l.stock
	for _, w := range l.watch {
		if m.All || w.Needs() {
			m.Rows = append(m.Rows, rowOf(w, l.now, m.Horizon))
		}
	}
	m.Changed()
}

func rowOf(w delivery.Watch, now time.Time, horizon time.Duration) Row {
	state := []string{w.Situation, w.Gas}
	if w.Flow > 0 {
		state = append(state, w.Flow.String())
	}
	return Row{
		ID:      w.Person.ID,
		Verdict: string(w.Verdict),
		Name:    strings.Trim(w.Person.Short()+", "+w.Address.Street, ", "),
		State:   strings.Join(state, " · "),
		Next:    w.Next,
		Urgent:  w.Urgent,
		Ribbon:  paperwork.Ribbon(w, now, horizon),
	}
}

// SetHorizon shows the ribbons over another stretch of time.
func (m *Model) SetHorizon(h time.Duration) {
	m.Horizon = h
	for i := range m.Rows {
		m.Rows[i].Ribbon.Horizon = h
	}
	m.Changed()
}

// SetAll shows every home on oxygen, or only those that need somebody.
func (m *Model) SetAll(all bool) {
	m.All = all
	m.Load()
}

// Title says how many homes are shown, of how many, and how old that is.
func (m *Model) Title() string {
	if m.AsOf.IsZero() {
		return ""
	}
	return fmt.Sprintf("%d of %d homes · facts as of %s", len(m.Rows), m.Total, m.AsOf.Format("15:04"))
}

// Open goes to the page of a row's person.
func (m *Model) Open(id inventory.PersonID) {
	m.work.Open(work.Target{Room: work.Person, Person: id})
}

// News goes to what stands otherwise since last evening or the weekend.
func (m *Model) News() { m.work.Open(work.Target{Room: work.News}) }

// stock says what the depots could send now: "31 E, 12 D, 9 concentrators
// ready · 6 not needed in homes", with the supplies that are to be ordered.
func (m *Model) stock(ctx context.Context, now time.Time) (string, error) {
	tallies, err := m.work.Desk.Tallies(ctx)
	if err != nil {
		return "", err
	}
	var ready []string
	machines, idle, bench := 0, 0, 0
	for _, t := range tallies {
		switch {
		case t.State == inventory.Idle:
			idle += t.Count
		case t.State == inventory.OnBench || t.State == inventory.Dirty:
			bench += t.Count
		case t.State == inventory.Ready && t.Kind == inventory.Concentrator:
			machines += t.Count
		case t.State == inventory.Ready && t.Kind == inventory.Cylinder:
			_, letter, _ := strings.Cut(string(t.Size), "-")
			ready = append(ready, fmt.Sprintf("%d %s", t.Count, letter))
		}
	}
	ready = append(ready, fmt.Sprintf("%d concentrators", machines))
	low, err := m.low(ctx, now)
	return fmt.Sprintf("Ready now: %s  ·  %d on the bench or waiting for it  ·  %d not needed in homes",
		strings.Join(ready, ", "), bench, idle) + low, err
}

// low names the supplies under their level.
func (m *Model) low(ctx context.Context, now time.Time) (string, error) {
	p, err := m.work.Desk.Programme(ctx)
	if err != nil || len(p.Supplies) == 0 {
		return "", err
	}
	stock, err := m.work.Desk.Supplies(ctx)
	said := ""
	for _, l := range p.Low(stock, now) {
		said += "  ·  low: " + l.InWords()
	}
	return said, err
}
