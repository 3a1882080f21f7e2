package delivery

import (
	"fmt"
	"slices"
	"time"

	"lungwort/delivery/route"
	"lungwort/inventory/refusal"
)

// SlowHours is a time of the day in which driving takes longer.
type SlowHours struct {
	Days    []time.Weekday `json:"days,omitempty"` // none: every day
	From    string         `json:"from"`           // 15:04
	Until   string         `json:"until"`
	Percent int            `json:"percent"`          // of the usual time, over 100
	Source  string         `json:"source,omitempty"` // where that comes from
}

// The days around the day of a plan that its timetables cover: a vehicle may
// have left the evening before, and a ride may end days after.
const (
	daysBefore = 1
	daysAfter  = 7
)

// roads is how one drives and crosses around one day, in seconds since its
// midnight.
type roads struct {
	programme Programme
	midnight  time.Time
	slow      []route.SlowHours
	hours     *route.Hours
}

func (p Programme) roads(day time.Time) roads {
	r := roads{programme: p, midnight: time.Date(day.Year(), day.Month(), day.Day(), 0, 0, 0, 0, day.Location())}
	for n := -daysBefore; n <= daysAfter && len(p.Slow) > 0; n++ {
		date := r.midnight.AddDate(0, 0, n)
		for _, s := range p.Slow {
			from, ok1 := clockOn(date, s.From)
			until, ok2 := clockOn(date, s.Until)
			if ok1 && ok2 && (len(s.Days) == 0 || slices.Contains(s.Days, date.Weekday())) {
				r.slow = append(r.slow, route.SlowHours{From: r.seconds(from), Until: r.seconds(until), Percent: int64(s.Percent)})
			}
		}
	}
	slices.SortFunc(r.slow, func(a, b route.SlowHours) int { return int(a.From - b.From) })
	r.hours = route.NewHours(r.slow)
	return r
}

func (r roads) seconds(at time.Time) int64 { return int64(at.Sub(r.midnight) / time.Second) }

func (r roads) clock(seconds int64) time.Time {
	return r.midnight.Add(time.Duration(seconds) * time.Second)
}

// drive returns when a drive ends that takes so long as a rule.
func (r roads) drive(at time.Time, takes time.Duration) time.Time {
	if len(r.slow) == 0 {
		return at.Add(takes)
	}
	return r.clock(r.hours.Reach(r.seconds(at.Add(time.Second-1)), int64(takes/time.Second)))
}

// sail returns when a ferry arrives for somebody who is at its quay at a time.
// False: it does not leave in the days ahead.
func sail(h hop, at time.Time) (time.Time, bool) {
	if !h.timed() {
		return at.Add(h.Takes), true
	}
	for n := range daysAfter + 1 {
		var soonest time.Time
		for _, leaves := range h.on(at.AddDate(0, 0, n)) {
			if !leaves.Before(at) {
				soonest = earlier(soonest, leaves)
			}
		}
		if !soonest.IsZero() {
			return soonest.Add(h.Takes), true
		}
	}
	return time.Time{}, false
}

// on returns when a ferry leaves on a day.
func (h hop) on(date time.Time) []time.Time {
	var all []time.Time
	for _, d := range h.Departs[h.side] {
		if d.Day != date.Weekday() {
			continue
		}
		if leaves, ok := clockOn(date, d.At); ok {
			all = append(all, leaves)
		}
	}
	return all
}

// departures returns when a ferry leaves in the days around, in order.
func (r roads) departures(h hop) []time.Time {
	var all []time.Time
	for n := -daysBefore; n <= daysAfter; n++ {
		all = append(all, h.on(r.midnight.AddDate(0, 0, n))...)
	}
	slices.SortFunc(all, time.Time.Compare)
	return slices.Compact(all)
}

// over returns when somebody is on the far side who is at the first quay at a
// time.
func (r roads) over(way passage, at time.Time) (time.Time, bool) {
	at, ok := sail(way[0], at)
	if !ok || len(way) == 1 {
		return at, ok
	}
	return sail(way[1], r.drive(at, r.programme.between(way[0], way[1])))
}

// cross returns when a ride over the water ends. After the last departure it
// is days away, which no plan takes.
func (r roads) cross(from, to Point, way passage, at time.Time) time.Time {
	before, after := r.programme.shores(from, to, way)
	landed, ok := r.over(way, r.drive(at, before.Takes))
	if !ok {
		return at.Add(unreachable * time.Second)
	}
	return r.drive(landed, after.Takes)
}

// line returns the departures of a passage as the solver takes them: by when
// to be at the first quay, and when one is on the far side.
func (r roads) line(way passage) []route.Sailing {
	leaves := r.departures(way[0])
	if !way[0].timed() { // the second ferry sets the hour: be there just in time, at the slowest
		ahead := way[0].Takes + r.programme.between(way[0], way[1])*maxSlow/100
		for _, l := range r.departures(way[1]) {
			leaves = append(leaves, l.Add(-ahead))
		}
	}
	var line []route.Sailing
	for _, l := range leaves {
		landed, ok := r.over(way, l)
		if !ok || landed.Sub(l) > longestRide {
			continue
		}
		s := route.Sailing{Leaves: r.seconds(l), Arrives: r.seconds(landed.Add(time.Second - 1))}
		for len(line) > 0 && line[len(line)-1].Arrives >= s.Arrives { // who waits for this one is there as soon
			line = line[:len(line)-1]
		}
		line = append(line, s)
	}
	return line
}

// longestRide is what a plan takes for a ride at most; beyond, a point is wrong.
const longestRide = 36 * time.Hour

// maxSlow is the most that slow hours may take of the usual time, in percent.
const maxSlow = 500

// checkRoads refuses timetables and slow hours nobody can reckon with.
func (p Programme) checkRoads() error {
	for _, f := range p.Ferries {
		if err := f.check(); err != nil {
			return err
		}
	}
	for _, r := range p.Roads {
		if err := r.check(); err != nil {
			return err
		}
	}
	for i, s := range p.Slow {
		from, until, ok := Vehicle{From: s.From, Until: s.Until}.shift(time.Time{})
		switch {
		case !ok || !from.Before(until):
			return refusal.New(refusal.Invalid, fmt.Sprintf("Slow hours from %q until %q can't be.", s.From, s.Until), "Give two times of one day, as 07:30 and 09:00.")
		case s.Percent < 100 || s.Percent > maxSlow:
			return refusal.New(refusal.Invalid, fmt.Sprintf("Slow hours at %d %% of the usual time can't be.", s.Percent), fmt.Sprintf("Give 100 to %d, as 140 for 7 min where 5 are usual.", maxSlow))
		case slices.ContainsFunc(p.Slow[:i], s.overlaps):
			return refusal.New(refusal.Invalid, fmt.Sprintf("Slow hours from %s until %s overlap others.", s.From, s.Until), "Let each time of a day be slow once.")
		}
	}
	return nil
}

func (s SlowHours) overlaps(o SlowHours) bool {
	shared := len(s.Days) == 0 || len(o.Days) == 0 || slices.ContainsFunc(s.Days, func(d time.Weekday) bool { return slices.Contains(o.Days, d) })
	return shared && s.From < o.Until && o.From < s.Until
}

// lay enters the rides between all points into a problem.
func (r roads) lay(problem *route.Problem, points []Point) {
	type areas struct{ from, to string }
	lines := make(map[areas]int)
	problem.Slow = r.slow
	problem.Travel, problem.Distance = make([][]int64, len(points)), make([][]int64, len(points))
	for i, from := range points {
		problem.Travel[i], problem.Distance[i] = make([]int64, len(points)), make([]int64, len(points))
		for j, to := range points {
			if i == j {
				continue
			}
			leg, way := r.programme.ride(from, to)
			if !leg.Known || leg.Takes > longestRide {
				problem.Travel[i][j] = unreachable
				continue
			}
			problem.Travel[i][j], problem.Distance[i][j] = int64(leg.Takes/time.Second), leg.Metres
			if !way.timed() {
				continue
			}
			on := areas{from.Area, to.Area}
			if _, laid := lines[on]; !laid {
				lines[on] = len(problem.Lines)
				problem.Lines = append(problem.Lines, r.line(way))
			}
			before, after := r.programme.shores(from, to, way)
			problem.Crossings = append(problem.Crossings, route.Crossing{
				From: i, To: j, Line: lines[on],
				Before: int64(before.Takes / time.Second), After: int64(after.Takes / time.Second),
			})
		}
	}
}
