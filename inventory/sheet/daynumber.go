package sheet

import (
	"fmt"
	"math"
	"time"
)

// The first day numbers that are read. Number 60 of the 1900 calendar is
// 29 February 1900, which never was; days before it are off by one, and no
// date of this work lies there.
const (
	firstDay1900 = 61
	lastDay      = 2_958_465 // 9999-12-31
	days1904     = 1462      // between the two calendars
)

// dayFromNumber turns a spreadsheet's day number into a wall-clock time,
// to the second.
func dayFromNumber(v float64, date1904 bool) (time.Time, error) {
	if date1904 {
		v += days1904
	}
	if !(v >= firstDay1900 && v < lastDay+1) {
		return time.Time{}, fmt.Errorf("day number %v is outside the calendar", v)
	}
	days := math.Floor(v)
	seconds := math.Round((v - days) * 86400)
	return time.Date(1899, 12, 30+int(days), 0, 0, int(seconds), 0, time.UTC), nil
}

// dayNumber is the other way, by t's own wall clock and in the 1900 calendar.
func dayNumber(t time.Time) float64 {
	wall := time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), 0, time.UTC)
	return wall.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Seconds() / 86400
}

// shownDay writes a day number as 2006-01-02, with the time when it has one.
func shownDay(v float64, raw string, moment, date1904 bool) string {
	t, err := dayFromNumber(v, date1904)
	if err != nil {
		return raw
	}
	return When{Time: t, Clock: moment || v != math.Floor(v)}.String()
}

func shownClock(v float64) string {
	t := time.Date(2000, 1, 1, 0, 0, int(math.Round(v*86400)), 0, time.UTC)
	if t.Second() != 0 {
		return t.Format("15:04:05")
	}
	return t.Format("15:04")
}
