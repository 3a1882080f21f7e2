package nightlog

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/answercard"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen: the line being keyed in on the left, on the right what
// stands otherwise than on paper.
type View struct {
	model   *Model
	heading *widget.Label
	order   []string // of the fields
	fields  map[string]*widgets.Field
	texts   map[string]*widgets.Text
	picks   map[string]*widgets.Choice
	card    *widgets.AnswerCard
	rows    *widgets.Rows
	drawing bool
	content fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{
		model: NewModel(w), heading: widget.NewLabelWithStyle("", fyne.TextAlignLeading, fyne.TextStyle{Bold: true}),
		fields: map[string]*widgets.Field{}, texts: map[string]*widgets.Text{}, picks: map[string]*widgets.Choice{},
		card: widgets.NewAnswerCard(widgets.AnswerData{}),
	}
	v.model.Changed, v.model.Focus = v.draw, v.focus
	v.heading.SizeName = theme.SizeNameSubHeadingText
	v.rows = widgets.NewRows([]widgets.Column{{Title: "no.", Width: 44, Right: true}, {Title: "stands otherwise than in the pack"}}, "Nothing stands otherwise than in the pack.")
	v.rows.OnOpen = func(id string) { v.model.Open(inventory.PersonID(id)) }
	v.layout()
	return v
}

// inputs makes the fields in the order of the columns on paper.
func (v *View) inputs() []fyne.CanvasObject {
	yesNo := []widgets.Option{{Value: "no", Label: "no"}, {Value: "yes", Label: "yes"}}
	gauge, flow := widgets.NewQuantity("psi", "bar"), widgets.NewQuantity("L/min")
	beside := func(a, b fyne.CanvasObject) fyne.CanvasObject { return container.NewGridWithColumns(2, a, b) }
	plain := func(key, label, hint string) *widgets.Field {
		in := widgets.NewText()
		return v.text(key, label, hint, in, in)
	}
	return []fyne.CanvasObject{
		plain(Clock, "Time", "as it stands on paper, 02:10"),
		plain(Who, "Number", "in the pack, or a name"),
		v.pick(Silent, "No answer", "we rang, and nobody answered", widgets.Option{Value: "yes", Label: "yes"}),
		v.pick(Worse, "Breathless", "", yesNo...),
		beside(v.text(Gauge, "Gauge", "", gauge, &gauge.Text), v.text(Flow, "Flow", "", flow, &flow.Text)),
		v.pick(Machine, "Changed to", "left open: as before",
			widgets.Option{Value: string(delivery.FromCylinder), Label: "cylinder"}, widgets.Option{Value: string(delivery.FromConcentrator), Label: "machine"}),
		plain(Said, "Said, done", ""),
		plain(Again, "Ring again", "06:30"),
	}
}

func (v *View) pick(key, label, hint string, options ...widgets.Option) *widgets.Field {
	in := widgets.NewChoice(options...)
	in.OnChanged = func(value string) {
		if !v.drawing {
			v.model.Set(key, value)
		}
	}
	v.picks[key] = in
	return v.field(key, label, hint, in)
}

func (v *View) text(key, label, hint string, in widgets.Input, text *widgets.Text) *widgets.Field {
	shown := text.OnChanged
	text.OnChanged = func(written string) {
		if shown != nil {
			shown(written)
		}
		if !v.drawing {
			v.model.Set(key, written)
		}
	}
	v.texts[key] = text
	return v.field(key, label, hint, in)
}

func (v *View) field(key, label, hint string, in widgets.Input) *widgets.Field {
	const labels = 92
	v.order = append(v.order, key)
	v.fields[key] = widgets.NewField(label, in, hint).Narrow(labels)
	return v.fields[key]
}

func (v *View) layout() {
	form := container.New(layout.NewCustomPaddedVBoxLayout(4), v.inputs()...)
	inputs := make([]widgets.Input, len(v.order))
	for i, key := range v.order {
		inputs[i] = v.fields[key].Input()
	}
	widgets.Link(v.model.Save, func() { focus(v.content, v.rows.Keyboard()) }, inputs...)
	save := widgets.NewMainButton("Key in and next   Ctrl+Enter", v.model.Save)
	left := container.NewBorder(v.heading, save, nil, nil, container.NewVScroll(form))
	right := container.NewBorder(v.card, nil, nil, nil, v.rows)
	v.content = container.New(shares{}, left, container.NewPadded(right))
}

// shares gives the line two fifths of the width.
type shares struct{}

func (shares) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(900, 300) }

func (shares) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	const line = 0.4
	objects[0].Resize(fyne.NewSize(size.Width*line, size.Height))
	objects[1].Move(fyne.NewPos(size.Width*line, 0))
	for range 2 { // the card learns its width before its height
		objects[1].Resize(fyne.NewSize(size.Width*(1-line), size.Height))
	}
}

func (v *View) draw() {
	v.drawing = true
	defer func() { v.drawing = false }()
	m := v.model
	v.heading.SetText("Night log")
	if m.Keyed > 0 {
		v.heading.SetText(fmt.Sprintf("Night log: %d keyed in", m.Keyed))
	}
	for key, in := range v.texts {
		if in.Text != m.Text(key) {
			in.SetText(m.Text(key))
		}
	}
	for key, in := range v.picks {
		in.SetValue(m.Text(key))
	}
	v.fields[Clock].SetHint(or(m.When(), "as it stands on paper, 02:10"))
	v.fields[Who].SetHint(or(m.Caller, "in the pack, or a name"))
	for key, f := range v.fields {
		f.SetError(m.Wrong[key])
	}
	a := m.Answer
	a.Facts = nil // they are the rows
	data := answercard.Of(a)
	data.Foot = ""
	v.card.SetData(data)
	rows := make([]widgets.Row, len(m.Rows))
	for i, r := range m.Rows {
		rows[i] = widgets.Row{ID: string(r.ID), Find: r.Name, Cells: []widgets.Cell{{Text: r.Number}, {Text: r.Name, Below: r.Says, Bold: true}}}
	}
	v.rows.SetRows(rows)
	v.content.Refresh()
}

func or(text, instead string) string {
	if text == "" {
		return instead
	}
	return text
}

func (v *View) focus(key string) { focus(v.content, v.fields[key].Input()) }

func focus(shown fyne.CanvasObject, to fyne.Focusable) {
	if win := widgets.WindowOf(shown); win != nil {
		win.Canvas().Focus(to)
	}
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.fields[Clock].Input() }

// Open reads the book as it stands now.
func (v *View) Open(work.Target) { v.model.Load() }

// Print goes to the papers, where the pack is printed.
func (v *View) Print() { v.model.PrintAnew() }

// Typing returns the fields that take typing, by name.
func (v *View) Typing() (inventory.PersonID, map[string]widgets.Input) {
	return "", widgets.Inputs(v.fields)
}
