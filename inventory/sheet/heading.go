package sheet

import (
	"fmt"
	"slices"
	"strings"

	"lungwort/inventory/refusal"
)

// headingRows is how far down a sheet the row of headings is looked for.
const headingRows = 60

// Heading is one meaning a column may have, in the caller's vocabulary.
type Heading struct {
	Key      string
	Synonyms []string // ways people write it; case, accents and punctuation don't matter
	Units    []string // units that may stand in the heading, as psi in "Pressure (psi)"
}

// Mapping says which column holds which meaning.
type Mapping struct {
	Row      int               // number of the heading row in the file
	Width    int               // columns up to the last one with a heading
	Columns  map[string]int    // key to column, counted from zero
	Headings map[string]string // key to the heading as written
	Units    map[string]string // key to the unit in its heading, as the vocabulary writes it
	Unmapped []string          // headings that mean nothing known
	Doubtful []Doubtful        // headings that have to be asked about
}

// Doubtful is a heading that fits more than one meaning, or shares its
// meaning with another column, or is only nearly a known one.
type Doubtful struct {
	Column  int
	Heading string
	Keys    []string
	Asks    string
}

// Map finds the row of headings and gives each column its meaning. It refuses
// a table without such a row, and one in which no column can be a required
// key. A required key that is in doubt is not refused: it is asked about.
func Map(t Table, vocabulary []Heading, required []string) (Mapping, error) {
	words := newLexicon(vocabulary)
	best, bestScore := -1, 0
	for i, r := range t.Rows[:min(len(t.Rows), headingRows)] {
		score, shown := words.score(r, above(t, i), required)
		if score > bestScore && (score > 1 || shown == 1) {
			best, bestScore = i, score
		}
	}
	if best < 0 {
		return Mapping{}, refusal.New(refusal.Invalid,
			fmt.Sprintf("%s: no row of headings was found in the first %d rows.", place(t), headingRows),
			"Put one row above the data that names the columns.")
	}
	m := words.columns(t, best)
	for _, key := range required {
		if _, found := m.Columns[key]; !found && !m.doubts(key) {
			return m, missing(t, t.Rows[best], key, words.first[key])
		}
	}
	return m, nil
}

// Body returns the rows below the headings, cut to their width. What stands
// beyond it is kept in the row's Overflow. Headings repeated for printing are
// left out.
func (m Mapping) Body(t Table) []Row {
	var body []Row
	for _, r := range t.Rows {
		if r.Number <= m.Row || m.repeated(r) {
			continue
		}
		for _, c := range r.Cells[min(len(r.Cells), m.Width):] {
			r.Overflow = append(r.Overflow, c.Text)
		}
		r.Cells = r.Cells[:min(len(r.Cells), m.Width)]
		body = append(body, r)
	}
	return body
}

func (m Mapping) repeated(r Row) bool {
	for key, heading := range m.Headings {
		if m.Cell(r, key).Text != heading {
			return false
		}
	}
	return len(m.Headings) > 0
}

// Cell returns the row's cell for the key, or a blank one.
func (m Mapping) Cell(r Row, key string) Cell {
	column, found := m.Columns[key]
	if !found {
		return Cell{}
	}
	return r.Cell(column)
}

func (m Mapping) doubts(key string) bool {
	return slices.ContainsFunc(m.Doubtful, func(d Doubtful) bool { return slices.Contains(d.Keys, key) })
}

// columns maps the headings of the row, each read together with a group
// heading above it where that makes sense.
func (l *lexicon) columns(t Table, at int) Mapping {
	row, group := t.Rows[at], above(t, at)
	m := Mapping{Row: row.Number, Columns: map[string]int{}, Headings: map[string]string{}, Units: map[string]string{}}
	takers := map[string][]int{}
	meanings := make([]meaning, len(row.Cells))
	for i, c := range row.Cells {
		if c.Blank() {
			continue
		}
		m.Width = i + 1
		meanings[i] = l.meaning(c.Text, group.Cell(i).Text)
		if len(meanings[i].keys) == 1 {
			takers[meanings[i].keys[0]] = append(takers[meanings[i].keys[0]], i)
		}
	}
	for i, c := range row.Cells {
		switch keys := meanings[i].keys; {
		case c.Blank():
		case len(keys) == 0:
			m.nearly(l, i, c.Text)
		case len(keys) > 1:
			m.Doubtful = append(m.Doubtful, Doubtful{i, c.Text, keys,
				fmt.Sprintf("Column %s, %q, can mean %s. Which is it?", columnName(i), c.Text, strings.Join(keys, " or "))})
		case len(takers[keys[0]]) > 1:
			m.Doubtful = append(m.Doubtful, Doubtful{i, c.Text, keys,
				fmt.Sprintf("Columns %s can all mean %s. Is it column %s, %q?", columnNames(takers[keys[0]]), keys[0], columnName(i), c.Text)})
		default:
			m.Columns[keys[0]], m.Headings[keys[0]] = i, c.Text
			if meanings[i].unit != "" {
				m.Units[keys[0]] = meanings[i].unit
			}
		}
	}
	return m
}

// above returns the row right above, which may hold group headings.
func above(t Table, at int) Row {
	if at > 0 && t.Rows[at-1].Number == t.Rows[at].Number-1 {
		return t.Rows[at-1]
	}
	return Row{}
}

// nearly notes a heading that means nothing, or that misspells a known one.
func (m *Mapping) nearly(l *lexicon, column int, text string) {
	keys := l.nearly(text)
	if len(keys) == 0 {
		m.Unmapped = append(m.Unmapped, text)
		return
	}
	m.Doubtful = append(m.Doubtful, Doubtful{column, text, keys,
		fmt.Sprintf("Column %s, %q, looks like %s. Is it?", columnName(column), text, strings.Join(keys, " or "))})
}

func missing(t Table, headings Row, key, synonym string) error {
	var seen []string
	for _, c := range headings.Cells {
		if !c.Blank() {
			seen = append(seen, c.Text)
		}
	}
	return refusal.New(refusal.Invalid,
		fmt.Sprintf("%s: no column for %s. Row %d has the headings %s.", place(t), key, headings.Number, strings.Join(seen, ", ")),
		fmt.Sprintf("Head the column that holds it %q.", synonym))
}

// place names the table for a sentence.
func place(t Table) string {
	if t.Name == "" || t.Name == stem(t.File) {
		return fmt.Sprintf("%q", t.File)
	}
	return fmt.Sprintf("%q, sheet %q", t.File, t.Name)
}

// columnName returns a column's letters, as a spreadsheet shows them.
func columnName(column int) string {
	name := ""
	for column++; column > 0; column = (column - 1) / 26 {
		name = string(rune('A'+(column-1)%26)) + name
	}
	return name
}

func columnNames(columns []int) string {
	names := make([]string, len(columns))
	for i, c := range columns {
		names[i] = columnName(c)
	}
	return strings.Join(names, ", ")
}
