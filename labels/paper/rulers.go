package paper

import (
	"fmt"
	"io"
	"time"
)

// RulerPage is a test page for a stock: the outline and number of every label,
// and a ruler along the top and the left edge, to see by how much a printer
// shifts or scales.
type RulerPage struct {
	Stock   Stock
	Printed time.Time
}

// Print writes the page.
func (p RulerPage) Print(w io.Writer) (Result, error) {
	if err := p.Stock.Check(); err != nil {
		return Result{}, err
	}
	d := newDocument(p.Stock.Page, pageDPI, "Label test page", p.Printed)
	d.addPage()
	for place := range p.Stock.PerSheet() {
		x, y := p.Stock.corner(place)
		d.box(x, y, p.Stock.Width, p.Stock.Height, 0.15)
		said := fmt.Sprintf("%d  ·  %.1f × %.1f mm", place+1, p.Stock.Width, p.Stock.Height)
		d.words(x+(p.Stock.Width-small.width(said))/2, y+p.Stock.Height/2, small, said)
	}
	for at := MM(1); at < max(d.page.Width, d.page.Height); at++ {
		long := MM(1.5)
		if int(at)%10 == 0 {
			long = 4
			d.words(at+0.4, 2.2, tiny, fmt.Sprint(int(at)))
			d.words(4.4, at-1.5, tiny, fmt.Sprint(int(at)))
		}
		d.rule(at, 0, at, long, 0.1, black)
		d.rule(0, at, long, at, 0.1, black)
	}
	return d.write(w)
}
