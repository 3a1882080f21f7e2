package measures

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen: the measures on the left, on the right the one in hand
// with its definition, its months and its cases.
type View struct {
	model      *Model
	rows       *widgets.Rows
	name       *widget.Label
	definition *widget.Label
	chart      *widgets.Picture
	parts      *widget.Label
	partsBox   *container.Scroll
	cases      *widgets.Rows
	content    fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{model: NewModel(w), definition: widget.NewLabel(""), parts: widget.NewLabel("")}
	v.model.Changed, v.model.Chosen = v.draw, v.drawChosen
	v.name = widget.NewLabelWithStyle("", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	v.definition.Wrapping, v.parts.Wrapping = fyne.TextWrapWord, fyne.TextWrapWord
	v.rows = widgets.NewRows([]widgets.Column{{Title: "measure"}, {Title: "cases", Width: 60, Right: true}},
		"Nothing is in the book yet. Once people go home with things, this says how well it went.")
	v.rows.OnHand = v.model.Choose
	v.cases = widgets.NewLowRows([]widgets.Column{
		{Title: "case", Width: 190}, {Title: "when", Width: 120}, {Title: "came to", Width: 170}, {Title: "of"},
	}, "No case.")
	v.cases.OnOpen = v.model.OpenCase
	v.chart = widgets.NewPicture(fyne.NewSize(300, 160), func(w, h float64) scene.Scene { return scene.MonthChart(v.model.Chart(), w, h) })
	v.layout()
	return v
}

func (v *View) layout() {
	heading := widget.NewLabelWithStyle("Measures", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = theme.SizeNameSubHeadingText
	foot := widget.NewLabel("What is not finished counts as open, never as left out. Enter on a case opens it. Ctrl+P prints all, each with its definition. As a sheet: Papers.")
	v.partsBox = container.NewVScroll(v.parts)
	v.partsBox.SetMinSize(fyne.NewSize(0, 96))
	top := container.NewVBox(v.name, v.definition, v.chart, v.partsBox)
	right := container.NewBorder(top, nil, nil, nil, v.cases)
	v.content = container.NewBorder(heading, widgets.NewFoot(foot), nil, nil, widgets.NewBeside(v.rows, 420, right))
}

func (v *View) draw() {
	rows := make([]widgets.Row, len(v.model.Rows))
	for i, r := range v.model.Rows {
		says := widgets.Cell{Text: r.Name, Below: r.Says, Bold: true}
		if r.Few {
			says.Below += " (few cases)"
		}
		rows[i] = widgets.Row{ID: r.Name, Find: r.Name, Cells: []widgets.Cell{says, {Text: r.Cases}}}
	}
	v.rows.SetRows(rows)
	v.rows.Take(v.model.Name())
	v.drawChosen()
}

// drawChosen shows the measure in hand; the list of measures is left alone, so
// that letters still being typed find on.
func (v *View) drawChosen() {
	m := v.model
	v.name.SetText(m.Name())
	v.definition.SetText(m.Definition())
	parts := m.Parts()
	v.parts.SetText(strings.Join(parts, "\n"))
	if len(parts) == 0 {
		v.partsBox.Hide() // the cases get its room
	} else {
		v.partsBox.Show()
	}
	rows := make([]widgets.Row, len(m.Cases))
	for i, c := range m.Cases {
		says := widgets.Cell{Text: c.Says}
		if c.Open {
			says.Ink = scene.Caution
		}
		rows[i] = widgets.Row{ID: c.Key, Find: c.Who, Cells: []widgets.Cell{{Text: c.Who, Bold: true}, {Text: c.When}, says, {Text: c.Why}}}
	}
	v.cases.SetRows(rows)
	v.chart.Refresh()
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.rows.Keyboard() }

// Print prints all measures.
func (v *View) Print() { v.model.Print() }

// Open works the measures out anew.
func (v *View) Open(work.Target) { v.model.Load() }
