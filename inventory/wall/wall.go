// Package wall reads times as people write them down from the clock on the
// wall. Where clocks are changed, an hour of the year comes twice and another
// not at all; neither is guessed.
package wall

import (
	"fmt"
	"strings"
	"sync"
	"time"
	_ "time/tzdata" // the zones, where the machine has none
)

// The layouts in which a person may write a time. Dates are ISO 8601, for a
// date such as 03/04 means two different days.
const (
	Layout       = "2006-01-02 15:04"
	OffsetLayout = "2006-01-02 15:04 -07:00"
	Example      = "2026-11-24 16:20"
)

var zones sync.Map // those read so far, by name

// Zone returns the zone of a name in the IANA time zone database, as
// "Europe/Lisbon".
func Zone(name string) (*time.Location, error) {
	if loc, read := zones.Load(name); read {
		return loc.(*time.Location), nil
	}
	loc, err := time.LoadLocation(strings.TrimSpace(name))
	if err != nil || loc == time.Local || name == "" {
		return nil, fmt.Errorf("%q is no time zone. Write its name in the IANA time zone database, as Europe/Lisbon or America/St_Johns", name)
	}
	zones.Store(name, loc)
	return loc, nil
}

// Fixed returns t in the fixed offset that its clock shows then.
func Fixed(t time.Time) time.Time {
	_, seconds := t.Zone()
	return t.In(time.FixedZone("", seconds))
}

// Parse reads a date and time of the clock in loc, "2026-11-24 16:20". The
// hour that a change of the clocks repeats needs its UTC offset behind it; the
// hour that a change leaves out is refused.
func Parse(text string, loc *time.Location) (time.Time, error) {
	return parse(text, loc, Example)
}

func parse(text string, loc *time.Location, example string) (time.Time, error) {
	text = strings.Join(strings.Fields(strings.Replace(text, "T", " ", 1)), " ")
	if text == "" {
		return time.Time{}, fmt.Errorf("the time is missing: write it as %s", example)
	}
	if t, err := time.Parse(OffsetLayout, text); err == nil {
		return t.In(loc), nil
	}
	shown, err := time.Parse(Layout, text)
	if err != nil {
		return time.Time{}, fmt.Errorf("“%s” is not a time: write it as %s", text, example)
	}
	switch found := Instants(shown, loc); len(found) {
	case 1:
		return found[0], nil
	case 0:
		return time.Time{}, fmt.Errorf("%s does not exist: the clocks were put forward over it", text)
	default:
		return time.Time{}, fmt.Errorf("%s came twice, as the clocks were put back: add %s for the first or %s for the second",
			text, found[0].Format("-07:00"), found[1].Format("-07:00"))
	}
}

// ParseOn is Parse that also reads an hour alone, "17:05", on the day of now,
// and one with its offset, "01:30 -04:00".
func ParseOn(text string, now time.Time) (time.Time, error) {
	if hour, _, _ := strings.Cut(strings.TrimSpace(text), " "); hour != "" {
		if _, err := time.Parse("15:04", hour); err == nil {
			text = now.Format(time.DateOnly) + " " + text
		}
	}
	return parse(text, now.Location(), "16:20, or "+Example)
}

// Twice reports whether the clock in the zone of t shows the time of t at
// another moment too, as in the hour after the clocks were put back.
func Twice(t time.Time) bool {
	return len(Instants(t, t.Location())) > 1
}

// Instants are all moments at which the clock in loc shows the date and time
// that shown has in its own zone, in their order.
func Instants(shown time.Time, loc *time.Location) []time.Time {
	y, m, d := shown.Date()
	utc := time.Date(y, m, d, shown.Hour(), shown.Minute(), shown.Second(), shown.Nanosecond(), time.UTC)
	var found []time.Time
	// Offsets in use around the time. A day on either side is further than any
	// offset reaches.
	for _, around := range []time.Duration{-24 * time.Hour, 24 * time.Hour} {
		_, offset := utc.Add(around).In(loc).Zone()
		t := utc.Add(-time.Duration(offset) * time.Second).In(loc)
		if _, in := t.Zone(); in != offset || len(found) > 0 && found[0].Equal(t) {
			continue
		}
		found = append(found, t)
	}
	return found
}
