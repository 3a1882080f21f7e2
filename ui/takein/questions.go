package takein

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/widgets"
)

// questions is the part of the screen where questions are answered: the
// questions at the left, the answers of the one in hand at the right.
type questions struct {
	model   *Model
	list    *widgets.Rows
	choices *widgets.Rows
	asks    *widget.Label
	about   *widget.Label
	free    *widgets.Text
	inFree  *widgets.Field
	content fyne.CanvasObject
}

func newQuestions(m *Model) *questions {
	q := &questions{model: m, asks: widget.NewLabel(""), about: widget.NewLabel(""), free: widgets.NewText()}
	q.list = widgets.NewRows([]widgets.Column{{}, {Width: 150}}, "Nothing has to be asked.")
	q.list.OnHand = func(string) { q.drawHand() }
	q.list.OnOpen = func(string) { q.enter() }
	q.choices = widgets.NewRows([]widgets.Column{{Width: 16}, {}}, "")
	q.choices.OnOpen = func(value string) { q.answer(value) }
	q.choices.OnLeave = func() { q.focus(q.list.Keyboard()) }
	q.choices.OnRune = q.digit
	q.free.OnSubmitted = func(text string) { q.answer(text) }
	q.inFree = widgets.NewField("Answer", q.free, "Enter answers").Narrow(64)
	q.asks.Wrapping, q.asks.TextStyle.Bold = fyne.TextWrapWord, true
	q.about.Wrapping = fyne.TextWrapWord
	answers := container.NewBorder(container.NewVBox(q.asks, q.about), q.inFree, nil, nil, q.choices)
	q.content = container.New(halves{}, q.list, widgets.NewPanel(answers))
	return q
}

func (q *questions) focus(to fyne.Focusable) {
	if w := widgets.WindowOf(q.content); w != nil {
		w.Canvas().Focus(to)
	}
}

// enter goes on to the answers.
func (q *questions) enter() {
	if q.choices.Len() > 0 {
		q.focus(q.choices.Keyboard())
		return
	}
	q.focus(q.free)
}

// digit answers by the number of a choice.
func (q *questions) digit(r rune) bool {
	n, err := strconv.Atoi(string(r))
	a, ok := q.hand()
	if err != nil || !ok || n < 1 || n > len(a.Choices) {
		return false
	}
	q.answer(a.Choices[n-1].Value)
	return true
}

// answer answers the question in hand and goes on to the next.
func (q *questions) answer(value string) {
	a, ok := q.hand()
	if !ok || value == "" {
		return
	}
	q.free.SetText("")
	q.focus(q.list.Keyboard())
	q.list.Take(q.after(a.Key))
	q.model.Answer(a.Key, value)
}

// after is the open question that follows one, or the first.
func (q *questions) after(key string) string {
	first, passed := key, false
	for _, a := range q.model.Asked() {
		switch {
		case a.Key == key:
			passed = true
		case a.Answer == "" && passed:
			return a.Key
		case a.Answer == "" && first == key:
			first = a.Key
		}
	}
	return first
}

// hand is the question in hand.
func (q *questions) hand() (Asked, bool) {
	for _, a := range q.model.Asked() {
		if a.Key == q.list.InHand() {
			return a, true
		}
	}
	return Asked{}, false
}

func (q *questions) draw() {
	asked := q.model.Asked()
	rows := make([]widgets.Row, len(asked))
	for i, a := range asked {
		state := widgets.Cell{Text: "asks", Ink: scene.Caution, Bold: true}
		if a.Answer != "" {
			state = widgets.Cell{Text: a.Answer, Below: a.Before, Ink: scene.Fine}
		}
		below := "rows " + a.Rows
		if a.Examples != "" {
			below = "“" + a.Examples + "” in rows " + a.Rows
		}
		rows[i] = widgets.Row{ID: a.Key, Cells: []widgets.Cell{{Text: a.Asks, Below: below, Bold: a.Answer == ""}, state}}
	}
	q.list.SetRows(rows)
	q.drawHand()
}

func (q *questions) drawHand() {
	a, ok := q.hand()
	q.asks.SetText(a.Asks)
	q.about.SetText("")
	if ok {
		q.about.SetText("One answer serves rows " + a.Rows + ".")
		if a.Examples != "" {
			q.about.SetText(fmt.Sprintf("They say, for example: %s. One answer serves rows %s.", a.Examples, a.Rows))
		}
	}
	if a.Before != "" {
		q.about.SetText(strings.ToUpper(a.Before[:1]) + a.Before[1:] + "; another answer counts from now on. " + q.about.Text)
	}
	rows := make([]widgets.Row, len(a.Choices))
	for i, c := range a.Choices {
		number := ""
		if i < 9 {
			number = strconv.Itoa(i + 1)
		}
		rows[i] = widgets.Row{ID: c.Value, Cells: []widgets.Cell{{Text: number, Ink: scene.Faint, Bold: true}, {Text: c.Value, Below: c.Says, Bold: true}}}
		if c.Value == a.Answer {
			rows[i].Cells[1].Ink = scene.Fine
		}
	}
	q.choices.SetRows(rows)
	q.inFree.Hidden = !ok || !a.Free
	q.content.Refresh()
}

// halves gives the answers a little less than half.
type halves struct{}

func (halves) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(600, max(objects[0].MinSize().Height, objects[1].MinSize().Height))
}

func (halves) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	left := size.Width * 0.56
	objects[0].Resize(fyne.NewSize(left, size.Height))
	objects[1].Move(fyne.NewPos(left+12, 0))
	objects[1].Resize(fyne.NewSize(size.Width-left-12, size.Height))
}
