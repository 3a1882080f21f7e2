package widgets

import (
	"fmt"
	"strings"
	"time"
)

// The layouts in which a person may write a time. Dates are ISO 8601, for a
// date such as 03/04 means two different days.
const (
	whenLayout       = "2006-01-02 15:04"
	whenOffsetLayout = "2006-01-02 15:04 -07:00"
)

// ParseWhen reads a date and time of the wall clock in loc, "2026-11-24 16:20".
// The hour that a change of the clocks repeats needs its UTC offset behind it;
// the hour that a change leaves out is refused.
func ParseWhen(text string, loc *time.Location) (time.Time, error) {
	text = strings.Join(strings.Fields(strings.Replace(text, "T", " ", 1)), " ")
	if text == "" {
		return time.Time{}, fmt.Errorf("the time is missing: write it as %s", whenExample)
	}
	if t, err := time.Parse(whenOffsetLayout, text); err == nil {
		return t.In(loc), nil
	}
	wall, err := time.Parse(whenLayout, text)
	if err != nil {
		return time.Time{}, fmt.Errorf("“%s” is not a time: write it as %s", text, whenExample)
	}
	switch found := instants(wall, loc); len(found) {
	case 1:
		return found[0], nil
	case 0:
		return time.Time{}, fmt.Errorf("%s does not exist: the clocks were put forward over it", text)
	default:
		return time.Time{}, fmt.Errorf("%s came twice, as the clocks were put back: add %s for the first or %s for the second",
			text, found[0].Format("-07:00"), found[1].Format("-07:00"))
	}
}

const whenExample = "2026-11-24 16:20"

// instants are all moments at which the clock on the wall in loc shows wall,
// in their order.
func instants(wall time.Time, loc *time.Location) []time.Time {
	var found []time.Time
	// Offsets in use around the time. A day on either side is further than any
	// offset reaches.
	for _, around := range []time.Time{wall.Add(-24 * time.Hour), wall.Add(24 * time.Hour)} {
		_, offset := around.In(loc).Zone()
		t := wall.Add(-time.Duration(offset) * time.Second).In(loc)
		if _, in := t.Zone(); in != offset || len(found) > 0 && found[0].Equal(t) {
			continue
		}
		found = append(found, t)
	}
	return found
}
