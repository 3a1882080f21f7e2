package depletion

import (
	"math"
	"sort"
	"time"
)

const minutesPerDay = 24 * 60

// longest bounds every answer: a cylinder that lasts ten years lasts.
const longest = 10 * 365 * 24 * time.Hour

// Span is a stretch of time. A zero Until means that its end is not known.
type Span struct{ From, Until time.Time }

// open says whether the end of s is not known.
func (s Span) open() bool { return s.Until.IsZero() }

// within returns the part of s from start to end, as a duration.
func (s Span) within(start, end time.Time) time.Duration {
	if s.From.After(start) {
		start = s.From
	}
	if !s.open() && s.Until.Before(end) {
		end = s.Until
	}
	return max(end.Sub(start), 0)
}

// call is a dated cause that puts the person on the cylinder.
type call struct {
	Span
	trip   bool
	leaves time.Time // when a trip begins; the span may be cut where an outage already runs
}

// calls lists the outages and trips after start in the order they come. Where
// two overlap, the gas is counted once.
func calls(outages, trips []Span, start time.Time) []call {
	if len(outages)+len(trips) == 0 {
		return nil
	}
	all := make([]call, 0, len(outages)+len(trips))
	for _, s := range outages {
		all = append(all, call{Span: s, leaves: s.From})
	}
	for _, s := range trips {
		all = append(all, call{Span: s, trip: true, leaves: s.From})
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].From.Before(all[j].From) })

	apart := all[:0]
	end := start
	for _, c := range all {
		if !c.open() && !c.Until.After(end) {
			continue
		}
		if c.From.Before(end) {
			c.From = end
		}
		apart = append(apart, c)
		if c.open() {
			break
		}
		end = c.Until
	}
	return apart
}

// minutesOn returns how long the person breathes from the cylinder between
// start and t when only the dated causes put them on it.
func minutesOn(causes []call, start, t time.Time) float64 {
	var on time.Duration
	for _, c := range causes {
		on += c.within(start, t)
	}
	return on.Minutes()
}

// pause is the part of each day in which no gas is used, in minutes. It
// begins from minutes after the clock starts, and once a day from then on.
type pause struct{ from, length float64 }

// used returns the minutes of use within so many minutes of clock time.
func (p pause) used(minutes float64) float64 {
	if p.length == 0 {
		return minutes
	}
	days := math.Floor(minutes / minutesPerDay)
	rest := minutes - days*minutesPerDay
	ended := p.from + p.length - minutesPerDay // of a pause that began the day before
	off := math.Max(0, math.Min(rest, p.from+p.length)-p.from) + math.Max(0, math.Min(rest, ended))
	return days*(minutesPerDay-p.length) + rest - off
}

// after returns the time a number of minutes after start, to the second below.
func after(start time.Time, minutes float64) time.Time {
	return start.Add(lasting(minutes))
}

// lasting returns minutes as a duration, to the second below.
func lasting(minutes float64) time.Duration {
	if minutes >= longest.Minutes() {
		return longest
	}
	return time.Duration(max(minutes, 0)*60) * time.Second
}
