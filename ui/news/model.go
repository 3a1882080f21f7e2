// Package news is the screen of what stands otherwise than it was known: the
// Monday morning list of the weekend, differences only.
package news

import (
	"context"
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/work"
)

// Row is a person, a run or a thing that stands otherwise.
type Row struct {
	ID, Name string
	Says     []string
	target   work.Target
}

// Since is a moment from which on the news can be told.
type Since struct {
	Name string
	At   time.Time
}

// evening is when the desk goes home. Common practice, no source.
const evening = 17

// Model is what the screen shows.
type Model struct {
	work *work.Work

	Rows []Row
	From Since
	AsOf time.Time // when the book was read

	Changed func() // the view draws itself anew
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model { return &Model{work: w, Changed: func() {}} }

// Offers are the moments to choose from, the usual one first: on Monday Friday
// evening, on other days the evening before.
func (m *Model) Offers() []Since {
	now := m.work.Now()
	before := func(name string, days int) Since {
		return Since{name, time.Date(now.Year(), now.Month(), now.Day()-days, evening, 0, 0, 0, now.Location())}
	}
	night := before("since last evening", 1)
	friday := (int(now.Weekday()) - int(time.Friday) + 7) % 7
	if friday == 0 {
		friday = 7
	}
	weekend := before("since Friday evening", friday)
	offers := []Since{night, weekend, before("since a week ago", 7)}
	if now.Weekday() == time.Monday {
		offers[0], offers[1] = weekend, night
	}
	return offers
}

// Load reads what stands otherwise since the moment in hand.
func (m *Model) Load() {
	if m.From.Name == "" {
		m.From = m.Offers()[0]
	}
	m.Choose(m.From.Name)
}

// Choose reads what stands otherwise since another moment.
func (m *Model) Choose(name string) {
	for _, s := range m.Offers() {
		if s.Name == name {
			m.From = s
		}
	}
	now, from := m.work.Now(), m.From.At
	work.Ask(m.work, "news", func(ctx context.Context) ([]delivery.News, error) {
		return m.work.Desk.Since(ctx, from, now)
	}, func(news []delivery.News) {
		m.Rows, m.AsOf = make([]Row, len(news)), now
		for i, n := range news {
			m.Rows[i] = rowOf(i, n)
		}
		m.Changed()
	})
}

func rowOf(i int, n delivery.News) Row {
	r := Row{ID: fmt.Sprint(i), Name: n.Name, Says: n.Says}
	switch {
	case n.Person != "":
		r.target = work.Target{Room: work.Person, Person: n.Person}
	case n.Run != "":
		r.target = work.Target{Room: work.Runs, Run: inventory.RunID(n.Run)}
	default:
		r.target = work.Target{Room: work.Item, Item: n.Item}
	}
	return r
}

// Title says how much stands otherwise, and since when.
func (m *Model) Title() string {
	if m.AsOf.IsZero() {
		return ""
	}
	return fmt.Sprintf("%d otherwise than known on %s · as of %s", len(m.Rows), delivery.Clock(m.From.At, m.AsOf), m.AsOf.Format("15:04"))
}

// Open goes to what a row is about.
func (m *Model) Open(id string) {
	for _, r := range m.Rows {
		if r.ID == id {
			m.work.Open(r.target)
		}
	}
}

// rest is everything a row says after its first sentence.
func (r Row) rest() string {
	if len(r.Says) < 2 {
		return ""
	}
	return strings.Join(r.Says[1:], " · ")
}
