package intake

import (
	"cmp"
	"fmt"
	"strings"

	"lungwort/inventory/sheet"
)

// Left returns what is not taken in: of each list the headings and the rows
// that are refused, wait, or were left out, with the reason beside each. Such
// a sheet, mended, can be taken in like the list it comes from.
func (r Reading) Left() []sheet.Out {
	var all []sheet.Out
	used := map[string]bool{}
	for _, l := range r.lists {
		out := sheet.Out{Name: cmp.Or(l.table.Name, "list"), Columns: []sheet.Column{{Heading: "Not taken in because", Width: 60}}}
		for _, line := range l.lines {
			if why := line.why(); why != "" {
				out.Rows = append(out.Rows, line.copied(fmt.Sprintf("Row %d: %s", line.number(), why)))
			}
		}
		if len(out.Rows) == 0 {
			continue
		}
		out.Columns = append(out.Columns, l.headings(out.Rows)...)
		for n := 2; used[strings.ToLower(out.Name)]; n++ {
			out.Name = fmt.Sprintf("%s %d", cmp.Or(l.table.Name, "list"), n)
		}
		used[strings.ToLower(out.Name)] = true
		all = append(all, out)
	}
	return all
}

// notTakenOf returns the lines that are not taken in, and lets go of the rest.
func notTakenOf(lines []*line) []*line {
	var left []*line
	for _, l := range lines {
		if l.fate() != clear {
			left = append(left, l)
		}
	}
	return left
}

// copied returns the row as it stands, behind the reason.
func (l *line) copied(why string) []any {
	row := []any{why}
	for i := range l.list.mapping.Width {
		row = append(row, l.row.Cell(i).Text)
	}
	for _, beyond := range l.row.Overflow {
		row = append(row, beyond)
	}
	return row
}

// why says why a line is not taken in; empty: it is.
func (l *line) why() string {
	switch l.fate() {
	case refused:
		return strings.Join(l.refuses, " ")
	case leftOut:
		return l.left + "."
	case waiting:
		asks := make([]string, len(l.waits))
		for i, q := range l.waits {
			asks[i] = q.Asks
		}
		return "waits for an answer. " + strings.Join(asks, " ")
	}
	return ""
}

// headings returns the columns of the list in one row of headings, wide enough
// for the rows. A heading that is understood only by the row above it is
// written by its meaning.
func (l *list) headings(rows [][]any) []sheet.Column {
	widest := 0
	for _, row := range rows {
		widest = max(widest, len(row)-1)
	}
	columns := make([]sheet.Column, widest)
	alone := sheet.Row{Number: 1, Cells: make([]sheet.Cell, widest)}
	for i := range min(l.mapping.Width, widest) {
		columns[i].Heading = strings.TrimSuffix(l.headingAt(i), ":")
		alone.Cells[i].Text = columns[i].Heading
	}
	vocabulary := people
	if l.sort == ofThings {
		vocabulary = things
	}
	understood, err := sheet.Map(sheet.Table{Rows: []sheet.Row{alone}}, vocabulary, nil)
	for key, column := range l.mapping.Columns {
		if again, ok := understood.Columns[key]; err == nil && ok && again == column || column >= widest {
			continue
		}
		columns[column].Heading = key
		if unit := l.mapping.Units[key]; unit != "" {
			columns[column].Heading += " (" + unit + ")"
		}
	}
	return columns
}
