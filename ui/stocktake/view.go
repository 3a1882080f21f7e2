package stocktake

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/asker"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen of a count: what was counted before at the left, the
// count or its differences beside.
type View struct {
	work    *work.Work
	model   *Model
	sign    *widgets.Picture
	place   *widgets.Choice
	zone    *widgets.Choice
	actions *widgets.Actions
	head    *widget.Label
	counts  *widgets.Rows
	rows    *widgets.Rows
	differ  *widgets.Rows
	drawing bool
	kept    string // of what was scanned
	content fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{work: w, model: NewModel(w), place: widgets.NewChoice(), zone: widgets.NewChoice(), actions: widgets.NewActions(), head: heading("")}
	v.model.Changed = v.draw
	v.sign = widgets.NewPicture(fyne.NewSize(300, scene.SignHeight), func(w, h float64) scene.Scene { return v.model.Sign.Draw(w, h) })
	v.place.OnChanged = func(place string) {
		if !v.drawing {
			v.model.Count(inventory.Place(place), "")
			w.Field()
		}
	}
	v.zone.OnChanged = func(zone string) {
		if !v.drawing {
			v.model.Count(v.model.Place, inventory.Zone(zone))
			w.Field()
		}
	}
	v.counts = widgets.NewRows([]widgets.Column{{Title: "counted"}}, "No place was counted yet.")
	v.counts.OnOpen = v.model.Open
	v.rows = widgets.NewLowRows([]widgets.Column{{Title: "scanned", Width: 190}, {Title: "what"}},
		"Choose the place, then scan everything that stands there. The count is blind: nothing shows what should be there.")
	v.rows.OnOpen = func(id string) { v.model.OpenItem(inventory.ItemID(id)) }
	v.differ = widgets.NewRows([]widgets.Column{{Title: "item", Width: 150}, {Title: "difference, and its next step"}, {Title: "", Width: 110}}, "It fits: nothing differs.")
	v.differ.OnOpen = v.openDifference
	for _, r := range []*widgets.Rows{v.counts, v.rows, v.differ} {
		r.OnRune, r.OnDone = v.actions.Press, v.finish
	}
	top := container.NewVBox(container.NewBorder(nil, nil, heading("Stocktake"), v.actions), container.NewHScroll(v.place), container.NewHBox(v.zone))
	right := container.NewBorder(v.head, nil, nil, nil, container.NewStack(v.rows, v.differ))
	v.content = container.NewBorder(container.NewVBox(top, v.sign), nil, nil, nil, widgets.NewBeside(container.NewPadded(v.counts), 230, right))
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
	shown := v.model.Shown != ""
	v.actions.SetActions(
		widgets.Action{Key: '1', Label: "Finish", Off: shown || v.model.Place == "", Do: v.finish},
		widgets.Action{Key: '2', Label: "Take off", Danger: true, Off: shown || len(v.model.Rows) == 0, Do: func() { v.model.TakeOff(v.rows.InHand()) }},
		widgets.Action{Key: '3', Label: "Next step", Off: !shown || len(v.model.Differences) == 0, Do: func() { v.model.Settle(v.differ.InHand()) }},
		widgets.Action{Key: '4', Label: "Count again", Off: !shown, Do: v.again},
	)
}

func (v *View) finish() {
	win := widgets.WindowOf(v.content)
	if win == nil || v.model.Shown != "" || v.model.Place == "" {
		return
	}
	asker.Show(win, v.model.FinishForm(), v.work.Now().Location())
}

// again counts the place of the shown count once more.
func (v *View) again() {
	if count, shown := v.model.count(); shown {
		v.model.Count(count.taken.Place, count.taken.Zone)
		v.work.Field()
	}
}

func (v *View) openDifference(key string) {
	for _, d := range v.model.Differences {
		if differenceKey(d) == key {
			v.model.OpenItem(d.Item)
		}
	}
}

func (v *View) draw() {
	v.drawing = true
	defer func() { v.drawing = false }()
	m := v.model
	places := make([]widgets.Option, len(m.Places))
	for i, p := range m.Places {
		places[i] = widgets.Option{Value: string(p), Label: p.InWords()}
	}
	v.place.SetOptions(places...)
	v.place.SetValue(string(m.Place))
	v.drawZones()
	counts := make([]widgets.Row, len(m.Counts))
	for i, c := range m.Counts {
		counts[i] = widgets.Row{ID: c.Key, Find: c.Title, Cells: []widgets.Cell{{Text: c.Title, Below: c.Below, Bold: c.Key == m.Shown}}}
	}
	v.counts.SetRows(counts)
	rows := make([]widgets.Row, len(m.Rows))
	for i, r := range m.Rows { // the last scan stands on top
		cells := []widgets.Cell{{Text: r.Label, Bold: true}, {Text: r.What}}
		if r.ID == "" {
			cells[1].Ink = scene.Caution
		}
		rows[len(rows)-1-i] = widgets.Row{ID: r.Key, Find: r.Label, Cells: cells}
	}
	scanned := len(rows) > v.rows.Len()
	v.rows.SetRows(rows)
	if scanned {
		v.rows.Take(rows[0].ID)
	}
	v.drawDifferences()
	v.rows.Hidden, v.differ.Hidden = m.Shown != "", m.Shown == ""
	v.bar()
	v.keep()
	v.sign.Refresh()
	v.content.Refresh()
}

func (v *View) drawZones() {
	zones := []widgets.Option{{Value: "", Label: "all of it"}}
	for _, z := range v.model.Zones() {
		zones = append(zones, widgets.Option{Value: string(z), Label: string(z)})
	}
	v.zone.SetOptions(zones...)
	v.zone.SetValue(string(v.model.Zone))
	v.zone.Hidden = len(zones) == 1
}

func (v *View) drawDifferences() {
	m := v.model
	v.head.SetText(fmt.Sprintf("Scanned  %d", len(m.Rows)))
	if c, shown := m.count(); shown {
		v.head.SetText(fmt.Sprintf("%s  %d seen, the book had %d. %s settles %d.", upper(c.Title), c.taken.Seen, c.taken.Expected, c.taken.Owner, len(c.taken.Different)))
	}
	rows := make([]widgets.Row, len(m.Differences))
	for i, d := range m.Differences {
		cells := []widgets.Cell{{Text: d.Serial, Bold: true}, {Text: upper(d.Says), Below: d.Next}, {Text: "open", Bold: true, Ink: scene.Alarm}}
		if d.Serial == "" {
			cells[0].Text = d.Thing.Label()
		}
		if d.Settled {
			cells[1].Below, cells[2] = "In the book now.", widgets.Cell{Text: "settled"}
		}
		rows[i] = widgets.Row{ID: differenceKey(d), Find: d.Serial, Cells: cells}
	}
	v.differ.SetRows(rows)
}

func upper(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable {
	switch {
	case v.model.Shown != "":
		return v.differ.Keyboard()
	case len(v.model.Rows) > 0:
		return v.rows.Keyboard()
	}
	return v.counts.Keyboard()
}

// Open shows the count as far as it was scanned. The keyboard goes to the field on
// top: the next thing is a scan.
func (v *View) Open(work.Target) {
	v.model.Load()
	v.work.Field()
}

// Scan counts the next thing.
func (v *View) Scan(text string) bool { return v.model.Scan(text) }
