package nightcall

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
	"lungwort/inventory/gas"
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
	page    *widgets.Button
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

// inputs makes the fields in the order of the call: what decides comes first.
func (v *View) inputs() []fyne.CanvasObject {
	gauge, flow := widgets.NewQuantity("psi", "bar"), widgets.NewQuantity("L/min")
	pulse, size, near := widgets.NewText(), widgets.NewText(), widgets.NewText()
	return []fyne.CanvasObject{
		v.text(Gauge, "Gauge", "what does the needle show, and in which unit?", gauge, &gauge.Text),
		v.text(Flow, "Flow", "as the flow meter stands now; of a pulse device: setting 2", flow, &flow.Text),
		v.text(Pulse, "A breath", gas.PulseExample+"; left open, as it was ordered", pulse, pulse),
		v.pick(Worse, "Breathless", "blue, confused, worse: emergency number first", widgets.Option{Value: "no", Label: "no"}, widgets.Option{Value: "yes", Label: "yes"}),
		v.text(Size, "Size", "the letter on its label; left open, the sizes in the house count", size, size),
		v.text(Near, "Where", "area, town or street; in the book? Ctrl+F, then F7 on their page", near, near),
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
	const labels = 112
	v.order = append(v.order, key)
	v.fields[key] = widgets.NewField(label, in, hint).Narrow(labels)
	return v.fields[key]
}

func (v *View) layout() {
	form := container.New(layout.NewCustomPaddedVBoxLayout(6), v.inputs()...)
	inputs := make([]widgets.Input, len(v.order))
	for i, key := range v.order {
		inputs[i] = v.fields[key].Input()
	}
	widgets.Link(v.model.Save, v.model.OpenPage, inputs...)
	v.save = widgets.NewMainButton("Record call   Ctrl+Enter", v.model.Save)
	v.page = widgets.NewButton("Their page   F4", v.model.OpenPage)
	head := container.New(layout.NewCustomPaddedVBoxLayout(-6), v.name, v.numbers)
	left := container.NewBorder(head, container.NewBorder(nil, nil, v.page, nil, v.save), nil, nil, container.NewVScroll(form))
	v.content = container.NewGridWithColumns(2, left, container.NewVScroll(container.NewPadded(v.card)))
}

func (v *View) draw() {
	v.drawing = true
	defer func() { v.drawing = false }()
	m := v.model
	v.name.SetText("Gas is ending: " + m.Name)
	v.numbers.SetText(m.Numbers)
	for _, b := range []*widgets.Button{v.save, v.page} {
		b.Enable()
	}
	if !m.Known() {
		v.name.SetText("Gas is ending: somebody calls")
		v.numbers.SetText("Answer first: gauge, flow, size. Whoever is in the book: Ctrl+F, then F7 on their page.")
		v.save.Disable()
		v.page.Disable()
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
	v.show(Near, !m.Known())
	v.show(Pulse, m.Setting() != "")
	v.card.SetData(answercard.Of(m.Answer))
	v.content.Refresh()
}

// show shows a field, or hides it: Enter goes past what is hidden.
func (v *View) show(key string, shown bool) {
	f := v.fields[key]
	if f.Hidden = !shown; shown {
		f.Input().Show()
	} else {
		f.Input().Hide()
	}
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.fields[Gauge].Input() }

// Open begins the call with the person of a target, or with nobody known.
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
