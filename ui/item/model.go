// Package item is the page of one thing: what it is, where it has been, what
// was read on it, and what can be done with it next.
package item

import (
	"context"
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/labels/tag"
	"lungwort/ui/ask"
	"lungwort/ui/history"
	"lungwort/ui/tend"
	"lungwort/ui/work"
)

// Detail is one line of what is known of the item.
type Detail struct {
	Label, Text string
	Alarm       bool
}

// Page is what the screen shows, its words ready.
type Page struct {
	Label   string
	Tag     string
	State   string
	Details []Detail
	Life    scene.LifeData
	Facts   []history.Row
	Person  inventory.PersonID // who has it
	Next    tend.Step          // on the way back to ready
	Kind    inventory.Kind
	Lent    bool
	Theirs  bool // another's
}

// Model is what the screen shows and does.
type Model struct {
	work   *work.Work
	id     inventory.ItemID
	tender tend.Tender

	Page Page

	Changed func()
}

// NewModel returns an empty page.
func NewModel(w *work.Work) *Model { return &Model{work: w, Changed: func() {}} }

// Open shows an item.
func (m *Model) Open(id inventory.ItemID) {
	m.id = id
	m.Load()
}

type loaded struct {
	page      store.ItemPage
	programme delivery.Programme
	now       time.Time
}

// Load reads the page anew.
func (m *Model) Load() {
	now, id := m.work.Now(), m.id
	work.Ask(m.work, "item", func(ctx context.Context) (l loaded, err error) {
		l.now = now
		if l.programme, err = m.work.Desk.Programme(ctx); err != nil {
			return l, err
		}
		l.page, err = m.work.Desk.ItemPage(ctx, id)
		return l, err
	}, m.show)
}

func (m *Model) show(l loaded) {
	i := l.page.Item
	m.tender = tend.Tender{Work: m.work, Item: i, Programme: l.programme, Done: m.Load}
	m.Page = Page{
		Label:   i.Label(),
		Tag:     tag.Mint(i.Tag).Printed(),
		State:   string(i.State),
		Details: details(l),
		Life:    paperwork.LifeLine(l.page, l.now),
		Facts: history.Rows(l.page.Facts, l.now, func(f inventory.Fact) string {
			return l.page.Names[f.Person]
		}),
		Next: tend.Next(i), Kind: i.Spec.Kind, Lent: i.Lent(), Theirs: i.Spec.Foreign,
	}
	if i.Lent() {
		m.Page.Person = i.Person
	}
	m.Changed()
}

// Tender returns the forms of the item.
func (m *Model) Tender() tend.Tender { return m.tender }

// TakeBackForm takes back a fact of the history.
func (m *Model) TakeBackForm(r history.Row) ask.Form { return history.TakeBack(m.work, r, m.Load) }

// OpenPerson goes to the page of who has the item.
func (m *Model) OpenPerson() {
	if m.Page.Person != "" {
		m.work.Open(work.Target{Room: work.Person, Person: m.Page.Person})
	}
}

// details are the lines of what is known of the item.
func details(l loaded) []Detail {
	i, now := l.page.Item, l.now
	lines := []Detail{
		{"state", fmt.Sprintf("%s since %s", i.State, delivery.Clock(i.Since, now)), false},
		{"where", where(l), false},
		{"why", i.Why, true},
		{"recall", recalled(i), true},
		{"gauge", gauge(i, now), i.Spec.Kind == inventory.Cylinder && i.Gauge == nil},
		{"weight", weight(i, now), i.Spec.Kind == inventory.Vessel && i.Weight == nil},
		{"holds", holds(i, l.programme), false},
		{"fill", fill(i, now), false},
		{"hours", seen(i.Hours, "%.0f h", now), false},
		{"oxygen", seen(i.Oxygen, "%.1f %%", now), i.Oxygen != nil && i.Oxygen.Value < delivery.PurityFloor},
	}
	for _, d := range l.programme.DueUpkeep(i, now) {
		lines = append(lines, Detail{"due", d.Says, true})
	}
	if r := i.Repairs; r != nil {
		lines = append(lines, Detail{"repairs", fmt.Sprintf("%d, the last %s, cost %.0f in all", r.Times, delivery.Clock(r.Last, now), r.Cost), false})
	}
	if len(i.With) > 0 {
		lines = append(lines, Detail{"with it", strings.Join(i.With, ", "), false})
	}
	if len(i.Lacks) > 0 {
		lines = append(lines, Detail{"lacks", strings.Join(i.Lacks, ", "), true})
	}
	if !i.Passed.IsZero() {
		lines = append(lines, Detail{"tested", "passed " + delivery.Clock(i.Passed, now), false})
	}
	if i.Soiled {
		lines = append(lines, Detail{"soiled", "keep it bagged and apart", true})
	}
	for _, d := range i.Doubts {
		lines = append(lines, Detail{"doubt", d, true})
	}
	lines = append(lines, plate(i.Spec, l.programme, now)...)
	return append(lines, Detail{"label", printed(i.Labels, now), false})
}

// printed is how often our label was printed for the item.
func printed(l *inventory.Labels, now time.Time) string {
	switch {
	case l == nil:
		return "never printed"
	case l.Times == 1:
		return "printed " + delivery.Clock(l.Last, now)
	}
	return fmt.Sprintf("printed %d times, last %s", l.Times, delivery.Clock(l.Last, now))
}

func where(l loaded) string {
	i := l.page.Item
	switch {
	case i.Lent():
		return "with " + l.page.Person.Short()
	case i.Person != "":
		return i.Place.InWords() + ", set aside for " + l.page.Names[i.Person]
	case i.Last != "" && i.State == inventory.WithDriver:
		return i.Place.InWords() + ", was with " + l.page.Names[i.Last]
	}
	return i.Place.InWords()
}

func recalled(i inventory.Item) string {
	if i.Recall == "" {
		return ""
	}
	return i.Recall + ": it must not be lent"
}
