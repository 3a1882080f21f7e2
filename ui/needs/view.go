package needs

import (
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the first screen.
type View struct {
	model   *Model
	title   *widget.Label
	foot    *widget.Label
	rows    *widgets.Rows
	horizon *widgets.Choice
	scope   *widgets.Choice
	content fyne.CanvasObject
}

// New returns the first screen.
func New(w *work.Work) *View {
	v := &View{model: NewModel(w), title: widget.NewLabel(""), foot: widget.NewLabel("")}
	v.model.Changed = v.draw
	v.rows = widgets.NewRows(v.columns(), "Nothing needs you now. Discharge somebody, or take in your lists.")
	v.rows.OnOpen = func(id string) { v.model.Open(inventory.PersonID(id)) }
	v.horizon = widgets.NewChoice(hours()...)
	v.horizon.OnChanged = func(value string) {
		if h, err := strconv.Atoi(value); err == nil {
			v.model.SetHorizon(time.Duration(h) * time.Hour)
		}
	}
	v.horizon.SetValue(strconv.Itoa(int(v.model.Horizon.Hours())))
	v.scope = widgets.NewChoice(widgets.Option{Value: "needs", Label: "needs you"}, widgets.Option{Value: "all", Label: "every home"})
	v.scope.SetValue("needs")
	v.scope.OnChanged = func(value string) { v.model.SetAll(value == "all") }
	heading := widget.NewLabelWithStyle("What needs you", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = "subHeadingText"
	changed := widgets.NewButton("What changed   F9", v.model.News)
	top := container.NewBorder(nil, nil, container.NewHBox(heading, v.title), container.NewHBox(changed, v.scope, v.horizon))
	key := widgets.NewPicture(fyne.NewSize(0, 18), scene.RibbonKey)
	bottom := container.NewVBox(key, widgets.NewFoot(v.foot))
	v.content = container.NewBorder(top, bottom, nil, nil, v.rows)
	return v
}

func hours() []widgets.Option {
	options := make([]widgets.Option, len(Horizons))
	for i, h := range Horizons {
		n := strconv.Itoa(int(h.Hours()))
		options[i] = widgets.Option{Value: n, Label: n + " h"}
	}
	return options
}

func (v *View) columns() []widgets.Column {
	axis := func(w, h float64) scene.Scene { return scene.Axis(v.model.AsOf, v.model.Horizon, w, h) }
	return []widgets.Column{
		{Title: "verdict", Kind: widgets.VerdictColumn, Width: 96},
		{Title: "home", Width: 300},
		{Head: axis, Kind: widgets.PictureColumn},
		{Title: "next", Width: 300},
	}
}

func (v *View) draw() {
	v.title.SetText(v.model.Title())
	v.foot.SetText(v.model.Stock)
	rows := make([]widgets.Row, len(v.model.Rows))
	for i, r := range v.model.Rows {
		next := widgets.Cell{Text: r.Next, Bold: r.Urgent}
		if r.Urgent {
			next.Ink = scene.VerdictInk(r.Verdict)
		}
		rows[i] = widgets.Row{
			ID:   string(r.ID),
			Find: r.Name,
			Cells: []widgets.Cell{
				{Text: r.Verdict},
				{Text: r.Name, Below: r.State, Bold: true},
				{Draw: func(w, h float64) scene.Scene { return scene.Ribbon(r.Ribbon, w, h) }},
				next,
			},
		}
	}
	v.rows.SetRows(rows)
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.rows.Keyboard() }

// Reread reads the screen anew, as it stands; the row in hand stays.
func (v *View) Reread() { v.model.Load() }

// Open shows the screen with the book as it stands now.
func (v *View) Open(work.Target) { v.model.Load() }

// Key takes F9: what changed.
func (v *View) Key(key fyne.KeyName) {
	if key == fyne.KeyF9 {
		v.model.News()
	}
}
