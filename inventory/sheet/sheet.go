// Package sheet reads tables of cells out of spreadsheet files and writes
// tables of cells into them.
//
// It knows nothing of persons or items. What a spreadsheet leaves open (which
// of two numbers is the month, whether a number was a serial) it reports as a
// Doubt or a note; it never guesses. Reading is bounded in memory and time,
// and stops when its context does.
package sheet

import "regexp"

// Cell is one field of a table.
type Cell struct {
	// Text is what the cell shows: composed accents, plain spaces, trimmed.
	// A cell that holds a date number shows the day as 2006-01-02.
	Text string
	// Raw is the cell as stored; for a date the spreadsheet's day number.
	Raw string
	// Serial says that Raw is a spreadsheet's date number.
	Serial bool
	// Merged says that the value was spread here from a merged cell.
	Merged bool
}

// Blank reports whether the cell shows nothing. A blank means unknown: it is
// neither zero nor no.
func (c Cell) Blank() bool { return c.Text == "" }

// shortForm is how spreadsheet programs write a number that is too long for
// its column.
var shortForm = regexp.MustCompile(`^[+-]?\d(?:[.,]\d+)?E[+-]\d{2,}$`)

// Shortened reports whether the text is a long number of which a spreadsheet
// program kept the first digits only, as 9.01E+09. It must never be matched.
func (c Cell) Shortened() bool { return shortForm.MatchString(c.Text) }

// Row is one row that shows anything; rows without content are left out.
type Row struct {
	Number   int      // 1-based row in the file
	Cells    []Cell   // in file order; may be shorter than the heading
	Overflow []string // fields beyond the heading, kept but never shifted into it
}

// Cell returns the cell in the column, counted from zero, or a blank one.
func (r Row) Cell(column int) Cell {
	if column < 0 || column >= len(r.Cells) {
		return Cell{}
	}
	return r.Cells[column]
}

// Table is one sheet of a workbook, or the whole of a text file.
type Table struct {
	Name     string // name of the sheet
	File     string // name of the file, without its folder
	Rows     []Row
	Date1904 bool     // date numbers count from 1904 instead of 1900
	Hidden   bool     // the sheet is hidden in its workbook
	Notes    []string // what could not be read or had to be assumed, in sentences
}

// The bounds of one file. They leave room for a programme of many thousand
// households and keep a hostile file from filling the memory.
const (
	maxFileBytes     = 64 << 20  // as stored
	maxUnpackedBytes = 512 << 20 // a workbook's parts together
	maxCells         = 4_000_000
	maxColumns       = 16_384    // the limit of the xlsx format
	maxRows          = 1_048_576 // the limit of the xlsx format
	maxMerges        = 100_000
)

// trimTail drops blank cells at the end of a row.
func trimTail(cells []Cell) []Cell {
	for len(cells) > 0 && cells[len(cells)-1].Blank() {
		cells = cells[:len(cells)-1]
	}
	return cells
}
