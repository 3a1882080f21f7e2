package store_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
)

// loan is a home that was lent a concentrator five days before the book.
func loan(d *desk) delivery.TakeIn {
	since := d.now.Add(-5 * 24 * time.Hour)
	return delivery.TakeIn{
		From: "people.csv row 2",
		Things: []delivery.Arrival{{
			Spec:  inventory.Spec{Kind: inventory.Concentrator, Serial: "CN00417", Rated: 5},
			Since: since,
		}},
		People: []delivery.Resident{
			{
				Person:  delivery.Person{Family: "Abara", Given: "Ines", Record: "0048213"},
				Address: delivery.Address{Street: "Kelp Street 22"},
				Events: []delivery.Event{
					{At: since, Says: &delivery.Discharged{Ward: "6B", Opened: since, Leaves: since}},
					{At: since.Add(2 * time.Hour), Says: &delivery.Switched{To: delivery.FromConcentrator}},
				},
				Kit: []delivery.Loan{{Kind: inventory.Concentrator, Serial: "cn-00417", Events: []delivery.Event{
					{At: since, Says: &inventory.Lent{Role: inventory.InUse}},
					{At: d.now, Says: &inventory.Observed{Hours: new(120.5)}},
				}}},
			},
			{Person: delivery.Person{Family: "Abara", Given: "Tomas"}, With: 1},
		},
	}
}

func TestTakeInHasEachFactAtItsOwnTime(t *testing.T) {
	d := newDesk(t)
	since := d.now.Add(-5 * 24 * time.Hour)
	out := d.do(loan(d))
	item := d.item(out.Facts[0].Item)
	assert.Equal(t, inventory.AtWork, item.State)
	assert.True(t, since.Equal(item.Since))
	assert.Equal(t, gas.Flow(5), item.Spec.Rated)
	assert.Equal(t, 120.5, item.Hours.Value)
	ines := out.Facts[1].Person
	page, err := d.Page(t.Context(), ines, d.now)
	require.NoError(t, err)
	assert.Equal(t, delivery.Running, page.Care.Phase)
	assert.True(t, since.Add(2*time.Hour).Equal(page.Care.Since))
	assert.Equal(t, inventory.At(inventory.AtAddress, string(page.Care.Address)), item.Place)
	assert.Equal(t, gas.Flow(5), page.Care.Kit[0].Spec.Rated, "the loan holds the spec the book knows")

	tomas, err := d.Person(t.Context(), "Tomas")
	require.NoError(t, err)
	other, err := d.Page(t.Context(), tomas, d.now)
	require.NoError(t, err)
	assert.Equal(t, page.Care.Address, other.Care.Address, "they live together")
}

func TestTakeInRefusesWhatCantBe(t *testing.T) {
	d := newDesk(t)
	for name, spoil := range map[string]func(*delivery.TakeIn){
		"ahead of": func(a *delivery.TakeIn) { a.People[0].Events[0].At = d.now.Add(time.Minute) },
		"no place": func(a *delivery.TakeIn) {
			a.Things[0].Events = []delivery.Event{{At: d.now, Says: &inventory.Moved{To: "depot:nowhere"}}}
		},
		"no gauge": func(a *delivery.TakeIn) {
			a.Things[0].Events = []delivery.Event{{At: d.now, Says: &inventory.Observed{Gauge: new(gas.PSI(500))}}}
		},
		"No cylinder size": func(a *delivery.TakeIn) { a.Things[0].Spec.Kind = inventory.Cylinder },
		"needs a name":     func(a *delivery.TakeIn) { a.People[1].Person = delivery.Person{Record: "0051990"} },
		"0 things of the book": func(a *delivery.TakeIn) {
			a.People[0].Kit[0].Serial = "CN00418"
		},
	} {
		act := loan(d)
		spoil(&act)
		no := d.refused(act)
		assert.Contains(t, no.Says, name)
		assert.Contains(t, no.Says, "people.csv row 2")
	}
	_, total, err := d.Items(t.Context(), items.Filter{})
	require.NoError(t, err)
	assert.Zero(t, total, "nothing was half taken in")
}

// The progress of a long list moves with every two hundred facts and every
// thing and person derived, so it never pauses, however fast the machine is;
// it never goes back.
func TestTakeInTellsHowFarItIs(t *testing.T) {
	d := newDesk(t)
	const rows = 3000
	var list strings.Builder
	list.WriteString("Date out,Name,MRN,Conc #,Depot\n")
	for i := range rows {
		fmt.Fprintf(&list, "2025-03-01,\"Abara%d, Ines\",1%05d,CN%05d,harbour\n", i/3, i/3, i)
	}
	tables, err := sheet.Read(t.Context(), "loans.csv", []byte(list.String()))
	require.NoError(t, err)
	r, err := d.ReadLists(t.Context(), tables, nil, d.now, nil)
	require.NoError(t, err)
	require.Equal(t, rows, r.Taken)

	var told []float64
	_, err = d.TakeIn(t.Context(), r, d.hand(), func(share float64) { told = append(told, share) })
	require.NoError(t, err)
	assert.True(t, slices.IsSorted(told))
	assert.Equal(t, 1.0, told[len(told)-1])
	told = slices.Compact(told)
	assert.GreaterOrEqual(t, len(told), r.Added.Facts/200+r.Added.Things+r.Added.Persons)
	for i := 1; i < len(told); i++ {
		assert.Less(t, told[i]-told[i-1], 0.02)
	}
}
