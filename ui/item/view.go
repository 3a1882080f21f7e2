package item

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/ask"
	"lungwort/ui/asker"
	"lungwort/ui/history"
	"lungwort/ui/tend"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the page of one item: its life over the whole width, below it what
// is known and every fact.
type View struct {
	work    *work.Work
	model   *Model
	name    *widget.Label
	stands  *widget.Label
	actions *widgets.Actions
	life    *widgets.Chart
	details *widgets.Details
	facts   *history.View
	content fyne.CanvasObject
}

// New returns the page.
func New(w *work.Work) *View {
	v := &View{
		work: w, model: NewModel(w),
		name:    widget.NewLabelWithStyle("", fyne.TextAlignLeading, fyne.TextStyle{Bold: true}),
		stands:  widget.NewLabel(""),
		actions: widgets.NewActions(),
		details: widgets.NewDetails(),
		facts:   history.NewView(),
	}
	v.model.Changed = v.draw
	v.name.SizeName = "headingText"
	v.life = widgets.NewChart(fyne.NewSize(300, 132), func(w, h float64) scene.Scene { return scene.LifeLine(v.model.Page.Life, w, h) })
	v.life.OnSpot = func(key string) { v.facts.Rows.Take(key) }
	v.life.OnHand = v.life.OnSpot
	v.facts.Rows.OnRune = v.actions.Press
	v.facts.Rows.OnOpen = func(string) { v.takeBack() }
	name := container.NewHBox(v.name, container.NewCenter(v.stands))
	top := container.NewVBox(container.NewBorder(nil, nil, name, v.actions), widgets.NewPanel(v.life))
	left := container.NewVScroll(container.NewPadded(v.details))
	left.SetMinSize(fyne.NewSize(380, 200))
	v.content = container.NewBorder(top, nil, left, nil, v.facts.Content())
	return v
}

// bar returns what can be done with the item as it stands.
func (v *View) bar() []widgets.Action {
	p, t := v.model.Page, v.model.Tender()
	form := func(make func(tend.Tender) ask.Form) func() {
		return func() { v.show(make(v.model.Tender())) }
	}
	onBench := p.State == string(inventory.OnBench) || p.State == string(inventory.Dirty) || p.State == string(inventory.InQuarantine)
	all := []widgets.Action{
		{Key: '1', Label: "Reading", Do: form(tend.Tender.Read)},
		{Key: '2', Label: "Move", Do: form(tend.Tender.Move)},
		{Key: '3', Label: "Keep back", Do: form(tend.Tender.Quarantine)},
		{Key: '4', Label: "Bench", Off: p.Next != tend.PutOnBench, Do: func() { t.Do(delivery.Bench{Item: t.Item.ID}) }},
		{Key: '5', Label: "Test", Off: !onBench, Do: form(tend.Tender.Test)},
		{Key: '6', Label: "Refill", Off: !p.Kind.HoldsGas() || p.Lent, Do: form(tend.Tender.Refill)},
		{Key: '7', Label: "Release", Off: p.Lent, Do: form(tend.Tender.Release)},
		{Key: '8', Label: "Missing", Danger: true, Do: form(tend.Tender.Missing)},
		{Key: '=', Label: "Plate", Off: p.Kind == "" || p.Theirs, Do: form(tend.Tender.Plate)},
		{Key: '-', Label: "Repair", Off: p.Lent, Do: form(tend.Tender.Repair)},
		{Key: '+', Label: "Incident", Danger: true, Do: form(tend.Tender.Incident)},
		{Key: '9', Label: "Take back", Do: v.takeBack},
		{Key: '0', Label: "Person", Off: p.Person == "", Do: v.model.OpenPerson},
	}
	return slices.DeleteFunc(all, func(a widgets.Action) bool { return a.Off }) // all of them are wider than the window
}

// Print asks which paper about the item to print.
func (v *View) Print() { v.show(v.model.Tender().Paper()) }

// takeBack asks about the fact in hand.
func (v *View) takeBack() {
	if r, ok := v.facts.InHand(); ok && r.MayGo() {
		v.show(v.model.TakeBackForm(r))
	}
}

func (v *View) show(form ask.Form) {
	if win := widgets.WindowOf(v.content); win != nil {
		asker.Show(win, form, v.work.Now().Location())
	}
}

func (v *View) draw() {
	p := v.model.Page
	v.name.SetText(p.Label)
	v.stands.SetText(p.Tag + " · " + p.State)
	v.actions.SetActions(v.bar()...)
	lines := make([]widgets.Detail, len(p.Details))
	for i, d := range p.Details {
		lines[i] = widgets.Detail{Label: d.Label, Text: d.Text}
		if d.Alarm {
			lines[i].Ink, lines[i].Bold = scene.Alarm, true
		}
	}
	v.details.SetDetails(lines)
	v.life.Refresh()
	v.facts.SetRows(p.Facts)
	v.content.Refresh()
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.facts.Rows.Keyboard() }

// Reread reads the screen anew, as it stands; the row in hand stays.
func (v *View) Reread() { v.model.Load() }

// Open shows the item of a target.
func (v *View) Open(t work.Target) { v.model.Open(t.Item) }
