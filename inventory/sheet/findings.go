package sheet

import "fmt"

// findings are the rows of one sheet that hold something a reader of cells
// can't see: each list ascends and names a row once.
type findings struct {
	hidden       []int // the row is hidden
	coloured     []int // a cell with content is filled with a colour
	struck       []int // a cell's text is struck through
	uncalculated []int // a formula whose result was never stored
	failed       []int // a formula that ended in an error
}

func (f *findings) note(c *xmlCell, shown Cell, style format, row int) {
	// A formula whose result is an empty text stores that: it was calculated.
	if c.formula && (!c.hasValue || len(c.value) == 0 && c.kind != "str") {
		f.uncalculated = once(f.uncalculated, row)
	}
	if c.kind == "e" {
		f.failed = once(f.failed, row)
	}
	if shown.Text == "" {
		return
	}
	if style.coloured {
		f.coloured = once(f.coloured, row)
	}
	if style.struck {
		f.struck = once(f.struck, row)
	}
}

func once(rows []int, row int) []int {
	if n := len(rows); n > 0 && rows[n-1] == row {
		return rows
	}
	return append(rows, row)
}

// report turns the findings into the table's notes. A colour in the heading
// alone means nothing and is not reported.
func (w *worksheet) report() {
	say := func(rows []int, sentence string) {
		if len(rows) > 0 {
			w.table.Notes = append(w.table.Notes, fmt.Sprintf(sentence, rowList(rows)))
		}
	}
	if n := len(w.seen.coloured); n > 0 && len(w.table.Rows) > 0 && w.seen.coloured[n-1] > w.table.Rows[0].Number {
		say(w.seen.coloured, "Cells are coloured in %s. A colour can't be read: write what it means in a column of its own.")
	}
	say(w.seen.struck, "Text is struck through in %s. It was read like any other: write what it means in a column of its own.")
	say(w.seen.hidden, "Hidden: %s. They were read all the same.")
	say(w.seen.uncalculated, "A formula has no stored result in %s; its cell counts as blank. Open the file in the spreadsheet program and save it again.")
	say(w.seen.failed, "A formula ended in an error in %s; the error stands in the cell.")
}
