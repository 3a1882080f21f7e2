package paperwork_test

import (
	"context"
	"path/filepath"
	"slices"
	"testing"
	"time"

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
	p.Plants = []delivery.Site{{Name: "works", Title: "Gas works"}}
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
