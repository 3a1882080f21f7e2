package outage

import (
	"strconv"
	"strings"
	"time"

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

// View is the screen: on the left where power is out or could be, on the right
// the homes as bars of cover, with the calls.
type View struct {
	work    *work.Work
	model   *Model
	title   *widget.Label
	verdict *widget.Label
	steps   *widget.Label
	places  *widgets.Rows
	homes   *widgets.Rows
	hours   *widgets.Choice
	order   *widgets.Choice
	actions *widgets.Actions
	content fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{work: w, model: NewModel(w), title: widget.NewLabel(""), steps: widget.NewLabel("")}
	v.model.Changed = v.draw
	v.verdict = widget.NewLabelWithStyle("", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	v.verdict.Truncation, v.steps.Wrapping = fyne.TextTruncateEllipsis, fyne.TextWrapWord
	v.actions = widgets.NewActions(
		widgets.Action{Key: '1', Label: "Call next", Do: v.callNext},
		widgets.Action{Key: '2', Label: "Record power cut", Do: func() { v.show(v.model.RecordForm()) }},
		widgets.Action{Key: '3', Label: "Power is back", Do: func() { v.maybe(v.model.BackForm()) }},
		widgets.Action{Key: '4', Label: "Call this home", Do: v.callThis},
		widgets.Action{Key: '5', Label: "Goes where power is", Do: func() { v.maybe(v.model.ShelterForm(inventory.PersonID(v.homes.InHand()))) }},
		widgets.Action{Key: '6', Label: "Look in", Do: func() { v.maybe(v.model.LookInForm(inventory.PersonID(v.homes.InHand()))) }},
	)
	v.lists()
	v.choices()
	v.layout()
	return v
}

func (v *View) lists() {
	v.places = widgets.NewRows([]widgets.Column{{Title: "power out"}, {Title: "homes", Width: 50, Right: true}},
		"No home is on oxygen yet.")
	v.places.OnHand = v.model.Choose
	axis := func(w, h float64) scene.Scene { return scene.Axis(v.model.Plan.At, v.horizon(), w, h) }
	v.homes = widgets.NewRows([]widgets.Column{
		{Title: "verdict", Kind: widgets.VerdictColumn, Width: 88},
		{Title: "home", Width: 212},
		{Title: "cover", Width: 84},
		{Head: axis, Kind: widgets.PictureColumn},
		{Title: "call", Width: 88},
		{Title: "next", Width: 210},
	}, "No home on oxygen lies here.")
	v.homes.OnOpen = func(id string) { v.model.Open(inventory.PersonID(id)) }
	for _, list := range []*widgets.Rows{v.places, v.homes} {
		list.OnRune = v.actions.Press
		list.OnDone = v.callNext
	}
}

// horizon is how far the bars look ahead: to the end of the cut.
func (v *View) horizon() time.Duration {
	o := v.model.Plan
	return o.Begins().Sub(o.At) + o.Hours
}

func (v *View) choices() {
	options := make([]widgets.Option, len(Lengths))
	for i, h := range Lengths {
		n := strconv.Itoa(int(h.Hours()))
		options[i] = widgets.Option{Value: n, Label: n + " h"}
	}
	v.hours = widgets.NewChoice(options...)
	v.hours.SetValue(strconv.Itoa(int(v.model.Hours.Hours())))
	v.hours.OnChanged = func(value string) {
		if h, err := strconv.Atoi(value); err == nil {
			v.model.SetHours(time.Duration(h) * time.Hour)
		}
	}
	v.order = widgets.NewChoice(widgets.Option{Value: string(ByCover), Label: "by cover"}, widgets.Option{Value: string(ByCall), Label: "by call"},
		widgets.Option{Value: string(NoAnswer), Label: "no answer"})
	v.order.SetValue(string(ByCover))
	v.order.OnChanged = func(value string) { v.model.SetList(List(value)) }
}

func (v *View) layout() {
	heading := widget.NewLabelWithStyle("Outage", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = theme.SizeNameSubHeadingText
	v.title.Truncation = fyne.TextTruncateEllipsis
	print := widgets.NewButton("Print list   Ctrl+P", v.Print)
	top := container.NewVBox(
		container.NewBorder(nil, nil, heading, container.NewHBox(v.order, v.hours, print), v.title),
		v.verdict, v.steps,
		container.NewHBox(v.actions))
	key := widgets.NewPicture(fyne.NewSize(0, 18), scene.RibbonKey)
	right := container.NewBorder(top, key, nil, nil, v.homes)
	v.content = widgets.NewBeside(v.places, 232, right)
}

func (v *View) draw() {
	m := v.model
	v.title.SetText(m.Title())
	v.hours.Hidden = !m.Plan.Cut.Until.IsZero() // it is known then
	v.verdict.SetText(string(m.Answer.Verdict) + ": " + m.Answer.Title)
	v.steps.SetText(strings.Join(append(append([]string{}, m.Answer.Do...), m.Answer.Help), "  ·  "))
	v.places.OnHand = nil // what is drawn is nobody's choice
	v.places.SetRows(placeRows(m.Places))
	v.places.Take(m.Here())
	v.places.OnHand = m.Choose
	rows := make([]widgets.Row, len(m.Rows))
	for i, r := range m.Rows {
		rows[i] = homeRow(r)
	}
	v.homes.SetRows(rows)
	v.content.Refresh()
}

func placeRows(places []Place) []widgets.Row {
	rows := make([]widgets.Row, len(places))
	for i, p := range places {
		name := widgets.Cell{Text: p.Name, Below: p.Detail, Bold: p.Cut.ID != 0}
		if p.Out && p.Cut.ID != 0 {
			name.Ink = scene.Alarm
		}
		rows[i] = widgets.Row{ID: p.ID, Find: p.Name, Cells: []widgets.Cell{name, {Text: p.Count}}}
	}
	return rows
}

func homeRow(r Row) widgets.Row {
	next := widgets.Cell{Text: r.Next, Bold: r.Urgent}
	if r.Urgent {
		next.Ink = scene.VerdictInk(r.Verdict)
	}
	return widgets.Row{ID: string(r.ID), Find: r.Name, Cells: []widgets.Cell{
		{Text: r.Verdict},
		{Text: r.Name, Below: r.Detail, Bold: true},
		{Text: r.Cover, Below: until(r.Ends), Bold: true},
		{Draw: func(w, h float64) scene.Scene { return scene.Ribbon(r.Ribbon, w, h) }},
		{Text: r.Call, Below: r.Found},
		next,
	}}
}

func until(ends string) string {
	if ends == "" {
		return ""
	}
	return "until " + ends
}

// callNext asks about the home whose call is due, in the order of the calls.
func (v *View) callNext() {
	id, due := v.model.NextCall()
	if !due {
		v.work.Say("No call is due. Choose a home and press 4 to call it before its time.")
		return
	}
	v.homes.Take(string(id))
	v.maybe(v.model.CallForm(id))
}

func (v *View) callThis() { v.maybe(v.model.CallForm(inventory.PersonID(v.homes.InHand()))) }

func (v *View) maybe(form ask.Form, err error) {
	if err != nil {
		v.work.Refuse(err)
		return
	}
	v.show(form)
}

func (v *View) show(form ask.Form) {
	if win := widgets.WindowOf(v.content); win != nil {
		asker.Show(win, form, v.work.Now().Location())
	}
}

// Print prints the list with lines to write on.
func (v *View) Print() { v.model.Print() }

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.homes.Keyboard() }

// Open shows the power cuts as they stand now.
func (v *View) Open(t work.Target) { v.model.OpenArea(t.Homes) }

// Model returns what the screen shows.
func (v *View) Model() *Model { return v.model }
