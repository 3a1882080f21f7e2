package returns

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
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
	drained *widgets.Choice
	soiled  *widgets.Choice
	value   *widgets.Text
	with    *widgets.Ticks
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

// missing heads what was expected and not scanned yet.
const missing = "Still missing"

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
	v.drained = widgets.NewChoice(widgets.Option{Value: "no", Label: "used"}, widgets.Option{Value: "yes", Label: "empty, they say"})
	v.drained.OnChanged = func(value string) { m.SetDrained(value == "yes") }
	v.soiled = widgets.NewChoice(widgets.Option{Value: "no", Label: "no"}, widgets.Option{Value: "yes", Label: "yes: bag it"})
	v.soiled.OnChanged = func(value string) { m.SetSoiled(value == "yes") }
	v.value, v.lacks, v.owner = widgets.NewText(), widgets.NewText(), widgets.NewText()
	v.value.OnChanged, v.lacks.OnChanged, v.owner.OnChanged = v.typed(m.SetValue), v.typed(m.SetLacks), v.typed(m.SetOwner)
	v.with = widgets.NewTicks()
	v.with.OnChanged = m.SetWith
	v.lacks.PlaceHolder, v.owner.PlaceHolder = "washer, key, filter", "as its label says"
	for _, in := range []widgets.Input{v.depot, v.near, v.drained, v.soiled, v.value, v.with, v.lacks, v.owner} {
		widgets.Link(m.Book, m.Put, in) // Enter books from anywhere
	}
	for label, in := range map[string]widgets.Input{
		"Is it": v.near, "Read": v.value, "Given back as": v.drained, "Soiled": v.soiled, "Came with it": v.with, "Did not come": v.lacks, "Owner": v.owner,
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
		v.fields[v.near], v.fields[v.value], v.fields[v.drained], v.fields[v.owner], v.fields[v.soiled], v.fields[v.with], v.fields[v.lacks], v.wrong,
		container.NewHBox(layout.NewSpacer(), v.put, v.book))
	receipt := widgets.NewButton("Receipt   Ctrl+P", v.Print)
	top := container.NewBorder(nil, nil, nil, container.NewHBox(widget.NewLabel("taken in at"), v.depot, receipt), v.title)
	panel := widgets.NewPanel(container.NewVBox(top, v.below, v.hand))
	grid := container.NewGridWithColumns(4)
	for _, c := range []struct{ name, empty string }{
		{"Back", "Nothing yet."}, {missing, ""},
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

// focusHand brings the keyboard to what is asked of the thing in hand.
func (v *View) focusHand() {
	w := widgets.WindowOf(v.content)
	if w == nil || v.model.Hand.Empty() {
		return
	}
	var target fyne.Focusable = v.soiled
	switch {
	case v.model.Depot == "" && v.model.Hand.Wrong != "": // not before: digits of a reading would choose one
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

// Print prints the receipts for what was booked here.
func (v *View) Print() { v.model.Receipt() }

// Open shows what is expected back, with a person or an item of the target in
// hand. The keyboard goes to the field on top: the next thing is a scan.
func (v *View) Open(t work.Target) {
	v.model.Load(t.Person)
	v.model.work.Field()
	if t.Text != "" {
		v.model.Scan(t.Text)
	}
}

// Scan takes the next thing in hand.
func (v *View) Scan(text string) bool { return v.model.Scan(text) }
