package calls

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"lungwort/delivery/paperwork"
	"lungwort/inventory/refusal"
	"lungwort/ui/work"
)

// Print prints the list that is shown, and opens it.
func (m *Model) Print() {
	list, now := m.List, m.work.Now()
	if len(m.Rows) == 0 {
		m.work.Refuse(refusal.New(refusal.Unready, "Nobody is on the list.", "There is nothing to print now."))
		return
	}
	name := map[List]string{Due: "calls-due-", Tell: "to-tell-", Hot: "hot-day-"}[list] + now.Format("2006-01-02-1504") + ".pdf"
	work.Ask(m.work, "call list", func(ctx context.Context) (string, error) {
		if err := os.MkdirAll(m.work.Dir, 0o700); err != nil {
			return "", refusal.New(refusal.ReadOnly, fmt.Sprintf("The folder %s can't be made.", m.work.Dir), "Free its place, or start with a book in a folder of your own.").Because(err)
		}
		clerk, err := paperwork.NewClerk(ctx, m.work.Desk, now)
		if err != nil {
			return "", err
		}
		page, err := printable(ctx, clerk, list)
		if err != nil {
			return "", err
		}
		path := filepath.Join(m.work.Dir, name)
		return path, paperwork.Save(path, page)
	}, func(path string) {
		m.work.Say("List made: " + filepath.Base(path) + ".")
		m.work.Show(path)
	})
}

func printable(ctx context.Context, clerk paperwork.Clerk, list List) (paperwork.Printable, error) {
	switch list {
	case Tell:
		return clerk.ConcernList(ctx)
	case Hot:
		return clerk.HotList(ctx)
	}
	return clerk.CallList(ctx)
}
