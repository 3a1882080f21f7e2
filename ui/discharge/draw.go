package discharge

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/meter"
	"lungwort/ui/widgets"
)

// draw shows the model.
func (v *View) draw() {
	v.drawing = true
	defer func() { v.drawing = false }()
	v.drawWaiting()
	v.drawFields()
	v.drawKit()
	v.drawAnswer()
	v.columns.Refresh()
	v.keepInSight()
}

func (v *View) drawWaiting() {
	m := v.model
	rows := []widgets.Row{{ID: "new", Cells: []widgets.Cell{{Text: "Somebody new", Below: "not in the book yet, or without an order", Bold: true}}}}
	for _, w := range m.Waiting {
		rows = append(rows, widgets.Row{ID: string(w.ID), Find: w.Name, Cells: []widgets.Cell{
			{Text: w.Name, Below: w.Home, Bold: true}, {Text: w.Order, Below: w.By}, {Text: w.Since},
		}})
	}
	v.waiting.SetRows(rows)
	v.columns.Hidden, v.chooser.(*fyne.Container).Hidden = m.Choosing, !m.Choosing
	v.who.TextStyle.Bold, v.who.SizeName = true, theme.SizeNameSubHeadingText
	v.who.SetText("Somebody new")
	if m.Known() {
		v.who.SetText("In the book")
	}
}

func (v *View) drawFields() {
	m := v.model
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
	for f, in := range v.whens {
		now, err := in.Time()
		switch want := m.Time(f); {
		case m.badTimes[f] != nil:
		case want.IsZero() && in.Text.Text != "":
			in.SetText("")
		case !want.IsZero() && (err != nil || !now.Equal(want)):
			in.SetTime(want.Truncate(time.Minute))
		}
	}
	v.parts.Set(m.AsksParts(), m.There())
	v.fields[Parts].Hidden = len(m.AsksParts()) == 0
	offer := v.model.SlotOffer()
	v.slot.SetText(offer)
	v.slot.Hidden = offer == ""
	offer = v.model.LaterOffer()
	v.later.SetText(offer)
	v.later.Hidden = offer == ""
	for f, field := range v.fields {
		field.SetHint(m.Hint(f))
		field.SetError(wrong(m.Wrong[f]))
	}
	for _, f := range []Field{Ride, SetUp, WarmUp} {
		v.texts[f].SetPlaceHolder(m.Usual(f))
	}
	continuous := m.Text(Setting) == ""
	v.fields[Bolus].Hidden, v.texts[Bolus].Hidden = continuous, continuous
	asks := m.AsksBands()
	v.fields[OwnBands].Hidden, v.texts[OwnBands].Hidden = !asks, !asks // Enter goes past what is hidden
}

func wrong(text string) error {
	if text == "" {
		return nil
	}
	return errors.New(text)
}

func (v *View) drawKit() {
	m := v.model
	options := make([]widgets.Option, len(m.Kits))
	for i, name := range m.Kits {
		options[i] = widgets.Option{Value: name, Label: name}
	}
	v.kits.SetOptions(options...)
	v.kits.SetValue(m.KitName)
	lines := make([]widgets.Line, len(m.Pieces))
	for i, p := range m.Pieces {
		l := widgets.Line{ID: p.ID(), Value: p.Gauge}
		l.Text, l.Below = m.Words(p)
		if p.Brought {
			l.Aside = "is brought"
		}
		if p.Item.Spec.Kind == inventory.Cylinder && !p.Brought {
			l.Asks = meter.Asks(p.Item.Spec)
		}
		if t, bad := m.Troubles[p.ID()]; bad {
			l.Wrong = t.Says
			if t.Instead != nil {
				l.Offer = "take " + t.Instead.Label() + " at " + t.Instead.Place.Name()
			}
		}
		lines[i] = l
	}
	v.lines.SetLines(lines)
	v.kitWrong.SetText(m.Wrong[Kit])
	v.kitWrong.Hidden = m.Wrong[Kit] == ""
}

func (v *View) drawAnswer() {
	m := v.model
	a := m.Answer
	data := widgets.AnswerData{
		Verdict: string(a.Verdict), Title: a.Title, Do: a.Do, Assumed: a.Assumed, Facts: a.Facts,
		Foot: strings.Join(m.Cautions(), " "),
	}
	if a.Needs > 0 {
		data.Low = delivery.Spell(a.Has)
		data.Range = fmt.Sprintf("of gas down to the reserve of %s; %s by the most generous method", m.Bridge.Reserve, delivery.Spell(a.Most))
		data.Help, data.HelpNote = delivery.Spell(a.Needs), m.Parts()
	}
	v.card.SetData(data)
	v.axis.Refresh()
	v.ribbon.Refresh()
	v.notes.Objects = v.notes.Objects[:0]
	for _, n := range m.Notes() {
		label := widget.NewLabel(n)
		label.Wrapping, label.Importance, label.TextStyle.Bold = fyne.TextWrapWord, widget.WarningImportance, true
		v.notes.Add(label)
	}
	v.lacks.SetText("")
	if lacks := len(m.Wrong) + len(m.Troubles); m.tried && lacks > 0 {
		v.lacks.SetText(fmt.Sprintf("%d things are missing or wrong; the first has the keyboard.", lacks))
	}
	v.lacks.Hidden = v.lacks.Text == ""
}

// focus brings the keyboard to a field or a line of the kit.
func (v *View) focus(f Field, piece string) {
	target := v.target(f)
	if piece != "" {
		v.lines.Take(piece)
	}
	if w := widgets.WindowOf(v.content); w != nil {
		w.Canvas().Focus(target)
		v.keepInSight()
	}
}

func (v *View) target(f Field) fyne.Focusable {
	switch f {
	case Kit:
		return v.lines
	case Who:
		return v.waiting.Keyboard()
	}
	return v.fields[f].Input()
}

// keepInSight scrolls so that what has the keyboard can be seen.
func (v *View) keepInSight() {
	w := widgets.WindowOf(v.content)
	if w == nil {
		return
	}
	focused, ok := w.Canvas().Focused().(fyne.CanvasObject)
	if !ok {
		return
	}
	driver := fyne.CurrentApp().Driver()
	for _, scroll := range v.scrolls {
		at := driver.AbsolutePositionForObject(focused).Subtract(driver.AbsolutePositionForObject(scroll))
		if at.X < 0 || at.X > scroll.Size().Width {
			continue
		}
		if over := at.Y + focused.Size().Height - scroll.Size().Height; over > 0 {
			scroll.ScrollToOffset(scroll.Offset.AddXY(0, over))
		} else if at.Y < 0 {
			scroll.ScrollToOffset(scroll.Offset.AddXY(0, at.Y))
		}
	}
}

func (v *View) confirm(title, text, button string, do func()) {
	if w := widgets.WindowOf(v.content); w != nil {
		widgets.Warn(w, title, text, button, do)
	}
}
