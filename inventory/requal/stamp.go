// Package requal reads what requalifiers stamp on cylinders and says when a
// cylinder is due again. The rules are dated and name their source; they are
// examples, and the local code and a licensed requalifier decide. Pure.
package requal

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// Month is a calendar month: stamps carry no day.
type Month struct {
	Year  int
	Month time.Month
}

// MonthOf returns the month of a time.
func MonthOf(t time.Time) Month { return Month{t.Year(), t.Month()} }

// String returns the month as "2026-06".
func (m Month) String() string { return fmt.Sprintf("%04d-%02d", m.Year, int(m.Month)) }

// After reports whether m is later than other.
func (m Month) After(other Month) bool {
	return m.Year > other.Year || m.Year == other.Year && m.Month > other.Month
}

// Add returns the month so many years later.
func (m Month) Add(years int) Month { return Month{m.Year + years, m.Month} }

// ParseMonth reads a month written as "2026-06".
func ParseMonth(text string) (Month, bool) {
	t, err := time.Parse("2006-01", text)
	return MonthOf(t), err == nil
}

// Stamp is one requalification mark: the month and year, the requalifier's
// number if it was stamped, and the signs after it.
type Stamp struct {
	Month     Month
	Tester    string // requalifier identification number, as A123
	Plus      bool   // may be filled ten percent over
	Star      bool   // ten years in place of five, where the rules allow it
	Questions []string
}

var (
	// dashed is "04-19", "4/2019".
	dashed = regexp.MustCompile(`^(\d{1,2})[-/. ](\d{2}|\d{4})$`)
	// square is "10 A123 23": the number stands in a square, read clockwise.
	square = regexp.MustCompile(`^(\d{1,2}) ?([A-Z]\d{3}) ?(\d{2}|\d{4})$`)
	// short is "10A23", the number worn down to its letter.
	short = regexp.MustCompile(`^(\d{1,2}) ?([A-Z]) ?(\d{2})$`)
)

// Parse reads a stamp. Two figures of a year are the latest such year that is
// not more than ten years ahead; a stamp ahead of now is asked about. The error
// is a sentence for the person.
func Parse(text string, now time.Time) (Stamp, error) {
	var s Stamp
	body := strings.Join(strings.Fields(strings.ToUpper(text)), " ")
	for trimmed := true; trimmed; {
		trimmed = false
		for sign, flag := range map[string]*bool{"+": &s.Plus, "*": &s.Star, "★": &s.Star} {
			if rest, cut := strings.CutSuffix(body, sign); cut {
				body, *flag, trimmed = strings.TrimSpace(rest), true, true
			}
		}
	}
	month, year := "", ""
	switch {
	case dashed.MatchString(body):
		m := dashed.FindStringSubmatch(body)
		month, year = m[1], m[2]
	case square.MatchString(body):
		m := square.FindStringSubmatch(body)
		month, s.Tester, year = m[1], m[2], m[3]
	case short.MatchString(body):
		m := short.FindStringSubmatch(body)
		month, s.Tester, year = m[1], m[2], m[3]
		s.Questions = append(s.Questions, "the requalifier's number is one letter and three figures: read it again")
	default:
		return Stamp{}, fmt.Errorf("%q is no requalification stamp: it reads like 04-19 or 10 A123 23", text)
	}
	return s, s.date(month, year, text, now)
}

// date fills in month and year, and asks about one that lies ahead.
func (s *Stamp) date(month, year, text string, now time.Time) error {
	m, _ := strconv.Atoi(month)
	y, _ := strconv.Atoi(year)
	if m < 1 || m > 12 {
		return fmt.Errorf("%q has month %d: there are twelve", text, m)
	}
	if len(year) == 2 {
		const ahead = 10
		century := now.Year() / 100 * 100
		if y += century; y > now.Year()+ahead {
			y -= 100
		}
	}
	s.Month = Month{y, time.Month(m)}
	if s.Month.After(MonthOf(now)) {
		s.Questions = append(s.Questions, "the stamp lies ahead: a due month, or misread?")
	}
	if y < 1900 {
		return fmt.Errorf("%q is older than any cylinder", text)
	}
	return nil
}
