package sheet_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"lungwort/inventory/sheet"
)

// TestReadingTellsHowFarItIs: in every format it never goes back, and wherever
// it is stopped it ends.
func TestReadingTellsHowFarItIs(t *testing.T) {
	const rows = 8000
	repeat := func(row string) string {
		var b strings.Builder
		for i := range rows {
			fmt.Fprintf(&b, row, i)
		}
		return b.String()
	}
	for name, data := range map[string][]byte{
		"list.csv":  []byte("Serial,Kind\n" + repeat("E-%06d,cylinder\n")),
		"list.html": []byte("<table>" + repeat("<tr><td>E-%06d</td><td>cylinder</td></tr>") + "</table>"),
		"list.ods": ods(t, `<table:table table:name="List">`+
			repeat(`<table:table-row><table:table-cell><text:p>E-%06d</text:p></table:table-cell></table:table-row>`)+`</table:table>`),
		"list.xlsx": workbook(t, func(f *excelize.File) {
			for i := range rows {
				require.NoError(t, f.SetCellStr("Sheet1", fmt.Sprintf("A%d", i+1), fmt.Sprintf("E-%06d", i)))
			}
		}),
	} {
		var told []float64
		tables, err := sheet.Reader{Tell: func(share float64) { told = append(told, share) }}.Data(context.Background(), name, data)
		require.NoError(t, err, name)
		require.GreaterOrEqual(t, len(tables[0].Rows), rows, name)
		require.Greater(t, len(told), 5, name)
		assert.True(t, slices.IsSorted(told), "%s: %v", name, told)
		assert.LessOrEqual(t, told[len(told)-1], 1.0, name)

		ctx, cancel := context.WithCancel(context.Background())
		_, err = sheet.Reader{Tell: func(float64) { cancel() }}.Data(ctx, name, data)
		assert.ErrorIs(t, err, context.Canceled, name)
	}
}
