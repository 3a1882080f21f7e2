package sheet

import (
	"errors"
	"time"
)

// clock is a time of day with the offset, when one is given.
type clock struct {
	hour, minute, second int
	offset               *time.Location
}

// splitClock takes the time of day off the end of a text.
func splitClock(text string) (date string, c *clock, err error) {
	if m := clockAtEnd.FindStringSubmatch(text); m != nil {
		c, err := newClock(number(m[2]), number(m[3]), number(m[4]), m[5], m[6])
		return m[1], c, err
	}
	if m := fourDigits.FindStringSubmatch(text); m != nil {
		c, err := newClock(number(m[2]), number(m[3]), 0, "", "")
		return m[1], c, err
	}
	return text, nil, nil
}

func newClock(hour, minute, second int, half, offset string) (*clock, error) {
	if half != "" {
		if hour < 1 || hour > 12 {
			return nil, errors.New("There is no such hour before or after noon. What time was it?")
		}
		hour %= 12
		if half == "p" {
			hour += 12
		}
	}
	midnight := hour == 24 && minute == 0 && second == 0
	if hour > 23 && !midnight || minute > 59 || second > 59 {
		return nil, errors.New("The clock has no such time. What time was it?")
	}
	c := &clock{hour: hour, minute: minute, second: second}
	switch {
	case offset == "":
	case offset[0] == '+' || offset[0] == '-':
		hours, minutes := number(offset[1:3]), number(offset[len(offset)-2:])
		if hours > 14 || minutes > 59 {
			return nil, errors.New("There is no such offset from universal time. Which is meant?")
		}
		seconds := hours*3600 + minutes*60
		if offset[0] == '-' {
			seconds = -seconds
		}
		c.offset = time.FixedZone("", seconds)
	default:
		c.offset = time.UTC
	}
	return c, nil
}

// on returns the time of day on the day. 24:00 is the start of the next one.
func (c *clock) on(day When) When {
	zone := time.UTC
	if c.offset != nil {
		zone = c.offset
	}
	y, m, d := day.Time.Date()
	day.Time = time.Date(y, m, d, c.hour, c.minute, c.second, 0, zone)
	day.Clock, day.Zoned = true, c.offset != nil
	return day
}
