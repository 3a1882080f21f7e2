// Package stocktake is the screen on which a place is counted blind: what is
// scanned there is held against the book only when the count is finished.
package stocktake

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/scene"
	"lungwort/ui/finder"
	"lungwort/ui/work"
)

// Row is one thing that was counted; the book knows those with an ID.
type Row struct {
	Key   string // item id, or the serial of a stranger
	ID    inventory.ItemID
	Label string
	What  string
}

// Count is one that is finished.
type Count struct {
	Key   string
	Title string
	Below string
	taken inventory.Stocktaken
}

// Model is what the screen shows and does.
type Model struct {
	work *work.Work

	Places []inventory.Place
	Place  inventory.Place
	Zone   inventory.Zone // of a depot; empty: all of it
	Rows   []Row          // scanned so far
	Sign   scene.Sign

	Counts      []Count // finished, newest first
	Shown       string  // key of the one whose differences are shown; empty: counting
	Differences []delivery.CountDifference

	Changed func()
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model {
	return &Model{work: w, Sign: start, Changed: func() {}}
}

var start = scene.Sign{Verdict: scene.Unknown, Word: "SCAN", Below: "everything that stands here; what the book has is shown when you finish"}

type loaded struct {
	programme delivery.Programme
	counts    []inventory.Fact
	differ    []delivery.CountDifference
}

// Load reads the places, the counts that are finished, and the differences of
// the one that is shown. What was scanned stays.
func (m *Model) Load() {
	shown, now := m.Shown, m.work.Now()
	work.Ask(m.work, "stocktake", func(ctx context.Context) (l loaded, err error) {
		if l.programme, err = m.work.Desk.Programme(ctx); err != nil {
			return l, err
		}
		if l.counts, err = m.work.Desk.Stocktakes(ctx); err != nil {
			return l, err
		}
		for _, f := range l.counts {
			if s, is := f.Statement.(*inventory.Stocktaken); is && key(f) == shown {
				l.differ, err = m.work.Desk.Differences(ctx, *s, now)
			}
		}
		return l, err
	}, m.show)
}

func key(f inventory.Fact) string { return fmt.Sprint(f.ID) }

func (m *Model) show(l loaded) {
	m.Places, m.Counts, m.Differences = places(l.programme), nil, l.differ
	if m.Place == "" && len(m.Places) > 0 {
		m.Place = m.Places[0]
	}
	for _, f := range l.counts {
		if s, is := f.Statement.(*inventory.Stocktaken); is {
			m.Counts = append(m.Counts, Count{
				Key: key(f), Title: s.Where(), taken: *s,
				Below: fmt.Sprintf("%s, %d different", delivery.Clock(f.Happened, m.work.Now()), len(s.Different)),
			})
		}
	}
	m.Changed()
}

// places are the zones that can be counted.
func places(p delivery.Programme) []inventory.Place {
	var list []inventory.Place
	for _, s := range p.Depots {
		list = append(list, inventory.At(inventory.AtDepot, s.Name))
	}
	for _, v := range p.Vehicles {
		list = append(list, inventory.At(inventory.AtVehicle, v.Name))
	}
	for _, s := range p.Wards {
		list = append(list, inventory.At(inventory.AtWard, s.Name))
	}
	return list
}

// Zones are those of the place; only a depot has any.
func (m *Model) Zones() []inventory.Zone {
	if m.Place.Kind() != inventory.AtDepot {
		return nil
	}
	return inventory.Zones()
}

// Count begins at a place, or a zone of it; what was scanned at another is not
// taken along.
func (m *Model) Count(place inventory.Place, zone inventory.Zone) {
	if place != m.Place || zone != m.Zone {
		m.Rows, m.Sign = nil, start
	}
	m.Place, m.Zone, m.Shown, m.Differences = place, zone, "", nil
	m.Changed()
}

// Open shows a finished count.
func (m *Model) Open(key string) {
	m.Shown = key
	m.Load()
}

// count returns the one that is shown.
func (m *Model) count() (Count, bool) {
	i := slices.IndexFunc(m.Counts, func(c Count) bool { return c.Key == m.Shown })
	if i < 0 {
		return Count{}, false
	}
	return m.Counts[i], true
}

// Scan counts one thing. It reports whether it took the text: a name is the
// window's.
func (m *Model) Scan(text string) bool {
	if m.Place == "" || !strings.ContainsAny(text, "0123456789") {
		return false
	}
	m.Shown, m.Differences = "", nil
	work.Ask(m.work, "stocktake scan "+text, func(ctx context.Context) (s seen, err error) {
		s.item, err = finder.Item(ctx, m.work.Desk, text)
		s.stranger = refusal.KindOf(err) == refusal.NotFound && !finder.OurTag(text)
		if errors.As(err, &s.no) {
			return s, nil // shown large
		}
		return s, err
	}, func(s seen) { m.took(text, s) })
	return true
}

// seen is what a scan came to.
type seen struct {
	item     inventory.Item
	stranger bool
	no       *refusal.Error
}

func (m *Model) took(text string, s seen) {
	row := Row{Key: string(s.item.ID), ID: s.item.ID, Label: s.item.Label(), What: s.item.Spec.What()}
	verdict := scene.Holds
	switch {
	case s.stranger:
		serial := finder.Serial(text)
		row = Row{Key: serial, Label: serial, What: "not in the book"}
		verdict = scene.Tight
	case s.no != nil:
		m.Sign = scene.Sign{Verdict: scene.Dry, Word: "STOP", Below: s.no.Says + " " + s.no.Next}
		m.Changed()
		return
	}
	if slices.ContainsFunc(m.Rows, func(r Row) bool { return r.Key == row.Key }) {
		m.Sign = scene.Sign{Verdict: scene.Tight, Word: "AGAIN", Below: row.Label + " is counted already"}
	} else {
		m.Rows = append(m.Rows, row)
		m.Sign = scene.Sign{Verdict: verdict, Word: fmt.Sprint(len(m.Rows)), Below: row.Label + "  " + row.What}
	}
	m.Changed()
}

// TakeOff takes a scan back.
func (m *Model) TakeOff(key string) {
	m.Rows = slices.DeleteFunc(m.Rows, func(r Row) bool { return r.Key == key })
	m.Changed()
}

// Act is the count as it stands on the screen.
func (m *Model) Act() delivery.Stocktake {
	act := delivery.Stocktake{Place: m.Place, Zone: m.Zone}
	for _, r := range m.Rows {
		if r.ID != "" {
			act.Seen = append(act.Seen, r.ID)
		} else {
			act.Unknown = append(act.Unknown, r.Label)
		}
	}
	return act
}
