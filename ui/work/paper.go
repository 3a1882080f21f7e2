package work

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"lungwort/delivery/paperwork"
	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
)

// Paper makes a paper as of now, prints it and says so. File begins the name of
// its file, which names nobody; name says what it is.
func (w *Work) Paper(file, name string, page func(context.Context, paperwork.Clerk) (paperwork.Printable, error)) {
	now := w.Now()
	Ask(w, "make paper "+file, func(ctx context.Context) (string, error) {
		if err := os.MkdirAll(w.Dir, 0o700); err != nil {
			return "", refusal.New(refusal.ReadOnly, fmt.Sprintf("The folder %s can't be made.", w.Dir), "Free its place, or start with a book in a folder of your own.").Because(err)
		}
		clerk, err := paperwork.NewClerk(ctx, w.Desk, now)
		if err != nil {
			return "", err
		}
		made, err := page(ctx, clerk)
		if err != nil {
			return "", err
		}
		path := filepath.Join(w.Dir, file+"-"+now.Format("2006-01-02-1504")+".pdf")
		return path, paperwork.Save(path, made)
	}, func(path string) {
		w.Say(name + " made: " + filepath.Base(path) + ".")
		w.Print(path)
	})
}

// Print sends a paper to the printer chosen for papers; where none is, it opens
// in the viewer.
func (w *Work) Print(file string) {
	printer := w.Printers.Office()
	if printer == "" || filepath.Ext(file) != ".pdf" {
		w.Show(file)
		return
	}
	Ask(w, "send "+file, func(ctx context.Context) (string, error) {
		return printer, w.Printers.Send(ctx, printer, file, paper.Format{})
	}, func(printer string) { w.Say(filepath.Base(file) + " went to the printer " + printer + ".") })
}
