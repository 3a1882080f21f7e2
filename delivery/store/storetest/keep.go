package storetest

import (
	"context"
	"errors"
	"sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/gas"
	items "lungwort/inventory/store"
)

func countersCount(d *desk) {
	ctx := context.Background()
	var mu sync.Mutex
	tags := make(map[uint32]int)
	var desks sync.WaitGroup
	for n := range 4 {
		desks.Go(func() {
			for i := range 5 {
				serial := string(rune('A'+n)) + string(rune('0'+i))
				out, err := d.Do(ctx, d.hand(), delivery.Enrol{Spec: inventory.Spec{Kind: inventory.Regulator, Serial: serial}, Depot: "harbour"})
				mu.Lock()
				assert.NoError(d.t, err, serial)
				if err == nil {
					tags[out.Facts[0].Statement.(*inventory.Enrolled).Tag]++
				}
				mu.Unlock()
			}
		})
	}
	desks.Wait()
	assert.Len(d.t, tags, 20)
	broken := errors.New("broken off")
	next := func(fail error) (n int64) {
		err := d.Book().Write(ctx, func(tx *book.Tx) (err error) {
			if n, err = items.Next(tx, "trial"); err != nil {
				return err
			}
			return fail
		})
		assert.ErrorIs(d.t, err, fail)
		return n
	}
	assert.Equal(d.t, []int64{1, 2, 2, 3}, []int64{next(nil), next(broken), next(nil), next(nil)}, "a number not kept is given again")
}

func refusalsLeaveNothing(d *desk) {
	ctx := context.Background()
	before := d.facts(items.About{})
	act := delivery.Admission{
		Register:  delivery.Register{Person: delivery.Person{Family: "Lund"}, Address: delivery.Address{Street: "Shore Road 8"}},
		Order:     &delivery.Order{Rest: 2, Hours: 24},
		Discharge: delivery.Discharge{HandOver: []delivery.Piece{{Item: "i000099", Gauge: new(gas.PSI(2000))}}},
	}
	_, err := d.Do(ctx, d.hand(), act)
	require.Error(d.t, err)
	assert.Equal(d.t, before, d.facts(items.About{}))
	found, err := d.Homes(ctx, "Lund", 5)
	require.NoError(d.t, err)
	assert.Empty(d.t, found)
	assert.Equal(d.t, inventory.PersonID("p00001"), d.person("Vale", "Jory", "Kelp Street 22", ""), "nor was a number used up")
}

func severalActsAreOne(d *desk) {
	ctx := context.Background()
	enrol := func(serial, depot string) store.Dated {
		return store.Dated{Hand: d.hand(), Act: delivery.Enrol{Spec: inventory.Spec{Kind: inventory.Oximeter, Serial: serial}, Depot: depot}}
	}
	var told []int
	err := d.DoAll(ctx, []store.Dated{enrol("OX-1", "harbour"), enrol("OX-2", "nowhere")}, func(done int) { told = append(told, done) })
	require.ErrorContains(d.t, err, "act 2")
	assert.Equal(d.t, []int{1}, told)
	_, total := d.serials(items.Filter{})
	assert.Zero(d.t, total)

	require.NoError(d.t, d.DoAll(ctx, []store.Dated{enrol("OX-1", "harbour"), enrol("OX-2", "harbour")}, nil))
	_, total = d.serials(items.Filter{})
	assert.Equal(d.t, 2, total)

	stopped, cancel := context.WithCancel(ctx)
	cancel()
	assert.Error(d.t, d.DoAll(stopped, []store.Dated{enrol("OX-3", "harbour")}, nil))
	_, total = d.serials(items.Filter{})
	assert.Equal(d.t, 2, total)
}

func looksSeeOneMoment(d *desk) {
	ctx := context.Background()
	require.NoError(d.t, d.Book().Read(ctx, func(tx *book.Tx) error {
		before, err := items.Count(tx)
		require.NoError(d.t, err)
		d.cylinder("E-1")
		after, err := items.Count(tx)
		assert.Equal(d.t, before, after)
		return err
	}))
}

func auditFindsTampering(d *desk) {
	_, item := d.discharged("Abara", "E-1")
	d.do(delivery.PlanRuns{Runs: []delivery.RunPlan{{Planned: delivery.Planned{Vehicle: "van 1", Day: "2030-03-04"}}}})
	require.Empty(d.t, d.mismatches())
	for _, c := range []struct{ spoil, says, mend string }{
		{`UPDATE item_now SET state = 'ready'`, "item_now i000001 differs from its facts: state", `UPDATE item_now SET state = 'handed over'`},
		{`UPDATE item_now SET tag = 99`, "item_now i000001 differs from its facts: tag", `UPDATE item_now SET tag = 1`},
		{`UPDATE person_now SET watched = 0`, "person_now p00001 differs from its facts: watched", `UPDATE person_now SET watched = 1`},
		{`UPDATE run_now SET day = '2030-03-05'`, "run_now r00001 differs from its facts: day", `UPDATE run_now SET day = '2030-03-04'`},
		{`INSERT INTO run_now (run_id, day, vehicle, ended, body) VALUES ('r9', '', '', 0, '{}')`, "run_now r9 is stored but no fact speaks of it", `DELETE FROM run_now WHERE run_id = 'r9'`},
	} {
		require.NoError(d.t, d.write(c.spoil))
		assert.Equal(d.t, []string{c.says}, d.mismatches(), c.spoil)
		require.NoError(d.t, d.write(c.mend))
		require.Empty(d.t, d.mismatches(), c.mend)
	}
	require.NoError(d.t, d.write(`UPDATE item_now SET body = '{"state":"ready"}' WHERE item_id = $1`, string(item)))
	assert.Equal(d.t, []string{"item_now i000001 differs from its facts: body"}, d.mismatches())
	require.NoError(d.t, d.write(`DELETE FROM item_now`))
	assert.Equal(d.t, []string{"item_now i000001 has facts but is not stored"}, d.mismatches())
}

// erase puts an empty record in the place of what identifies a person.
type erase struct {
	person  inventory.PersonID
	address inventory.AddressID
}

func (e erase) Decide(delivery.View) (delivery.Change, error) {
	return delivery.Change{
		Persons:   []delivery.Person{{ID: e.person, Erased: true}},
		Addresses: []delivery.Address{{ID: e.address}},
	}, nil
}

func personsAreErased(d *desk) {
	ctx := context.Background()
	who, item := d.discharged("Abara", "E-1")
	before := d.facts(items.About{})
	for _, f := range before {
		assert.NotContains(d.t, bodyOf(d, f.ID), "Abara", "a fact holds no name")
		assert.NotContains(d.t, bodyOf(d, f.ID), "Gull Row", "a fact holds no street")
	}
	d.do(erase{who, d.page(who).Address.ID})

	for _, text := range []string{"abara", "ines", "gull", "5550110"} {
		found, err := d.Homes(ctx, text, 5)
		require.NoError(d.t, err)
		assert.Empty(d.t, found, text)
	}
	assert.Equal(d.t, "erased person p00001", d.page(who).Person.Name())
	assert.Equal(d.t, before, d.facts(items.About{}), "no chain is broken")
	assert.Equal(d.t, who, d.item(item).Person)
	assert.Empty(d.t, d.mismatches())
	assert.Error(d.t, d.write(`DELETE FROM identity WHERE id = $1`, string(who)), "the id itself stays")
}

func bodyOf(d *desk, id inventory.FactID) (body string) {
	d.t.Helper()
	require.NoError(d.t, d.Book().Read(context.Background(), func(tx *book.Tx) error {
		return tx.QueryRow(`SELECT body FROM fact WHERE id = $1`, int64(id)).Scan(&body)
	}))
	return body
}
