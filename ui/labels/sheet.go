package labels

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
	"lungwort/labels/scene"
	"lungwort/ui/printing"
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

// Print writes the batch, records for each item that its label was printed, and
// opens the batch. The next one begins on the first label this one leaves free.
func (m *Model) Print() {
	sheet := m.Sheet()
	record := delivery.Label{Stock: sheet.Stock.Name, Copies: sheet.Copies}
	for _, i := range m.chosen {
		record.Items = append(record.Items, i.ID)
	}
	hand := m.work.Hand(inventory.Keyed)
	m.save("labels", sheet, func(ctx context.Context) error {
		_, err := m.work.Desk.Do(ctx, hand, record)
		return err
	}, func(path string) {
		n := len(sheet.Labels) * sheet.Copies
		m.First = (sheet.First-1+n)%sheet.Stock.PerSheet() + 1
		where := filepath.Base(path)
		if m.Printer != "" {
			where = m.Printer
		}
		m.work.Say(labelCount(n) + " printed to " + where + ".")
		m.work.Changed()
		m.Load()
	})
}

// PrintTest writes the test page of the label paper: the outline of every label
// and rulers, to hold against a sheet before labels are spent.
func (m *Model) PrintTest() {
	page := paper.RulerPage{Stock: m.Stock, Printed: m.work.Now()}
	m.save("label-test", page, func(context.Context) error { return nil }, func(string) {
		m.work.Say("The test page is printed: hold it against a sheet of labels, and measure its rulers.")
	})
}

// save writes a paper off the window's goroutine, then opens it or sends it to
// the printer that was chosen.
func (m *Model) save(name string, page paperwork.Printable, record func(context.Context) error, after func(path string)) {
	printer, in, format := m.Printer, printing.Loaded{Stock: m.Stock.Name, DPI: m.DPI}, m.Stock.Page
	path := filepath.Join(m.work.Dir, name+"-"+m.work.Now().Format("2006-01-02-1504")+".pdf")
	work.Ask(m.work, "print labels", func(ctx context.Context) (string, error) {
		if err := os.MkdirAll(m.work.Dir, 0o700); err != nil {
			return path, refusal.New(refusal.ReadOnly, fmt.Sprintf("The folder %s can't be made.", m.work.Dir), "Free its place.").Because(err)
		}
		if err := paperwork.Save(path, page); err != nil {
			return path, err
		}
		if printer != "" {
			if err := m.work.Printers.Send(ctx, printer, path, format); err != nil {
				return path, err
			}
			if err := m.work.Printers.Remember(printer, in); err != nil {
				return path, refusal.New(refusal.ReadOnly, "What is in the printer can't be remembered.", "").Because(err)
			}
		}
		return path, record(ctx)
	}, func(path string) {
		if printer == "" {
			m.work.Show(path)
		}
		after(path)
	})
}
