package sheet

import (
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
)

// worksheet reads one sheet as a stream. The spreadsheet library is not used
// here: it can't tell a date from a number, a hidden row or a merged cell
// without loading the whole sheet.
type worksheet struct {
	*workbook
	table  *Table
	row    Row
	cell   xmlCell
	text   richText
	ended  bool // the closing tag of the sheet was seen
	merges []area
	widest int // columns of the widest row
	seen   findings
}

// xmlCell is one cell as the file has it.
type xmlCell struct {
	column   int
	kind     string
	style    int
	value    []byte
	inValue  bool
	hasValue bool
	formula  bool
}

func (w *worksheet) read(r io.Reader) error {
	d := xml.NewDecoder(r)
	for {
		token, err := d.RawToken()
		if err == io.EOF {
			if !w.ended {
				return w.broken(io.ErrUnexpectedEOF)
			}
			return w.spread()
		}
		if err == nil {
			err = w.take(token)
		}
		if err != nil {
			return w.broken(err)
		}
	}
}

func (w *worksheet) take(token xml.Token) error {
	if w.text.take(token) {
		return nil
	}
	switch token := token.(type) {
	case xml.StartElement:
		return w.start(token)
	case xml.CharData:
		if w.cell.inValue {
			w.cell.value = append(w.cell.value, token...)
		}
	case xml.EndElement:
		switch token.Name.Local {
		case "v":
			w.cell.inValue = false
		case "c":
			return w.endCell()
		case "row":
			return w.endRow()
		case "worksheet":
			w.ended = true
		}
	}
	return nil
}

func (w *worksheet) start(e xml.StartElement) error {
	switch e.Name.Local {
	case "row":
		return w.startRow(e.Attr)
	case "c":
		return w.startCell(e.Attr)
	case "v":
		w.cell.inValue, w.cell.hasValue = true, true
	case "f":
		w.cell.formula = true
	case "mergeCell":
		for _, a := range e.Attr {
			if a.Name.Local != "ref" {
				continue
			}
			merged, err := parseArea(a.Value)
			if err != nil {
				return err
			}
			if w.merges = append(w.merges, merged); len(w.merges) > maxMerges {
				return tooLarge(w.file)
			}
		}
	}
	return nil
}

func (w *worksheet) startRow(attrs []xml.Attr) error {
	last := w.row.Number
	w.row = Row{Number: last + 1, Cells: make([]Cell, 0, len(w.row.Cells))}
	for _, a := range attrs {
		switch a.Name.Local {
		case "r":
			number, err := strconv.Atoi(a.Value)
			if err != nil || number <= last || number > maxRows {
				return fmt.Errorf("row number %q after row %d", a.Value, last)
			}
			w.row.Number = number
		case "hidden":
			if isTrue(a.Value) {
				w.seen.hidden = append(w.seen.hidden, w.row.Number)
			}
		}
	}
	w.cell.column = -1
	return nil
}

func (w *worksheet) startCell(attrs []xml.Attr) error {
	w.cell = xmlCell{column: w.cell.column + 1, value: w.cell.value[:0]}
	for _, a := range attrs {
		switch a.Name.Local {
		case "r":
			column, _, err := parseReference(a.Value)
			if err != nil || column < w.cell.column {
				return fmt.Errorf("cell %q is out of place", a.Value)
			}
			w.cell.column = column
		case "t":
			w.cell.kind = a.Value
		case "s":
			style, err := strconv.Atoi(a.Value)
			if err != nil {
				return fmt.Errorf("style %q is not a number", a.Value)
			}
			w.cell.style = style
		}
	}
	if w.cell.column >= maxColumns {
		return fmt.Errorf("column %d is beyond the format's limit", w.cell.column)
	}
	return nil
}

func (w *worksheet) endCell() error {
	cell, err := w.shown()
	if err != nil {
		return err
	}
	w.seen.note(&w.cell, cell, w.formats.of(w.cell.style), w.row.Number)
	if cell.Text == "" {
		return nil
	}
	if err := w.budget.spend(w.cell.column + 1 - len(w.row.Cells)); err != nil {
		return err
	}
	for len(w.row.Cells) < w.cell.column {
		w.row.Cells = append(w.row.Cells, Cell{})
	}
	w.row.Cells = append(w.row.Cells, cell)
	w.widest = max(w.widest, len(w.row.Cells))
	return nil
}

func (w *worksheet) endRow() error {
	if len(w.row.Cells) > 0 {
		w.table.Rows = append(w.table.Rows, w.row)
	}
	return nil
}

// shown returns the cell as a person sees it.
func (w *worksheet) shown() (Cell, error) {
	value := string(w.cell.value)
	switch w.cell.kind {
	case "s":
		if value == "" {
			return Cell{}, nil
		}
		i, err := strconv.Atoi(value)
		if err != nil || i < 0 || i >= len(w.texts) {
			return Cell{}, fmt.Errorf("text number %q is missing", value)
		}
		return Cell{Text: w.texts[i].shown, Raw: w.texts[i].raw}, nil
	case "inlineStr":
		raw := w.text.done()
		return Cell{Text: clean(raw), Raw: raw}, nil
	case "b":
		text := "FALSE"
		if isTrue(value) {
			text = "TRUE"
		}
		return Cell{Text: text, Raw: value}, nil
	case "str", "e", "d":
		raw := unescaped(value)
		return Cell{Text: clean(raw), Raw: raw}, nil
	}
	return w.formats.number(value, w.cell.style, w.date1904), nil
}
