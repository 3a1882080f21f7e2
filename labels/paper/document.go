package paper

import (
	"fmt"
	"io"
	"slices"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"lungwort/labels/typeface"
)

// grey is a tone of printing ink: 0 is black, 255 the white of the paper.
type grey int

const (
	black grey = 0
	mid   grey = 90  // words of second rank, over 4.5:1 on white
	light grey = 225 // grounds that words lie on
	white grey = 255
)

// document is a PDF in the making. It draws in millimetres from the top left
// corner of the page, cleans every text, and remembers what it couldn't show.
type document struct {
	pdf     *fpdf.Fpdf
	page    Format
	dpi     DPI // of the printer that codes are sized for
	unshown []rune
	face    face // set on the page now
}

// newDocument returns an empty document whose bytes depend on its content and
// the given time alone.
func newDocument(page Format, dpi DPI, name string, made time.Time) *document {
	size := fpdf.SizeType{Wd: float64(page.Width), Ht: float64(page.Height)}
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: size})
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(made)
	pdf.SetModificationDate(made)
	pdf.SetTitle(name, true)
	pdf.SetProducer("Lungwort", true)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(0, 0, 0)
	pdf.AddUTF8FontFromBytes("page", "", slices.Clone(typeface.Regular))
	pdf.AddUTF8FontFromBytes("page", "B", slices.Clone(typeface.Bold))
	return &document{pdf: pdf, page: page, dpi: dpi}
}

// addPage starts a new page of the document's format.
func (d *document) addPage() {
	d.pdf.AddPageFormat("P", fpdf.SizeType{Wd: float64(d.page.Width), Ht: float64(d.page.Height)})
	d.face = face{}
}

// write finishes the document.
func (d *document) write(w io.Writer) (Result, error) {
	pages := d.pdf.PageCount()
	if err := d.pdf.Output(w); err != nil {
		return Result{}, fmt.Errorf("write PDF: %w", err)
	}
	return Result{Pages: pages, Unshown: d.unshown}, nil
}

// clean returns printable text and remembers the signs that aren't.
func (d *document) clean(text string) string {
	text, unshown := clean(text)
	for _, r := range unshown {
		if !slices.Contains(d.unshown, r) {
			d.unshown = append(d.unshown, r)
		}
	}
	return text
}

// words draws one line of text whose top left corner is x, y.
func (d *document) words(x, y MM, f face, text string) {
	d.wordsOn(x, y, f, black, text)
}

// wordsOn draws one line of text in a tone.
func (d *document) wordsOn(x, y MM, f face, tone grey, text string) {
	d.baseline(x, y+f.ascent(), f, int(tone), int(tone), int(tone), d.clean(text))
}

// baseline draws clean text that stands on y.
func (d *document) baseline(x, y MM, f face, r, g, b int, text string) {
	if text == "" {
		return
	}
	if d.face != f {
		style := ""
		if f.bold {
			style = "B"
		}
		d.pdf.SetFont("page", style, f.size)
		d.face = f
	}
	d.pdf.SetTextColor(r, g, b)
	d.pdf.Text(float64(x), float64(y), text)
}

// lines breaks text into lines of the width, at most limit of them unless
// limit is zero.
func (d *document) lines(f face, text string, width MM, limit int) []string {
	return wrap(f, d.clean(text), width, limit)
}

// paragraph draws text broken to the width from x, y down, at most limit lines
// unless limit is zero, and returns its height.
func (d *document) paragraph(x, y MM, f face, width MM, text string, limit int) MM {
	lines := d.lines(f, text, width, limit)
	for i, line := range lines {
		d.words(x, y+MM(i)*f.leading(), f, line)
	}
	return MM(len(lines)) * f.leading()
}

// fitted draws text on one line, shortened with a mark if it must.
func (d *document) fitted(x, y MM, f face, width MM, text string) {
	d.words(x, y, f, fit(f, d.clean(text), width))
}

// rule draws a straight line of the given width.
func (d *document) rule(x1, y1, x2, y2, width MM, tone grey) {
	d.pdf.SetDrawColor(int(tone), int(tone), int(tone))
	d.pdf.SetLineWidth(float64(width))
	d.pdf.Line(float64(x1), float64(y1), float64(x2), float64(y2))
}

// box draws the edge of a rectangle.
func (d *document) box(x, y, w, h, width MM) {
	d.pdf.SetDrawColor(0, 0, 0)
	d.pdf.SetLineWidth(float64(width))
	d.pdf.Rect(float64(x), float64(y), float64(w), float64(h), "D")
}

// ground fills a rectangle.
func (d *document) ground(x, y, w, h MM, tone grey) {
	d.pdf.SetFillColor(int(tone), int(tone), int(tone))
	d.pdf.Rect(float64(x), float64(y), float64(w), float64(h), "F")
}

// tick draws an empty box to be ticked by hand, large enough for a wet pen.
const tickSide MM = 4

func (d *document) tick(x, y MM) { d.box(x, y, tickSide, tickSide, 0.45) }

// code draws payload as a QR code in a square of the given side, quiet zone
// included. A payload that can't be a code leaves a box that says so: the paper
// is still needed, and the tag stands beside it in words.
func (d *document) code(x, y, side MM, payload string) {
	c, err := fitCode(payload, side, d.dpi)
	if err != nil {
		d.box(x+1, y+1, side-2, side-2, 0.2)
		d.words(x+2, y+side/2-tiny.leading()/2, tiny, "no code")
		return
	}
	in := (side - c.side()) / 2
	d.pdf.RawWriteStr(string(c.draw(x+in, y+in, d.page.Height)))
}
