package paperwork_test

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
)

const itemList = `Serial,Kind,Size,Model,Owner,Rated (L/min),Gauge (psi),Read at,Hours,Place,Status
E-00118,cylinder,US-E,,Skerry Gas,,1987.5,2025-03-30 08:10,,depot:harbour,ready
100E10,cylinder,US-E,,Skerry Gas,,2000,2025-03-30 08:12,,depot:harbour,quarantine
CN00417,concentrator,,Breeze 5,,5,,2025-03-30 08:14,1204.3,depot:harbour,ready
0503E000,concentrator,,Breeze 5,,5,,2025-03-30 08:14,33,depot:harbour,quarantine
=X-1,oximeter,,@home,,,,,,depot:harbour,quarantine
`

const personList = `Record number,Family name,Given name,Born,Phone,Street,Town,Mains,Floors,Rest (L/min),Hours a day,Ordered,Ward,Discharged,Breathes,Items lent,Notes
0048213,Abara,Ines,1961-05-04,"555-0142, 555-0177 (son Ben)",Kelp Street 22,Great Quillet,mains,2,2,24,2025-03-29,6B,2025-03-31 10:00,concentrator,"CN00417",-knock twice
0051990,Okoro,Tunde,1955-11-30,555-0188,Mole Row 3,Great Quillet,prepaid meter,,1,16,2025-03-29,6B,2025-03-31 12:00,cylinder,E-00118,
`

// office is a desk on a book with a few things and people.
type office struct {
	*store.Desk
	t  *testing.T
	at time.Time
}

func newOffice(t *testing.T) *office {
	o := &office{store.NewDesk(booktest.New(t, store.Migrations()...)), t, time.Date(2025, time.April, 2, 9, 0, 0, 0, time.FixedZone("", -3*3600))}
	p := delivery.NewProgramme()
	p.Depots = []delivery.Site{{Name: "harbour", Title: "Harbour depot"}}
	p.Vehicles = []delivery.Vehicle{{Name: "van 1", Depot: "harbour", Pieces: 30, Kg: 200, From: "08:00", Until: "20:00"}}
	o.do(delivery.Settings{Programme: p})
	var tables []sheet.Table
	for name, text := range map[string]string{"items.csv": itemList, "people.csv": personList} {
		list, err := sheet.Read(t.Context(), name, []byte(text))
		require.NoError(t, err)
		tables = append(tables, list...)
	}
	r := o.read(intake.Answers{"lent:people.csv:the item list": "this list"}, tables)
	require.Empty(t, r.Questions)
	require.Empty(t, r.Refused)
	o.write(r)
	o.at = o.at.Add(time.Hour)
	return o
}

func (o *office) do(act delivery.Act) {
	o.t.Helper()
	_, err := o.Do(context.Background(), store.Hand{By: "tester", Source: inventory.Keyed, At: o.at}, act)
	require.NoError(o.t, err)
}

func (o *office) read(answers intake.Answers, tables []sheet.Table) intake.Reading {
	o.t.Helper()
	r, err := o.ReadLists(context.Background(), tables, answers, o.at, nil)
	require.NoError(o.t, err)
	return r
}

func (o *office) write(r intake.Reading) {
	o.t.Helper()
	_, err := o.TakeIn(context.Background(), r, store.Hand{By: "tester", Source: inventory.Sheet, At: o.at}, nil)
	require.NoError(o.t, err)
}

// given writes a sheet and returns where.
func (o *office) given(file string, make func(paperwork.Clerk, context.Context) (sheet.Out, error)) string {
	o.t.Helper()
	clerk, err := paperwork.NewClerk(o.t.Context(), o.Desk, o.at)
	require.NoError(o.t, err)
	out, err := make(clerk, o.t.Context())
	require.NoError(o.t, err)
	path := filepath.Join(o.t.TempDir(), file)
	require.NoError(o.t, sheet.Write(path, []sheet.Out{out}))
	return path
}

func (o *office) back(answers intake.Answers, path string) intake.Reading {
	o.t.Helper()
	tables, err := sheet.ReadFile(o.t.Context(), path)
	require.NoError(o.t, err)
	return o.read(answers, tables)
}

func (o *office) item(serial string) inventory.Item {
	o.t.Helper()
	item, err := o.Item(o.t.Context(), serial, 0)
	require.NoError(o.t, err)
	return item
}

func (o *office) home(record string) store.PersonPage {
	o.t.Helper()
	who, err := o.Person(o.t.Context(), record)
	require.NoError(o.t, err)
	page, err := o.Page(o.t.Context(), who, o.at)
	require.NoError(o.t, err)
	return page
}

func allItems(c paperwork.Clerk, ctx context.Context) (sheet.Out, error) {
	return c.Items(ctx, items.Filter{})
}

// edit changes cells of a workbook, named by their row's first cell that holds
// the given text and by their heading.
func edit(t *testing.T, path string, edits [][3]string) {
	t.Helper()
	f, err := excelize.OpenFile(path)
	require.NoError(t, err)
	name := f.GetSheetName(0)
	rows, err := f.GetRows(name)
	require.NoError(t, err)
	for _, e := range edits {
		row := slices.IndexFunc(rows, func(r []string) bool { return slices.Contains(r, e[0]) })
		column := slices.Index(rows[2], e[1])
		require.GreaterOrEqual(t, row, 3, e)
		require.GreaterOrEqual(t, column, 0, e)
		cell, err := excelize.CoordinatesToCellName(column+1, row+1)
		require.NoError(t, err)
		require.NoError(t, f.SetCellStr(name, cell, e[2]))
	}
	require.NoError(t, f.Save())
	require.NoError(t, f.Close())
}

// What comes back as it went out says nothing, whatever is in its cells.
func TestUneditedSheetsSayNothing(t *testing.T) {
	o := newOffice(t)
	for _, ext := range []string{".xlsx", ".csv"} {
		for name, make := range map[string]func(paperwork.Clerk, context.Context) (sheet.Out, error){
			"items": allItems, "loans": paperwork.Clerk.Loans, "people": paperwork.Clerk.People,
		} {
			r := o.back(nil, o.given(name+ext, make))
			assert.Empty(t, r.Acts(), name+ext)
			assert.Empty(t, r.Questions, name+ext)
			assert.Empty(t, r.Refused, name+ext)
			assert.Empty(t, r.Findings, name+ext)
			assert.Equal(t, r.Rows, r.Taken, name+ext)
			assert.NotZero(t, r.Rows, name+ext)
		}
	}
}

func TestOnlyTheEditsOfAnItemSheetArrive(t *testing.T) {
	o := newOffice(t)
	path := o.given("items.xlsx", allItems)
	edit(t, path, [][3]string{
		{"CN00417", "Model", "Breeze 5 plus"}, {"0503E000", "Owner", "Reef Rental"}, {"100E10", "Place", "vehicle:van 1"},
		{"=X-1", "State", "missing"}, {"E-00118", "State", "ready"},
	})
	r := o.back(nil, path)
	require.Empty(t, r.Questions)
	assert.Equal(t, 4, r.Changed)
	assert.Len(t, r.Changes, 4)
	assert.Len(t, r.Findings, 1, "what is lent comes back by an act")
	assert.Contains(t, r.Findings[0], "record its return")
	o.write(r)
	assert.Equal(t, "Breeze 5 plus", o.item("CN00417").Spec.Model)
	assert.Equal(t, "Reef Rental", o.item("0503E000").Spec.Owner)
	assert.Equal(t, inventory.At(inventory.AtVehicle, "van 1"), o.item("100E10").Place)
	assert.Equal(t, inventory.Missing, o.item("=X-1").State)
	audit, err := o.Audit(t.Context())
	require.NoError(t, err)
	assert.Empty(t, audit.Mismatches)
	r = o.back(nil, path)
	assert.Empty(t, r.Acts(), "taking it in twice changes nothing")
}

func TestOnlyTheEditsOfAPeopleSheetArrive(t *testing.T) {
	o := newOffice(t)
	path := o.given("people.xlsx", paperwork.Clerk.People)
	edit(t, path, [][3]string{
		{"Abara", "Phone", "555-0199, 555-0177 (son Ben)"}, {"Abara", "Street", "Tern Lane 9"}, {"Okoro", "Floors", "3"}, {"Okoro", "Street", "Mole Row 4"},
	})
	r := o.back(nil, path)
	require.Len(t, r.Questions, 1, "moved, or written wrong: one answer for all streets")
	assert.Equal(t, []int{4, 5}, r.Questions[0].Rows)
	home := o.home("0048213").Address.ID
	r = o.back(intake.Answers{"street:people.xlsx, People": "moved"}, path)
	require.Empty(t, r.Questions)
	assert.Equal(t, 2, r.Changed)
	o.write(r)
	ines, tunde := o.home("0048213"), o.home("0051990")
	assert.Equal(t, "555-0199", ines.Person.Phones[0].Number)
	assert.Equal(t, "son Ben", ines.Person.Phones[1].Whose)
	assert.Equal(t, "Tern Lane 9, Great Quillet", ines.Address.Where())
	assert.NotEqual(t, home, ines.Address.ID, "another home")
	assert.Equal(t, 3, tunde.Address.Stairs)
	assert.Equal(t, "0051990", tunde.Person.Record)
}

// TestAPeopleSheetIsTakenBack: what its edits changed of phones, names and homes
// is as before; what another hand changed since stays.
func TestAPeopleSheetIsTakenBack(t *testing.T) {
	for _, street := range []string{"written wrong", "moved"} {
		o := newOffice(t)
		before := o.home("0048213")
		path := o.given("people.xlsx", paperwork.Clerk.People)
		edit(t, path, [][3]string{{"0048213", "Phone", "555-0101"}, {"0048213", "Given name", "Inés"}, {"0048213", "Street", "Kelp Street 24"}})
		answers := intake.Answers{}
		r := o.back(answers, path)
		for _, q := range r.Questions {
			answers[q.Key] = q.Choices[0].Value
			for _, c := range q.Choices {
				if c.Value == street {
					answers[q.Key] = street
				}
			}
		}
		o.write(o.back(answers, path))
		changed := o.home("0048213")
		require.Equal(t, "Inés", changed.Person.Given)
		require.Equal(t, []delivery.Phone{{Number: "555-0101"}}, changed.Person.Phones)
		require.Equal(t, "Kelp Street 24", changed.Address.Street)

		lists, err := o.Lists(t.Context())
		require.NoError(t, err)
		o.do(delivery.TakeBack{TookIn: lists[0].Fact, Why: "the wrong sheet"})
		after := o.home("0048213")
		assert.Equal(t, before.Person, after.Person)
		assert.Equal(t, before.Address, after.Address)
		audit, err := o.Audit(t.Context())
		require.NoError(t, err)
		assert.Empty(t, audit.Mismatches)
	}
}

func TestEditsOfWhatWasChangedSinceAreAsked(t *testing.T) {
	o := newOffice(t)
	path := o.given("items.xlsx", allItems)
	edit(t, path, [][3]string{{"100E10", "Place", "vehicle:van 1"}, {"0503E000", "Owner", "Reef Rental"}})
	o.at = o.at.Add(time.Hour)
	o.do(delivery.Move{Item: o.item("100E10").ID, To: inventory.At(inventory.AtMissing, "")})
	r := o.back(nil, path)
	require.Len(t, r.Questions, 1)
	assert.Contains(t, r.Questions[0].Asks, "since it was given out")
	assert.Len(t, r.Changes, 1, "the other row is clear")
	r = o.back(intake.Answers{r.Questions[0].Key: "the book"}, path)
	assert.Empty(t, r.Questions)
	o.write(r)
	assert.Equal(t, inventory.Missing, o.item("100E10").State)
	assert.Equal(t, "Reef Rental", o.item("0503E000").Spec.Owner)
}

// Edge case 34: serials that look like numbers (100E10, 0503E000, 9.01E+09) stay text on the way out; what a spreadsheet program
// makes of them is never matched on the way in.
func TestEdge34SerialsThatLookLikeNumbers(t *testing.T) {
	o := newOffice(t)
	for _, ext := range []string{".xlsx", ".csv"} {
		tables, err := sheet.ReadFile(t.Context(), o.given("items"+ext, allItems))
		require.NoError(t, err)
		var seen []string
		for _, row := range tables[0].Rows[3:] {
			seen = append(seen, row.Cell(1).Text)
		}
		assert.Equal(t, []string{"E-00118", "100E10", "CN00417", "0503E000", "=X-1"}, seen)
	}
	path := o.given("items.csv", allItems)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	spoilt := strings.NewReplacer("100E10", "1.00E+12", "0503E000", "503E000").Replace(string(text))
	require.NoError(t, os.WriteFile(path, []byte(spoilt), 0o600))
	r := o.back(nil, path)
	assert.Empty(t, r.Acts())
	require.Len(t, r.Findings, 2)
	for _, says := range r.Findings {
		assert.Contains(t, says, "made a number by the spreadsheet program")
	}
}

func TestEmptiedCellsAreAsked(t *testing.T) {
	o := newOffice(t)
	path := o.given("items.xlsx", allItems)
	edit(t, path, [][3]string{{"100E10", "Owner", ""}})
	r := o.back(nil, path)
	require.Len(t, r.Questions, 1)
	assert.Equal(t, []string{"100E10: not set in the list, Skerry Gas in the book"}, r.Questions[0].Examples)
	o.write(o.back(intake.Answers{r.Questions[0].Key: "the list"}, path))
	assert.Empty(t, o.item("100E10").Spec.Owner)
}

func TestReportsAreNotTakenIn(t *testing.T) {
	o := newOffice(t)
	for name, make := range map[string]func(paperwork.Clerk, context.Context) (sheet.Out, error){
		"watch list": paperwork.Clerk.WatchList, "rental statement": paperwork.Clerk.Rental, "runs": paperwork.Clerk.Runs,
		"list of calls": paperwork.Clerk.Calls, "list for the clinician": paperwork.Clerk.Clinician,
	} {
		tables, err := sheet.ReadFile(t.Context(), o.given("report.csv", make))
		require.NoError(t, err)
		_, err = o.ReadLists(t.Context(), tables, nil, o.at, nil)
		require.Error(t, err, name)
		assert.Contains(t, err.Error(), "is the "+name+" as Lungwort gave it out, for reading only")
	}
}
