package sheet

import (
	"fmt"
	"time"

	"lungwort/inventory/wall"
)

// When is a day, with a time of day or without. The zero value is unknown.
type When struct {
	Time      time.Time // the wall clock, in UTC unless Zoned
	Clock     bool      // the time of day was given
	Zoned     bool      // an offset was given, and Time has it
	ShortYear bool      // the year was given with two digits and taken as 2000 to 2099
}

// IsZero reports whether nothing is known.
func (w When) IsZero() bool { return w.Time.IsZero() }

// String returns 2006-01-02, 2006-01-02 15:04, or nothing when unknown.
func (w When) String() string {
	switch {
	case w.IsZero():
		return ""
	case !w.Clock:
		return w.Time.Format("2006-01-02")
	case w.Zoned:
		return w.Time.Format("2006-01-02 15:04:05-07:00")
	case w.Time.Second() != 0:
		return w.Time.Format("2006-01-02 15:04:05")
	}
	return w.Time.Format("2006-01-02 15:04")
}

// NotAfter moves a year given with two digits back by a century when the day
// would lie after the latest one possible, as a date of birth would.
func (w When) NotAfter(latest time.Time) When {
	if w.ShortYear && w.Time.After(latest) {
		w.Time = w.Time.AddDate(-100, 0, 0)
	}
	return w
}

// In places the wall clock in the zone. An hour that the clock change skips
// or repeats there is a *Doubt.
func (w When) In(zone *time.Location) (time.Time, error) {
	switch {
	case w.IsZero():
		return time.Time{}, nil
	case w.Zoned:
		return w.Time.In(zone), nil
	}
	found := wall.Instants(w.Time, zone)
	if len(found) == 1 {
		return found[0], nil
	}
	if len(found) == 0 {
		return time.Time{}, &Doubt{Text: w.String(), Asks: "The clock skipped this hour when it was put forward. Which time was it?"}
	}
	candidates := make([]string, len(found))
	for i, t := range found {
		candidates[i] = t.Format("2006-01-02 15:04 -07:00")
	}
	return time.Time{}, &Doubt{Text: w.String(), Candidates: candidates,
		Asks: fmt.Sprintf("The clock showed %s twice, before and after it was put back. Which one was it?", w.Time.Format("15:04"))}
}
