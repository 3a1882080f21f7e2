package widgets

// Typed is called after somebody typed into an input, or chose; Shown when a
// form opens over the window, and its result is called when it closes. They are
// the window's to set.
var (
	Typed = func() {}
	Shown = func(title string, inputs map[string]Input) (closed func()) { return func() {} }
)

// Inputs are the inputs of a screen's fields, by the names the screen has for
// them.
func Inputs[K ~string](fields map[K]*Field) map[string]Input {
	inputs := make(map[string]Input, len(fields))
	for name, f := range fields {
		inputs[string(name)] = f.input
	}
	return inputs
}

// typing is an input that knows whether what stands in it was typed by a
// person and not set since by the program.
type typing interface {
	typed() (text string, byHand bool)
	retype(text string)
}

// Written is what a person typed into inputs and nobody set otherwise since.
// What must not be read is left out.
func Written(inputs map[string]Input) map[string]string {
	texts := map[string]string{}
	for name, in := range inputs {
		if t, can := in.(typing); can {
			if text, byHand := t.typed(); byHand && text != "" {
				texts[name] = text
			}
		}
	}
	return texts
}

// Rewrite puts what was typed into inputs again, as if it were typed now.
func Rewrite(inputs map[string]Input, texts map[string]string) {
	for name, text := range texts {
		if t, can := inputs[name].(typing); can {
			t.retype(text)
		}
	}
	Typed()
}

func (t *Text) typed() (string, bool) { return t.Text, t.byHand && !t.Password }

func (t *Text) retype(text string) {
	t.SetText(text)
	t.byHand = true
}

// SetText sets the text for the program: a person did not type it.
func (t *Text) SetText(text string) {
	if text != t.Text {
		t.byHand = false
	}
	t.Entry.SetText(text)
}

// heed notes whether typing changed the text.
func (t *Text) heed(before string) {
	if t.Text != before {
		t.byHand = true
		Typed()
	}
}

func (c *Choice) typed() (string, bool) { return c.Value(), c.byHand }

func (c *Choice) retype(value string) {
	for i, o := range c.options {
		if o.Value == value {
			c.choose(i)
		}
	}
}
