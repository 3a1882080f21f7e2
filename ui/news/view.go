package news

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen.
type View struct {
	model   *Model
	title   *widget.Label
	since   *widgets.Choice
	rows    *widgets.Rows
	content fyne.CanvasObject
}

// New returns the screen of what changed.
func New(w *work.Work) *View {
	v := &View{model: NewModel(w), title: widget.NewLabel("")}
	v.model.Changed = v.draw
	v.rows = widgets.NewRows([]widgets.Column{{Title: "who or what", Width: 300}, {Title: "stands otherwise"}},
		"Nothing stands otherwise than it was known then.")
	v.rows.OnOpen = v.model.Open
	var options []widgets.Option
	for _, s := range v.model.Offers() {
		options = append(options, widgets.Option{Value: s.Name, Label: s.Name})
	}
	v.since = widgets.NewChoice(options...)
	v.since.SetValue(v.model.Offers()[0].Name)
	v.since.OnChanged = v.model.Choose
	heading := widget.NewLabelWithStyle("What changed", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = theme.SizeNameSubHeadingText
	top := container.NewBorder(nil, nil, container.NewHBox(heading, v.title), v.since)
	v.content = container.NewBorder(top, nil, nil, nil, v.rows)
	return v
}

func (v *View) draw() {
	v.title.SetText(v.model.Title())
	rows := make([]widgets.Row, len(v.model.Rows))
	for i, r := range v.model.Rows {
		first := ""
		if len(r.Says) > 0 {
			first = r.Says[0]
		}
		rows[i] = widgets.Row{ID: r.ID, Find: r.Name, Cells: []widgets.Cell{{Text: r.Name, Bold: true}, {Text: first, Below: r.rest()}}}
	}
	v.rows.SetRows(rows)
	v.content.Refresh()
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.rows.Keyboard() }

// Open reads what changed.
func (v *View) Open(work.Target) { v.model.Load() }
