package sheet

import (
	"fmt"
	"math"
	"strconv"
	"time"
)

// csvText returns a value as text, or false when it does not fit the kind.
func csvText(kind Kind, value any) (string, bool) {
	switch v := value.(type) {
	case nil:
		return "", true
	case string:
		return guarded(storable(v)), true
	case float64:
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return "", true
		}
		return strconv.FormatFloat(unsigned(v), 'f', -1, 64), kind == Number
	case int:
		return strconv.Itoa(v), kind == Whole
	case int64:
		return strconv.FormatInt(v, 10), kind == Whole
	case time.Time:
		switch {
		case v.IsZero():
			return "", kind == Day || kind == Time
		case kind == Day:
			return v.Format("2006-01-02"), true
		}
		return v.Format("2006-01-02 15:04"), kind == Time
	case time.Duration:
		return hoursMinutes(v), kind == Duration
	}
	return "", false
}

// unsigned is v, where a rounded nothing has no sign: programs show "-0" or "0".
func unsigned(v float64) float64 {
	if v == 0 {
		return 0
	}
	return v
}

// partsOfADay is finer than any clock, and coarse enough that rounding up to it
// keeps 10:00 from being shown as 9:59 by a program that drops what is less
// than a second.
const partsOfADay = 1e9

// numberOf returns a value as a spreadsheet stores it: text, a number, or nil
// for a blank cell; false when it does not fit the kind.
func numberOf(kind Kind, value any) (any, bool) {
	switch v := value.(type) {
	case nil:
		return nil, true
	case string:
		return v, true
	case float64:
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, true
		}
		return unsigned(v), kind == Number
	case int, int64:
		return v, kind == Whole
	case time.Time:
		if v.IsZero() {
			return nil, kind == Day || kind == Time
		}
		n := dayNumber(v)
		if kind == Day {
			n = math.Floor(n)
		} else {
			n = math.Ceil(n*partsOfADay) / partsOfADay
		}
		return n, kind == Day || kind == Time
	case time.Duration:
		if v < 0 {
			return hoursMinutes(v), kind == Duration // the 1900 calendar can't show it as a number
		}
		return v.Hours() / 24, kind == Duration
	}
	return nil, false
}

// hoursMinutes writes a duration to the minute, as 27:05.
func hoursMinutes(d time.Duration) string {
	minutes := int64(d.Round(time.Minute) / time.Minute)
	sign := ""
	if minutes < 0 {
		sign, minutes = "-", -minutes
	}
	return fmt.Sprintf("%s%d:%02d", sign, minutes/60, minutes%60)
}
