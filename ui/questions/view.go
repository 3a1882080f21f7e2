package questions

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/asker"
	"lungwort/ui/history"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the inbox: the questions, and below them the evidence of the one in
// hand. Enter answers it.
type View struct {
	work     *work.Work
	model    *Model
	title    *widget.Label
	actions  *widgets.Actions
	scope    *widgets.Choice
	rows     *widgets.Rows
	evidence *history.View
	below    *fyne.Container
	content  fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{work: w, model: NewModel(w), title: widget.NewLabel(""), evidence: history.NewView()}
	v.model.Changed = v.draw
	v.actions = widgets.NewActions(
		widgets.Action{Key: '1', Label: "Answer (Enter)", Do: v.answer},
		widgets.Action{Key: '2', Label: "Item", Do: func() { v.model.OpenItem(v.rows.InHand()) }},
		widgets.Action{Key: '3', Label: "Person", Do: func() { v.model.OpenPerson(v.rows.InHand()) }},
	)
	v.scope = widgets.NewChoice(widgets.Option{Value: "open", Label: "open"}, widgets.Option{Value: "all", Label: "answered too"})
	v.scope.SetValue("open")
	v.scope.OnChanged = func(value string) { v.model.SetAll(value == "all") }
	v.rows = widgets.NewRows([]widgets.Column{
		{Title: "about", Width: 190},
		{Title: "question"},
		{Title: "whose", Width: 190},
		{Title: "due", Width: 160},
	}, "No question is open. Where facts clash (a full cylinder called empty, hours that went down, one thing in two places), it shows up here.")
	v.rows.OnOpen = func(string) { v.answer() }
	v.rows.OnHand = func(string) { v.drawEvidence() }
	v.rows.OnRune = v.actions.Press
	v.content = v.layout()
	return v
}

func (v *View) layout() fyne.CanvasObject {
	heading := widget.NewLabelWithStyle("Questions", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = "subHeadingText"
	top := container.NewBorder(nil, nil, container.NewHBox(heading, v.title), container.NewHBox(v.actions, v.scope))
	foot := widget.NewLabel("Nothing is put right by itself: an answer says which evidence counts and why, and stays in the book.")
	v.below = container.NewBorder(widget.NewLabelWithStyle("Evidence", fyne.TextAlignLeading, fyne.TextStyle{Bold: true}), nil, nil, nil, v.evidence.Content())
	return container.NewBorder(top, widgets.NewFoot(foot), nil, nil, container.NewGridWithRows(2, v.rows, v.below))
}

// answer asks about the question in hand.
func (v *View) answer() {
	form, open := v.model.Form(v.rows.InHand())
	if win := widgets.WindowOf(v.content); open && win != nil {
		asker.Show(win, form, v.work.Now().Location())
	}
}

func (v *View) draw() {
	v.title.SetText(v.model.Title())
	rows := make([]widgets.Row, len(v.model.Rows))
	for i, r := range v.model.Rows {
		due := widgets.Cell{Text: r.Due}
		if r.Overdue {
			due = widgets.Cell{Text: r.Due, Below: "overdue", Ink: scene.Alarm, Bold: true}
		}
		says := r.Says
		if r.Answer != "" {
			says = r.Answer
		}
		rows[i] = widgets.Row{ID: r.Key, Find: r.About, Cells: []widgets.Cell{
			{Text: r.About, Below: r.What, Bold: true},
			{Text: r.Title, Below: says},
			{Text: r.Owner, Below: r.Who},
			due,
		}}
	}
	v.rows.SetRows(rows)
	v.drawEvidence()
}

// drawEvidence shows what the question in hand rests on; without a question
// there is none.
func (v *View) drawEvidence() {
	v.evidence.SetRows(v.model.Evidence(v.rows.InHand()))
	v.below.Hidden = len(v.model.Rows) == 0
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.rows.Keyboard() }

// Reread reads the screen anew, as it stands; the row in hand stays.
func (v *View) Reread() { v.model.Load() }

// Open shows what is open now.
func (v *View) Open(work.Target) { v.model.Load() }
