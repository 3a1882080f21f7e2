package atlas

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"

	"lungwort/delivery"
	"lungwort/delivery/outline"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// TakeOutline reads a GeoJSON file and draws the map from it from now on. The
// book keeps it: the file may go.
func (m *Model) TakeOutline(path string) {
	hand := m.work.Hand(inventory.Keyed)
	work.Ask(m.work, "outline", func(ctx context.Context) (store.Outcome, error) {
		file, err := os.Open(path)
		if err != nil {
			return store.Outcome{}, refusal.New(refusal.NotFound, fmt.Sprintf("%s can't be opened.", filepath.Base(path)), "Check its name and whether you may read it.").Because(err)
		}
		defer file.Close()
		read, err := outline.Read(file)
		if err != nil {
			return store.Outcome{}, err
		}
		return m.work.Desk.Do(ctx, hand, delivery.TakeOutline{File: filepath.Base(path), Outline: read})
	}, func(out store.Outcome) {
		m.work.Say(out.Says)
		m.work.Changed()
		m.Load()
	})
}

func (v *View) askFile() {
	if win := widgets.WindowOf(v.content); win != nil {
		v.pickFile(win, v.model.TakeFile)
	}
}

// pickFile asks for a file in the toolkit's own dialog.
func pickFile(win fyne.Window, picked func(path string)) {
	dialog.ShowFileOpen(func(file fyne.URIReadCloser, err error) {
		if err == nil && file != nil {
			_ = file.Close() // read again by its path, off the window's goroutine
			picked(file.URI().Path())
		}
	}, win)
}
