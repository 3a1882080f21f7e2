package papers

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen of papers.
type View struct {
	model    *Model
	rows     *widgets.Rows
	progress *widgets.Progress
	make     *widgets.Button
	to       *widgets.Choice
	inTo     *widgets.Field
	as       *widgets.Choice
	name     *widgets.Text
	copying  *widgets.Field
	form     *widgets.Form
	panel    *widgets.Panel
	shown    string // what the progress line is about
	content  fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{model: NewModel(w), progress: widgets.NewProgress(), name: widgets.NewText()}
	v.model.Changed = v.draw
	v.rows = widgets.NewRows([]widgets.Column{
		{Title: "paper"}, {Title: "holds now", Width: 150}, {Title: "last made here", Width: 170}, {Title: "file", Width: 70},
	}, "Reading the book …")
	v.rows.OnOpen = v.open
	v.rows.OnHand = func(string) { v.drawHand() }
	v.make = widgets.NewMainButton("Make and open", func() { v.open(v.rows.InHand()) })
	v.copying = widgets.NewField("Copy to", v.name, "Keep it on another disk than the book: what takes the one must not take the other.")
	v.form = widgets.NewForm("Make a copy", v.copying)
	v.form.OnSubmit = v.copyBook
	v.form.OnCancel = func() { focus(v.rows.Keyboard(), v.rows) }
	v.panel = widgets.NewPanel(v.form)
	v.to = widgets.NewChoice()
	v.to.OnChanged = v.model.PrintOn
	v.as = widgets.NewChoice(widgets.Option{Value: Workbook, Label: "xlsx"}, widgets.Option{Value: Commas, Label: "csv"})
	v.as.OnChanged = v.model.SheetsAs
	v.inTo = widgets.NewField("Papers go to", v.to, "")
	v.content = container.NewBorder(v.top(), v.bottom(w.Dir), nil, nil, v.rows)
	return v
}

func (v *View) top() fyne.CanvasObject {
	heading := widget.NewLabelWithStyle("Papers", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = theme.SizeNameSubHeadingText
	folder := widgets.NewButton("Open the folder", v.model.OpenFolder)
	log := widgets.NewButton("Key in the night log   F2", v.model.NightLog)
	return container.NewBorder(nil, nil, heading, container.NewHBox(v.inTo, widgets.NewField("Sheets as", v.as, "").Narrow(84), log, folder, v.make))
}

func (v *View) bottom(dir string) fyne.CanvasObject {
	caution := widget.NewLabel("These papers hold names and addresses. Take them off the printer at once; shred what is out of date.")
	caution.Importance = widget.WarningImportance
	where := widget.NewLabel("They are written to " + dir + ", which only you can open.")
	where.Truncation = fyne.TextTruncateEllipsis
	return container.NewVBox(v.panel, v.progress, widgets.NewFoot(container.NewVBox(caution, where)))
}

func (v *View) open(id string) {
	if id == Copy {
		v.form.Begin()
		return
	}
	v.model.Make(id)
}

func (v *View) copyBook() {
	err := v.model.CopyBook(v.name.Text)
	if v.form.ShowErrors(map[*widgets.Field]error{v.copying: err}) {
		focus(v.rows.Keyboard(), v.rows)
	}
}

func (v *View) draw() {
	rows := make([]widgets.Row, len(v.model.Rows))
	for i, r := range v.model.Rows {
		rows[i] = widgets.Row{ID: r.ID, Find: r.Name, Cells: []widgets.Cell{
			{Text: r.Name, Below: r.Holds, Bold: true}, {Text: r.Now}, {Text: r.Last}, {Text: r.Ends},
		}}
	}
	v.rows.SetRows(rows)
	to := []widgets.Option{{Value: "", Label: "viewer"}}
	for _, name := range v.model.Printers {
		to = append(to, widgets.Option{Value: name, Label: name})
	}
	v.to.SetOptions(to...)
	v.to.SetValue(v.model.Printer)
	v.as.SetValue(v.model.Ends)
	v.inTo.Hidden = len(v.model.Printers) == 0 // nothing to choose
	v.drawHand()
	v.drawProgress()
}

// drawHand shows the name of a copy only while its row is in hand.
func (v *View) drawHand() {
	copying := v.rows.InHand() == Copy
	if copying && v.panel.Hidden {
		v.name.SetText(v.model.CopyName())
	}
	v.panel.Hidden = !copying
	v.make.Hidden = copying
	if v.content != nil {
		v.content.Refresh()
	}
}

func (v *View) drawProgress() {
	switch {
	case v.model.Under == "":
		v.progress.Done()
	case v.shown == "":
		v.progress.Start(v.model.Under, v.model.Stop)
	default:
		v.progress.SetText(v.model.Under)
		v.progress.SetShare(v.model.Share)
	}
	v.shown = v.model.Under
	v.form.SetReady(v.model.Under == "")
}

// focus brings the keyboard to a part of the screen.
func focus(to fyne.Focusable, shown fyne.CanvasObject) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(shown); c != nil {
		c.Focus(to)
	}
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.rows.Keyboard() }

// Open shows the screen with the book as it stands now.
func (v *View) Open(work.Target) { v.model.Load() }

// Key does what the function keys do here.
func (v *View) Key(key fyne.KeyName) {
	if key == fyne.KeyF2 {
		v.model.NightLog()
	}
}

// Print makes the paper in hand.
func (v *View) Print() { v.open(v.rows.InHand()) }
