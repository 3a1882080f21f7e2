package requal

import (
	"fmt"
	"strings"
	"time"
)

// Rule is how long one specification of cylinder goes between requalifications.
// Zero years: no test is required.
type Rule struct {
	Spec     string // as stamped: 3AL, 3AA
	Years    int
	Star     int       // years with a star; zero: the star changes nothing
	Aluminum bool      // a star on it is a mistake
	From     time.Time // the rule holds from here; zero: always
	Until    time.Time // and before here; zero: still
	Source   string
}

// Grace is a dated leave to fill a cylinder whose month has passed.
type Grace struct {
	Months int // past due at most
	From   time.Time
	Until  time.Time
	Only   string // what it is bound to
	Source string
}

const table = "49 CFR 180.209(a), table of requalification periods"

// Rules are the periods this program ships with: examples; local codes decide.
var Rules = []Rule{
	{Spec: "3A", Years: 5, Star: 10, Source: table + "; star 180.209(b)"},
	{Spec: "3AA", Years: 5, Star: 10, Source: table + "; star 180.209(b)"},
	{Spec: "3AL", Years: 5, Aluminum: true, Source: table},
	{Spec: "3AX", Years: 5, Source: table},
	{Spec: "3AAX", Years: 5, Source: table},
	{Spec: "3HT", Years: 3, Source: table},
	{Spec: "4L", Years: 0, Source: table},
}

// Graces are the dated leaves known. The dates are from memory: enforcement
// discretion of spring 2020, twelve months past due at most, by motor vehicle.
var Graces = []Grace{{
	Months: 12, Only: "carried by motor vehicle",
	From:   time.Date(2020, time.March, 25, 0, 0, 0, 0, time.UTC),
	Until:  time.Date(2020, time.June, 26, 0, 0, 0, 0, time.UTC),
	Source: "DOT enforcement discretion on cylinder requalification, 2020; dates from memory",
}}

// Usual is the period in years of a cylinder whose specification is not known.
const Usual = 5

// RuleOf returns the rule for a specification at a time; unknown ones go by
// the usual period.
func RuleOf(spec string, at time.Time) Rule {
	key := strings.TrimPrefix(strings.ToUpper(strings.ReplaceAll(strings.TrimSpace(spec), " ", "")), "DOT-")
	for _, r := range Rules {
		if r.Spec == key && !at.Before(r.From) && (r.Until.IsZero() || at.Before(r.Until)) {
			return r
		}
	}
	return Rule{Spec: key, Years: Usual, Source: "the specification is not known: the shortest usual period"}
}

// Due returns the month in which a cylinder with this stamp is due, and what
// is to be asked of the stamp. A specification without a test is never due:
// the month is zero.
func Due(spec string, s Stamp, at time.Time) (Month, []string) {
	r, questions := RuleOf(spec, at), append([]string(nil), s.Questions...)
	years := r.Years
	switch {
	case years == 0:
		return Month{}, questions
	case s.Star && r.Star > 0:
		years = r.Star
	case s.Star && r.Aluminum:
		questions = append(questions, fmt.Sprintf("a star on %s, which is aluminium, extends nothing: read it again", r.Spec))
	}
	return s.Month.Add(years), questions
}

// MayFill reports whether a cylinder due in a month may be filled at a time:
// at any time before or during the month (49 CFR 180.205(c), PHMSA 11-0131);
// later only under a dated leave. What was filled before may be used until it
// is empty (PHMSA 09-0148), so that nothing here speaks of use.
func MayFill(due Month, at time.Time) (ok bool, under string) {
	if due == (Month{}) || !MonthOf(at).After(due) {
		return true, ""
	}
	for _, g := range Graces {
		months := (at.Year()-due.Year)*12 + int(at.Month()) - int(due.Month)
		if !at.Before(g.From) && at.Before(g.Until) && months <= g.Months {
			return true, g.Source + "; " + g.Only
		}
	}
	return false, ""
}

// InWords says by when a cylinder is due; a month that is past blocks filling,
// not use (PHMSA 09-0148).
func InWords(due Month, now time.Time) string {
	end := "by the end of " + time.Date(due.Year, due.Month, 1, 0, 0, 0, 0, time.UTC).Format("January 2006")
	if !MonthOf(now).After(due) {
		return end
	}
	return "was due " + end + ": may be used until empty; do not refill"
}
