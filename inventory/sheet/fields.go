package sheet

import "strings"

// maxQuotedLines is how many lines one quoted field may span. A longer one
// comes from a quotation mark that nobody closed.
const maxQuotedLines = 50

// fields splits text into records the way spreadsheet programs do. The
// standard library's reader is not used: it mis-splits lone carriage returns,
// loses the numbers of blank lines, and swallows the rest of the file after a
// quotation mark that is never closed.
type fields struct {
	text      string
	delimiter byte
	pos       int
	row       int   // 1-based number of the record last returned
	unclosed  []int // rows with a quotation mark that is never closed
}

// next returns the fields of the next record; a blank line is a record with
// one empty field. Fields beyond the widest sheet there can be are dropped.
func (f *fields) next() ([]string, bool) {
	if f.pos >= len(f.text) {
		return nil, false
	}
	f.row++
	record := make([]string, 0, 16)
	for {
		if len(record) == maxColumns {
			f.skipLine()
			return record, true
		}
		record = append(record, f.field())
		if f.pos == len(f.text) || f.text[f.pos] != f.delimiter {
			f.skipLine()
			return record, true
		}
		f.pos++
	}
}

// skipLine goes to the start of the next line.
func (f *fields) skipLine() {
	end := strings.IndexAny(f.text[f.pos:], "\r\n")
	if end < 0 {
		f.pos = len(f.text)
		return
	}
	f.pos += end + 1
	if f.text[f.pos-1] == '\r' && f.pos < len(f.text) && f.text[f.pos] == '\n' {
		f.pos++
	}
}

// field reads one field and leaves pos at what ended it.
func (f *fields) field() string {
	start := f.pos
	for start < len(f.text) && f.text[start] == ' ' {
		start++
	}
	if start < len(f.text) && f.text[start] == '"' {
		if value, end, closed := f.quoted(start + 1); closed {
			f.pos = end
			return value
		}
		if n := len(f.unclosed); n == 0 || f.unclosed[n-1] != f.row {
			f.unclosed = append(f.unclosed, f.row)
		}
	}
	start = f.pos
	for f.pos < len(f.text) && !f.ends(f.text[f.pos]) {
		f.pos++
	}
	return f.text[start:f.pos]
}

func (f *fields) ends(c byte) bool { return c == f.delimiter || c == '\n' || c == '\r' }

// quoted reads from behind an opening quotation mark to the end of its field.
// It reports false when no mark closes the field: none comes, or the next one
// stands inside the text of a later line.
func (f *fields) quoted(from int) (value string, end int, closed bool) {
	doubled, lines := false, 0
	for i := from; i < len(f.text); i++ {
		switch f.text[i] {
		case '\n', '\r':
			if lines++; lines > maxQuotedLines {
				return "", 0, false
			}
		case '"':
			if i+1 < len(f.text) && f.text[i+1] == '"' {
				doubled = true
				i++
				continue
			}
			after := i + 1
			for after < len(f.text) && f.text[after] == ' ' {
				after++
			}
			if after == len(f.text) || f.ends(f.text[after]) {
				value = f.text[from:i]
				if doubled {
					value = strings.ReplaceAll(value, `""`, `"`)
				}
				return value, after, true
			}
			if lines > 0 {
				return "", 0, false
			}
		}
	}
	return "", 0, false
}
