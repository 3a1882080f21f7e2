package intake

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"lungwort/inventory/sheet"
)

// The answers to the question which number of a date is the day.
const (
	dayFirst   = "day first"
	monthFirst = "month first"
	bySign     = "day first with points, month first with slashes"
)

// days is what one file's dates say about the order of day and month, decided
// for the whole file and never for a row.
type days struct {
	order    sheet.DayOrder
	evidence sheet.Evidence
	signs    bool // dates open to both readings stand with slashes and with points
	years    []int
}

// judgeDays looks at all dates of each file.
func (r *reader) judgeDays() {
	r.pace.expect(3 * len(dated) * r.lines()) // at most: to gather them, and to look at them twice
	byFile := map[string][]*list{}
	for _, l := range r.lists {
		byFile[l.table.File] = append(byFile[l.table.File], l)
	}
	for _, together := range byFile {
		var cells []sheet.Cell
		for _, l := range together {
			cells = append(cells, r.dates(l)...)
		}
		d := r.judge(cells)
		for _, l := range together {
			l.days = d
		}
	}
}

// dates returns the cells of a list that hold days of the past.
func (r *reader) dates(l *list) []sheet.Cell {
	var cells []sheet.Cell
	for _, key := range dated {
		if _, mapped := l.mapping.Columns[key]; !mapped {
			continue
		}
		for line := range each(r, l.lines) {
			if c := line.cell(key); !c.Blank() {
				cells = append(cells, c)
			}
		}
	}
	return cells
}

func (r *reader) judge(cells []sheet.Cell) days {
	var d days
	d.order, d.evidence = sheet.JudgeDayOrder(each(r, cells))
	slash, point := false, false
	seen := map[string]bool{}
	for c := range each(r, cells) {
		if seen[c.Text] {
			continue
		}
		seen[c.Text] = true
		if open(c) {
			slash = slash || strings.Contains(c.Text, "/")
			point = point || strings.Contains(c.Text, ".")
		} else if when, err := sheet.ParseDay(c, sheet.OrderUnknown, false); err == nil {
			d.years = append(d.years, when.Time.Year())
		}
	}
	d.signs = slash && point
	slices.Sort(d.years)
	d.years = slices.Compact(d.years)
	return d
}

// open reports whether a cell is a date with two readings.
func open(c sheet.Cell) bool {
	var doubt *sheet.Doubt
	_, err := sheet.ParseDay(c, sheet.OrderUnknown, false)
	return errors.As(err, &doubt) && len(doubt.Candidates) > 1
}

// day reads a cell as an instant of the past. Days without a time of day
// count from midnight. The zero time is unknown: blank, asked about, or
// refused.
func (r *reader) day(l *line, key string) time.Time {
	t := r.anyDay(l, key)
	if t.After(r.at) {
		l.refuse("%s “%s” lies ahead of %s.", l.heading(key), l.text(key), r.at.Format("2 Jan 2006 15:04"))
		return time.Time{}
	}
	return t
}

// anyDay reads a cell as an instant, in the past or ahead.
func (r *reader) anyDay(l *line, key string) time.Time {
	when, ok := r.when(l, key)
	if !ok {
		return time.Time{}
	}
	if key == "born" {
		when = when.NotAfter(r.at)
	}
	t, err := when.In(r.at.Location())
	var twice *sheet.Doubt
	switch {
	case errors.As(err, &twice) && len(twice.Candidates) > 1:
		l.refuse("%s %s Write it as %s.", l.heading(key), err, strings.Join(twice.Candidates, " or "))
	case err != nil:
		l.refuse("%s %s", l.heading(key), err)
	}
	return fixed(t)
}

// fixed returns a time with its bare offset: the name of a zone never enters a
// fact.
func fixed(t time.Time) time.Time {
	if t.IsZero() {
		return t
	}
	_, offset := t.Zone()
	return t.In(time.FixedZone("", offset))
}

func (r *reader) when(l *line, key string) (sheet.When, bool) {
	cell := l.cell(key)
	if cell.Blank() {
		return sheet.When{}, false
	}
	date1904 := l.list.table.Date1904
	when, err := sheet.ParseDay(cell, sheet.OrderUnknown, date1904)
	var doubt *sheet.Doubt
	switch {
	case err == nil:
		return when, true
	case !errors.As(err, &doubt):
		l.refuse("%s: %s", l.heading(key), err)
		return when, false
	case len(doubt.Candidates) > 1:
		order, ok := r.dayOrder(l, cell)
		if !ok {
			return when, false
		}
		when, err = sheet.ParseDay(cell, order, date1904)
	case lacksYear(cell.Text, 2024) != "":
		year, ok := r.year(l, cell)
		if !ok {
			return when, false
		}
		return r.withYear(l, key, year)
	}
	if err != nil {
		l.refuse("%s %s", l.heading(key), err)
	}
	return when, err == nil
}

// dayOrder returns the order of a date with two readings: what the file's
// dates prove, or what was answered.
func (r *reader) dayOrder(l *line, cell sheet.Cell) (sheet.DayOrder, bool) {
	d := l.list.days
	if d.order != sheet.OrderUnknown {
		return d.order, true
	}
	choices := []Choice{
		{dayFirst, "3/4/25 is 3 April 2025"},
		{monthFirst, "3/4/25 is March 4, 2025"},
	}
	if d.signs {
		choices = append(choices, Choice{bySign, "3.4.25 is 3 April, 3/4/25 is March 4"})
	}
	answer, ok := r.ask(l, Question{
		Key:     "days:" + l.list.table.File,
		Asks:    fmt.Sprintf("In %s, which number of a date is the day? %s", l.list.table.File, d.evidence),
		Choices: choices, fits: d.allows,
	}, cell.Text)
	switch {
	case !ok:
		return sheet.OrderUnknown, false
	case answer == dayFirst, answer == bySign && strings.Contains(cell.Text, "."):
		return sheet.DayFirst, true
	}
	return sheet.MonthFirst, true
}

// allows reports whether what was answered for an earlier file can be so for
// this one: none of its own dates says otherwise.
func (d days) allows(answer string) bool {
	switch answer {
	case dayFirst:
		return d.evidence.MonthFirst.Count == 0
	case monthFirst:
		return d.evidence.DayFirst.Count == 0
	}
	return d.signs
}

// lacksYear returns the date with the year put to it, when the year is all it
// lacks.
func lacksYear(text string, year int) string {
	for _, sign := range []string{"/", "-", ".", " "} {
		full := text + sign + strconv.Itoa(year)
		_, err := sheet.ParseDay(sheet.Cell{Text: full}, sheet.DayFirst, false)
		_, turned := sheet.ParseDay(sheet.Cell{Text: full}, sheet.MonthFirst, false)
		if err == nil || turned == nil {
			return full
		}
	}
	return ""
}

// year asks for the year of the file's dates that have none.
func (r *reader) year(l *line, cell sheet.Cell) (int, bool) {
	choices := []Choice{}
	for _, y := range l.list.days.years {
		if y > r.at.Year()-10 {
			choices = append(choices, Choice{strconv.Itoa(y), "as other dates of the file"})
		}
	}
	answer, ok := r.ask(l, Question{
		Key:     "year:" + l.list.table.File,
		Asks:    fmt.Sprintf("In %s, which year do dates without a year belong to?", l.list.table.File),
		Choices: choices, free: true, once: true,
	}, cell.Text)
	if !ok {
		return 0, false
	}
	year, err := strconv.Atoi(answer)
	if err != nil || year < 1990 || year > r.at.Year()+1 {
		l.refuse("The answer “%s” is no year for %s.", answer, cell.Text)
		return 0, false
	}
	return year, true
}

func (r *reader) withYear(l *line, key string, year int) (sheet.When, bool) {
	cell := sheet.Cell{Text: lacksYear(l.text(key), year)}
	order := sheet.OrderUnknown
	if open(cell) {
		var ok bool
		if order, ok = r.dayOrder(l, sheet.Cell{Text: l.text(key)}); !ok {
			return sheet.When{}, false
		}
	}
	when, err := sheet.ParseDay(cell, order, false)
	if err != nil {
		l.refuse("%s %s", l.heading(key), err)
	}
	return when, err == nil
}
