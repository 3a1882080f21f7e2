package items

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen of every item.
type View struct {
	model   *Model
	title   *widget.Label
	count   *widget.Label
	filter  *widgets.Filter
	group   *widgets.Choice
	kind    *widgets.Choice
	rows    *widgets.Rows
	content fyne.CanvasObject
}

const anyKind = "any"

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{model: NewModel(w), title: widget.NewLabel(""), count: widget.NewLabel("")}
	v.model.Changed = v.draw
	v.count.SizeName, v.count.Truncation = theme.SizeNameCaptionText, fyne.TextTruncateEllipsis
	v.rows = widgets.NewRows(columns(), v.model.Empty())
	v.rows.OnOpen = func(id string) { v.model.Open(inventory.ItemID(id)) }
	v.filter = widgets.NewFilter("serial, model, size, state or place", v.rows)
	v.filter.OnText = v.model.Filter
	v.choices()
	heading := widget.NewLabelWithStyle("Items", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = "subHeadingText"
	top := container.NewVBox(
		container.NewBorder(nil, nil, container.NewHBox(heading, v.title), v.filter),
		container.NewBorder(nil, nil, v.group, v.kind),
		v.count)
	v.content = container.NewBorder(top, nil, nil, nil, v.rows)
	return v
}

func (v *View) choices() {
	groups := make([]widgets.Option, len(Groups))
	for i, g := range Groups {
		groups[i] = widgets.Option{Value: g.Name, Label: g.Name}
	}
	v.group = widgets.NewChoice(groups...)
	v.group.SetValue(Groups[0].Name)
	v.group.OnChanged = v.model.Choose
	kinds := []widgets.Option{{Value: anyKind, Label: "any"}}
	for _, k := range inventory.Kinds() {
		kinds = append(kinds, widgets.Option{Value: string(k), Label: k.Short() + "s"})
	}
	v.kind = widgets.NewChoice(kinds...)
	v.kind.SetValue(anyKind)
	v.kind.OnChanged = func(value string) {
		if value == anyKind {
			value = ""
		}
		v.model.ChooseKind(inventory.Kind(value))
	}
}

func columns() []widgets.Column {
	return []widgets.Column{
		{Title: "item", Width: 130},
		{Title: "what", Width: 180},
		{Title: "state", Width: 150},
		{Title: "where", Width: 150},
		{Title: "gauge", Width: 120, Right: true},
		{Title: "hours", Width: 70, Right: true},
		{Title: "why"},
	}
}

func (v *View) draw() {
	v.title.SetText(v.model.Title())
	v.count.SetText(v.model.Count)
	v.rows.SetEmpty(v.model.Empty())
	rows := make([]widgets.Row, len(v.model.Rows))
	for i, r := range v.model.Rows {
		why := widgets.Cell{Text: r.Why}
		if r.Alarm {
			why.Ink, why.Bold = scene.Alarm, true
		}
		rows[i] = widgets.Row{
			ID:   string(r.ID),
			Find: r.Label + " " + r.Tag,
			Cells: []widgets.Cell{
				{Text: r.Label, Below: r.Tag, Bold: true},
				{Text: r.What, Below: r.Model},
				{Text: r.State, Below: r.Since},
				{Text: r.Where, Below: r.Whose},
				{Text: r.Gauge, Below: r.Age},
				{Text: r.Hours},
				why,
			},
		}
	}
	v.rows.SetRows(rows)
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.filter }

// Reread reads the screen anew, as it stands; the row in hand stays.
func (v *View) Reread() { v.model.Load() }

// Open shows the items a text names, or those another screen asked for; all of
// them without either.
func (v *View) Open(t work.Target) {
	v.model.Among = t.Among
	if t.Among != (work.Among{}) {
		v.group.SetValue(Groups[0].Name)
		v.kind.SetValue(anyKind)
		v.model.Group, v.model.Kind = 0, ""
	}
	if v.filter.Text.Text != t.Text {
		v.filter.SetText(t.Text) // reads the list
		return
	}
	v.model.Load()
}
