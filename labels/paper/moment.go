package paper

import (
	"fmt"
	"time"
)

// moment prints a time as people at a desk say it: weekday, day, month, clock.
// The zone is the one the time carries.
func moment(t time.Time) string { return t.Format("Mon 2 Jan 15:04") }

// clock prints the time of day.
func clock(t time.Time) string { return t.Format("15:04") }

// weekdayClock prints a time within the week to come; an unset time is a dash.
func weekdayClock(t time.Time) string {
	if t.IsZero() {
		return "–"
	}
	return t.Format("Mon 15:04")
}

// longDay prints a date with its year.
func longDay(t time.Time) string { return t.Format("Monday 2 January 2006") }

// momentBeside prints t by its clock alone when it falls on the day of beside,
// and with its weekday otherwise; an unset time is a dash.
func momentBeside(t, beside time.Time) string {
	if t.IsZero() {
		return "–"
	}
	if t.Format(time.DateOnly) == beside.Format(time.DateOnly) {
		return clock(t)
	}
	return moment(t)
}

// span prints a duration in hours and minutes, rounded down to the minute.
func span(d time.Duration) string {
	minutes := int(d / time.Minute)
	if minutes < 0 {
		return "–" + span(-d)
	}
	if minutes < 60 {
		return fmt.Sprintf("%d min", minutes)
	}
	return fmt.Sprintf("%d h %02d min", minutes/60, minutes%60)
}

// age prints how old a fact of time t is at now, rounded down, in the unit
// that matters.
func age(t, now time.Time) string {
	old := now.Sub(t)
	switch {
	case t.IsZero():
		return "age not known"
	case old < 0:
		return "dated later than this paper"
	case old < 6*time.Hour:
		return span(old) + " old"
	case old < 48*time.Hour:
		return fmt.Sprintf("%d h old", int(old/time.Hour))
	default:
		return fmt.Sprintf("%d days old", int(old/(24*time.Hour)))
	}
}
