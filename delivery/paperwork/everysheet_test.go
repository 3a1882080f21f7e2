package paperwork_test

import (
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/paperwork"
	"lungwort/inventory/sheet"
)

// editable are the sheets that bring their edits when they come back; the
// others are for reading only, and say so.
var editable = []string{"items", "loans", "people"}

// Every sheet that goes out is read back as it was written, in each format:
// the headings, and in each cell what it showed. Coming back unedited it
// writes nothing.
func TestEverySheetRoundTrips(t *testing.T) {
	o := newOffice(t)
	o.busy()
	for name, make := range everySheet {
		for _, ext := range []string{".xlsx", ".csv"} {
			t.Run(name+ext, func(t *testing.T) {
				clerk, err := paperwork.NewClerk(t.Context(), o.Desk, o.at)
				require.NoError(t, err)
				out, err := make(clerk, t.Context())
				require.NoError(t, err)
				path := filepath.Join(t.TempDir(), name+ext)
				require.NoError(t, sheet.Write(path, []sheet.Out{out}))
				tables, err := sheet.ReadFile(t.Context(), path)
				require.NoError(t, err)
				sameCells(t, out, tables[0])

				r, err := o.ReadLists(t.Context(), tables, nil, o.at, nil)
				if slices.Contains(editable, name) {
					require.NoError(t, err)
					assert.Empty(t, r.Acts())
					return
				}
				require.Error(t, err)
				assert.Contains(t, err.Error(), "for reading only")
			})
		}
	}
}

// sameCells compares the texts, the numbers and the days of a sheet with what
// was read of it.
func sameCells(t *testing.T, out sheet.Out, back sheet.Table) {
	t.Helper()
	given, is := sheet.GivenOut(back)
	require.True(t, is)
	assert.Equal(t, out.What, given.What)
	first := slices.IndexFunc(back.Rows, func(r sheet.Row) bool {
		return len(r.Cells) >= len(out.Columns) && r.Cell(0).Text == out.Columns[0].Heading && r.Cell(1).Text == out.Columns[1].Heading
	})
	require.GreaterOrEqual(t, first, 0, "the headings")
	for i, c := range out.Columns {
		assert.Equal(t, c.Heading, back.Rows[first].Cell(i).Text)
	}
	require.NotEmpty(t, out.Rows)
	for i, row := range out.Rows {
		require.Less(t, first+1+i, len(back.Rows))
		for j, value := range row {
			cell := back.Rows[first+1+i].Cell(j).Text
			switch v := value.(type) {
			case string:
				assert.Equal(t, sheet.Shown(v), cell, "%s, row %d", out.Columns[j].Heading, i+1)
			case float64:
				read, err := strconv.ParseFloat(cell, 64)
				require.NoError(t, err, "%s, row %d: %q", out.Columns[j].Heading, i+1, cell)
				assert.InDelta(t, v, read, 1e-9)
			}
		}
	}
}
