package runs

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the runs screen.
type View struct {
	model    *Model
	waits    *widget.Label
	all      *widgets.Button
	waiting  *widgets.Rows
	runs     *widgets.Rows
	troubles *widgets.Rows
	progress *widgets.Progress
	plan     *widgets.Button
	discard  *widgets.Button
	print    *widgets.Button
	anew     *widgets.Button
	fallen   *widgets.Button
	board    *widgets.Timelines
	inHand   *widget.Label
	chart    *widgets.Map
	load     *fyne.Container
	loads    *widgets.Picture
	papers   *widget.Label
	shows    string // what stands where the list stood: the map, the load; empty: the list
	toMap    *widgets.Button
	toLoad   *widgets.Button
	costs    *widget.Label
	cost     *container.Scroll
	below    fyne.CanvasObject
	content  fyne.CanvasObject
}

// New returns the runs screen.
func New(w *work.Work) *View {
	v := &View{model: NewModel(w), waits: widget.NewLabel(""), progress: widgets.NewProgress()}
	v.model.Changed = v.draw
	v.model.Focus, v.model.Board = v.take, v.takeBoard
	v.model.Ask = v.ask
	v.lists()
	v.plan = widgets.NewMainButton("Plan   Ctrl+Enter", v.model.Go)
	v.discard = widgets.NewButton("Discard", v.model.Discard)
	v.print = widgets.NewButton("Print sheet   Ctrl+P", v.Print)
	v.anew = widgets.NewButton("Plan anew", v.model.PlanAnew)
	v.fallen = widgets.NewButton("Vehicle out", v.withdraw)
	v.toMap = widgets.NewButton("Map", func() { v.toggle(aMap) })
	v.toLoad = widgets.NewButton("Load", func() { v.toggle(aLoad) })
	v.timelines()
	v.all = widgets.NewButton("Everywhere", v.model.Everywhere)
	left := container.NewBorder(container.NewHBox(heading("Waits for a run"), v.waits, layout.NewSpacer(), v.all), nil, nil, nil, v.waiting)
	top := container.NewVBox(
		container.NewHBox(heading("Runs"), layout.NewSpacer(), v.toLoad, v.toMap, v.fallen, v.print, v.anew, v.discard, v.plan),
		v.progress, v.board, v.inHand)
	key := widgets.NewPicture(fyne.NewSize(0, 18), scene.RibbonKey)
	trouble := container.NewBorder(heading("Can't be kept"), nil, nil, nil, v.troubles)
	v.below = container.New(band{}, trouble)
	right := container.NewBorder(top, container.NewVBox(v.below, key), nil, nil, container.NewStack(v.runs, v.chart, v.load, v.cost))
	v.content = widgets.NewBeside(left, 340, right)
	return v
}

func heading(text string) *widget.Label {
	h := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	h.SizeName = theme.SizeNameSubHeadingText
	return h
}

func (v *View) lists() {
	v.waiting = widgets.NewRows([]widgets.Column{{Title: "verdict", Kind: widgets.VerdictColumn, Width: 96}, {Title: "home"}},
		"Nothing waits. Tasks come from a discharge, a stop, a recall or a low backup.")
	v.waiting.OnOpen = func(id string) {
		v.model.work.Open(work.Target{Room: work.Person, Person: inventory.PersonID(id)})
	}
	axis := func(w, h float64) scene.Scene { return scene.Axis(v.model.AsOf(), Horizon, w, h) }
	v.runs = widgets.NewRows([]widgets.Column{
		{Title: "verdict", Kind: widgets.VerdictColumn, Width: 96}, {Title: "stop", Width: 262}, {Title: "arrives", Width: 140},
		{Head: axis, Kind: widgets.PictureColumn},
	}, "No run is planned. Ctrl+Enter plans what waits.")
	v.runs.OnOpen = v.model.Open
	v.troubles = widgets.NewRows([]widgets.Column{{Title: "stop", Width: 190}, {Title: "why"}, {Title: "what would mend it", Width: 230}}, "")
	v.troubles.OnOpen = func(id string) {
		for _, t := range v.model.Troubles {
			if t.ID == id {
				v.model.work.Open(work.Target{Room: work.Person, Person: t.Person})
			}
		}
	}
	for _, rows := range []*widgets.Rows{v.waiting, v.runs, v.troubles} {
		rows.OnDone = v.model.Go
	}
}

func (v *View) take(row string) {
	v.runs.Take(row)
	if w := widgets.WindowOf(v.content); w != nil {
		w.Canvas().Focus(v.runs.Keyboard())
	}
}

func (v *View) takeBoard() {
	if w := widgets.WindowOf(v.content); w != nil && !v.board.Hidden {
		w.Canvas().Focus(v.board)
	}
}

func (v *View) draw() {
	m := v.model
	v.waits.SetText(m.WaitingTitle())
	v.all.Hidden = len(m.Area) == 0
	waiting := make([]widgets.Row, len(m.Waiting))
	for i, t := range m.Waiting {
		below := t.Detail
		if t.Due != "" {
			below = t.Due + " · " + t.Detail
		}
		waiting[i] = widgets.Row{ID: string(t.Person), Find: t.Name, Cells: []widgets.Cell{{Text: t.Verdict}, {Text: t.Name, Below: below, Bold: true}}}
	}
	v.waiting.SetRows(waiting)
	v.runs.SetRows(append(rowsOf(m.Proposed), rowsOf(m.Rows)...))
	troubles := make([]widgets.Row, len(m.Troubles))
	for i, t := range m.Troubles {
		troubles[i] = widgets.Row{ID: t.ID, Find: t.Who, Cells: []widgets.Cell{{Text: t.Who, Below: t.Where, Bold: true}, {Text: t.Says}, {Text: t.Relief}}}
	}
	v.troubles.SetRows(troubles)
	v.below.(*fyne.Container).Hidden = len(m.Troubles) == 0
	v.drawBoard()
	v.drawSearch()
	v.content.Refresh()
}

func (v *View) drawSearch() {
	m := v.model
	switch {
	case m.Searching && !v.progress.Visible():
		v.progress.Start("Planning", m.StopPlanning)
	case m.Searching:
		v.progress.SetShare(m.Share)
	default:
		v.progress.Done()
	}
	v.plan.SetText("Plan   Ctrl+Enter")
	if m.Proposing() {
		v.plan.SetText("Accept   Ctrl+Enter")
	}
	if m.Trying() || m.Carrying() {
		v.plan.SetText("Accept   Ctrl+Enter")
	}
	if m.Carrying() {
		v.plan.SetText("Drop   Enter")
	}
	v.discard.Hidden = !m.Proposing() && !m.Trying()
	v.print.Hidden = m.Proposing() || m.Trying() || m.Carrying() || len(m.Rows) == 0
}

func rowsOf(rows []Row) []widgets.Row {
	list := make([]widgets.Row, len(rows))
	for i, r := range rows {
		when := widgets.Cell{Text: r.Time, Below: r.Beside, Bold: true}
		if r.Late {
			when.Ink = scene.Alarm
		}
		ribbon := widgets.Cell{}
		if r.Ribbon != nil {
			ribbon.Draw = func(w, h float64) scene.Scene { return scene.Ribbon(*r.Ribbon, w, h) }
		}
		name := widgets.Cell{Text: r.Name, Below: r.Detail, Bold: !r.Done}
		if r.Person == "" {
			name.Ink = scene.Gas
		} else {
			name.Text = "   " + name.Text
		}
		list[i] = widgets.Row{ID: r.ID, Find: r.Name, Cells: []widgets.Cell{{Text: r.Verdict}, name, when, ribbon}}
	}
	return list
}

// band is as wide as it can be and as high as three rows.
type band struct{}

func (band) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(0, 200) }

func (band) Layout(objects []fyne.CanvasObject, size fyne.Size) { objects[0].Resize(size) }

// Print prints the sheet of the run in hand.
func (v *View) Print() { v.model.Sheet(v.runs.InHand()) }

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.runs.Keyboard() }

// Reread reads the screen anew, as it stands; the row in hand stays.
func (v *View) Reread() { v.model.Load() }

// Open shows the runs as they stand now, with the run of the target in hand;
// with homes what waits is kept to them.
func (v *View) Open(t work.Target) {
	if len(t.Homes) > 0 {
		v.model.OpenArea(t.Homes)
		return
	}
	v.model.load(func() {
		if t.Run != "" {
			v.runs.Take(runID(t.Run))
		}
		if t.Run != "" && t.Text == work.EndRun {
			v.model.End(t.Run)
		}
	})
}
