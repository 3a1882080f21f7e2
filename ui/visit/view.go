package visit

import (
	"errors"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
	"lungwort/ui/meter"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen on which a stop is closed.
type View struct {
	model       *Model
	title       *widget.Label
	planned     *widget.Label
	leave, take *widgets.Lines
	things      *widget.Label // what is wrong with the lists as a whole
	fields      map[Field]*widgets.Field
	texts       map[Field]*widgets.Text
	picks       map[Field]*widgets.Choice
	whens       map[Field]*widgets.When
	mind        *widget.Label
	close       *widgets.Button
	right       *fyne.Container
	drawing     bool
	content     fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{
		model: NewModel(w), title: heading(""), planned: widget.NewLabel(""), things: widget.NewLabel(""), mind: widget.NewLabel(""),
		fields: map[Field]*widgets.Field{}, texts: map[Field]*widgets.Text{}, picks: map[Field]*widgets.Choice{}, whens: map[Field]*widgets.When{},
		leave: widgets.NewLines("Nothing was to be left. Scan what was."),
		take:  widgets.NewLines("Nothing was to be taken. Scan what was."),
	}
	v.model.Changed, v.model.Focus, v.model.Confirm = v.draw, v.focus, v.confirm
	v.things.Importance, v.things.Wrapping = widget.DangerImportance, fyne.TextWrapWord
	v.mind.Wrapping = fyne.TextWrapWord
	for _, lines := range []*widgets.Lines{v.leave, v.take} {
		v.wire(lines)
	}
	v.layout()
	return v
}

func heading(text string) *widget.Label {
	h := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	h.SizeName = theme.SizeNameSubHeadingText
	return h
}

func (v *View) wire(lines *widgets.Lines) {
	lines.OnValue, lines.OnTick, lines.OnDrop = v.model.SetValue, v.model.Tick, v.model.Drop
	lines.OnEnter = func(id, text string) bool {
		if !meter.Scanned(text) {
			return false
		}
		v.model.SetValue(id, "")
		return v.model.Scan(text)
	}
}

func (v *View) when(f Field, label string) {
	in := widgets.NewWhen(v.model.work.Now().Location())
	in.ClockOn(v.model.work.Now)
	shown := in.OnChanged
	in.OnChanged = func(text string) {
		shown(text)
		if v.drawing {
			return
		}
		t, err := in.Time()
		if strings.TrimSpace(text) == "" {
			err = nil
		}
		v.model.SetTime(f, t, err)
	}
	v.whens[f], v.fields[f] = in, widgets.NewField(label, in, "")
}

func (v *View) pick(f Field, label string, options ...widgets.Option) {
	in := widgets.NewChoice(options...)
	in.OnChanged = func(value string) { v.model.Set(f, value) }
	v.picks[f], v.fields[f] = in, widgets.NewField(label, in, "")
}

func (v *View) text(f Field, label, placeholder string) {
	in := widgets.NewText()
	in.PlaceHolder = placeholder
	in.OnChanged = func(text string) { v.model.Set(f, text) }
	v.texts[f], v.fields[f] = in, widgets.NewField(label, in, "")
}

func (v *View) layout() {
	v.when(Happened, "When it was")
	v.pick(Outcome, "The stop is", widgets.Option{Value: Done, Label: Done}, widgets.Option{Value: Failed, Label: Failed})
	v.pick(Runs, "Concentrator runs", widgets.Option{Value: Yes, Label: Yes}, widgets.Option{Value: No, Label: No})
	v.text(Oxygen, "Oxygen", "percent, after warm-up")
	v.text(Given, "Supplies given", "as 2 cannula lot C77, 1 extension tubing")
	v.text(Reason, "Why it failed", "nobody home, road closed, refused")
	v.when(Next, "Next try")
	v.close = widgets.NewMainButton("Close the stop   Ctrl+Enter", v.model.Close)
	all := widgets.NewButton("Tick all as planned", v.model.TickAll)
	v.right = container.NewVBox(
		v.fields[Happened], v.fields[Outcome], v.fields[Runs], v.fields[Oxygen], v.fields[Given], v.fields[Reason], v.fields[Next],
		v.things, v.close, widgets.NewPanel(v.mind))
	lists := container.NewGridWithRows(2,
		container.NewBorder(container.NewBorder(nil, nil, heading("Left there"), all), nil, nil, nil, v.leave),
		container.NewBorder(heading("Taken along"), nil, nil, nil, v.take))
	top := container.NewHBox(v.title, v.planned)
	v.content = container.NewBorder(top, nil, nil, nil, container.NewGridWithColumns(2, container.NewPadded(lists), container.NewPadded(v.right)))
	widgets.Link(v.model.Close, nil, v.leave, v.take,
		v.whens[Happened], v.picks[Outcome], v.picks[Runs], v.texts[Oxygen], v.texts[Given], v.texts[Reason], v.whens[Next])
}

func (v *View) draw() {
	v.drawing = true
	defer func() { v.drawing = false }()
	m := v.model
	v.title.SetText(m.Title())
	v.planned.SetText(m.Planned())
	v.leave.SetLines(lines(m.Rows(m.Leave)))
	v.take.SetLines(lines(m.Rows(m.Take)))
	v.things.SetText(m.Wrong[Things])
	v.things.Hidden = m.Wrong[Things] == ""
	for f, in := range v.texts {
		if in.Text != m.Text(f) {
			in.SetText(m.Text(f))
		}
	}
	for f, in := range v.picks {
		if in.Value() != m.Text(f) {
			in.SetValue(m.Text(f))
		}
	}
	v.drawTimes()
	for f, field := range v.fields {
		field.SetError(wrong(m.Wrong[f]))
	}
	v.fields[Happened].SetHint(m.Late())
	failed := m.Text(Outcome) == Failed
	v.fields[Reason].Hidden, v.fields[Next].Hidden = !failed, !failed
	v.fields[Runs].Hidden, v.fields[Oxygen].Hidden, v.fields[Given].Hidden = failed, failed, failed
	v.fields[Given].SetHint(m.AskedFor())
	// Inputs are skipped by Enter as their fields are.
	for f, field := range v.fields {
		if in, ok := field.Input().(fyne.CanvasObject); ok && f != Happened && f != Outcome {
			setVisible(in, !field.Hidden)
		}
	}
	v.mind.SetText(strings.Join(m.Mind(), "\n"))
	v.right.Refresh()
}

func setVisible(o fyne.CanvasObject, visible bool) {
	if visible {
		o.Show()
		return
	}
	o.Hide()
}

func wrong(text string) error {
	if text == "" {
		return nil
	}
	return errors.New(text)
}

func (v *View) drawTimes() {
	for f, in := range v.whens {
		now, err := in.Time()
		switch want := v.model.Time(f); {
		case v.model.badAt[f] != nil:
		case want.IsZero() && in.Text.Text != "":
			in.SetText("")
		case !want.IsZero() && (err != nil || !now.Equal(want.Truncate(time.Minute))):
			in.SetTime(want.Truncate(time.Minute))
		}
	}
}

func lines(rows []Row) []widgets.Line {
	list := make([]widgets.Line, len(rows))
	for i, r := range rows {
		ticked := r.Ticked
		list[i] = widgets.Line{ID: r.ID, Text: r.Text, Below: r.Below, Tick: &ticked, Asks: r.Asks, Value: r.Value, Aside: r.Aside, Wrong: r.Wrong}
	}
	return list
}

func (v *View) focus(f Field, thing string) {
	var target fyne.Focusable = v.leave
	switch {
	case f != Things:
		target = v.fields[f].Input()
	case v.take.Has(thing):
		target = v.take
		v.take.Take(thing)
	default:
		v.leave.Take(thing)
	}
	if w := widgets.WindowOf(v.content); w != nil {
		w.Canvas().Focus(target)
	}
}

func (v *View) confirm(title, text, button string, do func()) {
	if w := widgets.WindowOf(v.content); w != nil {
		widgets.Warn(w, title, text, button, do)
	}
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.leave }

// Open shows the stop of a run for a person.
func (v *View) Open(t work.Target) { v.model.Load(t.Run, t.Person) }

// Scan ticks a scanned thing.
func (v *View) Scan(text string) bool { return v.model.Scan(text) }

// Typing returns the fields that take typing, by name.
func (v *View) Typing() (inventory.PersonID, map[string]widgets.Input) {
	return "", widgets.Inputs(v.fields)
}
