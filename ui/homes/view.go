package homes

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen of every person.
type View struct {
	model   *Model
	title   *widget.Label
	filter  *widgets.Filter
	rows    *widgets.Rows
	content fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{model: NewModel(w), title: widget.NewLabel("")}
	v.model.Changed = v.draw
	v.rows = widgets.NewRows(columns(), v.model.Empty())
	v.rows.OnOpen = func(id string) { v.model.Open(inventory.PersonID(id)) }
	v.filter = widgets.NewFilter("name, record, phone or street", v.rows)
	v.filter.OnText = v.model.Filter
	heading := widget.NewLabelWithStyle("Homes", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = "subHeadingText"
	top := container.NewBorder(nil, nil, container.NewHBox(heading, v.title), v.filter)
	v.content = container.NewBorder(top, nil, nil, nil, v.rows)
	return v
}

func columns() []widgets.Column {
	return []widgets.Column{
		{Title: "verdict", Kind: widgets.VerdictColumn, Width: 96},
		{Title: "person", Width: 200},
		{Title: "home", Width: 210},
		{Title: "stands", Width: 150},
		{Title: "ordered", Width: 92},
		{Title: "gas", Width: 140},
		{Title: "next"},
	}
}

func (v *View) draw() {
	v.title.SetText(v.model.Title())
	v.rows.SetEmpty(v.model.Empty())
	rows := make([]widgets.Row, len(v.model.Rows))
	for i, r := range v.model.Rows {
		next := widgets.Cell{Text: r.Next, Bold: r.Urgent}
		if r.Urgent {
			next.Ink = scene.VerdictInk(r.Verdict)
		}
		rows[i] = widgets.Row{
			ID:   string(r.ID),
			Find: r.Name,
			Cells: []widgets.Cell{
				{Text: r.Verdict},
				{Text: r.Name, Below: r.Detail, Bold: true},
				{Text: r.Street, Below: r.Phone},
				{Text: r.Phase, Below: r.Since},
				{Text: r.Order},
				{Text: r.Gas, Below: r.Read},
				next,
			},
		}
	}
	v.rows.SetRows(rows)
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.filter }

// Reread reads the screen anew, as it stands; the row in hand stays.
func (v *View) Reread() { v.model.Load() }

// Open shows the persons a text names; everybody without one.
func (v *View) Open(t work.Target) {
	if v.filter.Text.Text != t.Text {
		v.filter.SetText(t.Text) // reads the list
		return
	}
	v.model.Load()
}
