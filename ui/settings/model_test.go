package settings

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/uitest"
)

func newModel(t *testing.T) (*uitest.Desk, *Model) {
	t.Helper()
	d := uitest.New(t)
	m := NewModel(d.Work)
	m.Load()
	require.Empty(t, d.Refused)
	return d, m
}

// goTo opens a page by its name.
func goTo(t *testing.T, m *Model, name string) {
	t.Helper()
	for i, p := range m.Pages() {
		if p.Name == name {
			m.Go(i)
			return
		}
	}
	require.Fail(t, "no page", name)
}

func entry(t *testing.T, m *Model, id string) Entry {
	t.Helper()
	for _, e := range m.Entries() {
		if e.ID == id {
			return e
		}
	}
	require.Fail(t, "no entry", id)
	return Entry{}
}

// answer fills in a form and submits it.
func answer(t *testing.T, form ask.Form, answers ask.Answers) ask.Wrong {
	t.Helper()
	return form.Submit(form.Answered().With(answers), func(err error) { require.NoError(t, err) })
}

func change(t *testing.T, m *Model, id, text string) ask.Wrong {
	t.Helper()
	form, ok := m.Form(id)
	require.True(t, ok, id)
	return answer(t, form, ask.Answers{id: text})
}

// Every number of the programme stands on some page, with its default and
// where that comes from; and every note belongs to a setting.
func TestEveryNumberHasItsSource(t *testing.T) {
	_, m := newModel(t)
	shown := map[string]bool{}
	for i := range m.Pages() {
		m.Go(i)
		for _, e := range m.Entries() {
			shown[e.ID] = true
			if _, noted := noteOf(e.ID); noted {
				assert.NotEmpty(t, e.Default, e.ID)
				assert.NotEmpty(t, e.Source, e.ID)
			}
		}
	}
	for _, note := range delivery.Notes() {
		assert.True(t, shown[note.Setting], "%s is on no page", note.Setting)
	}
}

func TestEveryValueIsReadBackAsItIsWritten(t *testing.T) {
	p := uitest.Programme()
	for _, v := range values {
		again := p
		require.NoError(t, v.set(&again, v.get(p)), v.key)
		assert.Equal(t, v.get(p), v.get(again), v.key)
	}
	for _, g := range groups(uitest.Now) {
		for _, l := range g.lists {
			for i := range l.size(p) {
				again := p
				form := ask.Form{Fields: l.fields(p, i)}
				require.Empty(t, l.put(&again, i, form.Answered()), "%s %d", l.key(), i)
				assert.Equal(t, p, again, "%s %d", l.key(), i)
			}
		}
	}
}

func TestAChangeWaitsUntilItIsPutInForce(t *testing.T) {
	d, m := newModel(t)
	goTo(t, m, "Bridge")
	assert.False(t, entry(t, m, "margin").Own)
	require.Empty(t, change(t, m, "margin", "2"))
	require.Empty(t, change(t, m, "ward_delay", "45 min"))
	e := entry(t, m, "margin")
	assert.Equal(t, Entry{
		ID: "margin", Name: "Bridge margin", Says: "2", Before: "1.5", Default: "1.5", Source: e.Source, Own: true, Changed: true,
	}, e)
	assert.Equal(t, 2, m.Changes())
	assert.InDelta(t, 1.5, inForce(t, d).Margin, 0, "nothing is written yet")

	m.Load() // another look at the screen keeps what was changed
	assert.Equal(t, 2, m.Changes())

	m.Save()
	assert.Equal(t, 45*time.Minute, inForce(t, d).WardDelay)
	assert.Zero(t, m.Changes())
	assert.Equal(t, []string{"The settings are in force."}, d.Said)

	d.Offered() // Undo
	assert.Equal(t, "The settings before are in force again.", d.Said[1])
	assert.InDelta(t, 1.5, inForce(t, d).Margin, 0)
	assert.Equal(t, 30*time.Minute, inForce(t, d).WardDelay)
	d.Clean()
}

func inForce(t *testing.T, d *uitest.Desk) delivery.Programme {
	t.Helper()
	p, err := d.Desk.Programme(context.Background())
	require.NoError(t, err)
	return p
}

func TestWhatCantBeIsToldAtOnce(t *testing.T) {
	_, m := newModel(t)
	for _, tc := range []struct{ page, id, text, says string }{
		{"Bridge", "margin", "0.5", "under 1"},
		{"Bridge", "margin", "lots", "not an amount"},
		{"Bridge", "ward_delay", "30", "in which unit?"},
		{"Bridge", "reserve", "200", "in which unit?"},
		{"Watch", "risk", "60 %", "out of range"},
		{"Watch", "risk", "1", "in percent"},
		{"Numbers to ring", "emergency", "", "no emergency number"},
		{"Roads and ferries", "detour", "0.9", "can't be"},
		{"Check-in bands", "bands.borderline", "5 L/min", "above the emergency band"},
		{"Safety", "fire_metres", "-1 m", "under zero"},
		{"Calls", "calls.daily", "some", "not a count"},
		{"Calls", "calls.every", "0", "can't be"},
		{"Calls", "calls.from", "8", "not a time of day"},
	} {
		goTo(t, m, tc.page)
		before := entry(t, m, tc.id)
		wrong := change(t, m, tc.id, tc.text)
		require.Error(t, wrong[tc.id], "%s = %q", tc.id, tc.text)
		assert.Contains(t, wrong[tc.id].Error(), tc.says, "%s = %q", tc.id, tc.text)
		assert.Equal(t, before, entry(t, m, tc.id), "%s is left as it was", tc.id)
	}
}

// What a thing is worth is by its kind; blank again, it is not known.
func TestWorthByKind(t *testing.T) {
	d, m := newModel(t)
	goTo(t, m, "Coming home")
	require.Empty(t, change(t, m, "worth.concentrator", "900"))
	m.Save()
	assert.Equal(t, map[inventory.Kind]float64{inventory.Concentrator: 900}, inForce(t, d).Prices.Worth)
	require.Error(t, change(t, m, "worth.concentrator", "much")["worth.concentrator"])
	require.Empty(t, change(t, m, "worth.concentrator", " "))
	m.Save()
	assert.Empty(t, inForce(t, d).Prices.Worth)
}

func TestFireDistanceInFeet(t *testing.T) {
	_, m := newModel(t)
	goTo(t, m, "Safety")
	require.Empty(t, change(t, m, "fire_metres", "10 ft"))
	assert.Equal(t, "3.048 m", entry(t, m, "fire_metres").Says) // NIST SP 811: 1 ft is 0.3048 m
}

func TestRowsAreAddedChangedAndRemoved(t *testing.T) {
	d, m := newModel(t)
	goTo(t, m, "Vehicles")
	assert.Equal(t, []string{"vehicle"}, m.Adds())
	form, ok := m.NewRow("vehicle")
	require.True(t, ok)
	wrong := answer(t, form, ask.Answers{"name": "van 3", "until": "07:00", "pieces": "20", "kg": "150"})
	assert.Contains(t, wrong["depot"].Error(), "choose the depot")
	form, _ = m.NewRow("vehicle")
	require.Empty(t, answer(t, form, ask.Answers{"name": "van 3", "depot": "ness", "pieces": "20", "kg": "150", "languages": "Welsh, "}))
	assert.Equal(t, "Ness depot · 08:00 to 18:00 · 20 pieces, 150 kg of cylinders · Welsh", entry(t, m, "vehicles:2").Says)
	assert.Equal(t, 1, m.Changes())

	form, _ = m.Form("vehicles:0")
	require.Empty(t, answer(t, form, ask.Answers{"driver": "Orme"}))
	m.Remove("vehicles:1")
	assert.Equal(t, 2, m.Changes(), "one altered, one removed and one added in its place")
	m.Save()
	require.Empty(t, d.Refused)
	p := inForce(t, d)
	require.Len(t, p.Vehicles, 2)
	assert.Equal(t, "Orme", p.Vehicles[0].Driver)
	assert.Equal(t, delivery.Vehicle{
		Name: "van 3", Depot: "ness", Pieces: 20, Kg: 150, From: "08:00", Until: "18:00", Languages: []string{"Welsh"},
	}, p.Vehicles[1])
}

func TestNamesThatFactsReferToStay(t *testing.T) {
	_, m := newModel(t)
	goTo(t, m, "Depots")
	form, _ := m.Form("depots:0")
	wrong := answer(t, form, ask.Answers{"name": "port"})
	assert.Contains(t, wrong["name"].Error(), "add a new depot instead")
	form, _ = m.NewRow("depot")
	wrong = answer(t, form, ask.Answers{"title": "Second harbour", "name": "harbour"})
	assert.Contains(t, wrong["name"].Error(), "another place already")
	form, _ = m.NewRow("depot")
	require.Empty(t, answer(t, form, ask.Answers{"title": "Skerry store", "name": "skerry", "point": "36.6, -40.3"}))
	form, _ = m.Form("depots:2")
	require.Empty(t, answer(t, form, ask.Answers{"name": "skerries"}), "what is not in force yet can be renamed")
}

func TestAPlaceWithThingsInItCantGo(t *testing.T) {
	d, m := newModel(t)
	goTo(t, m, "Depots")
	m.Remove("depots:1") // nothing stands there and nothing starts there
	m.Save()
	require.Empty(t, d.Refused)
	m.Remove("depots:0")
	m.Save()
	assert.Contains(t, d.Refusal().Says, "Harbour depot can't go")
	assert.Len(t, inForce(t, d).Depots, 1)
	m.Discard()
	assert.Zero(t, m.Changes())
}

func TestAVehicleOnTheRoadCantGo(t *testing.T) {
	d, m := newModel(t)
	goTo(t, m, "Vehicles")
	m.Remove("vehicles:0")
	m.Save()
	assert.Equal(t, "van 1 can't go: its run of 2030-03-05 is not ended.", d.Refusal().Says)
	assert.Len(t, inForce(t, d).Vehicles, 2)
}

func TestTheRotaGoesOnWhereItEnds(t *testing.T) {
	d, m := newModel(t)
	goTo(t, m, "On call")
	assert.Contains(t, entry(t, m, "on_call:0").Says, "now")
	form, _ := m.NewRow("turn")
	answers := form.Answered()
	assert.Equal(t, "2030-03-06T08:20:00-03:00", answers["from"])
	wrong := answer(t, form, ask.Answers{"name": "day desk", "phone": "555-0113", "until": answers["from"]})
	assert.Contains(t, wrong["until"].Error(), "ends before it begins")
	form, _ = m.NewRow("turn")
	require.Empty(t, answer(t, form, ask.Answers{"name": "day desk", "role": "coordinator", "phone": "555-0113"}))
	m.Save()
	who, ok := inForce(t, d).Duty(uitest.Now.AddDate(0, 0, 1))
	assert.True(t, ok)
	assert.Equal(t, "day desk", who.Name)
}

func TestThereIsOneHospital(t *testing.T) {
	_, m := newModel(t)
	goTo(t, m, "Hospital and wards")
	assert.Equal(t, []string{"ward"}, m.Adds())
	m.Remove("hospital:0")
	assert.Equal(t, []string{"hospital", "ward"}, m.Adds())
}

func TestKitListsAreReadInWords(t *testing.T) {
	d, m := newModel(t)
	goTo(t, m, "Kits")
	form, _ := m.NewRow("kit list")
	for text, says := range map[string]string{
		"":                 "at least one item",
		"two cylinders":    "how many of what",
		"1 cylinder":       "no size of cylinder",
		"1 ventilator":     "no kind of item",
		"1 regulator blue": "can't be said of a regulator",
	} {
		wrong := answer(t, form, ask.Answers{"name": "high flow", "items": text})
		require.Error(t, wrong["items"], "%q", text)
		assert.Contains(t, wrong["items"].Error(), says, "%q", text)
	}
	require.Empty(t, answer(t, form, ask.Answers{"name": "high flow", "items": "1 concentrator 10 L/min, 2 cylinder US-E", "supplies": "3 cannula"}))
	m.Save()
	require.Empty(t, d.Refused)
	kit, ok := inForce(t, d).Kit("high flow")
	require.True(t, ok)
	assert.Equal(t, delivery.Kit{
		Name:     "high flow",
		Items:    []delivery.Wanted{{Kind: inventory.Concentrator, Rated: 10, Count: 1}, {Kind: inventory.Cylinder, Size: "US-E", Count: 2}},
		Supplies: []inventory.Handful{{Supply: "cannula", Count: 3}},
	}, kit)
}

func TestBillingCodesAreAsked(t *testing.T) {
	d, m := newModel(t)
	goTo(t, m, "Spreadsheets")
	assert.Equal(t, "none", entry(t, m, "billing").Says)
	assert.NotEmpty(t, change(t, m, "billing", "ICD"))
	assert.Empty(t, change(t, m, "billing", "HCPCS"))
	m.Save()
	assert.Equal(t, delivery.HCPCS, inForce(t, d).Billing)
	assert.Empty(t, change(t, m, "billing", "none"))
	m.Save()
	assert.Empty(t, inForce(t, d).Billing)
}

// Label paper is described as it is measured; what could not lie on its sheet
// is told under the field.
func TestLabelStocksAreDescribedByTheirDimensions(t *testing.T) {
	d, m := newModel(t)
	goTo(t, m, "Paper and labels")
	assert.Empty(t, change(t, m, "paper", "A4"))
	assert.NotEmpty(t, change(t, m, "gs1_company", "12 34"))
	assert.Empty(t, change(t, m, "gs1_company", "9521234"))
	assert.Empty(t, change(t, m, "carries", "GS1 Digital Link"))
	form, ok := m.NewRow("label stock")
	require.True(t, ok)
	for name, c := range map[string]struct {
		answers ask.Answers
		wrong   []string
	}{
		"nothing":         {ask.Answers{"page": ""}, []string{"name", "page", "size", "count"}},
		"half a pair":     {ask.Answers{"name": "box", "size": "63.5", "count": "3 × 8"}, []string{"size"}},
		"half a label":    {ask.Answers{"name": "box", "size": "63.5 x 33.9", "count": "2.5 × 8"}, []string{"count"}},
		"wider than page": {ask.Answers{"name": "box", "size": "99 × 67", "count": "3 × 4"}, []string{"size"}},
	} {
		wrong := answer(t, form, c.answers)
		assert.Len(t, wrong, len(c.wrong), name)
		for _, key := range c.wrong {
			assert.Error(t, wrong[key], "%s: %s", name, key)
		}
	}
	assert.Empty(t, answer(t, form, ask.Answers{
		"name": "Freezer labels", "page": "A4", "size": "2.5 x 1 in", "count": "3 x 10", "margin": "7,2 × 21.5", "gap": "2 x 0",
	}))
	roll, _ := m.NewRow("label stock")
	assert.Empty(t, answer(t, roll, ask.Answers{"name": "Small roll", "page": "Roll", "size": "50 × 25", "count": ""}))
	twin, _ := m.NewRow("label stock")
	answer(t, twin, ask.Answers{"name": "small roll", "page": "Roll", "size": "40 × 25", "count": ""})
	m.Save()
	assert.Contains(t, d.Refusal().Says, "Two label stocks")
	m.Remove("stocks:2")
	m.Save()
	p := inForce(t, d)
	assert.Equal(t, "A4", p.OfficePaper())
	assert.Equal(t, []string{"9521234", "link"}, []string{p.Company, p.Carries})
	require.Len(t, p.Stocks, 2)
	assert.Equal(t, delivery.LabelStock{Name: "Freezer labels", Page: "A4", Rows: 10, Columns: 3, Width: 63.5, Height: 25.4, Left: 7.2, Top: 21.5, Across: 2}, p.Stocks[0])
	assert.Equal(t, "Freezer labels", entry(t, m, "stocks:0").Name)
	assert.Equal(t, "A4 · 3 × 10 labels · 63.5 × 25.4 mm · margins 7.2 × 21.5 · gaps 2 × 0", entry(t, m, "stocks:0").Says)
}

// A size of the programme's own is added by its figures; a kit can hold it, and it
// can't go while the book has cylinders of it.
func TestOwnSizes(t *testing.T) {
	d, m := newModel(t)
	goTo(t, m, "Cylinders")
	form, ok := m.NewRow("size")
	require.True(t, ok)
	wrong := answer(t, form, ask.Answers{"name": "QI", "letter": "Q", "contents": "682 L", "full": "2015", "water": "1 L"})
	assert.ErrorContains(t, wrong["contents"], "do not fit")
	require.Empty(t, answer(t, form, ask.Answers{"name": "QI", "letter": "Q", "contents": "682 L", "full": "2015", "water": "4.64 L", "empty": "3.6 kg", "valve": "post"}))
	m.Save()
	require.Empty(t, d.Refused)

	_, err := d.Work.Desk.Do(t.Context(), d.Work.Hand(inventory.Keyed), delivery.Enrol{
		Spec: inventory.Spec{Kind: inventory.Cylinder, Serial: "Q-1", Size: "QI-Q"}, Depot: "harbour",
	})
	require.NoError(t, err)
	goTo(t, m, "Cylinders")
	m.Remove("sizes:0")
	m.Save()
	require.Len(t, d.Refused, 1)
	assert.ErrorContains(t, d.Refused[0], "QI-Q can't go: the book has 1 cylinders of it")
}

// The programme's clock is one of a zone that everybody knows.
func TestTimeZone(t *testing.T) {
	d, m := newModel(t)
	goTo(t, m, "Hospital and wards")
	assert.ErrorContains(t, change(t, m, "time_zone", "Quillet")["time_zone"], "as Europe/Lisbon")
	require.Empty(t, change(t, m, "time_zone", "Atlantic/Azores"))
	m.Save()
	require.Empty(t, d.Refused)
	p, err := d.Work.Desk.Programme(t.Context())
	require.NoError(t, err)
	assert.Equal(t, "Atlantic/Azores", p.TimeZone)
}
