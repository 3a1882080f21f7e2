package atlas

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"lungwort/delivery/paperwork"
	"lungwort/inventory/refusal"
	"lungwort/labels/scene"
	"lungwort/ui/work"
)

// Print makes a page of the map as it is seen, and opens it.
func (m *Model) Print(sight scene.Sight, w, h float64) {
	now, data := m.work.Now(), m.Data(sight)
	says := m.Title()
	work.Ask(m.work, "print map", func(ctx context.Context) (string, error) {
		if err := os.MkdirAll(m.work.Dir, 0o700); err != nil {
			return "", refusal.New(refusal.ReadOnly, fmt.Sprintf("The folder %s can't be made.", m.work.Dir), "Free its place, or start with a book in a folder of your own.").Because(err)
		}
		clerk, err := paperwork.NewClerk(ctx, m.work.Desk, now)
		if err != nil {
			return "", err
		}
		path := filepath.Join(m.work.Dir, "map-"+now.Format("2006-01-02-1504")+".pdf")
		return path, paperwork.Save(path, clerk.MapPage(data, says, w, h))
	}, func(path string) {
		m.work.Say("Map made: " + filepath.Base(path) + ".")
		m.work.Show(path)
	})
}
