package sheet_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"lungwort/inventory/refusal"
	"lungwort/inventory/sheet"
)

var stock = []sheet.Heading{
	{Key: "serial", Synonyms: []string{"serial number", "maker's serial", "conc #"}},
	{Key: "size"},
	{Key: "name", Synonyms: []string{"pt name", "patient"}},
	{Key: "discharged", Synonyms: []string{"D/C date", "discharge date"}},
	{Key: "gauge", Synonyms: []string{"pressure", "psi"}, Units: []string{"psi", "bar", "kPa"}},
	{Key: "flow", Synonyms: []string{"lpm", "flow at rest"}, Units: []string{"L/min", "min"}},
	{Key: "saturation", Synonyms: []string{"O2 %"}},
	{Key: "lent", Synonyms: []string{"date out", "date"}},
	{Key: "returned", Synonyms: []string{"date in", "date"}},
	{Key: "hours out", Synonyms: []string{"hrs out"}},
	{Key: "hours in", Synonyms: []string{"hrs in"}},
}

func mapped(t *testing.T, csv string, required ...string) (sheet.Table, sheet.Mapping) {
	t.Helper()
	table, _ := read(t, "stock.csv", csv)
	m, err := sheet.Map(table, stock, required)
	require.NoError(t, err, "%q", csv)
	return table, m
}

func TestHeadingsByMeaning(t *testing.T) {
	for heading, key := range map[string]string{
		"Serial": "serial", "SERIAL NO.": "serial", "serial#": "serial", "Serial-Nr": "serial", "Sérial Number": "serial",
		"Maker’s serial": "serial", "makers  serial ": "serial", "Conc #": "serial", "Conc. No": "serial",
		"Pt Name": "name", "PT. NAME": "name", "D/C date": "discharged", "DC Date": "discharged", "D/C  DATE:": "discharged",
		"PSI": "gauge", "Pressure (psi)": "gauge", "Pressure, bar": "gauge", "Gauge in kPa": "gauge", "Gauge [bar]": "gauge",
		"Flow (L/min)": "flow", "Flow L/min": "flow", "Flow at rest, l/min": "flow", "LPM": "flow",
		"O2 %": "saturation", "O₂ percent": "saturation", "Hrs out": "hours out", "hrs_out": "hours out", "DATE OUT ": "lent",
	} {
		_, m := mapped(t, "Size;"+heading+"\nE;1\n")
		column, found := m.Columns[key]
		assert.True(t, found, "%q as %s: %+v", heading, key, m)
		assert.Equal(t, 1, column, heading)
		assert.Equal(t, strings.TrimSpace(heading), m.Headings[key])
	}
}

func TestUnitsInHeadings(t *testing.T) {
	for heading, unit := range map[string]string{"PSI": "psi", "Pressure (psi)": "psi", "Gauge in kPa": "kPa", "Gauge [BAR]": "bar", "Gauge": ""} {
		_, m := mapped(t, "Size;"+heading+"\nE;1\n")
		assert.Equal(t, unit, m.Units["gauge"], heading)
	}
	_, m := mapped(t, "Size,Flow (L/min)\nE,1\n")
	assert.Equal(t, "L/min", m.Units["flow"])
}

func TestHeadingsAreFoundWhereverTheyAre(t *testing.T) {
	table, m := mapped(t, "Great Quillet programme\n\nprinted Friday,,\nSerial,Size,Pt Name,Colour,\nCN1,E,Abara,red,,lost\nSerial,Size,Pt Name,Colour\nCN2,D,Okoro,blue\n", "serial")
	assert.Equal(t, 4, m.Row)
	assert.Equal(t, 4, m.Width)
	assert.Equal(t, []string{"Colour"}, m.Unmapped)
	body := m.Body(table)
	require.Len(t, body, 2, "the headings repeated for printing are no row of data")
	assert.Equal(t, []string{"", "lost"}, body[0].Overflow)
	assert.Equal(t, "CN2", m.Cell(body[1], "serial").Text)
	assert.Equal(t, sheet.Cell{}, m.Cell(body[1], "gauge"), "no such column")
	assert.Len(t, table.Rows[3].Cells, 6, "the table itself stays whole")
}

func TestTwoRowsOfHeadings(t *testing.T) {
	tables := readBook(t, workbook(t, func(f *excelize.File) {
		for cell, text := range map[string]string{"A1": "Serial", "B1": "Out", "D1": "In", "B2": "Date", "C2": "Hrs", "D2": "Date", "E2": "Hrs", "A3": "CN1", "B3": "2025-03-14", "E3": "12"} {
			set(t, f, cell, text, "")
		}
		require.NoError(t, f.MergeCell("Sheet1", "A1", "A2"))
		require.NoError(t, f.MergeCell("Sheet1", "B1", "C1"))
		require.NoError(t, f.MergeCell("Sheet1", "D1", "E1"))
	}))
	m, err := sheet.Map(tables[0], stock, []string{"serial", "lent"})
	require.NoError(t, err)
	assert.Equal(t, 2, m.Row)
	assert.Equal(t, map[string]int{"serial": 0, "lent": 1, "hours out": 2, "returned": 3, "hours in": 4}, m.Columns)
	assert.Empty(t, m.Doubtful)
}

func TestDoubtfulHeadingsAreAsked(t *testing.T) {
	_, m := mapped(t, "Serial,Size,Date\nCN1,E,2025-03-14\n", "serial", "lent")
	require.Len(t, m.Doubtful, 1)
	assert.Equal(t, []string{"lent", "returned"}, m.Doubtful[0].Keys)
	assert.Equal(t, `Column C, "Date", can mean lent or returned. Which is it?`, m.Doubtful[0].Asks)

	_, m = mapped(t, "Serial,Size,Conc #\nCN1,E,CN2\n", "serial")
	assert.NotContains(t, m.Columns, "serial")
	require.Len(t, m.Doubtful, 2)
	assert.Equal(t, `Columns A, C can all mean serial. Is it column A, "Serial"?`, m.Doubtful[0].Asks)

	_, m = mapped(t, "Size,Pt Name,Seriel\nE,Abara,CN1\n", "serial")
	require.Len(t, m.Doubtful, 1, "a slip of the finger is asked about, not assumed")
	assert.Equal(t, []string{"serial"}, m.Doubtful[0].Keys)
	assert.Equal(t, `Column C, "Seriel", looks like serial. Is it?`, m.Doubtful[0].Asks)
}

func TestMapRefusals(t *testing.T) {
	for _, test := range []struct {
		csv, says, next string
	}{
		{"CN1,E,Abara\nCN2,D,Okoro\n", "no row of headings", "names the columns"},
		{"Size,Pt Name,Colour\nE,Abara,red\n", "no column for serial. Row 1 has the headings Size, Pt Name, Colour.", `"serial number"`},
	} {
		table, _ := read(t, "stock.csv", test.csv)
		_, err := sheet.Map(table, stock, []string{"serial"})
		var refused *refusal.Error
		require.ErrorAs(t, err, &refused, test.csv)
		assert.Contains(t, refused.Says, `"stock.csv"`)
		assert.Contains(t, refused.Says, test.says)
		assert.Contains(t, refused.Next, test.next)
	}
	_, err := sheet.Map(sheet.Table{Name: "Tanks", File: "stock.xlsx"}, stock, nil)
	assert.ErrorContains(t, err, `"stock.xlsx", sheet "Tanks"`)
}

func TestOneColumnIsEnough(t *testing.T) {
	table, m := mapped(t, "Serial\nCN1\nCN2\n", "serial")
	assert.Equal(t, 1, m.Row)
	assert.Len(t, m.Body(table), 2)
}

// However the columns stand and the headings are written, each finds its
// meaning.
func TestMappingDoesNotDependOnOrder(t *testing.T) {
	headings := map[string]string{"serial": "Serial #", "size": "SIZE", "name": "Pt. Name", "gauge": "Pressure (psi)", "hours in": "Hrs in", "": "Colour"}
	keys := make([]string, 0, len(headings))
	for key := range headings {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	rapid.Check(t, func(t *rapid.T) {
		order := rapid.Permutation(keys).Draw(t, "order")
		above := rapid.IntRange(0, 5).Draw(t, "rows above")
		var table sheet.Table
		for i := range above {
			table.Rows = append(table.Rows, sheet.Row{Number: i + 1, Cells: cells("a title")})
		}
		row := sheet.Row{Number: above + 1}
		for _, key := range order {
			row.Cells = append(row.Cells, cell(rapid.SampledFrom([]string{headings[key], strings.ToUpper(headings[key]), headings[key] + ":"}).Draw(t, "heading")))
		}
		table.Rows = append(table.Rows, row)
		m, err := sheet.Map(table, stock, nil)
		require.NoError(t, err)
		require.Equal(t, above+1, m.Row)
		for i, key := range order {
			if key != "" {
				require.Equal(t, i, m.Columns[key], "%s in %v", key, order)
			}
		}
		require.Len(t, m.Unmapped, 1)
	})
}

func FuzzMap(f *testing.F) {
	f.Add("Serial,Size,Date\nCN1,E,2025-03-14\n")
	f.Add("Out,,In\nDate,Hrs,Date\n")
	f.Add("#,%,&,(psi)\n")
	f.Add("Pressure in psi in bar,L/min min,in psi\n")
	f.Fuzz(func(t *testing.T, csv string) {
		tables, err := sheet.Read(context.Background(), "fuzz.csv", []byte(csv))
		if err != nil {
			return
		}
		for _, table := range tables {
			m, err := sheet.Map(table, stock, []string{"serial"})
			if err != nil {
				require.NotEqual(t, refusal.Internal, refusal.KindOf(err))
				continue
			}
			for key, column := range m.Columns {
				require.Less(t, column, m.Width, key)
			}
			for _, r := range m.Body(table) {
				require.Greater(t, r.Number, m.Row)
				require.LessOrEqual(t, len(r.Cells), m.Width)
			}
		}
	})
}
