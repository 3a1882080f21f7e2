package papers

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/inventory/sheet"
	"lungwort/ui/uitest"
)

// TestSheetsOfABusyDayReadBack: runs, calls and exchanges with something in them
// are written, read back row by row, and say the same in both formats.
func TestSheetsOfABusyDayReadBack(t *testing.T) {
	d := uitest.New(t)
	d.Act(delivery.Exchange{
		Plant: "works", Depot: "harbour", Driver: "Tam", Slip: "=SG-8841", Later: true, Accept: true,
		OutMore: []inventory.Counted{{Owner: "Gas works", Size: "US-D", Count: 1}, {Owner: "Gas works", Size: "US-E", Count: 2}},
	})
	c := clerkOf(t, d)
	for name, s := range map[string]struct {
		collect func(paperwork.Clerk, context.Context) (sheet.Out, error)
		rows    int
		cells   []string
	}{
		"runs":     {paperwork.Clerk.Runs, 3, []string{"van 1", "Kestrel"}},
		"calls":    {paperwork.Clerk.Calls, 3, []string{"Rowe, Anwen", "no answer once"}},
		"exchange": {paperwork.Clerk.Exchanges, 2, []string{"=SG-8841", "Gas works", "US-D", "Tam"}},
	} {
		out, err := s.collect(c, context.Background())
		require.NoError(t, err, name)
		require.GreaterOrEqual(t, len(out.Rows), s.rows, name)
		var texts []string
		for _, ext := range []string{".xlsx", ".csv"} {
			path := filepath.Join(t.TempDir(), name+ext)
			require.NoError(t, sheet.Write(path, []sheet.Out{out}), name)
			tables, err := sheet.ReadFile(context.Background(), path)
			require.NoError(t, err, name)
			text := ""
			for _, row := range tables[0].Rows[len(tables[0].Rows)-len(out.Rows):] {
				for _, cell := range row.Cells {
					text += cell.Text + "|"
				}
				text += "\n"
			}
			for _, want := range s.cells {
				assert.Contains(t, text, want, name+ext)
			}
			texts = append(texts, text)
		}
		assert.Equal(t, texts[0], texts[1], name)
	}
}
