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

// times returns the span made so many times as long.
func (s Span) times(n float64) Span {
	if !s.open() {
		s.Until = s.From.Add(time.Duration(n * float64(s.Until.Sub(s.From))))
	}
	return s
}

// holds says whether t lies in s, its ends included.
func (s Span) holds(t time.Time) bool {
	return !t.Before(s.From) && (s.open() || !t.After(s.Until))
}

// merged returns the time covered by any of the spans after start, as spans
// apart from each other in the order they come. Where two overlap, the gas is
// used once.
func merged(start time.Time, spans ...Span) []Span {
	sort.Slice(spans, func(i, j int) bool { return spans[i].From.Before(spans[j].From) })
	apart := spans[:0]
	end := start
	for _, s := range spans {
		if !s.open() && !s.Until.After(end) {
			continue
		}
		if s.From.Before(end) {
			s.From = end
		}
		apart = append(apart, s)
		if s.open() {
			break
		}
		end = s.Until
	}
	return apart
}

// minutesIn returns the minutes the spans cover until t.
func minutesIn(apart []Span, t time.Time) float64 {
	var on time.Duration
	for _, s := range apart {
		end := t
		if !s.open() && s.Until.Before(t) {
			end = s.Until
		}
		on += max(end.Sub(s.From), 0)
	}
	return on.Minutes()
}

// whenUsed returns the time at which the spans have covered so many minutes;
// zero: never.
func whenUsed(apart []Span, minutes float64) time.Time {
	for _, s := range apart {
		length := s.Until.Sub(s.From).Minutes()
		if s.open() || length > minutes {
			return after(s.From, minutes)
		}
		minutes -= length
	}
	return time.Time{}
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
