package sheet

import (
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// openDocument reads the tables of an OpenDocument spreadsheet as a stream
// (OASIS OpenDocument 1.3, part 3, chapters 9 and 19). The stream is one part
// with all sheets; what stands in comments, pictures and recorded changes is
// no cell.
type openDocument struct {
	*worksheet // of the table under way
	tables     []Table
	looks      map[string]format // cell styles by name
	hiddenTabs map[string]bool   // table styles that hide their table
	style      string            // the style being described
	aside      int               // depth inside an element whose text is no cell's
	rows       int               // how often the row under way stands in the sheet
	odf        odfCell
}

// asides are the elements whose tables and paragraphs belong to no cell.
var asides = map[string]bool{
	"annotation": true, "tracked-changes": true, "shapes": true, "frame": true, "custom-shape": true, "forms": true,
	"dde-links": true, "content-validations": true, "rect": true, "line": true, "g": true,
}

func readOpenDocument(p *parts) ([]Table, error) {
	r, err := p.open("content.xml")
	if err != nil {
		return nil, err
	}
	defer r.Close()
	o := &openDocument{looks: map[string]format{}, hiddenTabs: map[string]bool{}}
	shared := &workbook{parts: p, budget: cellBudget{file: p.file}}
	ended := false
	for d := xml.NewDecoder(r); ; {
		token, err := d.RawToken()
		if err == io.EOF && ended {
			break
		}
		if err == io.EOF {
			err = io.ErrUnexpectedEOF
		}
		if err == nil {
			err = o.take(token, shared)
		}
		if err != nil {
			return nil, p.broken(err)
		}
		if end, is := token.(xml.EndElement); is && end.Name.Local == "document-content" {
			ended = true
		}
	}
	if len(o.tables) == 0 {
		return nil, empty(p.file)
	}
	return o.tables, nil
}

func (o *openDocument) take(token xml.Token, shared *workbook) error {
	switch token := token.(type) {
	case xml.StartElement:
		if o.aside > 0 || asides[token.Name.Local] {
			o.aside++
			return nil
		}
		return o.start(token, shared)
	case xml.EndElement:
		if o.aside > 0 {
			o.aside--
			return nil
		}
		return o.end(token.Name.Local)
	case xml.CharData:
		if o.odf.paragraph && o.aside == 0 {
			o.odf.text.Write(token)
		}
	}
	return nil
}

func (o *openDocument) start(e xml.StartElement, shared *workbook) error {
	attr := func(name string) string {
		for _, a := range e.Attr {
			if a.Name.Local == name && a.Name.Space != "calcext" {
				return a.Value
			}
		}
		return ""
	}
	switch e.Name.Local {
	case "style":
		o.style = attr("name")
	case "table-cell-properties":
		if colour := attr("background-color"); colour != "" && colour != "transparent" {
			look := o.looks[o.style]
			look.coloured = true
			o.looks[o.style] = look
		}
	case "text-properties":
		if line := attr("text-line-through-style"); line != "" && line != "none" {
			look := o.looks[o.style]
			look.struck = true
			o.looks[o.style] = look
		}
	case "table-properties":
		o.hiddenTabs[o.style] = attr("display") == "false"
	case "table":
		o.startTable(attr("name"), o.hiddenTabs[attr("style-name")], shared)
	}
	if o.worksheet == nil {
		return nil
	}
	switch e.Name.Local {
	case "table-row":
		return o.startOfRow(repeats(attr("number-rows-repeated")), attr("visibility"))
	case "table-cell", "covered-table-cell":
		o.startOfCell(e, attr)
	case "p":
		if o.odf.text.Len() > 0 {
			o.odf.text.WriteByte('\n')
		}
		o.odf.paragraph = o.odf.open
	case "s":
		o.odf.text.WriteString(strings.Repeat(" ", min(repeats(attr("c")), 100)))
	case "tab":
		o.odf.text.WriteByte('\t')
	case "line-break":
		o.odf.text.WriteByte('\n')
	}
	return nil
}

func (o *openDocument) startTable(name string, hidden bool, shared *workbook) {
	o.tables = append(o.tables, Table{Name: name, File: shared.file, Hidden: hidden})
	t := &o.tables[len(o.tables)-1]
	if hidden {
		t.Notes = append(t.Notes, fmt.Sprintf("Sheet %q is hidden in the workbook; it was read all the same.", name))
	}
	o.worksheet = &worksheet{workbook: shared, table: t}
	o.rows = 0
}

func (o *openDocument) startOfRow(times int, visibility string) error {
	o.row = Row{Number: o.row.Number + max(o.rows, 1)}
	o.rows = times
	if o.row.Number > maxRows {
		return tooLarge(o.file)
	}
	if visibility == "collapse" || visibility == "filter" {
		o.seen.hidden = once(o.seen.hidden, o.row.Number)
	}
	o.cell.column = 0
	return nil
}

func repeats(attribute string) int {
	n, err := strconv.Atoi(attribute)
	if err != nil || n < 1 {
		return 1
	}
	return min(n, maxRows)
}

func (o *openDocument) end(element string) error {
	if o.worksheet == nil {
		return nil
	}
	switch element {
	case "p":
		o.odf.paragraph = false
	case "table-cell", "covered-table-cell":
		return o.endOfCell()
	case "table-row":
		return o.endOfRow()
	case "table":
		err := o.spread()
		o.report()
		o.worksheet = nil
		return err
	}
	return nil
}

// endOfRow keeps a row that shows anything, as often as it stands there.
func (o *openDocument) endOfRow() error {
	if len(o.row.Cells) == 0 {
		return nil
	}
	for i := range o.rows {
		if i > 0 {
			if err := o.budget.spend(len(o.row.Cells)); err != nil {
				return err
			}
		}
		row := o.row
		row.Number += i
		o.table.Rows = append(o.table.Rows, row)
	}
	return nil
}
