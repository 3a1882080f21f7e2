// Package items is every serial-numbered thing of the programme: what it is,
// what can be done with it, where it is and who has it.
package items

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/store"
	"lungwort/labels/tag"
	"lungwort/ui/work"
)

// most is how many items the list shows; what is typed or chosen narrows it.
const most = 2000

// Group is states that belong together for somebody who looks for a thing.
type Group struct {
	Name   string
	States []inventory.State // none: all
}

// Groups are the groups of states, in the order a thing goes through them.
var Groups = []Group{
	{"all", nil},
	{"ready", []inventory.State{inventory.Ready, inventory.Held}},
	{"in homes", []inventory.State{inventory.HandedOver, inventory.AtWork, inventory.AsBackup, inventory.Idle, inventory.Waiting}},
	{"coming back", []inventory.State{inventory.WithDriver, inventory.Dirty, inventory.OnBench, inventory.InQuarantine}},
	{"away", []inventory.State{inventory.InRepair, inventory.OutAtPlant, inventory.Missing}},
	{"gone", []inventory.State{inventory.Gone, inventory.NotOurs}},
}

// Row is one item as the list shows it, its words ready.
type Row struct {
	ID    inventory.ItemID
	Label string // serial, or our tag where it has none
	Tag   string
	What  string
	Model string
	State string
	Since string
	Where string
	Whose string
	Gauge string
	Age   string
	Hours string
	Why   string
	Alarm bool // recalled: it must not be lent
	Away  bool // not on a shelf and not in a home
}

// Model is what the screen shows.
type Model struct {
	work *work.Work

	Text  string
	Group int            // index into Groups
	Kind  inventory.Kind // empty: all
	Among work.Among     // what another screen asked for, until something is chosen here
	Rows  []Row
	Total int    // that fit what was chosen
	Count string // by state
	Asked bool

	Changed func()
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model { return &Model{work: w, Changed: func() {}} }

type loaded struct {
	items   []inventory.Item
	total   int
	tallies []store.Tally
	names   map[inventory.PersonID]string
	now     time.Time
}

// Filter narrows the list to items whose serial, model, size, state or place
// holds each word.
func (m *Model) Filter(text string) {
	m.Text = text
	m.Load()
}

// Choose narrows the list to a group of states.
func (m *Model) Choose(group string) {
	m.Among = work.Among{}
	m.Group = max(0, slices.IndexFunc(Groups, func(g Group) bool { return g.Name == group }))
	m.Load()
}

// ChooseKind narrows the list to a kind.
func (m *Model) ChooseKind(k inventory.Kind) {
	m.Among = work.Among{}
	m.Kind = k
	m.Load()
}

// Load reads the list anew.
func (m *Model) Load() {
	now := m.work.Now()
	f := store.Filter{Text: m.Text, Kind: m.Kind, States: Groups[m.Group].States, Limit: most}
	if m.Among != (work.Among{}) {
		f = store.Filter{Text: m.Text, Kind: m.Among.Kind, Size: m.Among.Size, Place: m.Among.Place, Limit: most}
		if m.Among.State != "" {
			f.States = []inventory.State{m.Among.State}
		}
	}
	work.Ask(m.work, "items", func(ctx context.Context) (l loaded, err error) {
		l.now = now
		if l.items, l.total, err = m.work.Desk.Items(ctx, f); err != nil {
			return l, err
		}
		if l.tallies, err = m.work.Desk.Tallies(ctx); err != nil {
			return l, err
		}
		l.names, err = m.names(ctx, l.items)
		return l, err
	}, m.show)
}

// names returns who has the items, by the short name.
func (m *Model) names(ctx context.Context, items []inventory.Item) (map[inventory.PersonID]string, error) {
	names := make(map[inventory.PersonID]string)
	err := m.work.Desk.Ask(ctx, m.work.Now(), func(v delivery.View) error {
		for _, i := range items {
			if _, has := names[i.Person]; i.Person == "" || has {
				continue
			}
			p, err := v.Person(i.Person)
			if err != nil {
				return err
			}
			names[i.Person] = p.Short()
		}
		return nil
	})
	return names, err
}

func (m *Model) show(l loaded) {
	m.Rows, m.Total, m.Count, m.Asked = m.Rows[:0:0], l.total, m.count(l.tallies), true
	for _, i := range l.items {
		m.Rows = append(m.Rows, rowOf(i, l.names, l.now))
	}
	m.Changed()
}

// count says how many items of the chosen kind are in each state.
func (m *Model) count(tallies []store.Tally) string {
	by := make(map[inventory.State]int)
	for _, t := range tallies {
		if m.Kind == "" || t.Kind == m.Kind {
			by[t.State] += t.Count
		}
	}
	var parts []string
	for _, g := range Groups {
		for _, s := range g.States {
			if by[s] > 0 {
				parts = append(parts, fmt.Sprintf("%d %s", by[s], s))
			}
		}
	}
	return strings.Join(parts, " · ")
}

func rowOf(i inventory.Item, names map[inventory.PersonID]string, now time.Time) Row {
	r := Row{
		ID: i.ID, Label: i.Label(), Tag: tag.Mint(i.Tag).Printed(), What: i.Spec.What(), Model: i.Spec.Model,
		State: string(i.State), Since: "since " + delivery.Clock(i.Since, now),
		Where: i.Place.InWords(), Why: i.Why, Alarm: i.Recall != "",
	}
	if i.Person != "" {
		r.Whose = "for " + names[i.Person]
		if i.Lent() {
			r.Where, r.Whose = names[i.Person], ""
		}
	}
	if i.Gauge != nil {
		r.Gauge, r.Age = i.Gauge.Value.String(), i.Gauge.How()+" "+delivery.Ago(i.Gauge.At, now)
	} else if i.Spec.Kind == inventory.Cylinder {
		r.Gauge = "not read"
	}
	if i.Hours != nil {
		r.Hours = fmt.Sprintf("%.0f h", i.Hours.Value)
	}
	if i.Recall != "" {
		r.Why = "recall " + i.Recall
	}
	if len(i.Doubts) > 0 && r.Why == "" {
		r.Why = "doubt: " + i.Doubts[len(i.Doubts)-1]
	}
	return r
}

// Title says how many items are shown, of how many.
func (m *Model) Title() string {
	switch {
	case !m.Asked:
		return ""
	case len(m.Rows) < m.Total:
		return fmt.Sprintf("the first %d of %d items: type to narrow", len(m.Rows), m.Total)
	}
	count := fmt.Sprintf("%d items", m.Total)
	if m.Total == 1 {
		count = "1 item"
	}
	return strings.Join(append([]string{count}, m.among()...), " · ")
}

// among says what another screen asked for.
func (m *Model) among() (words []string) {
	if m.Among.Place != "" {
		words = append(words, m.Among.Place.InWords())
	}
	if m.Among.Kind != "" {
		words = append(words, inventory.Spec{Kind: m.Among.Kind, Size: m.Among.Size}.What())
	}
	if m.Among.State != "" {
		words = append(words, string(m.Among.State))
	}
	return words
}

// Empty says what to do when no item is shown.
func (m *Model) Empty() string {
	if m.Text != "" || m.Group != 0 || m.Kind != "" {
		return "No item fits. Type part of a serial, a model, a size or a place, or choose “all”."
	}
	return "No items are in the book yet. Take in your lists, or scan the first thing on the Return screen."
}

// Open goes to the page of an item.
func (m *Model) Open(id inventory.ItemID) {
	m.work.Open(work.Target{Room: work.Item, Item: id})
}
