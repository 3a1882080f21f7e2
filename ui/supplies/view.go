package supplies

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/ask"
	"lungwort/ui/asker"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen of the supplies.
type View struct {
	work    *work.Work
	model   *Model
	title   *widget.Label
	low     *widget.Label
	rows    *widgets.Rows
	content fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{work: w, model: NewModel(w), title: widget.NewLabel(""), low: widget.NewLabel("")}
	v.model.Changed = v.draw
	v.low.Importance, v.low.TextStyle.Bold, v.low.Truncation = widget.WarningImportance, true, fyne.TextTruncateEllipsis
	actions := widgets.NewActions(
		widgets.Action{Key: '1', Label: "Take in", Do: v.about(v.model.ReceiveForm, false)},
		widgets.Action{Key: '2', Label: "Count", Do: v.about(v.model.CountForm, false)},
		widgets.Action{Key: '3', Label: "Move or throw away", Do: v.about(v.model.MoveForm, true)},
		widgets.Action{Key: '4', Label: "Recall the lot", Danger: true, Do: v.about(v.model.RecallForm, true)},
		widgets.Action{Key: '5', Label: "Who has the lot", Do: v.who},
	)
	v.rows = widgets.NewLowRows([]widgets.Column{
		{Title: "supply", Width: 180}, {Title: "all", Width: 60, Right: true}, {Title: "level", Width: 60, Right: true},
		{Title: "place", Width: 160}, {Title: "lot", Width: 140}, {Title: "count", Width: 70, Right: true}, {Title: "note"},
	}, "No supplies are counted yet. Press 1 and take in the first lot; set under how many to order on the Settings screen, Supplies.")
	v.rows.OnRune = actions.Press
	v.rows.OnOpen = func(string) { v.about(v.model.CountForm, false)() }
	heading := widget.NewLabelWithStyle("Supplies", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = theme.SizeNameSubHeadingText
	top := container.NewBorder(nil, nil, container.NewHBox(heading, v.title), actions)
	foot := widget.NewLabel("What is handed over with a kit is taken off by itself. Enter counts the supply in hand.")
	v.content = container.NewBorder(container.NewVBox(top, v.low), widgets.NewFoot(foot), nil, nil, v.rows)
	return v
}

// about shows a form about the row in hand. One that needs a lot at a place is
// not shown without.
func (v *View) about(form func(inventory.SupplyStock) ask.Form, needs bool) func() {
	return func() {
		in, ok := v.model.InHand(v.rows.InHand())
		if needs && (!ok || in.At == "") {
			return
		}
		if win := widgets.WindowOf(v.content); win != nil {
			asker.Show(win, form(in), v.work.Now().Location())
		}
	}
}

// who searches for the lot in hand on the screen of recalls.
func (v *View) who() {
	if in, ok := v.model.InHand(v.rows.InHand()); ok && in.Lot != "" {
		v.work.Open(work.Target{Room: work.Recall, Text: in.Lot})
	}
}

func (v *View) draw() {
	v.title.SetText(v.model.Title)
	v.low.SetText(v.model.Low)
	v.low.Hidden = v.model.Low == ""
	rows := make([]widgets.Row, len(v.model.Rows))
	for i, r := range v.model.Rows {
		note := widgets.Cell{Text: r.Note}
		if r.Alarm {
			note.Ink, note.Bold = scene.Alarm, true
		}
		rows[i] = widgets.Row{ID: r.Key, Find: r.Find, Cells: []widgets.Cell{
			{Text: r.Supply, Bold: true}, {Text: r.All, Bold: true}, {Text: r.Level}, {Text: r.Place}, {Text: r.Lot}, {Text: r.Count}, note,
		}}
	}
	v.rows.SetRows(rows)
	v.content.Refresh()
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.rows.Keyboard() }

// Reread reads the screen anew, as it stands; the row in hand stays.
func (v *View) Reread() { v.model.Load() }

// Open reads the supplies anew.
func (v *View) Open(work.Target) { v.model.Load() }
