package intake

import (
	"fmt"
	"slices"
	"strings"
)

// change is one cell in which a list and the book differ about somebody or
// something the book knows.
type change struct {
	line       *line
	key        string
	about      string // the item or the person
	list, book string
}

func (c change) says() string {
	return fmt.Sprintf("%s: %s of %s is %s now; it was %s.", c.line.where(), c.line.heading(c.key), c.about, orNothing(c.list), orNothing(c.book))
}

func (c change) example() string {
	return fmt.Sprintf("%s: %s in the list, %s in the book", c.about, orNothing(c.list), orNothing(c.book))
}

// age is what is known of the time of a differing cell.
type age int

const (
	undated age = iota // of a list with no time: the book may be newer
	edited             // of a sheet of ours, and the book is as it was given out
	stale              // of a sheet of ours, and the book was changed since too
)

const inTheList = "the list"

// listHolds reports whether a change is to be taken: an edit of a sheet of ours
// is; anything else is asked, once for all cells of the column. Until somebody
// says that the list is right, the book stands.
func (r *reader) listHolds(c change, of age) bool {
	asked := Question{
		Choices: []Choice{{inTheList, "the book is changed"}, {theBook, "the list is left out there"}}, once: true,
	}
	column := c.line.heading(c.key)
	switch {
	case c.list == "":
		asked.Key = fmt.Sprintf("emptied:%s:%s", c.line.list.name(), c.key)
		asked.Asks = fmt.Sprintf("Cells of %s were emptied. Is what the book has there to go?", column)
	case of == edited:
		r.changed(c)
		return true
	case of == stale:
		asked.Key = fmt.Sprintf("stale:%s:%s", c.line.list.name(), c.key)
		asked.Asks = fmt.Sprintf("%s was changed in the list and, since it was given out, in the book too. Which is right?", column)
	default:
		return r.offered(c)
	}
	answer, ok := r.ask(c.line, asked, c.example())
	if ok && answer == inTheList {
		r.changed(c)
		return true
	}
	return false
}

// offered asks about a cell of a list that has no time. The row does not wait
// for the answer: the book stands.
func (r *reader) offered(c change) bool {
	answer, ok := r.offer(c.line, Question{
		Key:     fmt.Sprintf("change:%s:%s", c.line.list.name(), c.key),
		Asks:    fmt.Sprintf("%s differs between the list and the book. Which is right? Until this is answered, the book stands.", c.line.heading(c.key)),
		Choices: []Choice{{inTheList, "the book is changed"}, {theBook, "it stays as it is"}}, once: true,
	}, c.example())
	if ok && answer == inTheList {
		r.changed(c)
		return true
	}
	return false
}

// changed notes a change that is taken, once its row is clear.
func (r *reader) changed(c change) { r.changes = append(r.changes, c) }

// tellChanges counts the changes of clear rows.
func (r *reader) tellChanges() {
	r.out.Changes = []string{}
	of := map[string]bool{}
	for _, c := range r.changes {
		if c.line.fate() == clear {
			r.out.Changes = append(r.out.Changes, c.says())
			of[c.about] = true
		}
	}
	r.out.Changed = len(of)
}

// ageOf tells by the mark of a row whether a cell was edited, and whether the
// book was changed since; differs is false when the cell came back as it was.
func (m marked) ageOf(cell int, text, book string) (of age, differs bool) {
	switch {
	case digest(text) == m.cells[cell]:
		return edited, false
	case digest(book) == m.cells[cell]:
		return edited, true
	}
	return stale, true
}

// sameWords reports whether two texts differ in case, accents and signs alone.
func sameWords(a, b string) bool { return slices.Equal(plainWords(a), plainWords(b)) }

// onlyZeros reports whether two texts differ by what a spreadsheet program does
// to a number kept as text: zeros in front go, long ones are shortened.
func onlyZeros(list, book string) bool {
	if shortened.MatchString(strings.ToUpper(list)) && !strings.EqualFold(list, book) {
		return true
	}
	return list != book && bareRecord(list) == bareRecord(book)
}

// damaged tells of a cell that a spreadsheet program spoilt, and leaves it out.
func (r *reader) damaged(c change) bool {
	switch c.key {
	case "serial", "record", "phone":
		if onlyZeros(c.list, c.book) {
			r.finding("%s: %s “%s” was made a number by the spreadsheet program. It stays %s.", c.line.where(), c.line.heading(c.key), c.list, c.book)
			return true
		}
	}
	return false
}
