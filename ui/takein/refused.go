package takein

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"lungwort/inventory/refusal"
	"lungwort/inventory/sheet"
	"lungwort/ui/work"
)

// WriteRefused writes the refused rows with their reasons to a spreadsheet and
// opens it, for whoever mends the list.
func (m *Model) WriteRefused() {
	if m.Reading == nil || len(m.Reading.Refused) == 0 {
		return
	}
	now, refused := m.work.Now(), m.Reading.Refused
	out := sheet.Out{
		Name: "Refused", Title: "Rows that were not taken in", AsOf: now,
		Columns: []sheet.Column{{Heading: "Row", Kind: sheet.Whole}, {Heading: "Why", Width: 90}},
	}
	for _, r := range refused {
		out.Rows = append(out.Rows, []any{r.Row, r.Why})
	}
	path := filepath.Join(m.work.Dir, "refused-rows-"+now.Format("2006-01-02-1504")+".xlsx")
	work.Ask(m.work, "write refused", func(context.Context) (string, error) {
		if err := os.MkdirAll(m.work.Dir, 0o700); err != nil {
			return "", refusal.New(refusal.ReadOnly, fmt.Sprintf("The folder %s can't be made.", m.work.Dir), "Free its place.").Because(err)
		}
		return path, sheet.Write(path, []sheet.Out{out})
	}, func(path string) {
		m.work.Say(count(len(refused), "refused row is", "refused rows are") + " written to " + filepath.Base(path) + ".")
		m.work.Show(path)
	})
}
