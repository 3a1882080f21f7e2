package sheet

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// encode writes one sheet. What the sheet as a whole looks like has to be
// set before its rows are streamed.
func (o Out) encode(f *excelize.File, look looks) error {
	if len(o.Rows)+len(o.preamble())+1 > maxRows {
		return o.tooLong()
	}
	headingRow := len(o.preamble()) + 1
	if err := o.setUp(f, headingRow); err != nil {
		return err
	}
	w, err := f.NewStreamWriter(o.Name)
	if err != nil {
		return err
	}
	if err := w.SetPanes(&excelize.Panes{Freeze: true, YSplit: headingRow, TopLeftCell: fmt.Sprintf("A%d", headingRow+1), ActivePane: "bottomLeft",
		Selection: []excelize.Selection{{SQRef: fmt.Sprintf("A%d", headingRow+1), ActiveCell: fmt.Sprintf("A%d", headingRow+1), Pane: "bottomLeft"}}}); err != nil {
		return err
	}
	// The library puts each width before those it has; the format wants them
	// in the order of the columns.
	for i, c := range slices.Backward(o.Columns) {
		if err := w.SetColWidth(i+1, i+1, c.width()); err != nil {
			return err
		}
		if c.Hidden {
			if err := w.SetColVisible(i+1, i+1, false); err != nil {
				return err
			}
		}
	}
	if err := o.streamHead(w, look); err != nil {
		return err
	}
	if err := o.streamRows(w, look, headingRow+1); err != nil {
		return err
	}
	return w.Flush()
}

// setUp prepares filter and printing: landscape, one page wide, headings and
// page numbers on every page.
func (o Out) setUp(f *excelize.File, headingRow int) error {
	if err := o.setFilter(f, headingRow); err != nil {
		return err
	}
	landscape, wide, tall, fit := "landscape", 1, 0, true
	if err := f.SetPageLayout(o.Name, &excelize.PageLayoutOptions{Orientation: &landscape, FitToWidth: &wide, FitToHeight: &tall}); err != nil {
		return err
	}
	side, end := 0.4, 0.5 // inches: a table this wide needs the paper
	if err := f.SetPageMargins(o.Name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &end, Bottom: &end}); err != nil {
		return err
	}
	if err := f.SetSheetProps(o.Name, &excelize.SheetPropsOptions{FitToPage: &fit}); err != nil {
		return err
	}
	if err := f.SetHeaderFooter(o.Name, &excelize.HeaderFooterOptions{OddFooter: "&L&A&R&P / &N"}); err != nil {
		return err
	}
	quoted := "'" + strings.ReplaceAll(o.Name, "'", "''") + "'"
	return f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: fmt.Sprintf("%s!$%d:$%d", quoted, headingRow, headingRow), Scope: o.Name})
}

// setFilter comes before the other properties of a sheet: the library's
// filter overwrites them.
func (o Out) setFilter(f *excelize.File, headingRow int) error {
	if len(o.Columns) == 0 {
		return nil
	}
	last, err := excelize.CoordinatesToCellName(len(o.Columns), headingRow+len(o.Rows))
	if err != nil {
		return err
	}
	return f.AutoFilter(o.Name, fmt.Sprintf("A%d:%s", headingRow, last), nil)
}

func (o Out) streamHead(w *excelize.StreamWriter, look looks) error {
	lines := o.preamble()
	for i, line := range lines {
		style := look.asOf
		if i == 0 && o.Title != "" {
			style = look.title
		}
		if err := w.SetRow(fmt.Sprintf("A%d", i+1), []any{excelize.Cell{StyleID: style, Value: fitting(storable(line))}}); err != nil {
			return err
		}
	}
	headings := make([]any, len(o.Columns))
	tall := 1
	for i, c := range o.Columns {
		style := look.heading
		if c.Kind != Text {
			style = look.headingRight
		}
		headings[i] = excelize.Cell{StyleID: style, Value: fitting(storable(c.Heading))}
		tall = max(tall, linesIn(c.Heading, c.width()-filterArrow))
	}
	return w.SetRow(fmt.Sprintf("A%d", len(lines)+1), headings, rowOf(tall)...)
}

// rowOf returns what makes a row so many lines tall.
func rowOf(lines int) []excelize.RowOpts {
	const tallest = 27 // of a row, in lines: the format's 409 points
	if lines < 2 {
		return nil
	}
	return []excelize.RowOpts{{Height: lineHeight * float64(min(lines, tallest))}}
}

func (o Out) streamRows(w *excelize.StreamWriter, look looks, from int) error {
	cells := make([]any, len(o.Columns))
	for i, row := range o.Rows {
		if len(row) > len(o.Columns) {
			return o.tooWide(i)
		}
		clear(cells)
		tall := 1
		for j, value := range row {
			stored, fits := numberOf(o.Columns[j].Kind, value)
			if !fits {
				return o.mismatch(i, j, value)
			}
			style := look.kinds[o.Columns[j].Kind]
			if text, isText := stored.(string); isText {
				text = fitting(storable(text))
				stored, style = text, look.kinds[Text]
				if !o.Columns[j].Hidden {
					tall = max(tall, linesIn(text, o.Columns[j].width()))
				}
			}
			if stored != nil {
				cells[j] = excelize.Cell{StyleID: style, Value: stored}
			}
		}
		if err := w.SetRow(fmt.Sprintf("A%d", from+i), cells, rowOf(tall)...); err != nil {
			return err
		}
	}
	return nil
}

// filterArrow is the room a heading leaves for its filter's arrow, in characters.
const filterArrow = 3

func (c Column) width() float64 {
	if c.Width > 0 {
		return min(c.Width, 255)
	}
	narrowest := [...]float64{Text: 12, Number: 9, Whole: 9, Day: 12, Time: 18, Duration: 9}[c.Kind]
	longest := 0
	for word := range strings.FieldsSeq(c.Heading) {
		longest = max(longest, utf8.RuneCountInString(word))
	}
	return min(max(narrowest, float64(longest)+filterArrow+1), 40)
}
