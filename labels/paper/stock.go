package paper

import (
	"fmt"

	"lungwort/inventory/refusal"
)

// Stock is label paper, described by its dimensions. A roll is a page that
// holds one label.
type Stock struct {
	Name               string
	Page               Format
	Rows, Columns      int
	Width, Height      MM // of one label
	Left, Top          MM // from the page's corner to the first label
	GapAcross, GapDown MM // between neighbouring labels
}

// Stocks are the label papers known without setting up one's own.
var Stocks = []Stock{
	{Name: "A4, 3 × 8, 63.5 × 33.9 mm", Page: A4, Rows: 8, Columns: 3, Width: 63.5, Height: 33.9, Left: 7.2, Top: 12.9, GapAcross: 2.5},
	{Name: "A4, 2 × 4, 99 × 67.7 mm", Page: A4, Rows: 4, Columns: 2, Width: 99, Height: 67.7, Left: 4.7, Top: 13.1, GapAcross: 2.6},
	{Name: "Letter, 3 × 10, 2⅝ × 1 in", Page: Letter, Rows: 10, Columns: 3, Width: 66.675, Height: 25.4, Left: 4.76, Top: 12.7, GapAcross: 3.18},
	{Name: "Letter, 2 × 5, 4 × 2 in", Page: Letter, Rows: 5, Columns: 2, Width: 101.6, Height: 50.8, Left: 4.76, Top: 12.7, GapAcross: 3.18},
	Roll("Roll, 62 × 29 mm", 62, 29),
	Roll("Roll, 100 × 50 mm", 100, 50),
	Roll("Roll, 40 × 20 mm", 40, 20),
}

// Roll returns a stock of single labels.
func Roll(name string, width, height MM) Stock {
	return Stock{Name: name, Page: Format{name, width, height}, Rows: 1, Columns: 1, Width: width, Height: height}
}

// PerSheet is how many labels one page holds.
func (s Stock) PerSheet() int { return s.Rows * s.Columns }

// leastLabel is the smallest label that holds a code and a tag beside it.
const leastLabel MM = 12

// Check refuses a stock that can't be printed on.
func (s Stock) Check() error {
	invalid := func(says, next string) error {
		return refusal.New(refusal.Invalid, fmt.Sprintf("The label stock %q %s.", s.Name, says), next)
	}
	across := s.Left + MM(s.Columns)*s.Width + MM(s.Columns-1)*s.GapAcross
	down := s.Top + MM(s.Rows)*s.Height + MM(s.Rows-1)*s.GapDown
	const slack MM = 0.05 // dimensions are given to a tenth of a millimetre
	switch {
	case s.Rows < 1 || s.Columns < 1 || s.PerSheet() > 1000:
		return invalid("has no sensible number of rows and columns", "Count the labels across and down one page.")
	case !(s.Width >= leastLabel) || !(s.Height >= leastLabel):
		return invalid(fmt.Sprintf("has labels under %.0f mm", leastLabel), "Measure one label, not the gap.")
	case !(s.Left >= 0) || !(s.Top >= 0) || !(s.GapAcross >= 0) || !(s.GapDown >= 0):
		return invalid("has a negative margin or gap", "Give every length as measured on the sheet.")
	case !(across <= s.Page.Width+slack) || !(down <= s.Page.Height+slack):
		return invalid(fmt.Sprintf("needs %.1f × %.1f mm, but its page is %.1f × %.1f mm", across, down, s.Page.Width, s.Page.Height),
			"Measure margins, labels and gaps again.")
	}
	return nil
}

// corner is the top left corner of the label at a place of the page, counted
// from 0 along the rows.
func (s Stock) corner(place int) (x, y MM) {
	column, row := MM(place%s.Columns), MM(place/s.Columns)
	return s.Left + column*(s.Width+s.GapAcross), s.Top + row*(s.Height+s.GapDown)
}
