package outage

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"lungwort/delivery/paperwork"
	"lungwort/inventory/refusal"
	"lungwort/ui/work"
)

// Print prints the list of the power cut shown, and opens it.
func (m *Model) Print() {
	plan, now := m.Plan, m.work.Now()
	if len(plan.Homes) == 0 {
		m.work.Refuse(refusal.New(refusal.Unready, "No home is on the list.", "Choose another area on the left."))
		return
	}
	work.Ask(m.work, "outage list", func(ctx context.Context) (string, error) {
		if err := os.MkdirAll(m.work.Dir, 0o700); err != nil {
			return "", refusal.New(refusal.ReadOnly, fmt.Sprintf("The folder %s can't be made.", m.work.Dir), "Free its place, or start with a book in a folder of your own.").Because(err)
		}
		clerk, err := paperwork.NewClerk(ctx, m.work.Desk, now)
		if err != nil {
			return "", err
		}
		path := filepath.Join(m.work.Dir, "outage-list-"+now.Format("2006-01-02-1504")+".pdf")
		return path, paperwork.Save(path, clerk.OutageList(plan))
	}, func(path string) {
		m.work.Say("Outage list made: " + filepath.Base(path) + ".")
		m.work.Show(path)
	})
}
