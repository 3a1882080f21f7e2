// Package places shows where everything is: each place with what stands there,
// counted by kind, size and state. Each count leads to its items.
package places

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strconv"

	"lungwort/inventory"
	"lungwort/inventory/store"
	"lungwort/ui/work"
)

// order is how places follow each other: where kit waits, where it works,
// where it is away.
var order = []inventory.PlaceKind{
	inventory.AtDepot, inventory.AtWard, inventory.AtVehicle, inventory.AtAddress,
	inventory.AtPlant, inventory.AtWorkshop, inventory.AtMissing, inventory.AtRetired,
}

// Row is one count, its words ready. The first of a place names it.
type Row struct {
	Key   string
	Place string // said on the first row of a place alone
	Total string // of the place, beside its name
	Find  string // the place on each row, to be found by letters
	What  string
	State string
	Count string
	Alarm bool // nobody can say where it is

	among work.Among
}

// Model is what the screen shows.
type Model struct {
	work *work.Work

	Rows  []Row
	Title string

	Changed func()
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model { return &Model{work: w, Changed: func() {}} }

// Load counts anew.
func (m *Model) Load() {
	work.Ask(m.work, "places", func(ctx context.Context) ([]store.PlaceTally, error) {
		return m.work.Desk.PlaceTallies(ctx)
	}, m.show)
}

func (m *Model) show(tallies []store.PlaceTally) {
	slices.SortStableFunc(tallies, func(a, b store.PlaceTally) int {
		return cmp.Compare(slices.Index(order, a.Place.Kind()), slices.Index(order, b.Place.Kind()))
	})
	totals := make(map[inventory.Place]int)
	all := 0
	for _, t := range tallies {
		totals[t.Place] += t.Count
		all += t.Count
	}
	m.Rows = nil
	for i, t := range tallies {
		row := rowOf(t)
		row.Key = strconv.Itoa(i)
		if i == 0 || tallies[i-1].Place != t.Place {
			row.Place, row.Total = row.Find, strconv.Itoa(totals[t.Place])
		}
		m.Rows = append(m.Rows, row)
	}
	m.Title = fmt.Sprintf("%d items in %d places", all, len(totals))
	m.Changed()
}

func rowOf(t store.PlaceTally) Row {
	r := Row{
		Find: t.Place.InWords(), What: inventory.Spec{Kind: t.Kind, Size: t.Size}.What(),
		State: string(t.State), Count: strconv.Itoa(t.Count), Alarm: t.State == inventory.Missing,
		among: work.Among{Place: t.Place, State: t.State, Kind: t.Kind, Size: t.Size},
	}
	if t.Place.Kind() == inventory.AtAddress {
		r.Find, r.among.Place = "homes", "" // what is on loan is in a home by its state
	}
	return r
}

// Open goes to the items behind a count.
func (m *Model) Open(key string) {
	if i := slices.IndexFunc(m.Rows, func(r Row) bool { return r.Key == key }); i >= 0 {
		m.work.Open(work.Target{Room: work.Items, Among: m.Rows[i].among})
	}
}
