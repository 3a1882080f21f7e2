package intake_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/delivery/intake"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/sheet"
)

const itemList = `Serial,Kind,Size,Model,Owner,Rated (L/min),Hours,Gauge (psi),Read at,Lot,Filled,Requalify by,Place,Status,Since
E-20117,cylinder,US-E,,,,,2000,2025-03-30 10:00,L2409A,2025-03-01,2027-05,depot:harbour,ready,2025-03-02
E-20118,cylinder,E,,,,,1900,2025-03-30 10:00,L2409A,2025-03-01,,van 1,ready,
E-20119,cylinder,US-E,,Skerry Gas,,,1400,2025-03-10 09:00,L2409A,2025-03-01,,,at home,
E-20120,cylinder,US-E,,Skerry Gas,,,300,2025-03-30,L2401B,2025-01-10,,harbour,dirty,
E-20121,cylinder,US-E,,,,,,,,,,skerry,at plant,
E-20122,cylinder,US-E,,,,,,,,,,harbour,ready,
E-20123,cylinder,US-E,,,,,,,,,,,missing,
CN00417,concentrator,,Kestrel 5,,5,1204.5,,2025-03-10 09:00,,,,,at home,
CN00418,concentrator,,Kestrel 5,,5,88,,2025-03-30,,,,workshop,in repair,
CN00419,concentrator,,Kestrel 10,,10,20,,2025-03-30,,,,slipway depot,on bench,
R-0031,regulator,,,,,,,,,,,ward 6B,quarantine,
P-0007,oximeter,,,Harbour Rentals,,,,,,,,harbour,not ours,
`

const personList = `Record number,Family name,Given name,Born,Phone,Street,Town,Area,Latitude,Longitude,Power line,Mains,Floors,Smoker,Language,Rest (L/min),Exertion (L/min),Asleep (L/min),Hours a day,Review,Prescriber,Ward,Discharged,Breathes,Since,Items lent,Gauge (psi),Read at,Hours,Last call,SpO2 (%),Flow in use (L/min),Notes
0048213,Abara,Ines,1951-02-07,"555-0142, 555-0177 (son Ben)",Kelp Street 22,Quillet Harbour,Great Quillet,36.52,-40.5,Harbour line,yes,2,no,Ropa,2,3,2,24,2025-06-01,Dr Vance,6B,2025-03-09 14:00,concentrator,2025-03-09 16:30,CN00417; E-20119,1500,2025-03-28 10:00,1650,2025-03-29 09:00,94,2,dog
0048214,Abara,Tomas,,,Kelp street 22,Quillet Harbour,,,,,yes,2,no,,1,,,16,,,,,,,,,,,,,,waits
0051990,Okoro,Tunde,,555-0150,Mole Row 3,Skerry,,36.4,-40.6,,no,0,yes,,1,,,24,,,day unit,2025-04-01 11:00,cylinder,,"E-20118","1,850",2025-04-02 08:00,,,,,
`

func TestBothListsMakeAProgramme(t *testing.T) {
	d := newDesk(t)
	r := d.take(intake.Answers{"lent:people.csv:the item list": "this list"},
		table(t, "items.csv", itemList), table(t, "people.csv", personList))
	dump(r)
	require.Empty(t, r.Questions)
	require.Empty(t, r.Refused)
	assert.Equal(t, 15, r.Taken)
	assert.Equal(t, 12, r.Added.Things)
	assert.Equal(t, 3, r.Added.Persons)
	d.audit()

	for serial, want := range map[string]struct {
		state inventory.State
		place inventory.Place
	}{
		"E-20117": {inventory.Ready, "depot:harbour"},
		"E-20120": {inventory.Dirty, "depot:harbour"},
		"E-20121": {inventory.OutAtPlant, "plant:skerry"},
		"E-20122": {inventory.InQuarantine, "depot:harbour"}, // ready, it says, but nobody read it
		"E-20123": {inventory.Missing, "missing"},
		"CN00418": {inventory.InRepair, "workshop"},
		"CN00419": {inventory.OnBench, "depot:slipway"},
		"R-0031":  {inventory.InQuarantine, "ward:6B"},
		"P-0007":  {inventory.NotOurs, "depot:harbour"},
		"CN00417": {inventory.AtWork, d.item("CN00417").Place},
		"E-20119": {inventory.AsBackup, d.item("E-20119").Place},
		"E-20118": {inventory.AtWork, d.item("E-20118").Place},
	} {
		item := d.item(serial)
		assert.Equal(t, want.state, item.State, serial)
		assert.Equal(t, want.place, item.Place, serial)
	}
	assert.Equal(t, "2027-05", d.item("E-20117").Spec.Requal)
	assert.Equal(t, "Skerry Gas", d.item("E-20119").Spec.Owner)
	assert.Equal(t, gas.Flow(5), d.item("CN00417").Spec.Rated)
	assert.True(t, finds(r.Findings, "E-20122", "no gauge reading"))
	p, err := d.Programme(context.Background())
	require.NoError(t, err)
	_, found := p.Site("slipway")
	assert.True(t, found, "a depot that the list names is a depot of the programme")
}

func TestPersonListPutsPeopleOnTheWatch(t *testing.T) {
	d := newDesk(t)
	d.take(intake.Answers{"lent:people.csv:the item list": "this list"},
		table(t, "items.csv", itemList), table(t, "people.csv", personList))
	zone := d.at.Location()

	ines := d.page("0048213")
	assert.Equal(t, delivery.Running, ines.Care.Phase)
	assert.True(t, time.Date(2025, 3, 9, 16, 30, 0, 0, zone).Equal(ines.Care.Since), "the concentrator runs since then, not since the list came")
	assert.True(t, time.Date(2025, 3, 9, 14, 0, 0, 0, zone).Equal(ines.Care.Discharge.Opened))
	assert.Equal(t, delivery.Ordered{Rest: 2, Exertion: 3, Asleep: 2, Hours: 24, Prescriber: "Dr Vance",
		Review: ines.Care.Order.Review}, *ines.Care.Order)
	assert.Equal(t, "2025-06-01", ines.Care.Order.Review.Format(time.DateOnly))
	backup, _ := ines.Care.Holding(d.item("E-20119").ID)
	assert.InDelta(t, 1500, backup.Gauge.Value.PSI(), 0.01)
	assert.True(t, time.Date(2025, 3, 28, 10, 0, 0, 0, zone).Equal(backup.Gauge.At))
	assert.Equal(t, 94.0, *ines.Care.LastCall.SpO2)
	assert.Equal(t, "fine", ines.Care.LastCall.Band)
	assert.Equal(t, delivery.Address{ID: ines.Address.ID, Street: "Kelp Street 22", Town: "Quillet Harbour", Mains: delivery.MainsYes,
		Line: "Harbour line", Stairs: 2, Smoker: "no", Point: delivery.Point{Lat: 36.52, Lon: -40.5, Area: "Great Quillet"}}, ines.Address)
	assert.Equal(t, []delivery.Phone{{Number: "555-0142"}, {Number: "555-0177", Whose: "son Ben"}}, ines.Person.Phones)

	tomas := d.page("0048214")
	assert.Equal(t, delivery.Known, tomas.Care.Phase, "not discharged yet")
	assert.Equal(t, ines.Care.Address, tomas.Care.Address, "one street, one address")

	tunde := d.page("0051990")
	assert.Equal(t, delivery.OnBridge, tunde.Care.Phase)
	assert.Equal(t, delivery.FromCylinder, tunde.Care.Breathes)

	rows, err := d.Watch(context.Background(), d.at)
	require.NoError(t, err)
	require.Len(t, rows, 2)
	for _, w := range rows {
		assert.NotEqual(t, depletion.Unknown, w.Verdict, "%s: everything is known", w.Person.Name())
	}
}

// One list says ready, the other says lent: which is right is asked, once for
// all such things.
func TestListsThatContradictAreAskedAbout(t *testing.T) {
	items, people := table(t, "items.csv", itemList), table(t, "people.csv", personList)
	d := newDesk(t)
	r := d.take(nil, items, people)
	require.Equal(t, 1, asked(r, "lent:"))
	assert.Equal(t, []string{"E-20118: ready"}, question(t, r, "lent:").Examples)
	assert.Equal(t, 14, r.Taken)
	assert.Equal(t, inventory.Ready, d.item("E-20118").State, "the item list is clear and goes in")

	r = d.take(nil, people)
	assert.Equal(t, "lent:people.csv:the book", question(t, r, "lent:").Key, "now it is the book's word")
	r = d.take(intake.Answers{"lent:people.csv:the book": "this list"}, people)
	assert.Empty(t, r.Questions)
	assert.Equal(t, inventory.AtWork, d.item("E-20118").State)
	assert.True(t, d.at.Equal(d.item("E-20118").Since), "it counts from now: the book knew otherwise until now")
	d.audit()
	before := d.facts()
	d.at = d.at.Add(time.Hour)
	d.take(intake.Answers{"lent:people.csv:the book": "this list"}, people)
	assert.Equal(t, before, d.facts())
}

func TestBothListsTwiceChangeNothing(t *testing.T) {
	d := newDesk(t)
	answers := intake.Answers{"lent:people.csv:the item list": "this list"}
	d.take(answers, table(t, "items.csv", itemList), table(t, "people.csv", personList))
	before := d.facts()
	for range 2 {
		d.at = d.at.Add(24 * time.Hour)
		r := d.take(answers, table(t, "items.csv", itemList), table(t, "people.csv", personList))
		assert.Equal(t, before, d.facts())
		assert.Empty(t, r.Questions)
	}
}

// A later list brings its readings; where it differs from the book in what
// stands, the book stands until somebody says that the list is right.
func TestLaterListBringsReadingsOnly(t *testing.T) {
	d := newDesk(t)
	d.take(nil, person(t, map[string]string{"Concentrator": "CN00417", "Last call": "2025-03-20 09:00"}))
	before := d.facts()
	d.at = d.at.Add(24 * time.Hour)
	r := d.take(nil, person(t, map[string]string{
		"Concentrator": "CN00417", "Last call": "2025-04-02 10:00", "Hours": "1300", "Read at": "2025-04-02 10:00",
		"Street": "Mole Row 3", "Phone": "555-0199", "Rest (L/min)": "4",
	}))
	dump(r)
	assert.Equal(t, before+3, d.facts(), "a call, a reading, and the fact that closes the list")
	assert.Equal(t, 1300.0, d.item("CN00417").Hours.Value)
	assert.Equal(t, "Kelp Street 22", d.page("Abara").Address.Street)
	assert.Equal(t, gas.Flow(2), d.page("Abara").Care.Order.Rest)
	assert.Equal(t, []string{"Abara, Ines: Mole Row 3 in the list, Kelp Street 22 in the book"}, question(t, r, "change:people.csv:street").Examples)
	assert.Contains(t, question(t, r, "change:people.csv:phone").Asks, "the book stands")
	assert.Zero(t, r.Waiting, "a row does not wait for what the book knows already")
	assert.True(t, finds(r.Findings, "order", "4 L/min"))
	d.audit()
}

func TestNamesWithoutACommaAreAskedAbout(t *testing.T) {
	list := table(t, "people.csv", "Name,MRN,LPM\nInes Abara,0048213,2\nTunde Okoro,0051990,2\n\"Rao, Lal\",0051777,1\n")
	d := newDesk(t)
	r := d.take(nil, list)
	require.Equal(t, []int{2, 3}, question(t, r, "names:people.csv").Rows, "one answer for the list")
	d.take(intake.Answers{"names:people.csv": "family name last"}, list)
	assert.Equal(t, []string{"Abara, Ines", "Okoro, Tunde", "Rao, Lal"}, d.people())
}

func TestRecordNumberOfTwoNamesIsAskedAbout(t *testing.T) {
	list := table(t, "people.csv", "Name,MRN,LPM\n\"Abara, Ines\",0048213,2\n\"Okoro, Tunde\",0048213,2\n")
	r := newDesk(t).read(nil, list)
	assert.Equal(t, []int{3}, question(t, r, "record:0048213").Rows)
	r = newDesk(t).read(intake.Answers{"record:0048213": "two persons"}, list)
	assert.Contains(t, why(t, r, 3), "belongs to Abara, Ines")
}

// A thing can't be with two persons; both loans are recorded, and it is told.
func TestLentToTwoIsAFinding(t *testing.T) {
	list := table(t, "ledger.csv", "Date out,Name,MRN,Conc #,LPM\n2025-03-04,\"Abara, Ines\",0048213,CN00417,2\n2025-03-06,\"Okoro, T\",0051990,CN00417,2\n")
	d := newDesk(t)
	r := d.take(nil, list)
	assert.True(t, finds(r.Findings, "row 3", "CN00417", "Okoro, T", "Abara, Ines"), "%v", r.Findings)
	assert.Equal(t, d.page("Okoro").Person.ID, d.item("CN00417").Person)
	assert.NotEmpty(t, d.item("CN00417").Doubts)
	d.audit()
}

func TestStopTakesThePersonOffAndOpensTheCollection(t *testing.T) {
	d := newDesk(t)
	d.take(nil, person(t, map[string]string{"Concentrator": "CN00417", "Stopped": "2025-03-20", "Stopped by": "Dr Vance"}))
	page := d.page("Abara")
	assert.Equal(t, delivery.Over, page.Care.Phase)
	assert.Equal(t, "Dr Vance", page.Care.StoppedBy)
	assert.True(t, page.Care.Has(delivery.Collect))
	assert.Equal(t, inventory.Idle, d.item("CN00417").State)
	rows, err := d.Watch(context.Background(), d.at)
	require.NoError(t, err)
	assert.Empty(t, rows)
	before := d.facts()
	d.at = d.at.Add(time.Hour)
	d.take(nil, person(t, map[string]string{"Concentrator": "CN00417", "Stopped": "2025-03-20", "Stopped by": "Dr Vance"}))
	assert.Equal(t, before, d.facts())
}

func TestHeadingsNotKnownKeepTheirCellsInTheNotes(t *testing.T) {
	d := newDesk(t)
	r := d.take(nil, person(t, map[string]string{"Ins": "harbour fund", "Notes": "gate code 4"}))
	assert.Contains(t, r.Columns, intake.Column{List: "people.csv", Heading: "Ins", Means: "not used"})
	assert.Equal(t, "gate code 4; Ins: harbour fund", d.page("Abara").Person.Note)
}

func TestSheetThatIsNoList(t *testing.T) {
	_, err := readAlone(table(t, "rota.csv", "Who,When\nBen,Monday\n"), delivery.NewProgramme(), nil)
	assert.ErrorContains(t, err, "neither an item list nor a person list")
}

func TestStoppedReadingGivesTheContextsError(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := intake.Read(ctx, nil, intake.Known{}, delivery.NewProgramme(), nil, time.Time{}, nil)
	assert.Error(t, err)
}

// TestReadingTellsHowFarItIs: it never goes back, never jumps, and wherever it
// is stopped it gives nothing.
func TestReadingTellsHowFarItIs(t *testing.T) {
	for name, text := range map[string]string{"things": manyThings(3000), "loans": manyLoans(3000)} {
		tables, err := sheet.Read(context.Background(), name+".csv", []byte(text))
		require.NoError(t, err)
		read := func(ctx context.Context, tell func(float64)) (intake.Reading, error) {
			return intake.Read(ctx, tables, intake.Known{}, delivery.NewProgramme(), intake.Answers{"size:E": "US-E"},
				time.Date(2025, 4, 2, 9, 0, 0, 0, time.UTC), tell)
		}
		var told []float64
		_, err = read(context.Background(), func(share float64) { told = append(told, share) })
		require.NoError(t, err)
		require.Greater(t, len(told), 10, name)
		assert.True(t, slices.IsSorted(told), "%s: %v", name, told)
		assert.Greater(t, told[len(told)-1], 0.8, name)
		for _, stop := range []int{0, len(told) / 3, len(told) - 1} {
			ctx, cancel := context.WithCancel(context.Background())
			at := 0
			got, err := read(ctx, func(float64) {
				if at++; at > stop {
					cancel()
				}
			})
			cancel()
			require.ErrorIs(t, err, context.Canceled, "%s, stopped at step %d", name, stop)
			assert.Empty(t, got.Acts(), name)
		}
	}
}
