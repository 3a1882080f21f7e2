// Package asker shows the forms of package ask over a window.
package asker

import (
	"time"

	"fyne.io/fyne/v2"

	"lungwort/inventory/refusal"
	"lungwort/ui/ask"
	"lungwort/ui/widgets"
)

// Asked is a form that is being answered.
type Asked struct {
	form   ask.Form
	loc    *time.Location
	fields []*widgets.Field
	inner  *widgets.Form
	dialog *widgets.Dialog
}

// Show shows a form over the window, times in loc.
func Show(win fyne.Window, form ask.Form, loc *time.Location) *Asked {
	a := &Asked{form: form, loc: loc}
	for _, f := range form.Fields {
		a.fields = append(a.fields, widgets.NewField(f.Label, a.input(f), f.Hint))
	}
	a.inner = widgets.NewForm(form.Button, a.fields...)
	a.inner.OnSubmit = a.submit
	a.inner.SetLead(form.Before, form.Danger)
	if form.Danger {
		a.inner.SetDanger()
	}
	a.dialog = widgets.ShowForm(win, form.Title, a.inner)
	a.update()
	return a
}

// input makes the input of a field.
func (a *Asked) input(f ask.Field) widgets.Input {
	switch f.Kind {
	case ask.Gauge:
		return a.amount(f.Value, "psi", "bar")
	case ask.Flow:
		return a.amount(f.Value, "L/min")
	case ask.Number:
		return a.amount(f.Value, f.Unit)
	case ask.Moment:
		return a.moment(f.Value)
	case ask.Pick:
		return a.pick(f)
	}
	t := widgets.NewText()
	if f.Kind == ask.Notes {
		t = widgets.NewNotes()
	}
	t.Password = f.Kind == ask.Secret
	t.SetText(f.Value)
	t.OnChanged = func(string) { a.update() }
	return t
}

func (a *Asked) amount(value string, units ...string) widgets.Input {
	q := widgets.NewQuantity(units...)
	q.SetText(value)
	show := q.OnChanged
	q.OnChanged = func(text string) {
		show(text)
		a.update()
	}
	return q
}

func (a *Asked) moment(value string) widgets.Input {
	w := widgets.NewWhen(a.loc)
	if t, err := time.Parse(time.RFC3339, value); err == nil {
		w.SetTime(t)
	}
	show := w.OnChanged
	w.OnChanged = func(text string) {
		show(text)
		a.update()
	}
	return w
}

func (a *Asked) pick(f ask.Field) widgets.Input {
	options := make([]widgets.Option, len(f.Options))
	for i, o := range f.Options {
		options[i] = widgets.Option{Value: o.Value, Label: o.Label}
	}
	c := widgets.NewChoice(options...)
	c.SetValue(f.Value)
	c.OnChanged = func(string) { a.update() }
	return c
}

// answers reads the inputs. What is wrong with a time only its input can say.
func (a *Asked) answers() (ask.Answers, ask.Wrong) {
	answers, wrong := ask.Answers{}, ask.Wrong{}
	for i, f := range a.form.Fields {
		switch in := a.fields[i].Input().(type) {
		case *widgets.Text:
			answers[f.Key] = in.Text
		case *widgets.Quantity:
			answers[f.Key] = in.Text.Text
		case *widgets.Choice:
			answers[f.Key] = in.Value()
		case *widgets.When:
			if in.Text.Text == "" {
				continue
			}
			t, err := in.Time()
			if err != nil {
				wrong[f.Key] = err
				continue
			}
			answers[f.Key] = t.Format(time.RFC3339)
		}
	}
	return answers, wrong
}

// update says anew what the answers mean.
func (a *Asked) update() {
	if a.form.Live == nil || a.dialog == nil {
		return
	}
	answers, _ := a.answers()
	a.inner.SetNote(a.form.Live(answers))
	a.dialog.Fit()
}

func (a *Asked) submit() {
	answers, wrong := a.answers()
	if len(wrong) == 0 {
		a.inner.SetReady(false)
		wrong = a.form.Submit(answers, a.closed)
	}
	if len(wrong) == 0 {
		return
	}
	a.inner.SetReady(true)
	errs := map[*widgets.Field]error{}
	for i, f := range a.form.Fields {
		errs[a.fields[i]] = wrong[f.Key]
	}
	a.inner.ShowErrors(errs)
	a.dialog.Fit()
}

// closed ends the form, or shows why the act was refused.
func (a *Asked) closed(err error) {
	if err == nil {
		a.dialog.Close()
		return
	}
	a.inner.SetReady(true)
	a.inner.ShowErrors(nil)
	a.inner.SetNote(refusal.For(err), true)
	a.dialog.Fit()
}

// Note is what the form says under its fields: what the answers mean, or why
// the act was refused.
func (a *Asked) Note() string { return a.inner.Note() }
