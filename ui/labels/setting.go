package labels

import (
	"fmt"
	"strconv"
	"strings"

	"lungwort/labels/paper"
	"lungwort/ui/widgets"
)

// setting is the form of the label paper and the printer.
type setting struct {
	model         *Model
	form          *widgets.Form
	paper, size   *widgets.Choice
	printer, to   *widgets.Choice
	first, copies *widgets.Text
	inSize, inTo  *widgets.Field
	inFirst       *widgets.Field
	inCopies      *widgets.Field
	drawing       bool
}

// labelRoom is the room for the labels of the form, in points.
const labelRoom = 92

func newSetting(m *Model) *setting {
	s := &setting{model: m, first: widgets.NewText(), copies: widgets.NewText()}
	s.paper = choice(s.choosePaper, "", options(m.papers())...)
	s.size = choice(s.chooseSize, "")
	s.printer = choice(s.choosePrinter, "", options([]string{"203", "300", "600"})...)
	s.first.OnChanged = func(string) { s.count() }
	s.copies.OnChanged = func(string) { s.count() }
	s.to = choice(m.PrintOn, "")
	s.inTo = widgets.NewField("To", s.to, "with the label paper last put into it").Narrow(labelRoom)
	s.inFirst = widgets.NewField("First free", s.first, "").Narrow(labelRoom)
	s.inCopies = widgets.NewField("Copies", s.copies, "").Narrow(labelRoom)
	s.inSize = widgets.NewField("Label", s.size, "").Narrow(labelRoom)
	s.form = widgets.NewForm("Print", s.inTo, widgets.NewField("Paper", s.paper, "").Narrow(labelRoom), s.inSize,
		widgets.NewField("Printer", s.printer, "dots per inch: its manual says").Narrow(labelRoom), s.inFirst, s.inCopies)
	s.form.OnSubmit = m.Print
	return s
}

func options(values []string) []widgets.Option {
	list := make([]widgets.Option, len(values))
	for i, v := range values {
		list[i] = widgets.Option{Value: v, Label: v}
	}
	return list
}

func (s *setting) choosePaper(kind string) {
	s.set(s.model.stocksOn(kind)[0])
}

func (s *setting) chooseSize(name string) {
	for _, stock := range s.model.stocksOn(s.paper.Value()) {
		if stock.Name == name {
			s.set(stock)
		}
	}
}

func (s *setting) set(stock paper.Stock) {
	s.model.Stock, s.model.First = stock, 1
	s.model.Changed()
}

func (s *setting) choosePrinter(dpi string) {
	n, err := strconv.Atoi(dpi)
	if err == nil {
		s.model.DPI = paper.DPI(n)
		s.model.Changed()
	}
}

// count reads the two numbers; what is no number is said under its field.
func (s *setting) count() {
	if s.drawing {
		return
	}
	first, err1 := whole(s.first.Text, s.model.Stock.PerSheet())
	copies, err2 := whole(s.copies.Text, 100)
	s.inFirst.SetError(err1)
	s.inCopies.SetError(err2)
	if err1 == nil && err2 == nil {
		s.model.First, s.model.Copies = first, copies
		s.model.Changed()
	}
}

func whole(text string, most int) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || n < 1 || n > most {
		return 0, fmt.Errorf("write a number from 1 to %d", most)
	}
	return n, nil
}

// draw shows the setting. A number that is being written is left alone.
func (s *setting) draw() {
	s.drawing = true
	defer func() { s.drawing = false }()
	stock := s.model.Stock
	s.inTo.Hidden = len(s.model.Printers) == 0
	s.to.SetOptions(append([]widgets.Option{{Value: "", Label: "viewer"}}, options(s.model.Printers)...)...)
	s.to.SetValue(s.model.Printer)
	kind := s.model.paperOf(stock)
	s.paper.SetOptions(options(s.model.papers())...)
	s.paper.SetValue(kind)
	var sizes []widgets.Option
	for _, other := range s.model.stocksOn(kind) {
		sizes = append(sizes, widgets.Option{Value: other.Name, Label: s.model.sizeOf(other)})
	}
	s.size.SetOptions(sizes...)
	s.size.SetValue(stock.Name)
	s.printer.SetValue(strconv.Itoa(int(s.model.DPI)))
	s.inSize.SetHint("width and height, " + unitOf(stock))
	if kind == ownPaper {
		s.inSize.SetHint("described in the settings, under Paper and labels")
	}
	s.inFirst.Hidden = stock.PerSheet() == 1
	s.inFirst.SetHint(fmt.Sprintf("of %d, along the rows", stock.PerSheet()))
	put(s.first, s.model.First)
	put(s.copies, s.model.Copies)
	s.form.Refresh()
}

func put(t *widgets.Text, n int) {
	if at, err := strconv.Atoi(strings.TrimSpace(t.Entry.Text)); err != nil || at != n {
		t.SetText(strconv.Itoa(n))
	}
}
