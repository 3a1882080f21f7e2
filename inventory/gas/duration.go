package gas

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

const durationNextStep = "Write it as 30 min, 12 h or 14 days"

// longestDuration is more than any loan lasts, fifty years.
const longestDuration = 50 * 365 * 24 * time.Hour

var durationUnits = []struct {
	spellings []string
	is        time.Duration
}{
	{[]string{"s", "sec", "second", "seconds"}, time.Second},
	{[]string{"m", "min", "mins", "minute", "minutes"}, time.Minute},
	{[]string{"h", "hr", "hrs", "hour", "hours"}, time.Hour},
	{[]string{"d", "day", "days"}, 24 * time.Hour},
	{[]string{"week", "weeks"}, 7 * 24 * time.Hour},
}

// ParseDuration reads a stretch of time: "90 min", "1 h 30 min", "1h30m",
// "1,5 h", "14 days". A number without a unit, and "1:30", come back as a
// *Question with the shorter as the careful one.
func ParseDuration(text string) (time.Duration, error) {
	rest := tidy(text)
	if d, asked, is := bareDuration(text, rest); is {
		return d, asked
	}
	var sum time.Duration
	smaller := longestDuration
	for rest != "" {
		part, unit, after, err := durationPart(rest)
		if err != nil || unit >= smaller {
			return 0, fmt.Errorf("%q is not a stretch of time. %s", text, durationNextStep)
		}
		if part < 0 || part > longestDuration-sum {
			return 0, fmt.Errorf("%q is below zero or too long. %s", text, durationNextStep)
		}
		sum, rest, smaller = sum+part, after, unit
	}
	if smaller == longestDuration {
		return 0, fmt.Errorf("no stretch of time is given. %s", durationNextStep)
	}
	return sum, nil
}

// durationPart reads one number and its unit from the start of a tidy text.
func durationPart(text string) (part, unit time.Duration, rest string, err error) {
	number, after := splitNumeral(text)
	n, err := readNumeral(number)
	if err != nil {
		return 0, 0, "", err
	}
	end := strings.IndexFunc(after, func(r rune) bool { return r < 'a' || r > 'z' })
	if end < 0 {
		end = len(after)
	}
	for _, u := range durationUnits {
		if slices.Contains(u.spellings, after[:end]) {
			value := n.decimal // nobody writes thousands of hours with a mark
			if most := longestDuration.Seconds() / u.is.Seconds(); value > most {
				value = 2 * most
			}
			return time.Duration(value * float64(u.is)).Round(time.Second), u.is, strings.TrimSpace(after[end:]), nil
		}
	}
	return 0, 0, "", errNotANumber
}

// bareDuration asks about a time without units.
func bareDuration(text, plain string) (d time.Duration, asked error, is bool) {
	if plain == "0" {
		return 0, nil, true
	}
	big, small, clock := strings.Cut(plain, ":")
	n, err := readNumeral(big)
	if err != nil || n.decimal < 0 || n.decimal > 10_000 {
		return 0, nil, false
	}
	q := &Question{Text: text, Asks: "in which unit?"}
	written := []string{trimmed(n.decimal, 2) + " min", trimmed(n.decimal, 2) + " h"}
	var less, more time.Duration
	if clock {
		m, err := readNumeral(small)
		if err != nil || len(small) != 2 || m.decimal < 0 || m.decimal >= 60 {
			return 0, nil, false
		}
		less, more = time.Duration(m.decimal)*time.Second, time.Duration(m.decimal)*time.Minute
		written = []string{written[0] + " " + trimmed(m.decimal, 0) + " s", written[1] + " " + trimmed(m.decimal, 0) + " min"}
	}
	q.Candidates = []Candidate{
		{Says: written[0], Hours: time.Duration(n.decimal*float64(time.Minute)) + less},
		{Says: written[1], Hours: time.Duration(n.decimal*float64(time.Hour)) + more},
	}
	return 0, q, true
}
