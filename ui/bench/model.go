// Package bench is what waits between coming back and being lent again: dirty,
// on the bench, in quarantine; the oldest first, each with its next step.
package bench

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
	items "lungwort/inventory/store"
	"lungwort/labels/scene"
	"lungwort/labels/tag"
	"lungwort/ui/tend"
	"lungwort/ui/work"
)

// states are the states of what waits here.
var states = []inventory.State{inventory.Dirty, inventory.OnBench, inventory.InQuarantine, inventory.NotOurs}

// Row is one item that waits, its words ready.
type Row struct {
	ID      inventory.ItemID
	Label   string
	Tag     string
	What    string
	State   string
	Place   string
	Waits   string // how long in this state
	Since   string
	Why     string
	Alarm   bool // soiled or recalled
	Tonight bool // a discharge that waits lacks it
	Read    string
	Next    tend.Step
}

// Model is what the screen shows and does.
type Model struct {
	work *work.Work

	Rows  []Row
	Title string
	Sign  scene.Sign // how the last test came out

	items     map[inventory.ItemID]inventory.Item
	programme delivery.Programme
	tended    inventory.ItemID // whose outcome the sign tells, once it is read
	Changed   func()
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model { return &Model{work: w, Sign: start, Changed: func() {}} }

type loaded struct {
	items     []inventory.Item
	ready     []inventory.Item
	waiting   []store.Found
	tended    inventory.Item
	programme delivery.Programme
	now       time.Time
}

// Load reads what waits anew.
func (m *Model) Load() {
	now, tended := m.work.Now(), m.tended
	m.tended = ""
	work.Ask(m.work, "bench", func(ctx context.Context) (l loaded, err error) {
		l.now = now
		if l.programme, err = m.work.Desk.Programme(ctx); err != nil {
			return l, err
		}
		if l.items, _, err = m.work.Desk.Items(ctx, items.Filter{States: states}); err != nil {
			return l, err
		}
		if l.ready, _, err = m.work.Desk.Items(ctx, items.Filter{States: []inventory.State{inventory.Ready}}); err != nil {
			return l, err
		}
		if l.waiting, err = m.work.Desk.Waiting(ctx); err != nil || tended == "" {
			return l, err
		}
		page, err := m.work.Desk.ItemPage(ctx, tended)
		l.tended = page.Item
		return l, err
	}, m.show)
}

func (m *Model) show(l loaded) {
	l.items = slices.DeleteFunc(l.items, func(i inventory.Item) bool { // another's that stays in a home
		return i.State == inventory.NotOurs && i.Place.Kind() != inventory.AtDepot
	})
	slices.SortStableFunc(l.items, func(a, b inventory.Item) int {
		return cmp.Or(cmp.Compare(forPeople(a), forPeople(b)), a.Since.Compare(b.Since), cmp.Compare(a.Tag, b.Tag))
	})
	tonight := l.tonight()
	slices.SortStableFunc(l.items, func(a, b inventory.Item) int { return later(tonight[a.ID], tonight[b.ID]) })
	m.Rows, m.items, m.programme = m.Rows[:0:0], make(map[inventory.ItemID]inventory.Item, len(l.items)), l.programme
	for _, i := range l.items {
		m.items[i.ID] = i
		row := rowOf(i, l.now)
		if due := l.programme.DueUpkeep(i, l.now); len(due) > 0 && row.Why == "" {
			row.Why = due[0].Says
		}
		row.Tonight = tonight[i.ID]
		m.Rows = append(m.Rows, row)
	}
	m.Title = title(l.items)
	if n := len(tonight); n > 0 {
		m.Title += fmt.Sprintf(" · %d needed by discharges that wait", n)
	}
	m.judge(l.tended)
	m.Changed()
}

// forPeople puts what the bench can't move on to the end.
func forPeople(i inventory.Item) int {
	switch tend.Next(i) {
	case tend.KeepIt, tend.SendIt, tend.GiveBack, tend.FindOut:
		return 1
	}
	return 0
}

func title(items []inventory.Item) string {
	by := make(map[inventory.State]int)
	for _, i := range items {
		by[i.State]++
	}
	var parts []string
	for _, s := range states {
		if by[s] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", by[s], s))
		}
	}
	return strings.Join(parts, " · ")
}

func rowOf(i inventory.Item, now time.Time) Row {
	r := Row{
		ID: i.ID, Label: i.Label(), Tag: tag.Mint(i.Tag).Printed(), What: i.Spec.What(),
		State: string(i.State), Place: i.Place.InWords(), Waits: delivery.Spell(now.Sub(i.Since)), Since: delivery.Clock(i.Since, now),
		Why: i.Why, Alarm: i.Soiled || i.Recall != "", Read: lastRead(i), Next: tend.Next(i),
	}
	switch {
	case i.Recall != "":
		r.Why = "recall " + i.Recall
	case i.Soiled && !i.Told.IsZero():
		r.Why = "soiled, bagged; the plant was told " + delivery.Clock(i.Told, now)
	case i.Spec.Foreign && !i.Told.IsZero():
		r.Why = i.Spec.Owner + " was told " + delivery.Clock(i.Told, now)
	case i.Soiled && i.Why == "":
		r.Why = "soiled: keep it bagged and apart"
	case len(i.Lacks) > 0 && i.Why == "":
		r.Why = "came back without " + strings.Join(i.Lacks, ", ")
	case !i.Passed.IsZero() && i.State == inventory.OnBench:
		r.Why = "passed its test"
	case i.Spec.Foreign:
		r.Why = "belongs to " + i.Spec.Owner
	}
	return r
}

func lastRead(i inventory.Item) string {
	switch {
	case i.Spec.Kind == inventory.Cylinder && i.Gauge == nil:
		return "not read"
	case i.Gauge != nil:
		return i.Gauge.Value.String()
	case i.Oxygen != nil:
		return fmt.Sprintf("%.1f %% oxygen", i.Oxygen.Value)
	case i.Hours != nil:
		return fmt.Sprintf("%.0f h", i.Hours.Value)
	}
	return ""
}

// Tender returns the forms of an item that waits.
func (m *Model) Tender(id inventory.ItemID, source inventory.Source) (tend.Tender, bool) {
	item, waits := m.items[id]
	return tend.Tender{Work: m.work, Item: item, Programme: m.programme, Source: source, Done: func() { m.tended = id; m.Load() }}, waits
}

// tell says large which item was scanned and what its next step is.
func (m *Model) tell(id inventory.ItemID) {
	i := m.items[id]
	m.work.Scanned(work.Scan{Verdict: scene.Holds, Title: i.Label(), Detail: string(i.State) + ", next: " + string(tend.Next(i))})
}

// Find returns the waiting item a scan or a typed serial names.
func (m *Model) Find(text string) (inventory.ItemID, bool) {
	number, serial := uint32(0), text
	if read, err := tag.Read(text); err == nil {
		if read.Kind == tag.OurTag {
			number, _ = read.Tag.Number()
		}
		if own, ours := read.Ours(m.programme.Company); ours {
			number, _ = own.Number()
		}
		serial = cmp.Or(read.Serial, read.Asset(), text)
	}
	key := inventory.SerialKey(serial)
	for _, r := range m.Rows {
		i := m.items[r.ID]
		if number != 0 && i.Tag == number || number == 0 && key != "" && inventory.SerialKey(i.Spec.Serial) == key {
			return r.ID, true
		}
	}
	return "", false
}

// Open goes to the page of an item.
func (m *Model) Open(id inventory.ItemID) {
	m.work.Open(work.Target{Room: work.Item, Item: id})
}
