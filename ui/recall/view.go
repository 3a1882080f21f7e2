package recall

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/ask"
	"lungwort/ui/asker"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen of recalls: the files at the left, what is shown beside.
type View struct {
	work    *work.Work
	model   *Model
	title   *widget.Label
	below   *widget.Label
	actions *widgets.Actions
	files   *widgets.Rows
	rows    *widgets.Rows
	content fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{work: w, model: NewModel(w), title: heading("Recall"), below: widget.NewLabel(""), actions: widgets.NewActions()}
	v.model.Changed = v.draw
	v.files = widgets.NewLowRows([]widgets.Column{{Title: "files"}}, "No recall was marked yet.")
	v.files.OnOpen = v.model.OpenFile
	v.files.OnRune = v.actions.Press
	v.rows = widgets.NewRows([]widgets.Column{
		{Title: "item", Width: 150}, {Title: "", Width: 120}, {Title: "where", Width: 190}, {Title: "who", Width: 150}, {Title: "why and what next"},
	}, "Search what the notice names: a model, a range of serials, a list, or the lot of a fill or a supply. Everything ever owned is looked through.")
	v.rows.OnOpen = v.model.Open
	v.rows.OnRune = v.actions.Press
	top := container.NewVBox(container.NewBorder(nil, nil, v.title, v.actions), v.below)
	left := container.NewPadded(v.files)
	foot := widget.NewLabel("A serial that only nearly fits is never marked by itself: read the plate, then mark that row.")
	v.content = container.NewBorder(top, widgets.NewFoot(foot), nil, nil, widgets.NewBeside(left, 190, v.rows))
	v.bar()
	return v
}

func heading(text string) *widget.Label {
	h := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	h.SizeName = theme.SizeNameSubHeadingText
	return h
}

// bar offers what can be done with what is shown.
func (v *View) bar() {
	searched, file := v.model.Notice == "" && len(v.model.Rows) > 0, v.model.Notice != ""
	hand := func(make func(inventory.ItemID) ask.Form) func() {
		return func() {
			if id := v.rows.InHand(); id != "" {
				v.show(make(inventory.ItemID(id)))
			}
		}
	}
	v.actions.SetActions(
		widgets.Action{Key: '1', Label: "Search", Do: func() { v.show(v.model.SearchForm()) }},
		widgets.Action{Key: '2', Label: "Mark", Danger: true, Off: !searched, Do: func() {
			if form, ok := v.model.MarkForm(inventory.ItemID(v.rows.InHand())); ok {
				v.show(form)
			}
		}},
		widgets.Action{Key: '3', Label: "Told", Off: !file, Do: hand(v.model.LetterForm)},
		widgets.Action{Key: '4', Label: "Reply", Off: !file, Do: hand(v.model.ReplyForm)},
		widgets.Action{Key: '5', Label: "Open (Enter)", Off: len(v.model.Rows) == 0, Do: func() { v.model.Open(v.rows.InHand()) }},
		widgets.Action{Key: '6', Label: "Letter (Ctrl+P)", Off: !file, Do: v.Print},
		widgets.Action{Key: '7', Label: "Everywhere", Off: len(v.model.Area) == 0, Do: v.model.Everywhere},
		widgets.Action{Key: '8', Label: "All letters", Off: !file, Do: v.model.PrintLetters},
	)
}

func (v *View) show(form ask.Form) {
	if win := widgets.WindowOf(v.content); win != nil {
		asker.Show(win, form, v.work.Now().Location())
	}
}

func (v *View) draw() {
	m := v.model
	v.title.SetText(strings.TrimSpace("Recall   " + strings.TrimPrefix(m.Title, "Recall ")))
	v.below.SetText(m.Below)
	v.below.TextStyle.Bold = true
	files := make([]widgets.Row, len(m.Notices))
	for i, n := range m.Notices {
		files[i] = widgets.Row{ID: n, Find: n, Cells: []widgets.Cell{{Text: n, Bold: n == m.Notice}}}
	}
	v.files.SetRows(files)
	rows := make([]widgets.Row, len(m.Rows))
	for i, r := range m.Rows {
		rows[i] = widgets.Row{ID: r.Key(), Find: r.Label, Cells: []widgets.Cell{
			{Text: r.Label, Bold: true}, {Text: r.Part, Bold: r.Alarm}, {Text: r.Where}, {Text: r.Who}, {Text: r.Why, Below: r.Below},
		}}
		if r.Alarm {
			rows[i].Cells[1].Ink = scene.Alarm
		}
	}
	v.rows.SetRows(rows)
	v.bar()
	v.content.Refresh()
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable {
	if len(v.model.Rows) > 0 {
		return v.rows.Keyboard()
	}
	return v.files.Keyboard()
}

// Open shows the files, kept to the homes of the target; its text is searched
// as a lot, its item opens the file of the recall that names it.
func (v *View) Open(t work.Target) {
	switch {
	case len(t.Homes) > 0:
		v.model.OpenArea(t.Homes)
	case t.Text != "":
		v.model.Find(delivery.RecallNotice{Lot: t.Text})
	case t.Item != "":
		v.model.OpenFileOf(t.Item)
	default:
		v.model.Load()
	}
}

// Print prints the letter about the item in hand.
func (v *View) Print() {
	if id := v.rows.InHand(); id != "" && v.model.Notice != "" {
		v.model.PrintLetter(inventory.ItemID(id))
	}
}
