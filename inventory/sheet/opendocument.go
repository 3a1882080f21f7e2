package sheet

import (
	"context"
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"lungwort/inventory/refusal"
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

// lockedDocument reports whether the document's parts are under a password.
func (p *parts) lockedDocument() (bool, error) {
	r, err := p.open("META-INF/manifest.xml")
	if err != nil || r == nil {
		return false, err
	}
	defer r.Close()
	manifest, err := io.ReadAll(io.LimitReader(r, 1<<20))
	return err == nil && strings.Contains(string(manifest), "encryption-data"), p.stopped(err)
}

func (p *parts) stopped(err error) error {
	if err == nil {
		return nil
	}
	return p.broken(err)
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
		if v, err := strconv.ParseFloat(c.value, 64); err == nil && (cell.Text == "" || cell.Shortened()) {
			cell.Text = shownGeneral(v)
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

func readPacked(ctx context.Context, name string, data []byte) ([]Table, error) {
	p, err := openParts(ctx, name, data)
	if err != nil {
		return nil, err
	}
	if p.byName["content.xml"] == nil {
		return readWorkbook(p)
	}
	locked, err := p.lockedDocument()
	if err != nil {
		return nil, err
	}
	if locked {
		return nil, protected(name)
	}
	return readOpenDocument(p)
}

// otherDocument refuses an OpenDocument file that is no spreadsheet.
func (p *parts) otherDocument() error {
	r, err := p.open("mimetype")
	if err != nil || r == nil {
		return err
	}
	defer r.Close()
	kind, err := io.ReadAll(io.LimitReader(r, 200))
	if err != nil {
		return p.broken(err)
	}
	if !strings.Contains(string(kind), "spreadsheet") {
		return refusal.New(refusal.Foreign, fmt.Sprintf("%q is an OpenDocument file, but no spreadsheet.", p.file), "Choose a spreadsheet (.ods, .xlsx) or a text table (.csv).")
	}
	return nil
}
