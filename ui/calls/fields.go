package calls

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/ui/widgets"
)

func (v *View) text(f Field, label, unit string, room float32) *widgets.Field {
	var in *widgets.Text
	var input widgets.Input
	if unit == "" {
		in = widgets.NewText()
		input = in
	} else {
		q := widgets.NewQuantity(strings.Split(unit, "|")...)
		in, input = &q.Text, q
	}
	shown := in.OnChanged
	in.OnChanged = func(text string) {
		if shown != nil {
			shown(text)
		}
		if !v.drawing {
			v.model.Set(f, text)
		}
	}
	v.texts[f] = in
	v.fields[f] = widgets.NewField(label, input, "").Narrow(room)
	return v.fields[f]
}

func (v *View) pick(f Field, label string, options ...string) *widgets.Field {
	list := make([]widgets.Option, len(options))
	for i, o := range options {
		list[i] = widgets.Option{Value: o, Label: o}
	}
	in := widgets.NewChoice(list...)
	in.OnChanged = func(value string) { v.model.Set(f, value) }
	v.picks[f] = in
	v.fields[f] = widgets.NewField(label, in, "").Narrow(wide)
	return v.fields[f]
}

// moment asks for a time; the hour alone is today's.
func (v *View) moment(f Field, label string) *widgets.Field {
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
	v.times[f] = in
	v.fields[f] = widgets.NewField(label, in, "").Narrow(wide)
	return v.fields[f]
}

// caption is the line of the script under a row of two fields.
func (v *View) caption(f Field) fyne.CanvasObject {
	says := widget.NewLabel("")
	says.SizeName, says.Importance, says.Truncation = theme.SizeNameCaptionText, widget.LowImportance, fyne.TextTruncateEllipsis
	v.captions[f] = says
	return container.New(layout.NewCustomPaddedLayout(-9, -8, wide-8, 0), says)
}

func (v *View) inputs() {
	beside := func(a, b fyne.CanvasObject) fyne.CanvasObject { return container.NewGridWithColumns(2, a, b) }
	v.call = container.New(layout.NewCustomPaddedVBoxLayout(3),
		v.pick(Feels, "Feels", Better, Same, Worse),
		beside(v.text(SpO2, "SpO2, rest", "%", wide), v.text(Flow, "on", "L/min", 36)),
		v.caption(SpO2),
		beside(v.text(Exertion, "walking", "%", wide), v.text(Walking, "on", "L/min", 36)),
		v.text(Told, "Told", "", wide),
		v.text(Reply, "Their reply", "", wide),
		beside(v.text(Gauge, "Gauge", "psi|bar", wide), v.text(Hours, "Meter", "h", short)),
		v.caption(Gauge),
		v.pick(Saving, "Saving gas", No, Yes),
		v.text(Problem, "Problem", "", wide),
		v.text(Parts, "Bring", "", wide),
		v.moment(Next, "Next call"),
		v.moment(When, "Called at"),
	)
	inputs := make([]widgets.Input, 0, len(inOrder))
	for _, f := range inOrder {
		inputs = append(inputs, v.fields[f].Input())
	}
	widgets.Link(v.model.Save, func() { v.focus(Rows) }, inputs...)
}
