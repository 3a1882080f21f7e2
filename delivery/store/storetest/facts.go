package storetest

import (
	"context"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	items "lungwort/inventory/store"
)

func (d *desk) facts(about items.About) []inventory.Fact {
	d.t.Helper()
	facts, err := d.Facts(context.Background(), about)
	require.NoError(d.t, err)
	return facts
}

func factsNeverChange(d *desk) {
	d.cylinder("E-1")
	before := d.facts(items.About{})
	for _, change := range []string{
		`UPDATE fact SET by_whom = 'somebody else'`,
		`UPDATE fact SET body = '{}' WHERE id = 1`,
		`DELETE FROM fact`,
		`DELETE FROM fact WHERE id = 1`,
	} {
		assert.Error(d.t, d.write(change), change)
		assert.Equal(d.t, before, d.facts(items.About{}), change)
	}
	assert.Error(d.t, d.write(`
		INSERT INTO fact (says, happened, happened_offset, recorded, by_whom, source, corrects, body)
		VALUES ('retracted', 0, 0, 0, 'x', 'keyed', 9999, '{}')`), "a correction of a fact that is not there")
}

func factsKeepTheirTimes(d *desk) {
	item := d.cylinder("E-1")
	d.now = time.Date(2030, time.October, 27, 1, 40, 0, 0, time.FixedZone("", 2*3600))
	d.do(delivery.Read{Item: item, Gauge: new(gas.PSI(1500))})
	d.now = time.Date(2030, time.October, 27, 1, 10, 0, 0, time.FixedZone("", 3600)) // the hour that comes twice
	d.do(delivery.Read{Item: item, Gauge: new(gas.PSI(1400))})

	facts := d.facts(items.About{Item: item})
	last, before := facts[len(facts)-1], facts[len(facts)-2]
	assert.Equal(d.t, "2030-10-27T01:40:00+02:00", before.Happened.Format(time.RFC3339))
	assert.Equal(d.t, "2030-10-27T01:10:00+01:00", last.Happened.Format(time.RFC3339))
	assert.Equal(d.t, 30*time.Minute, last.Happened.Sub(before.Happened))
	assert.Equal(d.t, gas.PSI(1400), d.item(item).Gauge.Value)
	assert.Equal(d.t, "tester", last.By)
	assert.Equal(d.t, inventory.Keyed, last.Source)
	for i := 1; i < len(facts); i++ {
		assert.Greater(d.t, facts[i].ID, facts[i-1].ID, "in the order of recording")
	}
}

func factsAreChosen(d *desk) {
	who, item := d.discharged("Abara", "E-1")
	other := d.concentrator("CN-1")
	run := d.do(delivery.PlanRuns{Runs: []delivery.RunPlan{{Planned: delivery.Planned{Vehicle: "van 1", Day: "2030-03-04"}}}}).Facts[0].Run

	for _, f := range d.facts(items.About{Item: item}) {
		assert.Equal(d.t, item, f.Item)
	}
	for _, f := range d.facts(items.About{Person: who}) {
		assert.Equal(d.t, who, f.Person)
	}
	around := d.facts(items.About{Around: who})
	assert.Subset(d.t, around, d.facts(items.About{Item: item}))
	assert.Subset(d.t, around, d.facts(items.About{Person: who}))
	assert.NotSubset(d.t, around, d.facts(items.About{Item: other}))
	assert.Len(d.t, d.facts(items.About{Run: run}), 1)
	assert.Len(d.t, d.facts(items.About{Says: "decided"}), 1)
	assert.Empty(d.t, d.facts(items.About{Item: "i999999"}))
}

func factsAreKnownThen(d *desk) {
	item := d.cylinder("E-1")
	all := d.facts(items.About{Item: item})
	recorded := all[0].Recorded
	assert.Len(d.t, d.facts(items.About{Item: item, Known: recorded}), len(all))
	assert.Empty(d.t, d.facts(items.About{Item: item, Known: recorded.Add(-time.Millisecond)}))
}

func stateFollows(d *desk) {
	ctx := context.Background()
	who, item := d.discharged("Abara", "E-1")
	late := store.Hand{By: "tester", Source: inventory.Paper, At: d.now.Add(-2 * time.Hour)}
	_, err := d.Do(ctx, late, delivery.Read{Item: item, Gauge: new(gas.PSI(1700))})
	require.NoError(d.t, err)
	assert.Equal(d.t, gas.PSI(2000), d.item(item).Gauge.Value, "a reading keyed late does not replace a later one")

	d.now = d.now.Add(time.Hour)
	back := d.do(delivery.Return{Item: item, Depot: "harbour", Gauge: new(gas.PSI(300))}).Facts
	assert.Equal(d.t, inventory.Dirty, d.item(item).State)
	assert.Empty(d.t, d.page(who).Care.Kit)
	for _, f := range back {
		d.do(delivery.Retract{Fact: f.ID, Why: "scanned by mistake"})
	}
	assert.Equal(d.t, inventory.HandedOver, d.item(item).State)
	assert.Equal(d.t, gas.PSI(2000), d.item(item).Gauge.Value)
	require.Len(d.t, d.page(who).Care.Kit, 1)

	reading := d.do(delivery.Read{Item: item, Gauge: new(gas.PSI(190))}).Facts[0].ID
	taken := d.do(delivery.Retract{Fact: reading, Why: "a zero was lost"}).Facts[0].ID
	d.do(delivery.Retract{Fact: taken, Why: "no, it was right"})
	assert.Equal(d.t, gas.PSI(190), d.item(item).Gauge.Value, "a taking back can be taken back")
	assert.Empty(d.t, d.mismatches())
}

func cutsAreTakenBack(d *desk) {
	who, _ := d.discharged("Abara", "E-1")
	d.do(delivery.Register{
		Person:  d.page(who).Person,
		Address: delivery.Address{ID: d.page(who).Address.ID, Street: "Gull Row 14", Mains: delivery.MainsYes, Line: "Mill line"},
	})
	cut := d.do(delivery.Outage{Area: "Mill line", From: d.now, Until: d.now.Add(time.Hour)}).Facts[0].ID
	cuts := func() int {
		w, err := d.WatchOne(context.Background(), who, d.now)
		require.NoError(d.t, err)
		return len(w.Cuts)
	}
	assert.Equal(d.t, 1, cuts())
	taken := d.do(delivery.Retract{Fact: cut, Why: "another line"}).Facts[0].ID
	assert.Zero(d.t, cuts())
	_, err := d.Do(context.Background(), d.hand(), delivery.Retract{Fact: cut, Why: "once more"})
	assert.ErrorContains(d.t, err, "taken back already")
	d.do(delivery.Retract{Fact: taken, Why: "that line after all"})
	assert.Equal(d.t, 1, cuts())
	_, err = d.Do(context.Background(), d.hand(), delivery.Retract{Fact: taken, Why: "once more"})
	assert.ErrorContains(d.t, err, "taken back already")

	p, err := d.Programme(context.Background())
	require.NoError(d.t, err)
	p.Margin = 2
	settings := d.do(delivery.Settings{Programme: p}).Facts[0].ID
	d.do(delivery.Retract{Fact: settings, Why: "not agreed"})
	p, err = d.Programme(context.Background())
	require.NoError(d.t, err)
	assert.Equal(d.t, 1.5, p.Margin, "the settings before are in force again")
}

// settingsAreThoseOfTheBook changes settings in an act that is undone, and at
// another desk: what a desk remembers of them is what the book holds.
func settingsAreThoseOfTheBook(d *desk) {
	ctx := context.Background()
	margin := func() float64 {
		p, err := d.Programme(ctx)
		require.NoError(d.t, err)
		return p.Margin
	}
	p, err := d.Programme(ctx)
	require.NoError(d.t, err)
	with := func(margin float64) delivery.Settings {
		p.Margin = margin
		return delivery.Settings{Programme: p}
	}
	d.do(with(2))
	err = d.DoAll(ctx, []store.Dated{
		{Hand: d.hand(), Act: with(3)},
		{Hand: d.hand(), Act: delivery.Retract{Fact: 999999, Why: "never written"}},
	}, nil)
	require.Error(d.t, err)
	assert.Equal(d.t, 2.0, margin(), "what was undone was never in force")
	d.do(with(4)) // has the number of the fact that was undone
	assert.Equal(d.t, 4.0, margin())
	_, err = store.NewDesk(d.Book()).Do(ctx, d.hand(), with(5))
	require.NoError(d.t, err)
	assert.Equal(d.t, 5.0, margin(), "decided at another desk")
}
