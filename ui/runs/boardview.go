package runs

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/ask"
	"lungwort/ui/asker"
	"lungwort/ui/widgets"
)

// highest is how much of the screen the timelines take at most, in points.
const highest = 236

// timelines makes the board and what stands under it.
func (v *View) timelines() {
	v.board = widgets.NewTimelines(0, func(w, h float64) scene.Scene { return scene.Rounds(v.model.Timelines(), w, h) })
	v.board.OnKey, v.board.OnTake, v.board.OnDrag, v.board.OnDrop = v.key, v.model.HandStop, v.model.DragTo, v.model.Drop
	v.board.OnDone = v.model.Go
	v.board.OnRune = v.letter
	v.chart = widgets.NewMap(func(sight scene.Sight, w, h float64) scene.Scene { return scene.Map(v.model.Chart(sight), w, h) })
	v.chart.Whole, v.chart.OnHand, v.chart.OnRune, v.chart.OnDone = v.model.ChartWhole, v.model.HandStop, v.letter, v.model.Go
	v.chart.Hide()
	v.loads = widgets.NewPicture(fyne.NewSize(300, float32(scene.LoadsLeast(4))), func(w, h float64) scene.Scene { return scene.Loads(v.model.Loads(), w, h) })
	v.papers = widget.NewLabel("")
	v.papers.Wrapping = fyne.TextWrapWord
	v.load = container.NewBorder(nil, container.NewVBox(v.papers), nil, nil, v.loads)
	v.load.Hide()
	v.inHand = widget.NewLabel("")
	v.inHand.Truncation, v.inHand.SizeName = fyne.TextTruncateEllipsis, theme.SizeNameCaptionText
	v.costs = widget.NewLabel("")
	v.costs.Wrapping = fyne.TextWrapWord
	v.cost = container.NewVScroll(v.costs)
}

// What may stand where the list stands.
const (
	aMap  = "map"
	aLoad = "load"
)

// letter locks the stop in hand, or shows the map or the load of its round
// instead of the list.
func (v *View) letter(r rune) {
	switch r {
	case 'l', 'L':
		v.model.Lock()
	case 'm', 'M':
		v.toggle(aMap)
	case 'o', 'O':
		v.toggle(aLoad)
	}
}

func (v *View) toggle(what string) {
	if v.shows == what {
		what = ""
	}
	v.shows = what
	v.chart.SetSight(scene.Sight{})
	v.drawBoard()
	v.content.Refresh()
	if w := widgets.WindowOf(v.content); w != nil && v.shows != aMap && w.Canvas().Focused() == v.chart {
		w.Canvas().Focus(v.board)
	}
}

// key moves along the board, picks up, puts down and puts back.
func (v *View) key(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyLeft:
		v.model.Step(-1, 0)
	case fyne.KeyRight:
		v.model.Step(1, 0)
	case fyne.KeyUp:
		v.model.Step(0, -1)
	case fyne.KeyDown:
		v.model.Step(0, 1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		v.model.PickUp()
	case fyne.KeyEscape:
		v.model.PutBack()
	default:
		return false
	}
	return true
}

func (v *View) drawBoard() {
	m := v.model
	lanes := len(m.Timelines().Lanes)
	v.board.SetHigh(float32(min(scene.RoundsHeight(lanes), max(highest, scene.RoundsLeast(lanes)))))
	v.board.Hidden, v.inHand.Hidden = lanes == 0, lanes == 0
	v.board.Refresh()
	words := m.HandWords()
	if !m.Carrying() && !m.Trying() {
		words += "   (arrows choose, Enter picks up and drops, L locks, M map, O load)"
	}
	v.inHand.SetText(words)
	costs := m.Costs()
	v.runs.Hidden = len(costs) > 0 || v.shows != ""
	v.chart.Hidden = v.shows != aMap || len(costs) > 0
	v.load.Hidden = v.shows != aLoad || len(costs) > 0
	v.chart.Refresh()
	v.loads.Refresh()
	v.papers.SetText(strings.Join(m.Papers(), "\n"))
	v.toMap.SetText("Map")
	v.toLoad.SetText("Load")
	switch v.shows {
	case aMap:
		v.toMap.SetText("List")
	case aLoad:
		v.toLoad.SetText("List")
	}
	if len(costs) > 0 {
		v.cost.Show()
	} else {
		v.cost.Hide()
	}
	v.costs.SetText(strings.Join(costs, "\n"))
}

func (v *View) withdraw() { v.ask(v.model.WithdrawForm()) }

func (v *View) ask(form ask.Form) {
	if w := widgets.WindowOf(v.content); w != nil {
		asker.Show(w, form, v.model.work.Now().Location())
	}
}

// Model returns what the screen shows.
func (v *View) Model() *Model { return v.model }

// Board returns the timelines, for the keyboard.
func (v *View) Board() *widgets.Timelines { return v.board }

// Map returns the map of the round.
func (v *View) Map() *widgets.Map { return v.chart }
