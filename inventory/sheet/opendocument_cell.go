package sheet

import (
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// odfCell is one cell as the file has it.
type odfCell struct {
	open      bool
	paragraph bool // inside one
	kind      string
	value     string
	style     string
	formula   bool
	failed    bool
	times     int // how often it stands in the row
	across    int // columns and rows it spans
	down      int
	text      strings.Builder
}

func (o *openDocument) startOfCell(e xml.StartElement, attr func(string) string) {
	o.odf = odfCell{
		open: true, kind: attr("value-type"), style: attr("style-name"), formula: attr("formula") != "",
		times: repeats(attr("number-columns-repeated")), across: repeats(attr("number-columns-spanned")), down: repeats(attr("number-rows-spanned")),
	}
	for _, name := range []string{"date-value", "time-value", "boolean-value", "string-value", "value"} {
		if o.odf.value = attr(name); o.odf.value != "" {
			break
		}
	}
	for _, a := range e.Attr {
		o.odf.failed = o.odf.failed || a.Name.Space == "calcext" && a.Value == "error"
	}
}

func (o *openDocument) endOfCell() error {
	c := &o.odf
	c.open, c.paragraph = false, false
	cell, column := c.shown(), o.cell.column
	o.cell.column += c.times
	if o.cell.column > maxColumns+1 {
		return fmt.Errorf("column %d is beyond the format's limit", o.cell.column)
	}
	kind := ""
	if c.failed {
		kind = "e"
	}
	o.seen.note(&xmlCell{kind: kind, formula: c.formula && c.kind == "" && !c.failed}, cell, o.looks[c.style], o.row.Number)
	if cell.Text == "" {
		return nil
	}
	if err := o.budget.spend(o.cell.column - len(o.row.Cells)); err != nil {
		return err
	}
	for len(o.row.Cells) < column {
		o.row.Cells = append(o.row.Cells, Cell{})
	}
	for range c.times {
		o.row.Cells = append(o.row.Cells, cell)
	}
	o.widest = max(o.widest, len(o.row.Cells))
	if c.across > 1 || c.down > 1 {
		o.merges = append(o.merges, area{column, o.row.Number, column + c.across - 1, o.row.Number + c.down - 1})
		if len(o.merges) > maxMerges {
			return tooLarge(o.file)
		}
	}
	return nil
}

// shown returns the cell as a person sees it. A day keeps the number a
// spreadsheet has for it, so that it is known to be one.
func (c *odfCell) shown() Cell {
	text := c.text.String()
	switch c.kind {
	case "date":
		for _, layout := range []string{"2006-01-02", "2006-01-02T15:04:05", "2006-01-02T15:04:05.999999999"} {
			if t, err := time.Parse(layout, c.value); err == nil {
				return Cell{Text: When{Time: t, Clock: strings.ContainsRune(c.value, 'T')}.String(), Raw: strconv.FormatFloat(dayNumber(t), 'f', -1, 64), Serial: true}
			}
		}
	case "float", "currency", "percentage":
		cell := Cell{Text: clean(text), Raw: c.value}
		switch v, err := strconv.ParseFloat(c.value, 64); {
		case err != nil:
		case cell.Text == "":
			cell.Text = shownGeneral(v)
		case cell.Shortened():
			cell.Text = inFull(cell.Text, v)
		}
		return cell
	case "boolean":
		return Cell{Text: strings.ToUpper(c.value), Raw: c.value}
	}
	if text == "" && c.kind == "string" {
		text = c.value
	}
	return Cell{Text: clean(text), Raw: text}
}
