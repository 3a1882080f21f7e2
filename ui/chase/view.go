package chase

import (
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

// View is the screen of what stands in homes unneeded.
type View struct {
	work    *work.Work
	model   *Model
	title   *widget.Label
	order   *widgets.Choice
	rows    *widgets.Rows
	content fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{work: w, model: NewModel(w), title: widget.NewLabel("")}
	v.model.Changed = v.draw
	actions := widgets.NewActions(
		widgets.Action{Key: '1', Label: "Asked", Do: v.asked},
		widgets.Action{Key: '2', Label: "Lost", Danger: true, Do: func() {
			v.inHand(func(h delivery.Hidden) {
				if form, ok := v.model.LostForm(h); ok {
					v.show(form)
				}
			})
		}},
		widgets.Action{Key: '3', Label: "Take in", Do: func() {
			v.inHand(func(h delivery.Hidden) { w.Open(work.Target{Room: work.Return, Person: h.Person.ID}) })
		}},
		widgets.Action{Key: '4', Label: "Open (Enter)", Do: func() { v.inHand(func(h delivery.Hidden) { v.model.Open(h.Person.ID) }) }},
	)
	v.order = widgets.NewChoice(widgets.Option{Value: string(ByDue), Label: "what is due"}, widgets.Option{Value: string(ByDistance), Label: "nearest first"})
	v.order.SetValue(string(ByDue))
	v.order.OnChanged = func(value string) { v.model.Sort(Order(value)) }
	v.rows = widgets.NewRows([]widgets.Column{
		{Title: "home", Width: 260}, {Title: "not needed", Width: 210}, {Title: "for", Width: 110}, {Title: "asked", Width: 190}, {Title: "next"},
	}, "Nothing stands in homes that is not needed there. After a stop, or a death, what is left there shows up here.")
	v.rows.OnRune = actions.Press
	v.rows.OnOpen = func(id string) { v.model.Open(inventory.PersonID(id)) }
	heading := widget.NewLabelWithStyle("Chase", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = theme.SizeNameSubHeadingText
	top := container.NewBorder(nil, nil, container.NewHBox(heading, v.order, v.title), actions)
	foot := widget.NewLabel("In a surge this is the nearest stock there is: ask by distance. The steps and their days are settings, Coming home.")
	v.content = container.NewBorder(top, widgets.NewFoot(foot), nil, nil, v.rows)
	return v
}

func (v *View) inHand(do func(delivery.Hidden)) {
	if h, ok := v.model.InHand(inventory.PersonID(v.rows.InHand())); ok {
		do(h)
	}
}

func (v *View) asked() {
	v.inHand(func(h delivery.Hidden) {
		if !v.model.Mute(h) {
			v.show(v.model.AskedForm(h))
		}
	})
}

func (v *View) show(form ask.Form) {
	if win := widgets.WindowOf(v.content); win != nil {
		asker.Show(win, form, v.work.Now().Location())
	}
}

func (v *View) draw() {
	v.title.SetText(v.model.Title)
	rows := make([]widgets.Row, len(v.model.Rows))
	for i, r := range v.model.Rows {
		next := widgets.Cell{Text: r.Next, Below: r.Due}
		switch {
		case r.Silent:
			next.Below = "silent until " + r.Due
		case r.Over:
			next.Ink, next.Bold = scene.Alarm, true
		}
		rows[i] = widgets.Row{ID: string(r.ID), Find: r.Name, Cells: []widgets.Cell{
			{Text: r.Name, Below: r.Where, Bold: true}, {Text: r.Things}, {Text: r.Idle}, {Text: r.Asked, Below: r.Last}, next,
		}}
	}
	v.rows.SetRows(rows)
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.rows.Keyboard() }

// Open reads what is not needed anew.
func (v *View) Open(work.Target) { v.model.Load() }
