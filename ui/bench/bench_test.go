package bench_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/labels/tag"
	"lungwort/ui/bench"
	"lungwort/ui/tend"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func shown(t *testing.T, d *uitest.Desk) (*bench.View, fyne.Window) {
	t.Helper()
	v := bench.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Bench})
	win.Canvas().Focus(v.Keyboard())
	return v, win
}

func TestOldestFirstWithTheNextStep(t *testing.T) {
	d := uitest.New(t)
	m := bench.NewModel(d.Work)
	m.Load()
	var got [][2]string
	for _, r := range m.Rows {
		got = append(got, [2]string{r.Label, string(r.Next)})
	}
	assert.Equal(t, [][2]string{
		{"CN00409", "put on bench"},
		{"CN00410", "test"},
		{"E-20115", "refill"},
		{"E-20110", "put on bench"},
		{"RG-3303", "keep for the maker"},
		{"ZX 9981", "tell its owner"},
	}, got)
	assert.Equal(t, "1 dirty · 2 on bench · 2 quarantine · 1 not ours · 1 needed by discharges that wait", m.Title)
	assert.Equal(t, "4 days", m.Rows[0].Waits)
	d.Clean()
}

// From dirty to ready by Enter and the numbers alone.
func TestCylinderToReadyByKeys(t *testing.T) {
	d := uitest.New(t)
	_, win := shown(t, d)
	uitest.Shoot(t, win, "bench")
	uitest.Press(win, fyne.KeyDown, fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn) // E-20110 on the bench
	assert.Equal(t, inventory.OnBench, d.Thing("E-20110").State)
	uitest.Press(win, fyne.KeyReturn)
	require.NotNil(t, win.Canvas().Overlays().Top(), "it asks for lot and gauge")
	uitest.Type(win, "L3001")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "2000")
	uitest.Shoot(t, win, "bench-refill")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn)
	require.Nil(t, win.Canvas().Overlays().Top())
	assert.Equal(t, "L3001", d.Thing("E-20110").Fill.Lot)
	uitest.Press(win, fyne.KeyReturn)
	assert.Equal(t, inventory.Ready, d.Thing("E-20110").State)
	d.Clean()
}

func TestMachineUnderTheLimitFails(t *testing.T) {
	d := uitest.New(t)
	_, win := shown(t, d)
	uitest.Press(win, fyne.KeyDown, fyne.KeyReturn) // CN00410: test
	uitest.Type(win, "78")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "p")
	uitest.Shoot(t, win, "bench-test")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn)
	require.Nil(t, win.Canvas().Overlays().Top())
	item := d.Thing("CN00410")
	assert.Equal(t, inventory.InQuarantine, item.State)
	// 82 % is the alarm level of the WHO-UNICEF technical specifications for
	// oxygen therapy devices, 2019.
	assert.Contains(t, item.Why, "under 82 %")
	assert.Contains(t, d.Said[0], "failed")
	d.Clean()
}

func TestMachineToReadyByScans(t *testing.T) {
	d := uitest.New(t)
	v, win := shown(t, d)
	code := tag.Mint(d.Thing("CN00409").Tag)
	require.True(t, v.Scan(code.Payload()))
	assert.Equal(t, inventory.OnBench, d.Thing("CN00409").State)
	require.True(t, v.Scan("cn 00409"), "its serial does as well")
	uitest.Type(win, "93.5")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "p")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn)
	require.Nil(t, win.Canvas().Overlays().Top())
	uitest.Shoot(t, win, "bench-pass")
	require.True(t, v.Scan(code.Printed()))
	item := d.Thing("CN00409")
	assert.Equal(t, inventory.Ready, item.State)
	page, err := d.Desk.ItemPage(t.Context(), item.ID)
	require.NoError(t, err)
	assert.Equal(t, inventory.Scanned, page.Facts[len(page.Facts)-1].Source)
	d.Clean()
}

// TestRepairOutAndIn: a machine goes to the workshop and comes back with its
// cost and a new meter; it is tested before it is lent, and a lower meter asks
// nothing then.
func TestRepairOutAndIn(t *testing.T) {
	d := uitest.New(t)
	m := bench.NewModel(d.Work)
	m.Load()
	out, ok := m.Tender(d.Things["CN00410"], inventory.Keyed)
	require.True(t, ok)
	form := out.Repair()
	assert.Contains(t, form.Submit(form.Answered().With(map[string]string{"fault": ""}), func(error) {})["fault"].Error(), "what is wrong")
	require.Empty(t, form.Submit(form.Answered().With(map[string]string{"fault": "no flow", "workshop": "Isle Works"}), func(err error) { require.NoError(t, err) }))
	assert.Equal(t, inventory.InRepair, d.Thing("CN00410").State)

	back := tend.Tender{Work: d.Work, Item: d.Thing("CN00410"), Programme: uitest.Programme(), Done: func() {}}.Repair()
	require.Empty(t, back.Submit(back.Answered().With(map[string]string{
		"did": "compressor and board", "cost": "140", "board": "yes", "hours": "3", "depot": "harbour",
	}), func(err error) { require.NoError(t, err) }))
	item := d.Thing("CN00410")
	assert.Equal(t, inventory.OnBench, item.State)
	assert.Equal(t, &inventory.Repairs{Times: 1, Cost: 140, Last: uitest.Now}, item.Repairs)
	assert.Empty(t, item.Questions, "a new meter may stand lower")
	_, err := d.Desk.Do(t.Context(), d.Hand(inventory.Keyed), delivery.Release{Item: item.ID, Depot: "harbour"})
	assert.ErrorContains(t, err, "was not tested since")
	d.Clean()
}

// TestMaintenanceHoldsTheRelease: what the programme wants done by hours is asked
// for before the item is ready.
func TestMaintenanceHoldsTheRelease(t *testing.T) {
	d := uitest.New(t)
	p := uitest.Programme()
	p.Upkeep = []delivery.UpkeepRule{{Kind: inventory.Concentrator, What: "inner filter", Hours: 1000}}
	d.Act(delivery.Settings{Programme: p})
	d.Act(delivery.Test{Item: d.Things["CN00410"], Passed: true, Oxygen: new(94.0)})
	_, err := d.Desk.Do(t.Context(), d.Hand(inventory.Keyed), delivery.Release{Item: d.Things["CN00410"], Depot: "harbour"})
	assert.ErrorContains(t, err, "Maintenance of CN00410 is due: inner filter")
	m := bench.NewModel(d.Work)
	m.Load()
	tender, ok := m.Tender(d.Things["CN00410"], inventory.Keyed)
	require.True(t, ok)
	form, asks := tender.Take()
	require.True(t, asks)
	assert.Contains(t, form.Before, "inner filter")
	require.Empty(t, form.Submit(form.Answered(), func(err error) { require.NoError(t, err) }))
	assert.Equal(t, "PASS", m.Sign.Word)
	d.Act(delivery.Release{Item: d.Things["CN00410"], Depot: "harbour"})
	d.Clean()
}

// TestWhatDischargesWaitForComesFirst: no large machine is ready, so the one that
// came in last stands above what is older.
func TestWhatDischargesWaitForComesFirst(t *testing.T) {
	d := uitest.New(t)
	for _, ready := range []string{"CN00901", "CN00902", "CN00903"} {
		if d.Thing(ready).State == inventory.Ready {
			d.Act(delivery.Move{Item: d.Things[ready], To: "workshop"})
		}
	}
	d.Act(delivery.Enrol{Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: 10, Serial: "CN00950"}, Depot: "harbour"})
	d.Act(delivery.Order{Person: d.Persons["Nia"], Rest: 6, Hours: 24})
	m := bench.NewModel(d.Work)
	m.Load()
	require.NotEmpty(t, m.Rows)
	assert.True(t, m.Rows[0].Tonight)
	assert.Contains(t, m.Title, "needed by discharges that wait")
	item, err := d.Desk.ItemPage(t.Context(), m.Rows[0].ID)
	require.NoError(t, err)
	assert.InDelta(t, 10, float64(item.Item.Spec.Rated), 0)
}

func TestStepIsUndone(t *testing.T) {
	d := uitest.New(t)
	v, _ := shown(t, d)
	require.True(t, v.Scan("CN00409"))
	require.NotNil(t, d.Offered)
	d.Offered()
	assert.Equal(t, inventory.InQuarantine, d.Thing("CN00409").State)
	d.Clean()
}

func TestOtherScansAreLeftToTheWindow(t *testing.T) {
	d := uitest.New(t)
	v, _ := shown(t, d)
	for _, text := range []string{"E-20101", "anwen", "", "LW-99999-X"} {
		assert.False(t, v.Scan(text), "%q", text)
	}
	assert.Zero(t, d.Changes)
}

func TestWhatIsNotForTheBenchOpensItsPage(t *testing.T) {
	d := uitest.New(t)
	_, win := shown(t, d)
	uitest.Press(win, fyne.KeyEnd, fyne.KeyUp, fyne.KeyReturn)
	assert.Equal(t, []work.Target{{Room: work.Item, Item: d.Things["RG-3303"]}}, d.Opened)
	assert.Zero(t, d.Changes)
}

// TestOwnerIsToldByOneKey: another's machine in the bay is kept apart; Enter
// records that its owner was told, and then it is given back.
func TestOwnerIsToldByOneKey(t *testing.T) {
	d := uitest.New(t)
	v, win := shown(t, d)
	uitest.Press(win, fyne.KeyEnd, fyne.KeyReturn)
	require.NotNil(t, win.Canvas().Overlays().Top())
	uitest.Shoot(t, win, "bench-owner")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn)
	require.Nil(t, win.Canvas().Overlays().Top())
	page, err := d.Desk.ItemPage(t.Context(), d.Thing("ZX 9981").ID)
	require.NoError(t, err)
	assert.Equal(t, inventory.NotOurs, page.Item.State)
	assert.False(t, page.Item.Told.IsZero())
	assert.Equal(t, tend.GiveBack, tend.Next(page.Item))
	assert.True(t, v.Scan("ZX 9981"))
	d.Clean()
}

func TestNoMachinePassesWithoutOxygen(t *testing.T) {
	d := uitest.New(t)
	m := bench.NewModel(d.Work)
	m.Load()
	tender, ok := m.Tender(d.Things["CN00410"], inventory.Keyed)
	require.True(t, ok)
	form := tender.Test()
	a := form.Answered()
	a["passed"] = "yes"
	assert.ErrorContains(t, form.Submit(a, func(error) {})["oxygen"], "measure the oxygen")
	a["passed"] = "no"
	assert.ErrorContains(t, form.Submit(a, func(error) {})["detail"], "write what failed")
}

func TestStepsEndInReady(t *testing.T) {
	cylinder := inventory.Item{State: inventory.Dirty, Spec: inventory.Spec{Kind: inventory.Cylinder}}
	for _, tc := range []struct {
		name   string
		change func(*inventory.Item)
		want   tend.Step
	}{
		{"dirty", func(*inventory.Item) {}, tend.PutOnBench},
		{"in a home", func(i *inventory.Item) { i.State = inventory.AtWork }, tend.NoStep},
		{"recalled", func(i *inventory.Item) { i.Recall = "2030-07" }, tend.KeepIt},
		{"unknown", func(i *inventory.Item) { i.Spec = inventory.Spec{} }, tend.FindOut},
		{"another's", func(i *inventory.Item) { i.Spec.Foreign = true }, tend.SendIt},
	} {
		i := cylinder
		tc.change(&i)
		assert.Equal(t, tc.want, tend.Next(i), tc.name)
	}
}
