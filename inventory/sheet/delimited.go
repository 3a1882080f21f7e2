package sheet

import (
	"fmt"
	"strconv"
	"strings"
)

// sniffedRows is how many records the choice of the delimiter looks at.
const sniffedRows = 50

// readDelimited reads comma, semicolon, tab or bar separated text.
func readDelimited(r *reading, text string) ([]Table, error) {
	delimiter, skip := chosenDelimiter(text)
	f := &fields{text: text, delimiter: delimiter}
	if skip {
		f.next()
	}
	t := Table{Name: stem(r.file), File: r.file}
	budget := cellBudget{file: r.file}
	for {
		if f.row%1024 == 0 {
			if err := r.reached(int64(f.pos), int64(len(text))); err != nil {
				return nil, err
			}
		}
		record, ok := f.next()
		if !ok {
			break
		}
		if err := budget.spend(len(record)); err != nil {
			return nil, err
		}
		if f.row > maxRows {
			return nil, tooLarge(r.file)
		}
		if cells := textCells(record); len(cells) > 0 {
			t.Rows = append(t.Rows, Row{Number: f.row, Cells: cells})
		}
	}
	if len(f.unclosed) > 0 {
		t.Notes = append(t.Notes, fmt.Sprintf("A quotation mark is opened and never closed in %s; it was read as part of the text.", rowList(f.unclosed)))
	}
	return []Table{t}, nil
}

func textCells(record []string) []Cell {
	cells := make([]Cell, len(record))
	for i, field := range record {
		raw := unguarded(field)
		cells[i] = Cell{Text: clean(raw), Raw: raw}
	}
	return trimTail(cells)
}

// chosenDelimiter returns the delimiter that a first line "sep=;" names, or
// else the one that splits the first records most evenly. It reports whether
// the first line has to be skipped.
func chosenDelimiter(text string) (delimiter byte, skip bool) {
	line := text[:min(len(text), 8)]
	if end := strings.IndexAny(line, "\r\n"); end >= 0 {
		line = line[:end]
	}
	line = strings.Trim(line, `"`)
	if rest, found := strings.CutPrefix(strings.ToLower(line), "sep="); found && len(rest) == 1 {
		return rest[0], true
	}
	best, delimiter := 0.0, byte(',')
	for _, candidate := range []byte{',', ';', '\t', '|'} {
		if score := evenness(text, candidate); score > best {
			best, delimiter = score, candidate
		}
	}
	return delimiter, false
}

// evenness is the share of records that have the commonest number of fields;
// it is zero when that number is one. More fields win between equals.
func evenness(text string, delimiter byte) float64 {
	f := &fields{text: text[:min(len(text), 4*sampleBytes)], delimiter: delimiter}
	widths, records := map[int]int{}, 0
	for records < sniffedRows {
		record, ok := f.next()
		if !ok {
			break
		}
		if len(record) == 1 && strings.TrimSpace(record[0]) == "" {
			continue
		}
		widths[len(record)]++
		records++
	}
	best := 0.0
	for width, count := range widths {
		if width > 1 {
			best = max(best, float64(count)/float64(records)+float64(width)/(1000*maxColumns))
		}
	}
	return best
}

// cellBudget refuses a file whose cells would not fit the memory.
type cellBudget struct {
	file  string
	spent int
}

func (b *cellBudget) spend(cells int) error {
	if b.spent += cells; b.spent > maxCells {
		return tooLarge(b.file)
	}
	return nil
}

// rowList names rows for a note: "row 4", "rows 4, 9 and 2 more".
func rowList(rows []int) string {
	const named = 5
	words := make([]string, 0, named)
	for _, r := range rows[:min(len(rows), named)] {
		words = append(words, strconv.Itoa(r))
	}
	switch {
	case len(rows) == 1:
		return "row " + words[0]
	case len(rows) > named:
		return fmt.Sprintf("rows %s and %d more", strings.Join(words, ", "), len(rows)-named)
	}
	return fmt.Sprintf("rows %s and %s", strings.Join(words[:len(words)-1], ", "), words[len(words)-1])
}
