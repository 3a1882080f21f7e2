package atlas

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/asker"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the map screen: the map, and beside it the home in hand and the
// homes without a place.
type View struct {
	model   *Model
	title   *widget.Label
	chosen  *widget.Label
	chart   *widgets.Map
	hand    *widgets.Details
	lost    *widgets.Rows
	losts   *widget.Label
	actions *widgets.Actions
	content fyne.CanvasObject
	// pickFile lets the person choose a file in a dialog.
	pickFile func(fyne.Window, func(path string))
}

// New returns the map screen.
func New(w *work.Work) *View {
	v := &View{model: NewModel(w), title: widget.NewLabel(""), chosen: widget.NewLabel(""), losts: heading("Without a place"), pickFile: pickFile}
	v.model.Changed = v.draw
	v.chosen.Wrapping = fyne.TextWrapWord
	v.hand = widgets.NewDetails()
	v.actions = widgets.NewActions(v.deeds()...)
	v.drawn()
	v.lost = widgets.NewRows([]widgets.Column{{Title: "home"}}, "Every home has its place.")
	v.lost.OnHand = func(id string) {
		if id != "" { // the list emptied: what was in hand is on the map now
			v.model.InHand = inventory.PersonID(id)
			v.drawHand()
		}
	}
	v.lost.OnOpen = func(id string) { v.model.Open(inventory.PersonID(id)) }
	v.lost.OnRune = v.actions.Press
	v.layout()
	return v
}

func (v *View) deeds() []widgets.Action {
	return []widgets.Action{
		{Key: '1', Label: "Open", Do: func() { v.model.Open(v.model.InHand) }},
		{Key: '2', Label: "Take in a file", Do: v.askFile},
		{Key: '3', Label: "Set place", Do: v.askPlace},
		{Key: '4', Label: "Power out", Do: func() { v.model.TakeTo(work.Outage) }},
		{Key: '5', Label: "Recall", Do: func() { v.model.TakeTo(work.Recall) }},
		{Key: '6', Label: "Runs", Do: func() { v.model.TakeTo(work.Runs) }},
		{Key: '7', Label: "Look up", Do: v.model.LookUp},
	}
}

func (v *View) drawn() {
	v.chart = widgets.NewMap(func(sight scene.Sight, w, h float64) scene.Scene { return scene.Map(v.model.Data(sight), w, h) })
	v.chart.Whole = v.model.Whole
	v.chart.OnHand = func(key string) { v.model.Take(inventory.PersonID(key)) }
	v.chart.OnSpot = func(key string) { v.model.Open(inventory.PersonID(key)) }
	v.chart.OnArea = v.model.Draw
	v.chart.OnPlace = v.model.PinAt
	v.chart.OnRune = v.letter
	v.chart.OnKey = v.key
	v.model.Followed = v.chart.Bring
}

// letter does an action, or puts the pin into the middle.
func (v *View) letter(r rune) {
	if r == 'p' || r == 'P' {
		v.model.PinAt(v.chart.Sight().Mid)
		return
	}
	v.actions.Press(r)
}

func (v *View) askPlace() {
	form, err := v.model.PlaceForm()
	if err != nil {
		v.model.work.Refuse(err)
		return
	}
	if win := widgets.WindowOf(v.content); win != nil {
		asker.Show(win, form, v.model.work.Now().Location())
	}
}

func (v *View) key(key fyne.KeyName) bool {
	if key != fyne.KeyEscape || len(v.model.Area) == 0 && v.model.Pin == nil {
		return false
	}
	v.model.Clear()
	return true
}

func heading(text string) *widget.Label {
	h := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	h.SizeName = theme.SizeNameSubHeadingText
	return h
}

func (v *View) layout() {
	print := widgets.NewButton("Print map   Ctrl+P", v.Print)
	top := container.NewBorder(nil, nil, container.NewHBox(heading("Map"), v.title), container.NewHBox(v.actions, print))
	key := widgets.NewPicture(fyne.NewSize(0, 18), scene.MapKey)
	help := widget.NewLabel("Arrows go from home to home, + and − zoom, Home shows all; pull pushes, the wheel zooms, Enter opens, P or a click puts the pin.")
	help.Wrapping, help.SizeName = fyne.TextWrapWord, theme.SizeNameCaptionText
	v.chosen.SizeName = theme.SizeNameCaptionText
	side := container.NewBorder(
		container.NewVBox(heading("In hand"), container.New(layout.NewCustomPaddedLayout(0, 6, 8, 4), v.hand), v.chosen, help, v.losts), nil, nil, nil, v.lost)
	v.content = container.NewBorder(top, key, nil, nil, widgets.NewBeside(side, 290, v.chart))
}

func (v *View) draw() {
	v.title.SetText(v.model.Title())
	v.chosen.SetText(v.model.ChosenTitle())
	rows := make([]widgets.Row, len(v.model.Lost))
	for i, h := range v.model.Lost {
		street := h.Address.Where()
		if street == "" {
			street = "no address yet"
		}
		rows[i] = widgets.Row{ID: string(h.ID), Find: h.Name, Cells: []widgets.Cell{{Text: h.Name, Below: street, Bold: true}}}
	}
	v.lost.SetRows(rows)
	v.lost.Hidden, v.losts.Hidden = len(rows) == 0, len(rows) == 0
	v.chart.Take(string(v.model.InHand))
	v.drawHand()
	v.content.Refresh()
}

// drawHand tells of the home in hand what its row on the first screen tells.
func (v *View) drawHand() {
	h, found := v.model.Hand()
	if !found {
		v.hand.SetDetails([]widgets.Detail{{Label: "home", Text: "none yet: click one, or press an arrow"}})
		return
	}
	ink := scene.Ink("")
	if h.Verdict != "" {
		ink = scene.VerdictInk(h.Verdict)
	}
	v.hand.SetDetails([]widgets.Detail{
		{Label: "home", Text: h.Name, Bold: true},
		{Label: "street", Text: h.Address.Where()},
		{Label: "verdict", Text: h.Verdict, Ink: ink, Bold: true},
		{Label: "stands", Text: h.State},
		{Label: "run", Text: h.Run},
		{Label: "next", Text: h.Next, Bold: h.Urgent},
		{Label: "place", Text: h.place()},
	})
}

// Print prints the map as it is seen.
func (v *View) Print() {
	size := v.chart.Size()
	v.model.Print(v.chart.Sight(), float64(size.Width), float64(size.Height))
}

// Model returns what the screen shows.
func (v *View) Model() *Model { return v.model }

// Map returns the map, for the keyboard.
func (v *View) Map() *widgets.Map { return v.chart }

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.chart }

// Reread reads the screen anew, as it stands; the row in hand stays.
func (v *View) Reread() { v.model.Load() }

// Open shows the map as it stands now, with the person of the target in hand.
func (v *View) Open(t work.Target) {
	if t.Person != "" {
		v.model.InHand = t.Person
	}
	v.model.Load()
}
