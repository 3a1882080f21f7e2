package sheet_test

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/sheet"
)

// ledger is a vocabulary for the fixture: a ledger of equipment handed out,
// with the mistakes such ledgers have.
var ledger = []sheet.Heading{
	{Key: "date out", Synonyms: []string{"out"}},
	{Key: "name", Synonyms: []string{"patient name", "pt name"}},
	{Key: "record", Synonyms: []string{"mrn"}},
	{Key: "phone", Synonyms: []string{"ph"}},
	{Key: "concentrator", Synonyms: []string{"conc number"}},
	{Key: "tanks", Synonyms: []string{"tank no."}},
	{Key: "lot"},
	{Key: "gauge", Synonyms: []string{"psi", "pressure"}, Units: []string{"psi", "bar"}},
	{Key: "flow", Synonyms: []string{"lpm"}, Units: []string{"L/min", "lpm"}},
	{Key: "hours out", Synonyms: []string{"hrs out"}},
	{Key: "date in"},
	{Key: "hours in", Synonyms: []string{"hrs in"}},
	{Key: "notes", Synonyms: []string{"comments"}},
}

func readLedger(t *testing.T) (sheet.Table, sheet.Mapping, []sheet.Row) {
	t.Helper()
	tables, err := sheet.ReadFile(context.Background(), filepath.Join("testdata", "ledger_as_it_is.csv"))
	require.NoError(t, err)
	require.Len(t, tables, 1)
	m, err := sheet.Map(tables[0], ledger, []string{"name"})
	require.NoError(t, err)
	return tables[0], m, m.Body(tables[0])
}

func TestLedgerHeadingsAllMapped(t *testing.T) {
	table, m, body := readLedger(t)
	assert.Equal(t, 1, m.Row)
	assert.Len(t, m.Columns, len(ledger))
	assert.Empty(t, m.Unmapped)
	assert.Empty(t, m.Doubtful)
	assert.Equal(t, "psi", m.Units["gauge"])
	assert.Equal(t, "lpm", m.Units["flow"])
	assert.Len(t, body, 12)
	assert.Equal(t, 2, body[0].Number)
	assert.Empty(t, table.Notes)
}

func TestLedgerKeepsTheUnquotedCommaInItsTail(t *testing.T) {
	_, m, body := readLedger(t)
	row := body[3]
	assert.Equal(t, "called", m.Cell(row, "notes").Text)
	assert.Equal(t, []string{"gauge 1/4"}, row.Overflow)
	assert.Equal(t, "O", m.Cell(row, "flow").Text, "nothing has shifted")
	for i, other := range body {
		if i != 3 {
			assert.Empty(t, other.Overflow, "row %d", other.Number)
		}
	}
}

func TestLedgerKeepsCodesAsWritten(t *testing.T) {
	_, m, body := readLedger(t)
	assert.Equal(t, "0048213", m.Cell(body[0], "record").Text)
	assert.Equal(t, "48213", m.Cell(body[1], "record").Text)
	assert.Equal(t, "9.01E+09", m.Cell(body[4], "concentrator").Text)
	assert.Equal(t, "ABARA, Ines", m.Cell(body[0], "name").Text)
	assert.Equal(t, "2000, 1900", m.Cell(body[0], "gauge").Text)
	assert.Equal(t, "1 204", m.Cell(body[0], "hours out").Text)
}

func TestLedgerDayOrderIsAskedAboutPerFile(t *testing.T) {
	_, m, body := readLedger(t)
	var dates []sheet.Cell
	for _, row := range body {
		dates = append(dates, m.Cell(row, "date out"), m.Cell(row, "date in"))
	}
	order, evidence := sheet.JudgeDayOrder(slices.Values(dates))
	assert.Equal(t, sheet.OrderUnknown, order)
	assert.True(t, evidence.Contradicts())
	assert.Equal(t, []string{"17/3/25"}, evidence.DayFirst.Examples)
	assert.Contains(t, evidence.MonthFirst.Examples, "3/14/25")

	when, err := sheet.ParseDay(m.Cell(body[2], "date out"), sheet.OrderUnknown, false)
	require.NoError(t, err)
	assert.Equal(t, "2025-03-04", when.String(), "day number 45720")
	_, err = sheet.ParseDay(m.Cell(body[5], "date out"), sheet.MonthFirst, false)
	var doubt *sheet.Doubt
	require.ErrorAs(t, err, &doubt, "3/13 has no year")
}

func TestLedgerAsWorkbookReadsTheSame(t *testing.T) {
	table, _, _ := readLedger(t)
	out := sheet.Out{Name: "Equipment out", Rows: [][]any{}}
	for range table.Rows[3].Cells {
		out.Columns = append(out.Columns, sheet.Column{})
	}
	for len(out.Columns) < 14 {
		out.Columns = append(out.Columns, sheet.Column{})
	}
	for _, row := range table.Rows {
		values := make([]any, len(row.Cells))
		for i, c := range row.Cells {
			values[i] = c.Raw
		}
		out.Rows = append(out.Rows, values)
	}
	path := filepath.Join(t.TempDir(), "ledger.xlsx")
	require.NoError(t, sheet.Write(path, []sheet.Out{out}))
	tables, err := sheet.ReadFile(context.Background(), path)
	require.NoError(t, err)
	require.Len(t, tables, 1)
	require.Len(t, tables[0].Rows, len(table.Rows))
	for i, row := range tables[0].Rows {
		assert.Equal(t, texts(table.Rows[i]), texts(row))
	}
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
}

func texts(r sheet.Row) []string {
	all := make([]string, len(r.Cells))
	for i, c := range r.Cells {
		all[i] = c.Text
	}
	return all
}
