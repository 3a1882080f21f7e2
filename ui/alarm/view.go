package alarm

import (
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

// View is the screen.
type View struct {
	model   *Model
	name    *widget.Label
	numbers *widget.Label
	order   []string // of the fields
	fields  map[string]*widgets.Field
	texts   map[string]*widgets.Text
	picks   map[string]*widgets.Choice
	card    *widgets.AnswerCard
	save    *widgets.Button
	drawing bool
	content fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{
		model: NewModel(w), name: widget.NewLabelWithStyle("", fyne.TextAlignLeading, fyne.TextStyle{Bold: true}), numbers: widget.NewLabel(""),
		fields: map[string]*widgets.Field{}, texts: map[string]*widgets.Text{}, picks: map[string]*widgets.Choice{},
		card: widgets.NewAnswerCard(widgets.AnswerData{}),
	}
	v.model.Changed = v.draw
	v.name.SizeName, v.name.Truncation = theme.SizeNameHeadingText, fyne.TextTruncateEllipsis
	v.numbers.Wrapping = fyne.TextWrapWord
	v.layout()
	return v
}

// inputs makes the fields in the order of the call: the person, the four
// questions, the gas, what is done.
func (v *View) inputs() []fyne.CanvasObject {
	yesNo := []string{"no", "yes"}
	list := []fyne.CanvasObject{
		v.pick(Worse, "Breathless", "blue, confused, worse: emergency number first", yesNo...),
		container.NewGridWithColumns(2, v.quantity(SpO2, "SpO2", "", "%"), v.quantity(Flow, "on", "", "L/min")),
	}
	labels := map[string]string{"power": "1  Power", "light": "2  Light, sound", "air": "3  Air", "line": "4  Line"}
	for _, q := range delivery.AlarmQuestions() {
		options := make([]string, len(q.Signs))
		for i, s := range q.Signs {
			options[i] = string(s)
		}
		list = append(list, v.pick(q.Key, labels[q.Key], q.Asks, options...))
	}
	return append(list,
		v.quantity(Gauge, "Gauge", "of the cylinder there", "psi", "bar"),
		v.pick(Changed, "On the cylinder", "since now", yesNo...),
		v.pick(Swap, "Open a swap", "another machine is to be brought", yesNo...))
}

func (v *View) pick(key, label, hint string, options ...string) *widgets.Field {
	list := make([]widgets.Option, len(options))
	for i, o := range options {
		list[i] = widgets.Option{Value: o, Label: o}
	}
	in := widgets.NewChoice(list...)
	in.OnChanged = func(value string) {
		if !v.drawing {
			v.model.Set(key, value)
		}
	}
	v.picks[key], v.order = in, append(v.order, key)
	v.fields[key] = widgets.NewField(label, in, hint).Narrow(128)
	return v.fields[key]
}

func (v *View) quantity(key, label, hint string, units ...string) *widgets.Field {
	in := widgets.NewQuantity(units...)
	shown := in.OnChanged
	in.OnChanged = func(text string) {
		shown(text)
		if !v.drawing {
			v.model.Set(key, text)
		}
	}
	v.texts[key], v.order = &in.Text, append(v.order, key)
	v.fields[key] = widgets.NewField(label, in, hint).Narrow(128)
	return v.fields[key]
}

func (v *View) layout() {
	form := container.New(layout.NewCustomPaddedVBoxLayout(4), v.inputs()...)
	inputs := make([]widgets.Input, len(v.order))
	for i, key := range v.order {
		inputs[i] = v.fields[key].Input()
	}
	widgets.Link(v.model.Save, v.model.OpenPage, inputs...)
	v.save = widgets.NewMainButton("Record call   Ctrl+Enter", v.model.Save)
	page := widgets.NewButton("Their page   F4", v.model.OpenPage)
	head := container.New(layout.NewCustomPaddedVBoxLayout(-6), v.name, v.numbers)
	left := container.NewBorder(head, container.NewBorder(nil, nil, page, nil, v.save), nil, nil, container.NewVScroll(form))
	v.content = container.NewGridWithColumns(2, left, container.NewVScroll(container.NewPadded(v.card)))
}

func (v *View) draw() {
	v.drawing = true
	defer func() { v.drawing = false }()
	m := v.model
	v.name.SetText("Alarm: " + m.Name)
	v.numbers.SetText(m.Numbers)
	if !m.Has() {
		v.name.SetText("Alarm: who calls?")
		v.numbers.SetText("Ctrl+F, then part of the name, street or number; on their page F8.")
		v.save.Disable()
	} else {
		v.save.Enable()
	}
	for key, in := range v.texts {
		if in.Text != m.Text(key) {
			in.SetText(m.Text(key))
		}
	}
	for key, in := range v.picks {
		in.SetValue(m.Text(key))
	}
	for key, f := range v.fields {
		f.SetError(m.Wrong[key])
	}
	a := m.Answer
	v.card.Hidden = a.Title == ""
	v.card.SetData(answercard.Of(a))
	v.content.Refresh()
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.picks[Worse] }

// Open begins the call with the person of a target.
func (v *View) Open(t work.Target) { v.model.Open(t.Person) }

// Key does what the function keys do here.
func (v *View) Key(key fyne.KeyName) {
	if key == fyne.KeyF4 {
		v.model.OpenPage()
	}
}

// Typing returns the fields that take typing, by name.
func (v *View) Typing() (inventory.PersonID, map[string]widgets.Input) {
	return "", widgets.Inputs(v.fields)
}
