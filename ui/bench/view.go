package bench

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/ask"
	"lungwort/ui/asker"
	"lungwort/ui/tend"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the bench. Enter, or the item's own scan, does the next step.
type View struct {
	work    *work.Work
	model   *Model
	title   *widget.Label
	sign    *widgets.Picture
	actions *widgets.Actions
	rows    *widgets.Rows
	content fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{work: w, model: NewModel(w), title: widget.NewLabel("")}
	v.model.Changed = v.draw
	v.sign = widgets.NewPicture(fyne.NewSize(300, scene.SignHeight), func(w, h float64) scene.Scene { return v.model.Sign.Draw(w, h) })
	form := func(make func(tend.Tender) ask.Form) func() {
		return func() {
			if t, ok := v.inHand(inventory.Keyed); ok {
				v.show(make(t))
			}
		}
	}
	v.actions = widgets.NewActions(
		widgets.Action{Key: '1', Label: "Next step (Enter)", Do: func() { v.step(inventory.Keyed) }},
		widgets.Action{Key: '2', Label: "Test", Do: form(tend.Tender.Test)},
		widgets.Action{Key: '3', Label: "Refill", Do: form(tend.Tender.Refill)},
		widgets.Action{Key: '4', Label: "Release", Do: form(tend.Tender.Release)},
		widgets.Action{Key: '5', Label: "Keep back", Do: form(tend.Tender.Quarantine)},
		widgets.Action{Key: '6', Label: "Open", Do: func() { v.model.Open(inventory.ItemID(v.rows.InHand())) }},
		widgets.Action{Key: '7', Label: "Owner told", Do: form(tend.Tender.TellOwner)},
		widgets.Action{Key: '8', Label: "To repair", Do: form(tend.Tender.Repair)},
	)
	v.rows = widgets.NewRows([]widgets.Column{
		{Title: "item", Width: 130},
		{Title: "what", Width: 190},
		{Title: "state", Width: 130},
		{Title: "waits", Width: 150},
		{Title: "last read", Width: 120},
		{Title: "why"},
		{Title: "next step", Width: 190},
	}, "Nothing waits here. Scan what comes back on the Return screen; it shows up here to be cleaned, tested and released.")
	v.rows.OnOpen = func(string) { v.step(inventory.Keyed) }
	v.rows.OnRune = v.actions.Press
	heading := widget.NewLabelWithStyle("Bench", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = "subHeadingText"
	v.title.Truncation = fyne.TextTruncateEllipsis
	top := container.NewVBox(container.NewBorder(nil, nil, heading, v.actions), v.title)
	foot := widget.NewLabel("Scan an item to do its next step: dirty goes on the bench, a machine is tested, a cylinder filled, what is done is released.")
	v.content = container.NewBorder(container.NewVBox(top, v.sign), widgets.NewFoot(foot), nil, nil, v.rows)
	return v
}

func (v *View) inHand(source inventory.Source) (tend.Tender, bool) {
	return v.model.Tender(inventory.ItemID(v.rows.InHand()), source)
}

// step does the next step of the item in hand. What only people can settle
// opens the item.
func (v *View) step(source inventory.Source) {
	t, ok := v.inHand(source)
	if !ok {
		return
	}
	switch tend.Next(t.Item) {
	case tend.KeepIt, tend.GiveBack, tend.FindOut:
		v.model.Open(t.Item.ID)
		return
	case tend.SendIt:
		v.show(t.TellOwner())
		return
	}
	if form, asks := t.Take(); asks {
		v.show(form)
	}
}

func (v *View) show(form ask.Form) {
	if win := widgets.WindowOf(v.content); win != nil {
		asker.Show(win, form, v.work.Now().Location())
	}
}

// Scan does the next step of a waiting item; anything else is not the bench's.
func (v *View) Scan(text string) bool {
	id, waits := v.model.Find(text)
	if waits && v.rows.Take(string(id)) {
		v.model.tell(id)
		v.step(inventory.Scanned)
	}
	return waits
}

func (v *View) draw() {
	v.title.SetText(v.model.Title)
	v.sign.Refresh()
	rows := make([]widgets.Row, len(v.model.Rows))
	for i, r := range v.model.Rows {
		why := widgets.Cell{Text: r.Why}
		if r.Alarm {
			why.Ink, why.Bold = scene.Alarm, true
		}
		rows[i] = widgets.Row{ID: string(r.ID), Find: r.Label + " " + r.Tag, Cells: []widgets.Cell{
			{Text: r.Label, Below: r.Tag, Bold: true},
			{Text: r.What, Below: r.Place},
			{Text: r.State},
			{Text: r.Waits, Below: "since " + r.Since},
			{Text: r.Read},
			why,
			{Text: string(r.Next), Below: tonight(r), Bold: true},
		}}
	}
	v.rows.SetRows(rows)
}

func tonight(r Row) string {
	if r.Tonight {
		return "a discharge waits for it"
	}
	return ""
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.rows.Keyboard() }

// Reread reads the screen anew, as it stands; the row in hand stays.
func (v *View) Reread() { v.model.Load() }

// Open shows what waits now.
func (v *View) Open(work.Target) { v.model.Load() }
