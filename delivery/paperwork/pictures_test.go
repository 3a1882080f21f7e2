package paperwork_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/labels/scene"
)

var noon = time.Date(2030, time.March, 5, 12, 0, 0, 0, time.UTC)

const who = inventory.PersonID("p00001")

// told makes facts about one person's items, in order.
type told struct{ facts []inventory.Fact }

func (b *told) at(hours float64, item inventory.ItemID, s inventory.Statement) *told {
	b.facts = append(b.facts, inventory.Fact{
		ID: inventory.FactID(len(b.facts) + 1), Happened: noon.Add(time.Duration(hours * float64(time.Hour))),
		Item: item, Person: who, By: "desk", Statement: s,
	})
	return b
}

func lent(size gas.SizeCode) *inventory.Lent {
	return &inventory.Lent{Role: inventory.Backup, At: "address:a00001", Spec: inventory.Spec{Kind: inventory.Cylinder, Size: size}}
}

func gauge(p gas.Pressure, told bool) *inventory.Observed {
	return &inventory.Observed{Gauge: &p, Told: told}
}

func watch(t *testing.T, facts []inventory.Fact, now time.Time) delivery.Watch {
	t.Helper()
	care := delivery.FoldCare(who, facts)
	return delivery.WatchHome(delivery.NewProgramme(), delivery.Person{ID: who, Family: "Abara", Given: "Ines"}, delivery.Home{Care: care}, now)
}

// Full cylinders hold what their labels say; the label contents are those of
// the size table in inventory/gas, with their sources.
func TestGasChartReadingsAreThoseOfTheWholeHouse(t *testing.T) {
	e, _ := gas.LookUp("US-E")
	d, _ := gas.LookUp("US-D")
	var b told
	b.at(-49, "", &delivery.Discharged{Opened: noon.Add(-49 * time.Hour)}).at(-48, "e", lent("US-E")).at(-48, "e", gauge(e.Service, false)).
		at(-30, "e", gauge(gas.PSI(1000), true)).
		at(-20, "d", lent("US-D")).at(-20, "d", gauge(d.Service, false)).
		at(-10, "x", gauge(gas.PSI(500), false)). // not this person's cylinder
		at(-5, "e", &inventory.Collected{Vehicle: "van 1"}).
		at(-4, "d", gauge(d.Service, true))
	c := paperwork.GasChart(watch(t, b.facts, noon), b.facts, nil, delivery.NewProgramme(), noon)
	require.Len(t, c.Readings, 4)
	half := float64(e.ContentsAt(gas.PSI(1000), gas.Room))
	for i, want := range []struct {
		litres      float64
		told, fresh bool
		key         string
	}{
		{float64(e.Contents), false, true, "3"},
		{half, true, false, "4"},
		{half + float64(d.Contents), false, true, "6"},
		{float64(d.Contents), true, true, "9"},
	} {
		got := c.Readings[i]
		assert.InDelta(t, want.litres, got.Litres, 1, "litres of reading %d", i)
		assert.Equal(t, []any{want.told, want.fresh, want.key}, []any{got.Told, got.Fresh, got.Key}, "told, fresh and key of reading %d", i)
	}
	assert.InDelta(t, float64(d.Contents), c.Full, 1e-9, "only what is in the home now")
}

func TestGasChartForecastFallsToTheDryTimes(t *testing.T) {
	e, _ := gas.LookUp("US-E")
	var b told
	b.at(-1, "", &delivery.Ordered{Rest: 2, Hours: 24}).at(-1, "", &delivery.Discharged{Opened: noon.Add(-time.Hour)}).
		at(-1, "e", lent("US-E")).at(-1, "e", gauge(e.Service, false))
	w := watch(t, b.facts, noon)
	c := paperwork.GasChart(w, b.facts, nil, delivery.NewProgramme(), noon)
	require.Len(t, c.Forecast, 4)
	first, last := c.Forecast[0], c.Forecast[3]
	assert.Equal(t, noon.Add(-time.Hour), first.At)
	assert.InDelta(t, float64(e.Contents), first.Low, 1)
	assert.Equal(t, first.Low, first.High)
	assert.Equal(t, w.Forecast.High, last.At)
	assert.Zero(t, last.High)
	for i, at := range []time.Time{w.Forecast.Low, w.Forecast.Mid} {
		got := c.Forecast[i+1]
		assert.Equal(t, at, got.At)
		assert.LessOrEqual(t, got.Low, got.Mid)
		assert.LessOrEqual(t, got.Mid, got.High)
	}
	assert.True(t, c.From.Before(c.Readings[0].At) && c.To.After(last.At), "everything is in sight: %s to %s", c.From, c.To)
	assert.Equal(t, w.ActBy(), c.ActBy)
}

func TestGasChartDrawsNoForecastItDoesNotKnow(t *testing.T) {
	var b told
	b.at(-1, "", &delivery.Ordered{Rest: 2, Hours: 24}).at(-1, "", &delivery.Discharged{Opened: noon.Add(-time.Hour)}).
		at(-1, "e", lent("US-E"))
	w := watch(t, b.facts, noon)
	require.Equal(t, depletion.Unknown, w.Verdict)
	assert.Empty(t, paperwork.GasChart(w, b.facts, nil, delivery.NewProgramme(), noon).Forecast)
}

// However old the last reading is, the chart shows it.
func TestGasChartShowsTheLastReading(t *testing.T) {
	var b told
	b.at(-700, "", &delivery.Ordered{Rest: 2, Hours: 24}).at(-700, "", &delivery.Discharged{Opened: noon.Add(-700 * time.Hour)}).
		at(-700, "e", lent("US-E")).at(-700, "e", gauge(gas.PSI(1900), false))
	c := paperwork.GasChart(watch(t, b.facts, noon), b.facts, nil, delivery.NewProgramme(), noon)
	require.Len(t, c.Readings, 1)
	assert.True(t, c.From.Before(c.Readings[0].At), "%s", c.From)
}

func TestGasChartIsFlatWhileTheConcentratorRuns(t *testing.T) {
	e, _ := gas.LookUp("US-E")
	var b told
	b.at(-50, "", &delivery.Ordered{Rest: 2, Hours: 24}).
		at(-50, "m", &inventory.Lent{Role: inventory.InUse, Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: 5}}).
		at(-50, "", &delivery.Switched{To: delivery.FromConcentrator}).
		at(-49, "e", lent("US-E")).at(-49, "e", gauge(e.Service, false))
	w := watch(t, b.facts, noon)
	stop := noon.Add(3 * time.Hour)
	run := delivery.Run{Vehicle: "van 1", Stops: []delivery.Stop{{PlannedStop: delivery.PlannedStop{Persons: []inventory.PersonID{who}, Arrive: stop}}}}
	w.Cuts = []delivery.PowerCut{{From: noon.Add(20 * time.Hour), Until: noon.Add(24 * time.Hour)}}
	c := paperwork.GasChart(w, b.facts, []delivery.Run{run}, delivery.NewProgramme(), noon)
	require.Len(t, c.Forecast, 2)
	assert.Equal(t, c.Forecast[0].Low, c.Forecast[1].High)
	assert.Equal(t, noon.Add(20*time.Hour), c.Forecast[1].At, "flat only until the power goes")
	assert.Equal(t, []scene.ChartVisit{{At: stop, Says: "van 1"}}, c.Visits)
	assert.Equal(t, []scene.Span{{From: noon.Add(20 * time.Hour), To: noon.Add(24 * time.Hour)}}, c.Outages)
}

// A cold gauge is no leak: 1,705 psi at -10 °C are the 2,000 psi of a warm room.
func TestGasChartMindsTheCold(t *testing.T) {
	cold := gauge(gas.PSI(1705), false)
	cold.Temperature = new(gas.Celsius(-10))
	var b told
	b.at(-9, "", &delivery.Ordered{Rest: 2, Hours: 24}).at(-9, "", &delivery.Discharged{Opened: noon.Add(-9 * time.Hour)}).
		at(-8, "e", lent("US-E")).at(-8, "e", gauge(gas.PSI(2000), false)).at(-6, "e", cold).at(-4, "e", gauge(gas.PSI(2000), false))
	c := paperwork.GasChart(watch(t, b.facts, noon), b.facts, nil, delivery.NewProgramme(), noon)
	require.Len(t, c.Readings, 3)
	assert.InDelta(t, c.Readings[0].Litres, c.Readings[1].Litres, 2, "the same gas")
	assert.Equal(t, c.Readings[0].Litres, c.Readings[2].Litres)
}

// A trip on the cylinder is on the chart, and the gas is flat only until it.
func TestGasChartShowsTrips(t *testing.T) {
	e, _ := gas.LookUp("US-E")
	var b told
	b.at(-50, "", &delivery.Ordered{Rest: 2, Hours: 24}).
		at(-50, "m", &inventory.Lent{Role: inventory.InUse, Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: 5}}).
		at(-50, "", &delivery.Switched{To: delivery.FromConcentrator}).
		at(-49, "e", lent("US-E")).at(-49, "e", gauge(e.Service, false)).
		at(-1, "", &delivery.TripBooked{From: noon.Add(5 * time.Hour), Until: noon.Add(8 * time.Hour), Where: "clinic"})
	c := paperwork.GasChart(watch(t, b.facts, noon), b.facts, nil, delivery.NewProgramme(), noon)
	require.Len(t, c.Trips, 1)
	assert.Equal(t, noon.Add(5*time.Hour), c.Forecast[len(c.Forecast)-1].At)
	var rows []string
	for _, r := range c.Rows() {
		rows = append(rows, r.What)
	}
	assert.Contains(t, rows, "leaves on a trip: clinic")
	assert.Contains(t, rows, "back from the trip, as planned")
}

func TestLifeLine(t *testing.T) {
	var b told
	b.at(-90, "e", &inventory.Enrolled{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}}).
		at(-90, "e", &inventory.Moved{To: "depot:harbour"}).
		at(-90, "e", &inventory.Cleared{Depot: "harbour"}).
		at(-50, "e", lent("US-E")).at(-50, "e", gauge(gas.PSI(1900), false)).
		at(-30, "e", gauge(gas.PSI(90), true)).
		at(-20, "e", &inventory.Returned{Depot: "harbour"})
	b.facts = append(b.facts, inventory.Fact{ID: 8, Happened: noon.Add(-30 * time.Hour), Item: "e", Corrects: 6, Statement: &inventory.Retracted{Why: "a slip"}})
	page := store.ItemPage{Facts: b.facts, Names: map[inventory.PersonID]string{who: "Ines A."}}
	life := paperwork.LifeLine(page, noon)
	type dot struct {
		place, says, key string
		replaced         bool
	}
	var got []dot
	for _, e := range life.Events {
		got = append(got, dot{e.Place, e.Says, e.Key, e.Replaced})
	}
	assert.Equal(t, []dot{
		{"ready", "new", "1", false},
		{"a home", "backup, 1,900 psi", "4", false},
		{"", "90 psi", "6", true},
		{"dirty bay", "", "7", false},
	}, got)
	assert.Equal(t, []scene.LifePerson{{From: noon.Add(-50 * time.Hour), To: noon.Add(-20 * time.Hour), Name: "Ines A."}}, life.Persons)
}
