package scene

import "time"

// Tick is one labelled instant of the shared time axis. Midnights are days.
type Tick struct {
	At    time.Time
	Label string
	Day   bool
}

// Ticks returns the whole hours of the clock in now's zone that the axis
// labels, after now and not beyond the horizon. Whole hours, not hours from
// now: the grid then stands still while the day moves through it. A midnight
// carries its weekday.
func Ticks(now time.Time, horizon time.Duration) []Tick {
	every := tickHours(horizon)
	var ticks []Tick
	end := now.Add(horizon)
	for t := nextHour(now); !t.After(end); t = nextHour(t) {
		switch {
		case t.Hour() == 0:
			ticks = append(ticks, Tick{t, t.Format("Mon 2"), true})
		case t.Hour()%every == 0:
			ticks = append(ticks, Tick{t, t.Format("15:04"), false})
		}
	}
	return ticks
}

// tickHours returns the step that gives an axis four to eight ticks up to four days.
func tickHours(horizon time.Duration) int {
	switch hours := horizon.Hours(); {
	case hours <= 8:
		return 1
	case hours <= 16:
		return 2
	case hours <= 36:
		return 3
	case hours <= 50:
		return 6
	case hours <= 100:
		return 12
	default:
		return 24
	}
}

// nextHour returns the first whole hour on the wall clock after t, also across
// a change of the clocks.
func nextHour(t time.Time) time.Time {
	past := time.Duration(t.Minute())*time.Minute + time.Duration(t.Second())*time.Second + time.Duration(t.Nanosecond())
	next := t.Add(time.Hour - past)
	if next.Minute() != 0 { // the zone shifted by a part of an hour in between
		next = next.Add(-time.Duration(next.Minute()) * time.Minute)
		if !next.After(t) {
			next = next.Add(time.Hour)
		}
	}
	return next
}

// Axis draws the time axis that stands over a column of ribbons of the same
// width: "now" at the left edge, then the ticks.
func Axis(now time.Time, horizon time.Duration, w, h float64) Scene {
	s := Scene{W: w, H: h}
	if w <= 0 || h <= 0 || horizon <= 0 {
		return s
	}
	const size = 11.0
	base := h - 6
	free := Width("now", size, true) + 8
	s.add(Words{X: 0, Y: base, Size: size, Bold: true, Text: "now", Ink: Text}, Line{0.5, h - 3, 0.5, h, 1, Text, 0})
	for _, t := range Ticks(now, horizon) {
		x := float64(t.At.Sub(now)) / float64(horizon) * w
		s.add(Line{x, h - 3, x, h, 1, Rule, 0})
		wide := Width(t.Label, size, t.Day)
		left := max(free, min(x-wide/2, w-wide)) // pushed aside, but never off its tick
		if left > x || left+wide > w {
			continue
		}
		ink := Faint
		if t.Day {
			ink = Text
		}
		s.add(Words{X: left + wide/2, Y: base, Size: size, Bold: t.Day, Align: Middle, Text: t.Label, Ink: ink})
		free = left + wide + 8
	}
	return s
}
