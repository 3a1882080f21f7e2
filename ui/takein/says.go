package takein

import (
	"fmt"
	"strings"
)

// Summary says what becomes of the rows.
func (m *Model) Summary() string {
	r := m.Reading
	if r == nil {
		return ""
	}
	parts := []string{count(r.Taken, "row is", "rows are") + " clear"}
	if r.Waiting > 0 {
		parts = append(parts, count(r.Waiting, "waits", "wait")+" for "+count(len(r.Questions), "answer", "answers"))
	}
	if len(r.Refused) > 0 {
		parts = append(parts, fmt.Sprintf("%d refused", len(r.Refused)))
	}
	if r.LeftOut > 0 {
		parts = append(parts, fmt.Sprintf("%d left out", r.LeftOut))
	}
	return fmt.Sprintf("Of %s, %s.", count(r.Rows, "row", "rows"), strings.Join(parts, ", "))
}

// Adds says what the clear rows would add to the book.
func (m *Model) Adds() string {
	r := m.Reading
	if r == nil {
		return ""
	}
	known := 0
	for _, who := range r.People {
		if who.Known {
			known++
		}
	}
	a := r.Added
	says := "They add nothing: the book has all of it."
	if a.Things+a.Persons+a.Facts > 0 {
		says = fmt.Sprintf("They add %s, %s and %s to the book.", count(a.Things, "thing", "things"), count(a.Persons, "person", "persons"), count(a.Facts, "fact", "facts"))
	}
	if r.Changed > 0 {
		says += fmt.Sprintf(" Of what the book has, %s.", count(r.Changed, "thing or person changes", "things and persons change"))
	}
	if known > 0 {
		says += fmt.Sprintf(" %s in the book already.", count(known, "person is", "persons are"))
	}
	return says
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// rest says what of the lists is not in the book.
func (m *Model) rest() string {
	var parts []string
	if n := m.Reading.Waiting; n > 0 {
		parts = append(parts, count(n, "row waits for an answer", "rows wait for an answer"))
	}
	if n := len(m.Reading.Refused); n > 0 {
		parts = append(parts, count(n, "row is refused", "rows are refused"))
	}
	if len(parts) == 0 {
		return ""
	}
	return " " + strings.Join(parts, ", ") + "."
}
