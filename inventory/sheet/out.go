package sheet

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"lungwort/inventory/refusal"
)

// Kind is what the values of a column are.
type Kind int

// The kinds of columns, with the Go type of their values. A nil value leaves
// the cell blank, which means unknown; a string is text in a column of any
// kind, as "unknown" may be.
const (
	Text     Kind = iota // string; serials, phones and codes are text
	Number               // float64
	Whole                // int or int64
	Day                  // time.Time, shown as 2006-01-02
	Time                 // time.Time, shown as 2006-01-02 15:04 by its own clock
	Duration             // time.Duration, shown in hours and minutes
)

// Column is one column of a sheet given out.
type Column struct {
	Heading string // with the unit, as in "Gas now (L)"
	Kind    Kind
	Width   float64 // in characters; 0 fits the heading and the kind
	Note    string  // how the figure is defined, for the sheet of notes
	Hidden  bool    // in a workbook; a text table shows every column
}

// Out is one sheet given out.
type Out struct {
	Name    string    // of the sheet
	Title   string    // first line; may be empty
	AsOf    time.Time // when the facts were as shown; the zero time says nothing
	What    string    // names the sheet for when it comes back; empty: it is no sheet of ours
	Columns []Column
	Rows    [][]any
	Notes   []string // sentences for the sheet of notes
}

// The names the columns of the "About" sheet go by.
const aboutSheet = "About"

// Write writes the sheets as the file's extension says: .xlsx holds any
// number of them, .csv exactly one. The same sheets give the same bytes. The
// file appears whole or not at all; an existing one is replaced.
func Write(path string, sheets []Out) error {
	name := filepath.Base(path)
	encode := map[string]func([]Out) ([]byte, error){".xlsx": encodeWorkbook, ".csv": encodeCSV}[strings.ToLower(filepath.Ext(name))]
	if encode == nil {
		return refusal.New(refusal.Invalid, fmt.Sprintf("%q has no ending this program writes.", name),
			"End the name in .xlsx for a spreadsheet or .csv for a text table.")
	}
	if len(sheets) == 0 {
		return refusal.New(refusal.Internal, fmt.Sprintf("There is nothing to write to %q.", name), "")
	}
	data, err := encode(sheets)
	if err != nil {
		return err
	}
	return replace(path, data)
}

// preamble returns the lines above the headings.
func (o Out) preamble() []string {
	var lines []string
	if o.Title != "" {
		lines = append(lines, o.Title)
	}
	if !o.AsOf.IsZero() {
		lines = append(lines, o.asOfLine())
	}
	return lines
}

// mismatch reports a value that does not fit its column: a fault of the
// caller, not of a person.
func (o Out) mismatch(row, column int, value any) error {
	return refusal.New(refusal.Internal, fmt.Sprintf("Sheet %q could not be written.", o.Name), "").
		Because(fmt.Errorf("row %d, column %q: %T does not fit the column", row+1, o.Columns[column].Heading, value))
}

func (o Out) tooWide(row int) error {
	return refusal.New(refusal.Internal, fmt.Sprintf("Sheet %q could not be written.", o.Name), "").
		Because(fmt.Errorf("row %d has %d values for %d columns", row+1, len(o.Rows[row]), len(o.Columns)))
}

func (o Out) tooLong() error {
	return refusal.New(refusal.Invalid, fmt.Sprintf("Sheet %q has more rows than a spreadsheet holds.", o.Name),
		"Choose a shorter period or fewer people.")
}

// encodeCSV writes one table in UTF-8 with a byte order mark, by which
// spreadsheet programs know it. Text that looks like a formula gets an
// apostrophe in front.
func encodeCSV(sheets []Out) ([]byte, error) {
	if len(sheets) > 1 {
		return nil, refusal.New(refusal.Invalid, fmt.Sprintf("A .csv file holds one table, and there are %d.", len(sheets)),
			"End the name in .xlsx, or write one table at a time.")
	}
	o := sheets[0]
	var b bytes.Buffer
	b.WriteString("\uFEFF")
	for _, line := range o.preamble() {
		writeFields(&b, []string{guarded(storable(line))})
	}
	record := make([]string, len(o.Columns))
	for i, c := range o.Columns {
		record[i] = guarded(storable(c.Heading))
	}
	writeFields(&b, record)
	for i, row := range o.Rows {
		if len(row) > len(o.Columns) {
			return nil, o.tooWide(i)
		}
		clear(record)
		for j, value := range row {
			text, fits := csvText(o.Columns[j].Kind, value)
			if !fits {
				return nil, o.mismatch(i, j, value)
			}
			record[j] = text
		}
		writeFields(&b, record)
	}
	return b.Bytes(), nil
}

func writeFields(b *bytes.Buffer, record []string) {
	for i, field := range record {
		if i > 0 {
			b.WriteByte(',')
		}
		if strings.ContainsAny(field, "\",\r\n") || strings.Trim(field, " ") != field {
			field = `"` + strings.ReplaceAll(field, `"`, `""`) + `"`
		}
		b.WriteString(field)
	}
	b.WriteString("\r\n")
}
