package sheet

import (
	"fmt"
	"sort"
	"strconv"
	"strings"
)

// area is a rectangle of cells: columns counted from 0, rows from 1.
type area struct{ left, top, right, bottom int }

func parseArea(ref string) (area, error) {
	from, to, found := strings.Cut(ref, ":")
	if !found {
		to = from
	}
	var a area
	var err error
	if a.left, a.top, err = parseReference(from); err != nil {
		return a, err
	}
	if a.right, a.bottom, err = parseReference(to); err != nil {
		return a, err
	}
	if a.right < a.left || a.bottom < a.top {
		return a, fmt.Errorf("area %q runs backwards", ref)
	}
	return a, nil
}

// parseReference reads a cell's name, as "AB12".
func parseReference(ref string) (column, row int, err error) {
	letters := 0
	for letters < len(ref) && letters < 4 && ref[letters] >= 'A' && ref[letters] <= 'Z' {
		column = column*26 + int(ref[letters]-'A') + 1
		letters++
	}
	row, err = strconv.Atoi(ref[letters:])
	if letters == 0 || err != nil || row < 1 || row > maxRows || column > maxColumns {
		return 0, 0, fmt.Errorf("%q names no cell", ref)
	}
	return column - 1, row, nil
}

// spread fills the blank cells of every merged area with its first cell's
// value, which is the only one the file stores. It keeps to the rows and
// columns in use.
func (w *worksheet) spread() error {
	rows := w.table.Rows
	for _, a := range w.merges {
		first := sort.Search(len(rows), func(i int) bool { return rows[i].Number >= a.top })
		if first == len(rows) || rows[first].Number != a.top {
			continue
		}
		anchor := rows[first].Cell(a.left)
		if anchor.Blank() {
			continue
		}
		anchor.Merged = true
		right := min(a.right, w.widest-1)
		for i := first; i < len(rows) && rows[i].Number <= a.bottom; i++ {
			if err := w.spreadRow(&rows[i], anchor, a.left, right); err != nil {
				return err
			}
		}
	}
	return nil
}

func (w *worksheet) spreadRow(r *Row, value Cell, left, right int) error {
	if err := w.budget.spend(right - left + 1); err != nil {
		return err
	}
	for len(r.Cells) <= right {
		r.Cells = append(r.Cells, Cell{})
	}
	for i := left; i <= right; i++ {
		if r.Cells[i].Blank() {
			r.Cells[i] = value
		}
	}
	return nil
}
