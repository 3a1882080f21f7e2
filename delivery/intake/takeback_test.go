package intake_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
)

// back takes a take-in back, as at the desk.
func (d *desk) back(list inventory.FactID) error {
	_, err := d.Do(context.Background(), d.hand(), delivery.TakeBack{TookIn: list, Why: "the wrong file"})
	return err
}

// A list that is taken back was never there: nobody and nothing of it is left
// but the facts that say so, and it can be taken in anew.
func TestAListIsTakenBackWhole(t *testing.T) {
	eachLedger(t, func(t *testing.T, d *desk, list sheet.Table) {
		before := d.facts()
		first := d.take(answered(list), list)
		before += len(first.Decided()) // the answers stay
		wrote := d.facts() - before
		d.at = d.at.Add(time.Hour)
		require.NoError(t, d.back(first.TookIn))
		assert.Equal(t, before+2*wrote-1, d.facts(), "by new facts, one for each but the settings")
		assert.Empty(t, d.people())
		assert.Empty(t, d.stock())
		d.audit()
		_, err := d.Person(context.Background(), "0048213")
		assert.Equal(t, refusal.NotFound, refusal.KindOf(err), "nor is the record number left")
		assert.Equal(t, refusal.Conflict, refusal.KindOf(d.back(first.TookIn)), "once is enough")

		again := d.take(answered(list), list)
		assert.Equal(t, first.Added, again.Added)
		assert.Len(t, d.people(), 6)
		d.audit()
	})
}

func TestAListOthersRestOnIsNotTakenBack(t *testing.T) {
	d := newDesk(t)
	r := d.take(nil, person(t, map[string]string{"Concentrator": "CN00417"}))
	d.at = d.at.Add(time.Hour)
	_, err := d.Do(context.Background(), d.hand(), delivery.Read{Item: d.item("CN00417").ID, Hours: new(1300.0)})
	require.NoError(t, err)
	no := d.back(r.TookIn)
	assert.Equal(t, refusal.Conflict, refusal.KindOf(no))
	assert.ErrorContains(t, no, "CN00417")
	assert.ErrorContains(t, no, "hours meter 1300")
	assert.Equal(t, refusal.Invalid, refusal.KindOf(d.back(1)), "settings are no list")
}

// What a later list added to known persons goes; what was there before stays.
func TestTakingBackALaterListLeavesTheFirst(t *testing.T) {
	d := newDesk(t)
	d.take(nil, person(t, map[string]string{"Concentrator": "CN00417", "Last call": "2025-03-20 09:00", "Hours": "1200", "Read at": "2025-03-20 09:00"}))
	d.at = d.at.Add(24 * time.Hour)
	later := d.take(nil, person(t, map[string]string{"Concentrator": "CN00417", "Last call": "2025-04-02 10:00", "Hours": "1300", "Read at": "2025-04-02 10:00"}))
	require.Equal(t, 1300.0, d.item("CN00417").Hours.Value)
	require.NoError(t, d.back(later.TookIn))
	assert.Equal(t, 1200.0, d.item("CN00417").Hours.Value)
	assert.Equal(t, []string{"Abara, Ines"}, d.people())
	d.audit()
	lists, err := d.Lists(context.Background())
	require.NoError(t, err)
	require.Len(t, lists, 2)
	assert.True(t, lists[0].Back)
	assert.False(t, lists[1].Back)
}

// A fact of the list that somebody found wrong is not brought again by it.
func TestASingleFactTakenBackStaysSo(t *testing.T) {
	d := newDesk(t)
	list := person(t, map[string]string{"Concentrator": "CN00417", "Hours": "9999", "Read at": "2025-03-20 09:00"})
	d.take(nil, list)
	facts, err := d.Facts(context.Background(), items.About{Item: d.item("CN00417").ID})
	require.NoError(t, err)
	for _, f := range facts {
		if _, is := f.Statement.(*inventory.Observed); is {
			_, err := d.Do(context.Background(), d.hand(), delivery.Retract{Fact: f.ID, Why: "misread"})
			require.NoError(t, err)
		}
	}
	d.at = d.at.Add(time.Hour)
	d.take(nil, list)
	assert.Nil(t, d.item("CN00417").Hours)
}

// Stopped at any moment, nothing of the list is in the book.
func TestStoppedMidWayNothingIsTakenIn(t *testing.T) {
	d := newDesk(t)
	list := ledger(t)["csv"]
	before := d.facts()
	r := d.read(answered(list), list)
	steps := 0
	_, err := d.TakeIn(context.Background(), r, d.hand(), func(float64) { steps++ })
	require.NoError(t, err)
	require.Greater(t, steps, 5)
	for stop := range steps {
		d := newDesk(t)
		r := d.read(answered(list), list)
		ctx, cancel := context.WithCancel(context.Background())
		at := 0
		_, err := d.TakeIn(ctx, r, d.hand(), func(float64) {
			if at == stop {
				cancel()
			}
			at++
		})
		cancel()
		require.ErrorIs(t, err, context.Canceled, "stopped after step %d", stop)
		require.Equal(t, before, d.facts())
		require.Empty(t, d.people())
		require.Empty(t, d.stock())
	}
}
