package sheet

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// The forms of a day, of a time of day and of an offset, in lower case, with
// the commas gone and single spaces.
var (
	yearFirst   = regexp.MustCompile(`^(\d{4})([-/.])(\d{1,2})([-/.])(\d{1,2})$`)
	threeParts  = regexp.MustCompile(`^(\d{1,2})([-/. ])(\d{1,2})([-/. ])(\d{4}|\d{2})$`)
	twoParts    = regexp.MustCompile(`^(\d{1,2})[-/.](\d{1,2})$`)
	dayAndMonth = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th)?[-/. ]*([a-z]{3,9})(?:[-/. ]*(\d{4}|\d{2}))?$`)
	monthAndDay = regexp.MustCompile(`^([a-z]{3,9})[-/. ]*(\d{1,2})(?:st|nd|rd|th)?(?:[-/. ]+(\d{4}|\d{2}))?$`)
	monthOfYear = regexp.MustCompile(`^([a-z]{3,9})[-/. ]*(\d{4})$`)
	dayNumbers  = regexp.MustCompile(`^\d{5}(\.\d+)?$`)
	eightDigits = regexp.MustCompile(`^(\d{4})(\d{2})(\d{2})$`)
	clockAtEnd  = regexp.MustCompile(`^(?:(.*?\S)(?:t| at | ))?(\d{1,2}):(\d{2})(?::(\d{2})(?:\.\d+)?)?(?: ?([ap])\.?(?:m\.?)?)?(?: ?(z|utc|gmt|[+-]\d{2}:?\d{2}))?$`)
	fourDigits  = regexp.MustCompile(`^(.*[-/. ]\d{4}|.*[-/.]\d{2}) (\d{2})(\d{2})(?: ?h| hrs)?$`)
	weekday     = regexp.MustCompile(`\b(?:mon|tue|tues|wed|weds|thu|thur|thurs|fri|sat|sun|monday|tuesday|wednesday|thursday|friday|saturday|sunday)\b\.?`)
)

// The day numbers that a bare number of five digits is taken for: a text file
// keeps them when a date column was saved as numbers. They reach from 1954
// to 2119.
const firstBareDay, lastBareDay = 20_000, 80_000

// ParseDay reads a cell as a day, with its time of day when it has one. A
// blank cell gives the zero When: unknown. A cell with more than one reading,
// or none, gives a *Doubt.
func ParseDay(c Cell, order DayOrder, date1904 bool) (When, error) {
	if c.Blank() {
		return When{}, nil
	}
	if c.Serial || dayNumbers.MatchString(c.Text) {
		return dayFromCell(c, date1904)
	}
	text := strings.ToLower(strings.ReplaceAll(c.Text, ",", " "))
	text = strings.Join(strings.Fields(weekday.ReplaceAllString(text, " ")), " ")
	if text == "" {
		return When{}, &Doubt{Text: c.Text, Asks: "This names a weekday only. Which day was it?"}
	}
	date, clock, err := splitClock(text)
	if err != nil {
		return When{}, &Doubt{Text: c.Text, Asks: err.Error()}
	}
	when, err := parseDate(c.Text, date, order)
	if err != nil || clock == nil {
		return when, err
	}
	return clock.on(when), nil
}

func dayFromCell(c Cell, date1904 bool) (When, error) {
	raw := c.Raw
	if !c.Serial {
		raw = c.Text
	}
	v, err := strconv.ParseFloat(raw, 64)
	if err == nil && !c.Serial && (v < firstBareDay || v > lastBareDay) {
		err = fmt.Errorf("day number %v is too far away", v)
	}
	var t time.Time
	if err == nil {
		t, err = dayFromNumber(v, date1904)
	}
	if err != nil {
		return When{}, &Doubt{Text: c.Text, Asks: "This number is no day the calendar has. Which day was it?"}
	}
	return When{Time: t, Clock: t.Hour() != 0 || t.Minute() != 0 || t.Second() != 0 || c.Serial && len(c.Text) > len("2006-01-02")}, nil
}

// parseDate reads the part of the cell that names the day.
func parseDate(shown, date string, order DayOrder) (When, error) {
	if m := yearFirst.FindStringSubmatch(date); m != nil && m[2] == m[4] {
		return dayOf(shown, m[1], number(m[3]), number(m[5]))
	}
	if m := eightDigits.FindStringSubmatch(date); m != nil {
		return dayOf(shown, m[1], number(m[2]), number(m[3]))
	}
	if m := threeParts.FindStringSubmatch(date); m != nil && m[2] == m[4] {
		return numericDay(shown, number(m[1]), number(m[3]), m[5], order)
	}
	if m := dayAndMonth.FindStringSubmatch(date); m != nil && monthNamed(m[2]) > 0 {
		return dayOf(shown, m[3], monthNamed(m[2]), number(m[1]))
	}
	if m := monthOfYear.FindStringSubmatch(date); m != nil && monthNamed(m[1]) > 0 {
		return When{}, &Doubt{Text: shown, Asks: "This names a month without a day. Which day was it?"}
	}
	if m := monthAndDay.FindStringSubmatch(date); m != nil && monthNamed(m[1]) > 0 {
		return dayOf(shown, m[3], monthNamed(m[1]), number(m[2]))
	}
	if twoParts.MatchString(date) {
		return When{}, &Doubt{Text: shown, Asks: "This has no year. Which day was it?"}
	}
	if date == "" {
		return When{}, &Doubt{Text: shown, Asks: "This is a time of day without a day. Which day was it?"}
	}
	return When{}, &Doubt{Text: shown, Asks: "This can't be read as a day. Which day is meant?"}
}

// numericDay decides which of two numbers is the month.
func numericDay(shown string, first, second int, year string, order DayOrder) (When, error) {
	dayFirst, notDay := dayOf(shown, year, second, first)
	monthFirst, notMonth := dayOf(shown, year, first, second)
	switch {
	case notDay != nil && notMonth != nil:
		return When{}, notDay
	case first == second:
		return dayFirst, nil
	case notDay != nil && order != DayFirst:
		return monthFirst, nil
	case notMonth != nil && order != MonthFirst:
		return dayFirst, nil
	case notDay != nil:
		return When{}, &Doubt{Text: shown, Candidates: []string{monthFirst.String()}, Asks: "The file has the day first, but there is no such month. Is the month first here?"}
	case notMonth != nil:
		return When{}, &Doubt{Text: shown, Candidates: []string{dayFirst.String()}, Asks: "The file has the month first, but there is no such month. Is the day first here?"}
	case order == DayFirst:
		return dayFirst, nil
	case order == MonthFirst:
		return monthFirst, nil
	}
	return When{}, &Doubt{Text: shown, Candidates: []string{monthFirst.String(), dayFirst.String()}, Asks: "Which number is the month?"}
}

// dayOf puts a day together and refuses one the calendar does not have.
func dayOf(shown, year string, month, day int) (When, error) {
	if year == "" {
		return When{}, &Doubt{Text: shown, Asks: "This has no year. Which day was it?"}
	}
	y, short := number(year), len(year) == 2
	if short {
		y += 2000
	}
	t := time.Date(y, time.Month(month), day, 0, 0, 0, 0, time.UTC)
	if month < 1 || month > 12 || t.Day() != day || y < 1800 {
		return When{}, &Doubt{Text: shown, Asks: "The calendar has no such day. Which day is meant?"}
	}
	return When{Time: t, ShortYear: short}, nil
}

// monthNamed returns the month whose English name the word begins, or 0.
func monthNamed(word string) int {
	if word == "sept" {
		return 9
	}
	for m := time.January; m <= time.December; m++ {
		name := strings.ToLower(m.String())
		if word == name || word == name[:3] {
			return int(m)
		}
	}
	return 0
}

// number reads digits that a pattern has already checked.
func number(digits string) int {
	n, _ := strconv.Atoi(digits)
	return n
}
