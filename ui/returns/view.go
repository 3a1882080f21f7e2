package returns

import (
	"errors"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/meter"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen on which what comes back is scanned in.
type View struct {
	model   *Model
	sources *widgets.Rows
	title   *widget.Label
	below   *widget.Label
	depot   *widgets.Choice
	near    *widgets.Choice
	soiled  *widgets.Choice
	value   *widgets.Text
	lacks   *widgets.Text
	owner   *widgets.Text
	fields  map[fyne.CanvasObject]*widgets.Field
	wrong   *widget.Label
	book    *widgets.Button
	put     *widgets.Button
	hand    *fyne.Container
	columns []*column
	drawing bool
	content fyne.CanvasObject
}

// column is one outcome with the things that had it.
type column struct {
	name string
	head *widget.Label
	rows *widgets.Rows
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{model: NewModel(w), title: heading(""), below: widget.NewLabel(""), wrong: widget.NewLabel(""), fields: map[fyne.CanvasObject]*widgets.Field{}}
	v.model.Changed, v.model.Focus = v.draw, v.focusHand
	v.below.Truncation = fyne.TextTruncateEllipsis
	v.wrong.Importance, v.wrong.Wrapping, v.wrong.TextStyle.Bold = widget.DangerImportance, fyne.TextWrapWord, true
	v.sources = widgets.NewRows([]widgets.Column{{Title: "from"}}, "Nothing is expected back. Scan whatever comes.")
	v.sources.OnOpen = func(id string) {
		v.model.Choose(id)
		w.Field()
	}
	v.inputs()
	v.layout()
	return v
}

func heading(text string) *widget.Label {
	h := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	h.SizeName = theme.SizeNameSubHeadingText
	return h
}

func (v *View) inputs() {
	m := v.model
	v.depot = widgets.NewChoice()
	v.depot.OnChanged = m.SetDepot
	v.near = widgets.NewChoice()
	v.near.OnChanged = func(id string) { m.ItIs(inventory.ItemID(id)) }
	v.soiled = widgets.NewChoice(widgets.Option{Value: "no", Label: "no"}, widgets.Option{Value: "yes", Label: "yes: bag it"})
	v.soiled.OnChanged = func(value string) { m.SetSoiled(value == "yes") }
	v.value, v.lacks, v.owner = widgets.NewText(), widgets.NewText(), widgets.NewText()
	v.value.OnChanged, v.lacks.OnChanged, v.owner.OnChanged = v.typed(m.SetValue), v.typed(m.SetLacks), v.typed(m.SetOwner)
	v.lacks.PlaceHolder, v.owner.PlaceHolder = "washer, key, filter", "as its label says"
	for _, in := range []widgets.Input{v.depot, v.near, v.soiled, v.value, v.lacks, v.owner} {
		widgets.Link(m.Book, m.Put, in) // Enter books from anywhere
	}
	for label, in := range map[string]widgets.Input{
		"Is it": v.near, "Read": v.value, "Soiled": v.soiled, "Did not come": v.lacks, "Owner": v.owner,
	} {
		v.fields[in] = widgets.NewField(label, in, "")
	}
	v.book = widgets.NewMainButton("Book it   Enter", m.Book)
	v.put = widgets.NewButton("Put aside   Esc", m.Put)
}

func (v *View) typed(set func(string)) func(string) {
	return func(text string) {
		if !v.drawing {
			set(text)
		}
	}
}

func (v *View) layout() {
	v.hand = container.NewVBox(
		v.fields[v.near], v.fields[v.value], v.fields[v.owner], v.fields[v.soiled], v.fields[v.lacks], v.wrong,
		container.NewHBox(layout.NewSpacer(), v.put, v.book))
	top := container.NewBorder(nil, nil, nil, container.NewHBox(widget.NewLabel("taken in at"), v.depot), v.title)
	panel := widgets.NewPanel(container.NewVBox(top, v.below, v.hand))
	grid := container.NewGridWithColumns(4)
	for _, c := range []struct{ name, empty string }{
		{"Back", "Nothing yet."}, {"Still missing", "Nothing: all that was expected is back."},
		{"Not expected", "Nothing."}, {"Unknown", "No strangers."},
	} {
		one := &column{name: c.name, head: heading(c.name), rows: widgets.NewRows([]widgets.Column{{}}, c.empty)}
		one.rows.OnOpen = v.open
		v.columns = append(v.columns, one)
		grid.Add(container.NewBorder(one.head, nil, nil, nil, one.rows))
	}
	right := container.NewBorder(panel, nil, nil, nil, grid)
	left := container.NewBorder(heading("Comes back from"), nil, nil, nil, v.sources)
	v.content = widgets.NewBeside(left, 270, container.NewPadded(right))
}

func (v *View) open(id string) {
	if id != "" {
		v.model.work.Open(work.Target{Room: work.Item, Item: inventory.ItemID(id)})
	}
}

func (v *View) draw() {
	v.drawing = true
	defer func() { v.drawing = false }()
	m := v.model
	rows := make([]widgets.Row, len(m.Sources))
	for i, s := range m.Sources {
		rows[i] = widgets.Row{ID: s.ID, Find: s.Name, Cells: []widgets.Cell{{Text: s.Name, Below: s.Detail, Bold: true}}}
		if s.ID == m.From {
			rows[i].Cells[0].Ink = scene.Gas
		}
	}
	v.sources.SetRows(rows)
	v.drawHand()
	v.drawColumns()
}

func (v *View) drawHand() {
	m, h := v.model, v.model.Hand
	v.title.SetText(m.Title())
	v.below.SetText(m.Below())
	depots := make([]widgets.Option, len(m.Depots))
	for i, d := range m.Depots {
		depots[i] = widgets.Option{Value: d, Label: d}
	}
	v.depot.SetOptions(depots...)
	v.depot.SetValue(m.Depot)
	options := make([]widgets.Option, 0, len(h.Near)+1)
	for _, item := range h.Near {
		options = append(options, widgets.Option{Value: string(item.ID), Label: item.Label()})
	}
	v.near.SetOptions(append(options, widgets.Option{Value: "stranger", Label: "none of these"})...)
	v.near.SetValue("")
	v.value.PlaceHolder = meter.Asks(h.Item.Spec)
	set(v.value, h.Value)
	set(v.lacks, h.Lacks)
	set(v.owner, h.Owner)
	v.soiled.SetValue(map[bool]string{true: "yes", false: "no"}[h.Soiled])
	ours, asking := h.Item.ID != "", len(h.Near) > 0
	v.show(v.near, asking)
	v.show(v.value, ours && meter.Asks(h.Item.Spec) != "")
	v.show(v.soiled, ours)
	v.show(v.lacks, ours)
	v.show(v.owner, h.Stranger() && !asking)
	v.drawWrong()
	v.hand.Hidden = h.Empty()
	v.hand.Refresh()
	v.content.Refresh()
}

// drawWrong says what lacks: at the reading where that is what lacks.
func (v *View) drawWrong() {
	h := v.model.Hand
	v.fields[v.value].SetError(nil)
	v.wrong.SetText(h.Wrong)
	if h.Wrong != "" && v.model.Depot != "" && !v.fields[v.value].Hidden {
		v.fields[v.value].SetError(errors.New(h.Wrong))
		v.wrong.SetText("")
	}
	v.wrong.Hidden = v.wrong.Text == ""
}

func set(in *widgets.Text, text string) {
	if in.Text != text {
		in.SetText(text)
	}
}

func (v *View) show(in fyne.CanvasObject, visible bool) { v.fields[in].Hidden = !visible }

func (v *View) drawColumns() {
	r := v.model.Columns()
	lists := [][]inventory.Item{r.Back, r.Missing, r.Extra, nil}
	for i, c := range v.columns {
		var rows []widgets.Row
		for _, item := range lists[i] {
			rows = append(rows, widgets.Row{ID: string(item.ID), Cells: []widgets.Cell{{Text: item.Label(), Below: item.Spec.What(), Bold: true}}})
		}
		if c.name == "Unknown" {
			for n, serial := range r.Unknown {
				rows = append(rows, widgets.Row{ID: fmt.Sprint(n), Cells: []widgets.Cell{{Text: serial, Below: "in quarantine", Bold: true}}})
			}
		}
		c.head.SetText(c.name)
		if len(rows) > 0 {
			c.head.SetText(fmt.Sprintf("%s  %d", c.name, len(rows)))
		}
		c.rows.SetRows(rows)
	}
}

// focusHand brings the keyboard to what is asked of the thing in hand.
func (v *View) focusHand() {
	w := widgets.WindowOf(v.content)
	if w == nil || v.model.Hand.Empty() {
		return
	}
	var target fyne.Focusable = v.soiled
	switch {
	case v.model.Depot == "":
		target = v.depot
	case !v.fields[v.near].Hidden:
		target = v.near
	case !v.fields[v.value].Hidden:
		target = v.value
	case !v.fields[v.owner].Hidden:
		target = v.owner
	}
	w.Canvas().Focus(target)
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.sources.Keyboard() }

// Open shows what is expected back, with a person or an item of the target in
// hand.
func (v *View) Open(t work.Target) {
	v.model.Load(t.Person)
	if t.Text != "" {
		v.model.Scan(t.Text)
	}
}

// Scan takes the next thing in hand.
func (v *View) Scan(text string) bool { return v.model.Scan(text) }
