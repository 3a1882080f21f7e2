package intake

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"lungwort/inventory/gas"
	"lungwort/inventory/sheet"
)

// fate is what becomes of a row.
type fate int

const (
	clear   fate = iota // goes in
	waiting             // for an answer
	refused             // can't be read
	leftOut             // no row of the programme's: a test row, a row of totals
)

// line is one row of a list, while it is read.
type line struct {
	list    *list
	row     sheet.Row
	waits   []*Question
	refuses []string
	left    string // why it is no row of the programme's; empty: it is one

	exertion *gas.Flow // from an order written as a range
}

func (l *line) number() int { return l.row.Number }

func (l *line) fate() fate {
	switch {
	case l.left != "":
		return leftOut
	case len(l.refuses) > 0:
		return refused
	case len(l.waits) > 0:
		return waiting
	}
	return clear
}

// refuse says why the row can't go in; several reasons are all told.
func (l *line) refuse(format string, args ...any) {
	why := fmt.Sprintf(format, args...)
	if !slices.Contains(l.refuses, why) {
		l.refuses = append(l.refuses, why)
	}
}

// where names the row for a sentence.
func (l *line) where() string { return fmt.Sprintf("%s row %d", l.list.name(), l.number()) }

// said finds in a cell what people write when they know nothing.
var said = regexp.MustCompile(`(?i)^(n/?a|unknown|unk|tbc|tba|none|nil|not known|[-–—?. ]+)$`)

// unknown reports whether a text says that nothing is known. The longest that
// does has nine letters.
func unknown(text string) bool { return len(text) < 12 && said.MatchString(text) }

// cell returns the row's cell of a meaning; what says "not known" is blank.
func (l *line) cell(key string) sheet.Cell {
	c := l.list.mapping.Cell(l.row, key)
	if unknown(c.Text) {
		return sheet.Cell{}
	}
	return c
}

func (l *line) text(key string) string { return l.cell(key).Text }

// heading names the column of a meaning as the list writes it.
func (l *line) heading(key string) string {
	if h := l.list.mapping.Headings[key]; h != "" {
		return h
	}
	return key
}

// totals finds the word that heads a row of sums.
var totals = regexp.MustCompile(`(?i)^(?:grand |sub-?)?(?:totals?|sum)\b:?$`)

// sums reports whether the row holds totals of others.
func (l *line) sums() bool {
	for _, c := range l.row.Cells {
		if !c.Blank() {
			return totals.MatchString(c.Text)
		}
	}
	return false
}

// notes returns the row's notes with everything that stood beyond the
// headings.
func (l *line) notes() string {
	parts := []string{l.text("notes")}
	parts = append(parts, l.row.Overflow...)
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), ", ")
}

// word returns a cell as one of a few words, by their synonyms. A word that
// is none of them is asked about; one answer serves all rows that use it.
func (l *line) word(q *inquiry, key string, words []choiceWord) string {
	text := l.text(key)
	if text == "" {
		return ""
	}
	folded := strings.ToLower(strings.Join(strings.Fields(text), " "))
	choices := make([]Choice, 0, len(words))
	for _, w := range words {
		if folded == w.value || slices.Contains(w.synonyms, folded) {
			return w.value
		}
		choices = append(choices, Choice{w.value, w.says})
	}
	answer, _ := q.ask(l, Question{
		Key:     "word:" + key + ":" + folded,
		Asks:    fmt.Sprintf("What does “%s” mean in the column %s?", text, l.heading(key)),
		Choices: choices,
	}, text)
	return answer
}

// choiceWord is one word of a fixed set, as the program writes it.
type choiceWord struct {
	value    string
	says     string
	synonyms []string
}
