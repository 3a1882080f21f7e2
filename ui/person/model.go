// Package person is the page of one person: who and where, how the gas
// stands, what is there, what was done, and everything that can be done next.
package person

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	items "lungwort/inventory/store"
	"lungwort/labels/scene"
	"lungwort/ui/history"
	"lungwort/ui/work"
)

// Detail is one line of what is known of the person.
type Detail struct {
	Label, Text string
	Alarm       bool // a hazard, or something missing that matters
}

// Thing is one item of the person's kit, or of the house, as the list shows
// it.
type Thing struct {
	ID     inventory.ItemID
	Label  string
	What   string
	Stands string // on loan as, reserved, with whom, whose
	Read   string // the last reading with its age
	Theirs bool   // somebody else's in the same house: do not touch
}

// Page is what the screen shows, its words ready.
type Page struct {
	Name    string
	Details []Detail
	Answer  delivery.Answer
	Watched bool
	Chart   scene.ChartData
	Things  []Thing
	Facts   []history.Row
}

// Model is what the screen shows and does.
type Model struct {
	work *work.Work
	id   inventory.PersonID

	Page Page
	page store.PersonPage
	all  delivery.Programme

	watch    delivery.Watch
	board    delivery.Board
	machines []inventory.Item // concentrators ready to lend, for an order that needs a larger one

	Changed func()
}

// NewModel returns an empty page.
func NewModel(w *work.Work) *Model { return &Model{work: w, Changed: func() {}} }

// loaded is one reading of the book.
type loaded struct {
	page      store.PersonPage
	watch     delivery.Watch
	board     delivery.Board
	programme delivery.Programme
	machines  []inventory.Item                    // concentrators ready to lend
	items     map[inventory.ItemID]inventory.Item // every item a fact speaks of
	now       time.Time
}

// Open shows a person.
func (m *Model) Open(id inventory.PersonID) {
	m.id = id
	m.Load()
}

// Load reads the page anew.
func (m *Model) Load() {
	now, id := m.work.Now(), m.id
	work.Ask(m.work, "person", func(ctx context.Context) (l loaded, err error) {
		l.now = now
		if l.programme, err = m.work.Desk.Programme(ctx); err != nil {
			return l, err
		}
		if l.page, err = m.work.Desk.Page(ctx, id, now); err != nil {
			return l, err
		}
		if l.watch, err = m.work.Desk.WatchOne(ctx, id, now); err != nil {
			return l, err
		}
		if l.board, err = m.work.Desk.Board(ctx, now); err != nil {
			return l, err
		}
		l.machines, _, err = m.work.Desk.Items(ctx, items.Filter{States: []inventory.State{inventory.Ready}, Kind: inventory.Concentrator})
		if err != nil {
			return l, err
		}
		l.items, err = m.items(ctx, l.page.Facts)
		return l, err
	}, m.show)
}

// items returns every item the facts speak of.
func (m *Model) items(ctx context.Context, facts []inventory.Fact) (map[inventory.ItemID]inventory.Item, error) {
	found := make(map[inventory.ItemID]inventory.Item)
	err := m.work.Desk.Ask(ctx, m.work.Now(), func(v delivery.View) error {
		for _, f := range facts {
			if _, has := found[f.Item]; f.Item == "" || has {
				continue
			}
			item, err := v.Item(f.Item)
			if err != nil {
				return err
			}
			found[f.Item] = item
		}
		return nil
	})
	return found, err
}

func (m *Model) show(l loaded) {
	m.page, m.all, m.machines, m.watch, m.board = l.page, l.programme, l.machines, l.watch, l.board
	m.Page = Page{
		Name:    l.page.Person.Name(),
		Details: details(l),
		Answer:  l.watch.Answer(l.programme, l.now),
		Watched: l.page.Care.Watched(),
		Chart:   paperwork.GasChart(l.watch, l.page.Facts, l.page.Runs, l.programme, l.now),
		Things:  things(l),
		Facts: history.Rows(l.page.Facts, l.now, func(f inventory.Fact) string {
			if item, is := l.items[f.Item]; is {
				return item.Label()
			}
			return ""
		}),
	}
	m.Changed()
}

// OpenThing goes to the page of an item.
func (m *Model) OpenThing(id inventory.ItemID) {
	m.work.Open(work.Target{Room: work.Item, Item: id})
}

// Call takes a call with the person in hand, with the script and the bands.
func (m *Model) Call() {
	m.work.Open(work.Target{Room: work.Calls, Person: m.id})
}

// Night takes a call about gas that ends.
func (m *Model) Night() {
	m.work.Open(work.Target{Room: work.Night, Person: m.id})
}

// Alarm takes a call about a machine that beeps, or somebody short of breath.
func (m *Model) Alarm() {
	m.work.Open(work.Target{Room: work.Alarm, Person: m.id})
}
