package places

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen of where everything is.
type View struct {
	model   *Model
	title   *widget.Label
	rows    *widgets.Rows
	content fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{model: NewModel(w), title: widget.NewLabel("")}
	v.model.Changed = v.draw
	v.rows = widgets.NewLowRows([]widgets.Column{
		{Title: "place", Width: 220},
		{Title: "all", Width: 60, Right: true},
		{Title: "what", Width: 220},
		{Title: "state", Width: 180},
		{Title: "count", Width: 70, Right: true},
		{},
	}, "Nothing is in the book yet. Take in your lists, or receive the first pallet: each thing then stands here at its place.")
	v.rows.OnOpen = v.model.Open
	heading := widget.NewLabelWithStyle("Where everything is", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = theme.SizeNameSubHeadingText
	foot := widget.NewLabel("Every item is at one place. Enter shows the items behind a count; type a place to find it.")
	v.content = container.NewBorder(container.NewHBox(heading, v.title), widgets.NewFoot(foot), nil, nil, v.rows)
	return v
}

func (v *View) draw() {
	v.title.SetText(v.model.Title)
	rows := make([]widgets.Row, len(v.model.Rows))
	for i, r := range v.model.Rows {
		state := widgets.Cell{Text: r.State}
		if r.Alarm {
			state.Ink, state.Bold = scene.Alarm, true
		}
		rows[i] = widgets.Row{ID: r.Key, Find: r.Find, Cells: []widgets.Cell{
			{Text: r.Place, Bold: true}, {Text: r.Total, Bold: true}, {Text: r.What}, state, {Text: r.Count}, {},
		}}
	}
	v.rows.SetRows(rows)
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.rows.Keyboard() }

// Reread reads the screen anew, as it stands; the row in hand stays.
func (v *View) Reread() { v.model.Load() }

// Open counts anew.
func (v *View) Open(work.Target) { v.model.Load() }
