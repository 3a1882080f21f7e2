package paper

import (
	"fmt"
	"io"
	"time"

	"lungwort/inventory/refusal"
)

// Label is what stands on one item. It has no field for a person: a label is
// read by everybody.
type Label struct {
	Tag         string    // as printed for people to read and type
	Payload     string    // what the code says
	Kind        string    // "oxygen cylinder", "concentrator 5 L/min"
	Size        string    // a cylinder's size, "US-E"; empty for devices
	Owner       string    // whose it is
	RequalifyBy time.Time // a cylinder's month of requalification; zero for none
	ReturnPhone string    // whom to ring when it is found
	Note        string    // one short line more; may be empty
}

// LabelSheet is a batch of labels on one stock.
type LabelSheet struct {
	Stock   Stock
	DPI     DPI // the printer's resolution
	First   int // the first free label of the first page, from 1
	Copies  int // of each label, at least 1
	Labels  []Label
	Printed time.Time
}

// keepClear is printed on every label, since a label in the wrong place hides
// what the law or the machine's cooling needs.
const keepClear = "Do not cover drug label, stamps or vents"

// Print writes the labels, one after the other along the rows.
func (s LabelSheet) Print(w io.Writer) (Result, error) {
	if err := s.check(); err != nil {
		return Result{}, err
	}
	d := newDocument(s.Stock.Page, s.DPI, "Labels", s.Printed)
	place := s.First - 1
	d.addPage()
	for _, label := range s.Labels {
		for range s.Copies {
			if place == s.Stock.PerSheet() {
				d.addPage()
				place = 0
			}
			if err := d.label(s.Stock, place, label); err != nil {
				return Result{}, err
			}
			place++
		}
	}
	return d.write(w)
}

func (s LabelSheet) check() error {
	if err := s.Stock.Check(); err != nil {
		return err
	}
	switch {
	case len(s.Labels) == 0:
		return refusal.New(refusal.Invalid, "There is no label to print.", "Choose the items first.")
	case s.DPI < 150 || s.DPI > 2400:
		return refusal.New(refusal.Ask, fmt.Sprintf("A printer of %d dots per inch can't be meant.", s.DPI), "Choose 203, 300 or 600 dpi.")
	case s.First < 1 || s.First > s.Stock.PerSheet():
		return refusal.New(refusal.Invalid, fmt.Sprintf("There is no label %d on %s.", s.First, s.Stock.Name),
			fmt.Sprintf("Choose the first free label from 1 to %d.", s.Stock.PerSheet()))
	case s.Copies < 1 || s.Copies > 100:
		return refusal.New(refusal.Invalid, fmt.Sprintf("%d copies of each label can't be meant.", s.Copies), "Choose 1 to 100.")
	}
	return nil
}

// labelLine is one line beside the code. What must be read whole is never cut.
type labelLine struct {
	face  face
	text  string
	whole bool
}

// lines are the words of a label, most needed first.
func (l Label) lines() []labelLine {
	lines := []labelLine{{face{true, 15}, l.Tag, true}}
	add := func(f face, text string, whole bool) {
		if text != "" {
			lines = append(lines, labelLine{f, text, whole})
		}
	}
	kind := l.Kind
	if l.Size != "" {
		kind = l.Size + "  " + kind
	}
	add(face{true, 9}, kind, false)
	add(face{size: 8}, l.Owner, false)
	if !l.RequalifyBy.IsZero() {
		add(face{size: 8}, "requalify by "+l.RequalifyBy.Format("Jan 2006"), true)
	}
	if l.ReturnPhone != "" {
		add(face{true, 8}, "found? ring "+l.ReturnPhone, true)
	}
	add(face{size: 8}, l.Note, false)
	return lines
}

// labelPad is the free border of a label; the code brings its own.
const labelPad MM = 1.5

// labelFrame is how a label of a stock is divided: a code at the left, words to
// its right, the caution along the bottom.
type labelFrame struct {
	code    code
	x, y    MM   // of the code, from the label's corner
	tall    MM   // above the caution
	caution face // as large as the width and the label's size allow
}

// frame divides a label that carries payload.
func (s Stock) frame(payload string, dpi DPI) (labelFrame, error) {
	f := labelFrame{caution: face{size: 6 * min(max(1, float64(s.Height/30)), 1.5)}}
	if over := f.caution.width(keepClear) / (s.Width - 2*labelPad); over > 1 {
		f.caution.size /= float64(over)
	}
	f.tall = s.Height - 2*labelPad - f.caution.leading()
	c, err := fitCode(payload, min(f.tall, s.Width*0.45), dpi)
	if err != nil {
		return labelFrame{}, err
	}
	f.code, f.x, f.y = c, labelPad/2, labelPad+(f.tall-c.side())/2
	return f, nil
}

// laidLabel is one label with everything in its place, measured from the
// label's corner. Print and Preview both draw it.
type laidLabel struct {
	labelFrame

	lines []placedLine
}

// placedLine is a line of text with its top left corner.
type placedLine struct {
	x, y MM
	face face
	text string
}

// lay places the code and the words of a label on a stock.
func (s Stock) lay(l Label, dpi DPI, clean func(string) string) (laidLabel, error) {
	f, err := s.frame(l.Payload, dpi)
	if err != nil {
		return laidLabel{}, err
	}
	lines, ok := scaled(l.lines(), s.Width-2*labelPad-f.code.side(), f.tall, clean)
	if !ok {
		return laidLabel{}, refusal.New(refusal.Invalid,
			fmt.Sprintf("The label of %s doesn't fit %s.", l.Tag, s.Name), "Choose a larger label.")
	}
	var sum MM
	for _, line := range lines {
		sum += line.face.leading()
	}
	laid := laidLabel{labelFrame: f}
	at := labelPad + (f.tall-sum)/2
	for _, line := range lines {
		laid.lines = append(laid.lines, placedLine{labelPad + f.code.side(), at, line.face, line.text})
		at += line.face.leading()
	}
	laid.lines = append(laid.lines, placedLine{labelPad, s.Height - labelPad - f.caution.leading() + 0.4, f.caution, keepClear})
	return laid, nil
}

// label draws one label at a place of the page.
func (d *document) label(stock Stock, place int, l Label) error {
	laid, err := stock.lay(l, d.dpi, d.clean)
	if err != nil {
		return err
	}
	x, y := stock.corner(place)
	d.pdf.RawWriteStr(string(laid.code.draw(x+laid.x, y+laid.y, d.page.Height)))
	for _, line := range laid.lines {
		d.words(x+line.x, y+line.y, line.face, line.text)
	}
	return nil
}

// scaled sets lines as large as they fit together; a line that may be cut is
// first set smaller by itself, then cut. It gives up where the print would be
// too small to read, under five points.
func scaled(lines []labelLine, width, tall MM, clean func(string) string) ([]labelLine, bool) {
	for i := range lines {
		lines[i].text = clean(lines[i].text)
	}
	for percent := 200; percent >= 60; percent -= 5 {
		scale := float64(percent) / 100
		var sum MM
		fits := true
		for _, line := range lines {
			f := face{line.face.bold, line.face.size * scale}
			sum += f.leading()
			fits = fits && (!line.whole || f.width(line.text) <= width)
		}
		if !fits || sum > tall {
			continue
		}
		for i := range lines {
			lines[i].face.size *= scale
			lines[i].squeeze(width)
		}
		return lines, true
	}
	return nil, false
}

// squeeze makes a line fit the width: down to seven tenths of its size, then by
// cutting it.
func (l *labelLine) squeeze(width MM) {
	if over := float64(l.face.width(l.text) / width); over > 1 {
		l.face.size /= min(over*1.001, 1/0.7)
	}
	l.text = fit(l.face, l.text, width)
}
