package takein

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"lungwort/inventory/refusal"
	"lungwort/inventory/sheet"
	"lungwort/ui/work"
)

// Left reports how many rows are not taken in.
func (m *Model) Left() int {
	if m.Reading == nil {
		return 0
	}
	return m.Reading.Waiting + len(m.Reading.Refused) + m.Reading.LeftOut
}

// WriteLeft writes every row that is not taken in to a copy of its sheet, with
// the reason beside it, and opens that, for whoever mends the list.
func (m *Model) WriteLeft() {
	if m.Left() == 0 {
		return
	}
	rows, out := m.Left(), m.Reading.Left()
	first := filepath.Base(m.Files[0])
	name := strings.TrimSuffix(first, filepath.Ext(first)) + " not taken in " + m.work.Now().Format("2006-01-02 1504") + ".xlsx"
	path := filepath.Join(m.work.Dir, name)
	work.Ask(m.work, "write what is left", func(context.Context) (string, error) {
		if err := os.MkdirAll(m.work.Dir, 0o700); err != nil {
			return "", refusal.New(refusal.ReadOnly, fmt.Sprintf("The folder %s can't be made.", m.work.Dir), "Free its place.").Because(err)
		}
		return path, sheet.Write(path, out)
	}, func(path string) {
		m.work.Say(count(rows, "row", "rows") + " written to " + filepath.Base(path) + ", each with the reason.")
		m.work.Show(path)
	})
}
