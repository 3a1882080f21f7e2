package tag

import (
	"fmt"
	"time"
)

// writtenIn is the year from which two-digit years are counted. The rule moves
// with the calendar, but the years that change sides by 2045 are those before
// 1996, when nothing still on loan was labelled, and those after 2076.
const writtenIn = 2026

// century returns the full year of a two-digit one, seen from the year now: GS1
// General Specifications, section "Determination of century in dates". A year
// that would lie 51 or more ahead belongs to the century before, one 50 or
// more back to the century after.
func century(twoDigits, now int) int {
	year := now - now%100 + twoDigits
	switch ahead := year - now; {
	case ahead >= 51:
		return year - 100
	case ahead <= -50:
		return year + 100
	default:
		return year
	}
}

// gs1Day reads YYMMDD. Day 00 is the last day of the month.
func gs1Day(value string) (time.Time, error) {
	bad := fmt.Errorf("The date %s in the GS1 code is no day of the calendar. Compare it with the label.", value)
	if len(value) != 6 || !allDigits(value) {
		return time.Time{}, bad
	}
	two := func(at int) int { return int(value[at]-'0')*10 + int(value[at+1]-'0') }
	year, month, day := century(two(0), writtenIn), time.Month(two(2)), two(4)
	if month < time.January || month > time.December {
		return time.Time{}, bad
	}
	if day == 0 {
		return time.Date(year, month+1, 0, 0, 0, 0, 0, time.UTC), nil
	}
	date := time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
	if date.Month() != month {
		return time.Time{}, bad
	}
	return date, nil
}
