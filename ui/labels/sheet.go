package labels

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"time"

	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
	"lungwort/labels/scene"
	"lungwort/ui/work"
)

// Sheet is the batch as it stands.
func (m *Model) Sheet() paper.LabelSheet {
	sheet := m.pages.Labels(m.chosen, m.Stock, m.DPI, m.First)
	sheet.Copies = m.Copies
	return sheet
}

// Says is how much will be printed, or why it can't be.
func (m *Model) Says() (string, error) {
	if len(m.chosen) == 0 {
		return "Nothing is chosen.", nil
	}
	sheet := m.Sheet()
	if _, err := sheet.Preview(0, 100, 100); err != nil {
		return "", errors.New(refusal.For(err))
	}
	pages := sheet.Pages()
	if m.Stock.PerSheet() == 1 {
		return labelCount(pages) + " on a roll", nil
	}
	if pages == 1 {
		return labelCount(len(m.chosen)*m.Copies) + " on 1 sheet", nil
	}
	return fmt.Sprintf("%s on %d sheets", labelCount(len(m.chosen)*m.Copies), pages), nil
}

// Page draws a page of the batch; an empty one while nothing is chosen.
func (m *Model) Page(page int, w, h float64) scene.Scene {
	sheet := m.Sheet()
	if len(sheet.Labels) == 0 {
		return scene.Scene{W: w, H: h}
	}
	s, err := sheet.Preview(page, w, h)
	if err != nil {
		return scene.Scene{W: w, H: h}
	}
	return s
}

// One draws the label of an item by itself.
func (m *Model) One(id string, w, h float64) scene.Scene {
	for _, i := range slices.Concat(m.found, m.chosen) {
		if string(i.ID) != id {
			continue
		}
		one := m.pages.Labels([]inventory.Item{i}, m.Stock, m.DPI, 1)
		if s, err := one.PreviewOne(one.Labels[0], w, h); err == nil {
			return s
		}
	}
	return scene.Scene{W: w, H: h}
}

// Print writes the batch and opens it. The next batch begins on the first
// label this one leaves free.
func (m *Model) Print() {
	sheet, now := m.Sheet(), m.work.Now()
	path := filepath.Join(m.work.Dir, "labels-"+now.Format("2006-01-02-1504")+".pdf")
	work.Ask(m.work, "print labels", func(context.Context) (time.Time, error) {
		if err := os.MkdirAll(m.work.Dir, 0o700); err != nil {
			return now, refusal.New(refusal.ReadOnly, fmt.Sprintf("The folder %s can't be made.", m.work.Dir), "Free its place.").Because(err)
		}
		return now, paperwork.Save(path, sheet)
	}, func(time.Time) {
		n := len(sheet.Labels) * sheet.Copies
		m.First = (sheet.First-1+n)%sheet.Stock.PerSheet() + 1
		m.work.Say(labelCount(n) + " printed to " + filepath.Base(path) + ".")
		m.work.Show(path)
		m.show()
	})
}
