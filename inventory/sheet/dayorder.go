package sheet

import (
	"fmt"
	"iter"
	"strings"
)

// DayOrder says which number of a date like 3/4/25 is the day.
type DayOrder int

// The orders. An unknown order has to be asked about.
const (
	OrderUnknown DayOrder = iota
	DayFirst
	MonthFirst
)

// String returns the order as a person would say it.
func (o DayOrder) String() string {
	return [...]string{"unknown", "day first", "month first"}[max(0, min(int(o), 2))]
}

// Tally counts the cells that say one thing, with a few of them as examples.
type Tally struct {
	Count    int
	Examples []string
}

func (t *Tally) add(text string) {
	const shown = 5
	if t.Count++; len(t.Examples) < shown {
		t.Examples = append(t.Examples, text)
	}
}

// Evidence is what a file's dates say about their order.
type Evidence struct {
	DayFirst   Tally // only the first number can be the day: 17/3/25
	MonthFirst Tally // only the second number can be the day: 3/17/25
	Either     Tally // both can: 3/4/25
	Plain      Tally // no order needed: 2025-03-04, 4 March 2025, 4/4/25
	Numbers    Tally // the spreadsheet took the cell for a date
	// Turned says that every date the spreadsheet understood has a day up to
	// 12 and every one it left as text a day beyond: it may have read day and
	// month the wrong way round, and its own dates are then wrong too.
	Turned bool
}

// Contradicts reports whether some dates have the day first and some the month.
func (e Evidence) Contradicts() bool { return e.DayFirst.Count > 0 && e.MonthFirst.Count > 0 }

// String states the evidence in a sentence.
func (e Evidence) String() string {
	var said []string
	say := func(t Tally, what string) {
		if t.Count > 0 {
			said = append(said, fmt.Sprintf("%d %s (%s)", t.Count, what, strings.Join(t.Examples, ", ")))
		}
	}
	say(e.DayFirst, "can only have the day first")
	say(e.MonthFirst, "can only have the month first")
	say(e.Either, "can be read both ways")
	if len(said) == 0 {
		return "No date needs to know which number is the month."
	}
	s := "Of the dates, " + strings.Join(said, "; ") + "."
	if e.Turned {
		s += " The spreadsheet program may have turned day and month round in the others."
	}
	return s
}

// JudgeDayOrder looks at all the date cells of one file and says in which
// order they are written. The order counts as known when at least one date
// proves it, none disproves it, and every way of writing (with slashes, with
// points) that leaves it open has a proof of its own.
func JudgeDayOrder(cells iter.Seq[Cell]) (DayOrder, Evidence) {
	var e Evidence
	proof, open := map[string]DayOrder{}, map[string]bool{}
	lateSerial := false
	for c := range cells {
		if c.Blank() {
			continue
		}
		if c.Serial {
			e.Numbers.add(c.Text)
			when, err := ParseDay(c, OrderUnknown, false)
			lateSerial = lateSerial || err != nil || when.Time.Day() > 12
			continue
		}
		first, second, separator, ok := numbersOf(c.Text)
		switch {
		case !ok || first == second:
			e.Plain.add(c.Text)
		case first > 12 && second <= 12:
			e.DayFirst.add(c.Text)
			proof[separator] = DayFirst
		case second > 12 && first <= 12:
			e.MonthFirst.add(c.Text)
			proof[separator] = MonthFirst
		case first <= 12 && second <= 12:
			e.Either.add(c.Text)
			open[separator] = true
		}
	}
	e.Turned = e.Numbers.Count > 1 && !lateSerial && e.Either.Count == 0 && e.DayFirst.Count+e.MonthFirst.Count > 1
	if e.Contradicts() {
		return OrderUnknown, e
	}
	for separator := range open {
		if proof[separator] == OrderUnknown {
			return OrderUnknown, e
		}
	}
	switch {
	case e.DayFirst.Count > 0:
		return DayFirst, e
	case e.MonthFirst.Count > 0:
		return MonthFirst, e
	}
	return OrderUnknown, e
}

// numbersOf returns the two numbers of a date whose order matters, and how
// they are separated.
func numbersOf(text string) (first, second int, separator string, ok bool) {
	text = strings.ToLower(strings.Join(strings.Fields(text), " "))
	if date, _, err := splitClock(text); err == nil {
		text = date
	}
	if m := threeParts.FindStringSubmatch(text); m != nil && m[2] == m[4] {
		return number(m[1]), number(m[3]), m[2], true
	}
	if m := twoParts.FindStringSubmatch(text); m != nil {
		return number(m[1]), number(m[2]), strings.Trim(text, "0123456789"), true
	}
	return 0, 0, "", false
}
