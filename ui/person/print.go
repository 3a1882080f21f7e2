package person

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"lungwort/delivery/paperwork"
	"lungwort/inventory/refusal"
	"lungwort/ui/work"
)

// PrintGas prints the gas chart of the person with its table, and opens it.
func (m *Model) PrintGas() {
	if !m.Page.Watched && len(m.Page.Chart.Readings) == 0 {
		m.work.Refuse(refusal.New(refusal.Unready, "Nothing is known of gas in this home.", "Record a reading first."))
		return
	}
	page, now := m.Page, m.work.Now()
	work.Ask(m.work, "gas sheet", func(ctx context.Context) (string, error) {
		if err := os.MkdirAll(m.work.Dir, 0o700); err != nil {
			return "", refusal.New(refusal.ReadOnly, fmt.Sprintf("The folder %s can't be made.", m.work.Dir), "Free its place, or start with a book in a folder of your own.").Because(err)
		}
		clerk, err := paperwork.NewClerk(ctx, m.work.Desk, now)
		if err != nil {
			return "", err
		}
		path := filepath.Join(m.work.Dir, "gas-sheet-"+now.Format("2006-01-02-1504")+".pdf")
		return path, paperwork.Save(path, clerk.GasSheet(page.Name, page.Answer, page.Chart))
	}, func(path string) {
		m.work.Say("Gas sheet made: " + filepath.Base(path) + ".")
		m.work.Show(path)
	})
}
