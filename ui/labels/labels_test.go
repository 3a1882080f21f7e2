package labels

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/labels/paper"
	"lungwort/labels/scene"
	"lungwort/labels/tag"
	"lungwort/ui/printing"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func newModel(t *testing.T) (*uitest.Desk, *Model) {
	t.Helper()
	d := uitest.New(t)
	d.Work.Dir = filepath.Join(t.TempDir(), "papers")
	m := NewModel(d.Work)
	m.Load()
	require.Empty(t, d.Refused)
	return d, m
}

func labelsOf(m *Model) []string {
	var all []string
	for _, l := range m.Sheet().Labels {
		all = append(all, l.Tag)
	}
	return all
}

func TestNarrowing(t *testing.T) {
	_, m := newModel(t)
	all := m.Total
	assert.Len(t, m.Rows, all)
	m.Narrow(Every, inventory.Concentrator, "")
	assert.Equal(t, 13, m.Total)
	m.Narrow(Every, "", "RG-33")
	assert.Equal(t, 4, m.Total)
	m.Narrow(Out, "", "")
	for _, r := range m.Rows {
		assert.Contains(t, []string{"reserved", "handed over"}, r.State, r.Label)
	}
	assert.NotEmpty(t, m.Rows)
}

func TestChoosing(t *testing.T) {
	d, m := newModel(t)
	m.Narrow(Every, "", "RG-33")
	m.ChooseShown()
	m.ChooseShown() // once more changes nothing
	assert.Equal(t, 4, m.Count())
	m.Toggle(string(d.Things["RG-3302"]))
	assert.Equal(t, 3, m.Count())
	m.Narrow(Chosen, "", "")
	assert.Len(t, m.Rows, 3)
	m.Clear()
	assert.Zero(t, m.Count())
	says, err := m.Says()
	require.NoError(t, err)
	assert.Equal(t, "Nothing is chosen.", says)
}

func TestScansAreChosen(t *testing.T) {
	d, m := newModel(t)
	item := d.Thing("E-20112")
	night, err := tag.PaperCode(tag.PaperNight, "20300305")
	require.NoError(t, err)
	for text, takes := range map[string]bool{
		tag.Mint(item.Tag).Payload(): true, "CN00408": true, "Kestrel": false, night: false,
	} {
		assert.Equal(t, takes, m.Scan(text), text)
	}
	assert.Equal(t, 2, m.Count())
	m.Scan("E-20112")
	assert.Equal(t, 2, m.Count(), "twice is once")
	require.Empty(t, d.Refused)
	assert.True(t, m.Scan("E-99999"))
	assert.Contains(t, d.Refusal().Says, "E-99999")
}

// A label is read by everybody: nothing on it says whose home a thing is in.
func TestNoLabelNamesAPerson(t *testing.T) {
	d, m := newModel(t)
	m.Narrow(Every, "", "")
	m.ChooseShown()
	for _, l := range m.Sheet().Labels {
		for given := range d.Persons {
			page := d.Page(given)
			for _, field := range []string{l.Tag, l.Payload, l.Kind, l.Owner, l.Note} {
				assert.NotContains(t, field, page.Person.Given)
				assert.NotContains(t, field, page.Person.Family)
			}
		}
	}
}

func TestPrintGoesOnWhereItEnded(t *testing.T) {
	d, m := newModel(t)
	m.Narrow(Every, "", "RG-33")
	m.ChooseShown()
	m.Stock, m.First, m.Copies = paper.Stocks[0], 21, 2
	says, err := m.Says()
	require.NoError(t, err)
	assert.Equal(t, "8 labels on 2 sheets", says)
	m.Print()
	require.Empty(t, d.Refused)
	assert.Equal(t, 5, m.First, "of 24, 20 are used up and 8 printed")
	require.Len(t, d.Shown, 1)
	assert.Equal(t, "labels-2030-03-05-1620.pdf", filepath.Base(d.Shown[0]))
	data, err := os.ReadFile(d.Shown[0])
	require.NoError(t, err)
	assert.True(t, bytes.HasPrefix(data, []byte("%PDF-")))

	m.Stock, m.First, m.Copies = paper.Stocks[5], 1, 1
	says, err = m.Says()
	require.NoError(t, err)
	assert.Equal(t, "4 labels on a roll", says)
}

// Labels go straight to a printer where there is one, and its paper is
// remembered. The commands are stand-ins that note what they were asked.
func TestLabelsGoStraightToAPrinter(t *testing.T) {
	dir := t.TempDir()
	noted := filepath.Join(dir, "asked")
	for name, does := range map[string]string{"lpstat": "echo desk; echo roll", "lp": `echo "$@" >> ` + noted} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte("#!/bin/sh\n"+does+"\n"), 0o700))
	}
	t.Setenv("PATH", dir+":"+os.Getenv("PATH"))
	d, m := newModel(t)
	d.Work.Printers = printing.New(filepath.Join(dir, "printers.json"))
	m.LoadPrinters()
	assert.Equal(t, []string{"desk", "roll"}, m.Printers)
	m.Narrow(Every, "", "RG-33")
	m.ChooseShown()
	m.PrintOn("roll")
	m.Stock, m.DPI = paper.Stocks[4], paper.DPI203
	m.Print()
	require.Empty(t, d.Refused)
	assert.Empty(t, d.Shown, "the viewer stays shut")
	assert.Equal(t, "4 labels printed to roll.", d.Said[len(d.Said)-1])
	asked, err := os.ReadFile(noted)
	require.NoError(t, err)
	assert.Contains(t, string(asked), "-d roll -t Lungwort -o media=Custom.62x29mm")

	m.PrintOn("desk")
	m.Stock = paper.Stocks[0]
	m.PrintOn("roll")
	assert.Equal(t, paper.Stocks[4], m.Stock, "what was last put into it")
	m.PrintOn("")
	m.Print()
	assert.Len(t, d.Shown, 1)
}

func TestPrintingNothingIsRefused(t *testing.T) {
	d, m := newModel(t)
	m.Print()
	assert.Equal(t, "Choose the items first.", d.Refusal().Next)
	assert.Empty(t, d.Shown)
}

func TestEveryStockIsOnSomePaper(t *testing.T) {
	d, m := newModel(t)
	assert.Equal(t, []string{"A4", "Letter", "Roll"}, m.papers())
	p := uitest.Programme()
	p.Stocks = []delivery.LabelStock{
		{Name: "Small roll", Page: delivery.PaperRoll, Width: 50, Height: 25},
		{Name: "Too wide", Page: delivery.PaperA4, Rows: 1, Columns: 9, Width: 50, Height: 25},
	}
	d.Act(delivery.Settings{Programme: p})
	m.Load()
	assert.Equal(t, []string{"A4", "Letter", "Roll", "Own"}, m.papers())
	seen := 0
	for _, kind := range m.papers() {
		for _, s := range m.stocksOn(kind) {
			seen++
			assert.NotEmpty(t, m.sizeOf(s))
			assert.NoError(t, s.Check())
		}
	}
	assert.Equal(t, len(paper.Stocks)+1, seen, "what can't be printed on is not offered")
}

// The first batch is for the paper in the printers; a choice stays.
func TestTheStockSuitsTheProgrammesPaper(t *testing.T) {
	d, m := newModel(t)
	assert.Equal(t, "Letter", m.Stock.Page.Name)
	p := uitest.Programme()
	p.Paper = delivery.PaperA4
	d.Act(delivery.Settings{Programme: p})
	again := NewModel(d.Work)
	again.Load()
	assert.Equal(t, "A4", again.Stock.Page.Name)
	again.Stock = paper.Stocks[4]
	again.Load()
	assert.Equal(t, paper.Stocks[4], again.Stock)
}

// Every label printed is a fact of its item: a second one may be about.
func TestPrintsAreRemembered(t *testing.T) {
	d, m := newModel(t)
	all := m.Total
	m.Narrow(Every, "", "RG-33")
	m.ChooseShown()
	m.Copies = 2
	m.Print()
	m.Print()
	require.Empty(t, d.Refused)
	printed := d.Thing("RG-3302")
	require.NotNil(t, printed.Labels)
	assert.Equal(t, 2, printed.Labels.Times)
	assert.Equal(t, uitest.Now, printed.Labels.Last)
	assert.True(t, m.Rows[0].Printed)
	m.Narrow(Bare, "", "")
	assert.Equal(t, all-4, m.Total, "never printed")
	m.Narrow(Every, "", "")
	m.NewWithin(1)
	assert.Zero(t, m.Total, "nothing came into the book today")
	d.Act(delivery.Enrol{Spec: inventory.Spec{Kind: inventory.Regulator, Serial: "RG-9001"}, Depot: "ness"})
	m.Load()
	require.Len(t, m.Rows, 1)
	assert.False(t, m.Rows[0].Printed)
	m.PrintTest()
	assert.Equal(t, "label-test-2030-03-05-1620.pdf", filepath.Base(d.Shown[len(d.Shown)-1]))
	d.Clean()
}

func TestViewByKeys(t *testing.T) {
	d := uitest.New(t)
	d.Work.Dir = filepath.Join(t.TempDir(), "papers")
	v := New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Labels})
	uitest.Type(win, "CN")
	uitest.Press(win, fyne.KeyDown)
	uitest.Type(win, " ") // Space chooses
	uitest.Press(win, fyne.KeyDown, fyne.KeyReturn)
	assert.Equal(t, 2, v.model.Count())
	uitest.Type(win, "2")
	assert.Equal(t, 13, v.model.Count())
	assert.Equal(t, "13 labels on 1 sheet", v.says.Text)
	uitest.Shoot(t, win, "labels")

	win.Canvas().Focus(v.setting.paper)
	uitest.Press(win, fyne.KeyEnd) // the rolls
	assert.Equal(t, "Roll, 62 × 29 mm", v.model.Stock.Name)
	assert.Equal(t, "13 labels on a roll", v.says.Text)
	uitest.Shoot(t, win, "labels-roll")
	win.Canvas().Focus(v.setting.paper)
	uitest.Press(win, fyne.KeyHome)
	win.Canvas().Focus(v.setting.first)
	uitest.Type(win, "99")
	assert.Equal(t, "write a number from 1 to 24", v.setting.inFirst.Wrong())
	assert.Equal(t, 9, v.model.First, "what was right last stays")
	v.Print()
	require.Len(t, d.Shown, 1)
	assert.NotZero(t, codes(v), "the sheet is drawn with its codes")
}

func codes(v *View) (n int) {
	for _, shape := range v.model.Page(0, 300, 400).Shapes {
		if _, ok := shape.(scene.Polygon); ok {
			n++
		}
	}
	return n
}

func TestAnItemSentHereIsChosen(t *testing.T) {
	d := uitest.New(t)
	v := New(d.Work)
	uitest.Show(t, v)
	v.Open(work.Target{Room: work.Labels, Item: d.Things["OX-7701"]})
	assert.Equal(t, []string{tag.Mint(d.Thing("OX-7701").Tag).Printed()}, labelsOf(v.model))
}
