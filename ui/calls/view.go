package calls

import (
	"fmt"
	"strings"

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

// View is the screen: who is due on the left, the call in the middle, what it
// means on the right.
type View struct {
	model   *Model
	list    *widgets.Choice
	rows    *widgets.Rows
	name    *widget.Label
	numbers *fyne.Container
	mind    *widget.Label
	fields  map[Field]*widgets.Field
	texts   map[Field]*widgets.Text
	picks   map[Field]*widgets.Choice
	// captions are the lines of the script under two fields.
	captions map[Field]*widget.Label
	times    map[Field]*widgets.When
	card     *widgets.AnswerCard
	save     *widgets.Button
	none     *widgets.Button
	call     *fyne.Container
	scroll   *container.Scroll
	drawing  bool
	content  fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{
		model: NewModel(w), name: widget.NewLabelWithStyle("", fyne.TextAlignLeading, fyne.TextStyle{Bold: true}),
		numbers: container.New(layout.NewCustomPaddedVBoxLayout(-8)), mind: widget.NewLabel(""),
		fields: map[Field]*widgets.Field{}, texts: map[Field]*widgets.Text{}, picks: map[Field]*widgets.Choice{}, captions: map[Field]*widget.Label{}, times: map[Field]*widgets.When{},
		card: widgets.NewAnswerCard(widgets.AnswerData{}),
	}
	v.model.Changed, v.model.Focus = v.draw, v.focus
	v.name.SizeName, v.name.Truncation = theme.SizeNameSubHeadingText, fyne.TextTruncateEllipsis
	v.mind.Wrapping, v.mind.TextStyle.Bold, v.mind.Importance = fyne.TextWrapWord, true, widget.WarningImportance
	v.lists()
	v.inputs()
	v.layout()
	return v
}

func (v *View) lists() {
	v.list = widgets.NewChoice()
	v.list.OnChanged = func(value string) { v.model.Show(List(value)) }
	v.rows = widgets.NewRows([]widgets.Column{
		{Title: "verdict", Kind: widgets.VerdictColumn, Width: 100}, {Title: "who, and why"}, {Title: "by", Width: 104, Right: true},
	}, "No call is due.")
	v.rows.OnHand = func(id string) {
		if !v.drawing {
			v.model.Choose(inventory.PersonID(id))
		}
	}
	v.rows.OnOpen = func(string) { v.focus(v.model.first()) }
}

// Rooms for labels, in points.
const (
	wide  = 92
	short = 60 // beside another field
)

func (v *View) layout() {
	v.save = widgets.NewMainButton("Save and next   Ctrl+Enter", v.model.Save)
	v.none = widgets.NewButton("No answer   F2", v.model.NoAnswer)
	other := widgets.NewButton("Next number   F3", v.model.OtherNumber)
	page := widgets.NewButton("Page   F4", v.model.OpenPage)
	gas := widgets.NewButton("Gas ends   F7", v.model.Night)
	alarm := widgets.NewButton("It beeps   F8", v.model.Alarm)
	left := container.NewBorder(container.NewHBox(v.list), nil, nil, nil, v.rows)
	head := container.New(layout.NewCustomPaddedVBoxLayout(-6), v.name, v.numbers, v.mind)
	v.scroll = container.NewVScroll(v.call)
	middle := container.NewBorder(head, container.NewVBox(container.NewGridWithColumns(3, v.none, other, page, gas, alarm), v.save), nil, nil, v.scroll)
	right := container.NewVScroll(container.NewPadded(v.card))
	v.content = container.New(thirds{}, left, container.NewPadded(middle), right)
}

// thirds gives the list a little less than the call and its meaning.
type thirds struct{}

func (thirds) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(900, 300) }

func (thirds) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	x := float32(0)
	for i, share := range []float32{0.31, 0.36, 0.33} {
		objects[i].Move(fyne.NewPos(x, 0))
		objects[i].Resize(fyne.NewSize(size.Width*share, size.Height))
		x += size.Width * share
	}
}

func (v *View) draw() {
	v.drawing = true
	defer func() { v.drawing = false }()
	v.drawList()
	v.drawCall()
	v.content.Refresh()
}

func (v *View) drawList() {
	m := v.model
	v.list.SetOptions(
		widgets.Option{Value: string(Due), Label: fmt.Sprintf("%d due", m.DueCount)},
		widgets.Option{Value: string(Tell), Label: fmt.Sprintf("%d to tell", m.TellCount)},
		widgets.Option{Value: string(Hot), Label: fmt.Sprintf("%d on a hot day", m.HotCount)})
	v.list.SetValue(string(m.List))
	rows := make([]widgets.Row, len(m.Rows))
	for i, r := range m.Rows {
		by := widgets.Cell{Text: r.By, Bold: r.Late}
		if r.Late {
			by.Ink = scene.Alarm
		}
		rows[i] = widgets.Row{ID: string(r.ID), Find: r.Name, Cells: []widgets.Cell{{Text: r.Verdict}, {Text: r.Name, Below: r.Why, Bold: true}, by}}
	}
	v.rows.SetEmpty(m.Empty)
	switch m.List {
	case Tell:
		v.rows.SetEmpty("The clinician has heard of everything.")
	case Hot:
		v.rows.SetEmpty("Every home on a concentrator has cooling.")
	}
	v.rows.SetRows(rows)
	if id := string(m.in.Person.ID); id != "" && v.rows.InHand() != id {
		v.rows.Take(id)
	}
}

func (v *View) drawCall() {
	m := v.model
	v.name.SetText(m.Name())
	v.numbers.Objects = v.numbers.Objects[:0]
	for _, n := range m.Numbers() {
		label := widget.NewLabel(n.Text)
		label.TextStyle.Bold = n.Chosen
		if n.Chosen {
			label.SizeName = theme.SizeNameHeadingText
		}
		v.numbers.Add(label)
	}
	v.mind.SetText(strings.Join(m.Mind(), " · "))
	for f, in := range v.texts {
		if in.Text != m.Text(f) {
			in.SetText(m.Text(f))
		}
	}
	for f, in := range v.picks {
		in.SetValue(m.Text(f))
	}
	for f, in := range v.times {
		if m.Text(f) == "" && in.Text.Text != "" {
			in.SetText("")
		}
	}
	for f, field := range v.fields {
		shown := m.Has() && m.Shows(f)
		field.Hidden = !shown
		setVisible(field.Input(), shown) // Enter goes past what is hidden
		if caption, apart := v.captions[f]; apart {
			caption.SetText(m.Says(f))
			caption.Hidden = !shown
		} else {
			field.SetHint(m.Says(f))
		}
		field.SetError(m.Wrong[string(f)])
	}
	a := m.Card()
	v.card.Hidden = !m.Has()
	v.card.SetData(widgets.AnswerData{Verdict: string(a.Verdict), Title: a.Title, Do: a.Do, Assumed: a.Assumed, Facts: a.Facts})
	v.none.Hidden = m.List == Tell
	v.save.SetText("Save and next   Ctrl+Enter")
	if m.List == Tell {
		v.save.SetText("Record as told   Ctrl+Enter")
	}
	for _, b := range []*widgets.Button{v.save, v.none} {
		if m.Has() {
			b.Enable()
		} else {
			b.Disable()
		}
	}
}

func setVisible(o fyne.CanvasObject, visible bool) {
	if visible {
		o.Show()
		return
	}
	o.Hide()
}

// focus brings the keyboard to a field, or to the list.
func (v *View) focus(f Field) {
	var target fyne.Focusable
	if f == Rows || !v.model.Has() {
		target = v.rows.Keyboard()
	} else {
		target = v.fields[f].Input()
	}
	if w := widgets.WindowOf(v.content); w != nil {
		w.Canvas().Focus(target)
	}
}

// Print prints the list that is shown.
func (v *View) Print() { v.model.Print() }

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.rows.Keyboard() }

// Open shows what is due now; with a person, the call with them.
func (v *View) Open(t work.Target) { v.model.Load(t.Person) }

// Key does what the function keys do here.
func (v *View) Key(key fyne.KeyName) {
	switch key {
	case fyne.KeyF2:
		v.model.NoAnswer()
	case fyne.KeyF3:
		v.model.OtherNumber()
	case fyne.KeyF4:
		v.model.OpenPage()
	case fyne.KeyF7:
		v.model.Night()
	case fyne.KeyF8:
		v.model.Alarm()
	}
}

// Typing returns the person in hand and the fields that take typing, by name.
func (v *View) Typing() (inventory.PersonID, map[string]widgets.Input) {
	return v.model.in.Person.ID, widgets.Inputs(v.fields)
}
