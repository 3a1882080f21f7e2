package person

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/answercard"
	"lungwort/ui/ask"
	"lungwort/ui/asker"
	"lungwort/ui/history"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the page of one person: on the left how the gas stands, on the
// right what is there and what was done.
type View struct {
	work    *work.Work
	model   *Model
	name    *widget.Label
	actions *widgets.Actions
	urgent  *fyne.Container // the two calls that can't wait
	details *widgets.Details
	answer  *widgets.AnswerCard
	chart   *widgets.Chart
	table   *widgets.Rows  // the chart in words, in its place by the same key
	picture *widgets.Panel // around the two
	things  *widgets.Rows
	facts   *history.View
	content fyne.CanvasObject
}

// New returns the page.
func New(w *work.Work) *View {
	v := &View{
		work: w, model: NewModel(w),
		name:    widget.NewLabelWithStyle("", fyne.TextAlignLeading, fyne.TextStyle{Bold: true}),
		details: widgets.NewDetails(),
		answer:  widgets.NewAnswerCard(widgets.AnswerData{}),
		facts:   history.NewView(),
	}
	v.model.Changed = v.draw
	v.name.SizeName, v.name.Truncation = theme.SizeNameHeadingText, fyne.TextTruncateEllipsis
	v.actions = widgets.NewActions(
		widgets.Action{Key: '1', Label: "Call", Do: v.model.Call},
		widgets.Action{Key: '2', Label: "Reading", Do: func() { v.show(v.model.ReadingForm(inventory.ItemID(v.things.InHand()))) }},
		widgets.Action{Key: '3', Label: "Order", Do: func() { v.show(v.model.OrderForm()) }},
		widgets.Action{Key: '4', Label: "Breathes from", Do: func() { v.show(v.model.SwitchForm()) }},
		widgets.Action{Key: '5', Label: "Task", Do: func() { v.show(v.model.TaskForm()) }},
		widgets.Action{Key: '6', Label: "Details", Do: func() { v.show(v.model.DetailsForm()) }},
		widgets.Action{Key: '7', Label: "Home", Do: func() { v.show(v.model.HomeForm()) }},
		widgets.Action{Key: '8', Label: "Happened", Do: func() { v.show(v.model.HappenedForm(v.show)) }},
		widgets.Action{Key: '9', Label: "Take back", Do: v.takeBack},
		widgets.Action{Key: 'p', Label: "Print", Do: v.Print},
		widgets.Action{Key: '0', Label: "Stop oxygen", Danger: true, Do: func() { v.show(v.model.StopForm()) }},
	)
	v.urgent = container.NewHBox(widgets.NewButton("Gas is ending   F7", v.model.Night), widgets.NewButton("It beeps, or short of breath   F8", v.model.Alarm))
	v.gas()
	v.lists()
	v.layout()
	return v
}

func (v *View) lists() {
	v.things = widgets.NewLowRows([]widgets.Column{
		{Title: "thing", Width: 72},
		{Width: 132},
		{Title: "stands as", Width: 172},
		{Title: "reading", Width: 150, Right: true},
	}, "Nothing of ours is there.")
	v.things.OnOpen = func(id string) { v.model.OpenThing(inventory.ItemID(id)) }
	v.facts.Rows.OnOpen = func(string) { v.takeBack() }
	for _, list := range []*widgets.Rows{v.things, v.facts.Rows, v.table} {
		list.OnRune = v.press
	}
	v.chart.OnRune = v.press
}

func (v *View) layout() {
	top := container.NewBorder(nil, nil, nil, v.actions, v.name)
	left := container.NewVScroll(container.NewPadded(container.NewVBox(v.details, v.answer, v.urgent)))
	v.picture = widgets.NewPanel(container.NewStack(v.chart, v.table))
	right := container.New(&stacked{v}, v.things, v.picture, v.facts.Content())
	v.content = container.NewBorder(top, nil, nil, nil, container.New(&columns{}, left, right))
}

// takeBack asks about the fact in hand.
func (v *View) takeBack() {
	if r, ok := v.facts.InHand(); ok && r.MayGo() {
		v.show(v.model.TakeBackForm(r))
	}
}

// Print asks which paper for this person.
func (v *View) Print() { v.show(v.model.PaperForm()) }

func (v *View) show(form ask.Form) {
	if win := widgets.WindowOf(v.content); win != nil {
		asker.Show(win, form, v.work.Now().Location())
	}
}

func (v *View) draw() {
	p := v.model.Page
	v.name.SetText(p.Name)
	v.details.SetDetails(detailLines(p.Details))
	v.answer.Hidden, v.urgent.Hidden = !p.Watched, !p.Watched
	v.answer.SetData(answercard.Of(p.Answer))
	v.picture.Hidden = !p.Watched && len(p.Chart.Readings) == 0
	v.chart.Refresh()
	v.table.SetRows(gasRows(p.Chart))
	v.things.SetRows(thingRows(p.Things))
	v.facts.SetRows(p.Facts)
	v.content.Refresh()
}

func detailLines(details []Detail) []widgets.Detail {
	lines := make([]widgets.Detail, len(details))
	for i, d := range details {
		lines[i] = widgets.Detail{Label: d.Label, Text: d.Text}
		if d.Alarm {
			lines[i].Ink, lines[i].Bold = scene.Alarm, true
		}
	}
	return lines
}

func thingRows(things []Thing) []widgets.Row {
	rows := make([]widgets.Row, len(things))
	for i, t := range things {
		label := widgets.Cell{Text: t.Label, Bold: !t.Theirs}
		stands := widgets.Cell{Text: t.Stands}
		if t.Theirs {
			label.Ink, stands.Ink, stands.Bold = scene.Faint, scene.Caution, true
		}
		rows[i] = widgets.Row{ID: string(t.ID), Find: t.Label, Cells: []widgets.Cell{
			label, {Text: t.What}, stands, {Text: t.Read},
		}}
	}
	return rows
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.facts.Rows.Keyboard() }

// Reread reads the screen anew, as it stands; the row in hand stays.
func (v *View) Reread() { v.model.Load() }

// Open shows the person of a target.
func (v *View) Open(t work.Target) { v.model.Open(t.Person) }

// Key does what the function keys do here.
func (v *View) Key(key fyne.KeyName) {
	switch {
	case key == fyne.KeyF7 && v.model.Page.Watched:
		v.model.Night()
	case key == fyne.KeyF8 && v.model.Page.Watched:
		v.model.Alarm()
	}
}
