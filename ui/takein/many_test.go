package takein

import (
	"encoding/csv"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"lungwort/delivery/intake/messy"
)

// answersAtMost is how many questions a person answers for a list of any
// length.
const answersAtMost = 20

// A ledger of 5,000 rows with everything wrong goes through the screen with
// few answers; nothing is lost, and the book is sound.
func TestAMessyLedgerNeedsFewAnswers(t *testing.T) {
	ledger := messy.Ledger(5000, 7)
	for name, content := range map[string]string{"equipment out.csv": ledger, "equipment out.xlsx": asWorkbook(t, ledger)} {
		t.Run(name, func(t *testing.T) {
			d, m := newModel(t)
			m.Add(file(t, t.TempDir(), name, content))
			require.Empty(t, d.Refused)
			answers := 0
			for len(m.Reading.Questions) > 0 {
				answers++
				require.Less(t, answers, answersAtMost, "%d still open: %q", len(m.Reading.Questions), m.Reading.Questions[0].Asks)
				q := m.Reading.Questions[0]
				value := "2025-03-01"
				if len(q.Choices) > 0 {
					value = q.Choices[0].Value
				}
				t.Logf("%3d rows: %s: %s", len(q.Rows), q.Asks, value)
				m.Answer(q.Key, value)
			}
			r := m.Reading
			t.Logf("%d rows: %d taken, %d refused, %d left out", r.Rows, r.Taken, len(r.Refused), r.LeftOut)
			assert.Equal(t, r.Rows, r.Taken+len(r.Refused)+r.LeftOut)
			assert.Greater(t, r.Taken, 4500)
			m.TakeIn()
			require.Empty(t, d.Refused)
			d.Clean()
		})
	}
}

// asWorkbook is a ledger as a spreadsheet program keeps it, with what goes
// wrong there too: its numbers and days are numbers, the title lies over all
// columns, rows are hidden, and colours mean something to somebody.
func asWorkbook(t *testing.T, ledger string) string {
	t.Helper()
	lines := csv.NewReader(strings.NewReader(ledger))
	lines.FieldsPerRecord = -1
	rows, err := lines.ReadAll()
	require.NoError(t, err)
	f := excelize.NewFile()
	defer f.Close()
	const list = "Sheet1"
	day, err := f.NewStyle(&excelize.Style{NumFmt: 14})
	require.NoError(t, err)
	red, err := f.NewStyle(&excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FF0000"}}})
	require.NoError(t, err)
	for i, row := range rows {
		for j, text := range row {
			cell, err := excelize.CoordinatesToCellName(j+1, i+1)
			require.NoError(t, err)
			number, isNumber := strconv.ParseFloat(text, 64)
			at, isDay := time.Parse(time.DateOnly, text)
			switch {
			case isDay == nil:
				require.NoError(t, f.SetCellValue(list, cell, at))
				require.NoError(t, f.SetCellStyle(list, cell, cell, day))
			case isNumber == nil:
				require.NoError(t, f.SetCellFloat(list, cell, number, -1, 64))
			default:
				require.NoError(t, f.SetCellStr(list, cell, text))
			}
		}
		if i%400 == 399 {
			require.NoError(t, f.SetRowVisible(list, i+1, false))
			require.NoError(t, f.SetRowStyle(list, i+1, i+1, red))
		}
	}
	require.NoError(t, f.MergeCell(list, "A1", "M1"))
	b, err := f.WriteToBuffer()
	require.NoError(t, err)
	return b.String()
}
