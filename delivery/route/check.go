package route

import (
	"fmt"
	"slices"
)

// Check verifies a plan against its problem from first principles, sharing nothing with the search.
// It returns a sentence for each thing wrong; none means that every hard rule holds and the plan's own figures are true.
func Check(p Problem, plan Plan) []string {
	c := checker{problem: &p, seen: make([]int, len(p.Stops))}
	used := map[int]bool{}
	for _, r := range plan.Routes {
		if r.Vehicle < 0 || r.Vehicle >= len(p.Vehicles) {
			c.wrong("a route has vehicle %d of %d", r.Vehicle, len(p.Vehicles))
			continue
		}
		if used[r.Vehicle] {
			c.wrong("vehicle %d has two routes", r.Vehicle)
		}
		used[r.Vehicle] = true
		c.distance += r.Distance
		c.duration += r.Duration
		c.route(r)
	}
	for _, u := range plan.Unserved {
		if c.known(u.Stop) {
			c.seen[u.Stop]++
		}
	}
	for i, times := range c.seen {
		if times != 1 {
			c.wrong("stop %d is in the plan %d times", i, times)
		}
	}
	c.late(plan)
	if c.distance != plan.Distance || c.duration != plan.Duration {
		c.wrong("the plan says distance %d and duration %d, its routes add up to %d and %d",
			plan.Distance, plan.Duration, c.distance, c.duration)
	}
	return c.faults
}

type checker struct {
	problem            *Problem
	seen               []int
	distance, duration int64
	faults             []string
}

func (c *checker) wrong(format string, args ...any) {
	c.faults = append(c.faults, fmt.Sprintf(format, args...))
}

func (c *checker) known(stop int) bool {
	if stop < 0 || stop >= len(c.problem.Stops) {
		c.wrong("the plan names stop %d of %d", stop, len(c.problem.Stops))
		return false
	}
	return true
}

func (c *checker) route(r Route) {
	v := c.problem.Vehicles[r.Vehicle]
	for _, visit := range r.Visits {
		if !c.known(visit.Stop) {
			return
		}
		c.seen[visit.Stop]++
		s := c.problem.Stops[visit.Stop]
		if s.LockedTo != "" && s.LockedTo != v.Name {
			c.wrong("stop %d is locked to %q but visited by %q", visit.Stop, s.LockedTo, v.Name)
		}
		for _, need := range s.Needs {
			if !slices.Contains(v.Skills, need) {
				c.wrong("stop %d needs %q, which vehicle %d lacks", visit.Stop, need, r.Vehicle)
			}
		}
	}
	if r.Departure < v.From || r.Return > v.Until {
		c.wrong("vehicle %d is out from %d to %d, its shift is %d to %d", r.Vehicle, r.Departure, r.Return, v.From, v.Until)
	}
	if r.Duration != r.Return-r.Departure {
		c.wrong("vehicle %d is out from %d to %d, not for %d", r.Vehicle, r.Departure, r.Return, r.Duration)
	}
	c.loads(r, v)
	c.times(r, v)
	c.rests(r, v)
}

func (c *checker) loads(r Route, v Vehicle) {
	var board Load
	for _, visit := range r.Visits {
		for d, x := range c.problem.Stops[visit.Stop].Drop {
			board[d] += x
		}
	}
	if board != r.Out {
		c.wrong("vehicle %d leaves with %v, not %v", r.Vehicle, board, r.Out)
	}
	for i := -1; i < len(r.Visits); i++ {
		if i >= 0 {
			s := c.problem.Stops[r.Visits[i].Stop]
			for d := range board {
				board[d] += s.Collect[d] - s.Drop[d]
			}
			if board != r.Visits[i].After {
				c.wrong("vehicle %d leaves stop %d with %v, not %v", r.Vehicle, r.Visits[i].Stop, board, r.Visits[i].After)
			}
		}
		for d := range board {
			if board[d] > v.Capacity[d] {
				c.wrong("vehicle %d carries %d of %d in dimension %d after visit %d", r.Vehicle, board[d], v.Capacity[d], d, i)
			}
		}
	}
}

func (c *checker) times(r Route, v Vehicle) {
	now, at, way := r.Departure, v.Start, int64(0)
	for i, visit := range r.Visits {
		s := c.problem.Stops[visit.Stop]
		way += c.problem.Distance[at][s.Place]
		soonest := c.reach(now, at, s.Place, r, i-1)
		switch {
		case visit.Arrival < soonest:
			c.wrong("stop %d cannot be reached at %d, only at %d", visit.Stop, visit.Arrival, soonest)
		case visit.Start < visit.Arrival || visit.Wait != visit.Start-visit.Arrival || visit.Leave != visit.Start+s.Service:
			c.wrong("the times of stop %d do not follow from each other: %+v", visit.Stop, visit)
		case visit.Start < s.Window[0] || visit.Start > s.Window[1]:
			c.wrong("stop %d starts at %d outside its window %v", visit.Stop, visit.Start, s.Window)
		}
		now, at = visit.Leave, s.Place
	}
	way += c.problem.Distance[at][v.End]
	if soonest := c.reach(now, at, v.End, r, len(r.Visits)-1); r.Return < soonest {
		c.wrong("vehicle %d cannot return at %d, only at %d", r.Vehicle, r.Return, soonest)
	}
	if way != r.Distance {
		c.wrong("vehicle %d drives %d, not %d", r.Vehicle, way, r.Distance)
	}
}

// reach is the soonest that one place can be reached from another, second by second where the hour counts.
func (c *checker) reach(now int64, from, to int, r Route, visit int) int64 {
	i := slices.IndexFunc(c.problem.Crossings, func(x Crossing) bool { return x.From == from && x.To == to })
	if i < 0 && len(c.problem.Slow) == 0 {
		return now + c.problem.Travel[from][to] + restsAfter(r, visit)
	}
	for _, rest := range r.Rests {
		if rest.After == visit {
			now = max(now, rest.Start+rest.Length)
		}
	}
	if i < 0 {
		return c.drive(now, c.problem.Travel[from][to])
	}
	crossing := c.problem.Crossings[i]
	quay := c.drive(now, crossing.Before)
	for _, s := range c.problem.Lines[crossing.Line] {
		if s.Leaves >= quay {
			return c.drive(s.Arrives, crossing.After)
		}
	}
	return now + missed
}

func (c *checker) drive(now, time int64) int64 {
	left := float64(time)
	for left > 1e-6 {
		percent := 100.0
		for _, s := range c.problem.Slow {
			if s.From <= now && now < s.Until {
				percent = float64(s.Percent)
			}
		}
		left -= 100 / percent
		now++
	}
	return now
}

func restsAfter(r Route, visit int) (length int64) {
	for _, rest := range r.Rests {
		if rest.After == visit {
			length += rest.Length
		}
	}
	return length
}

// rests checks that the breaks are taken in order, inside their times and on their legs, and that none is left out while out on the road.
func (c *checker) rests(r Route, v Vehicle) {
	for i, rest := range r.Rests {
		if i >= len(v.Breaks) {
			c.wrong("vehicle %d rests %d times but has %d breaks", r.Vehicle, len(r.Rests), len(v.Breaks))
			return
		}
		b := v.Breaks[i]
		opens, closes := r.Departure, r.Return
		if rest.After >= 0 && rest.After < len(r.Visits) {
			opens = r.Visits[rest.After].Leave
		}
		if rest.After+1 < len(r.Visits) {
			closes = r.Visits[rest.After+1].Start
		}
		if rest.Start < b.Earliest || rest.Start > b.Latest || rest.Length != b.Length || rest.Start < opens || rest.Start+rest.Length > closes {
			c.wrong("vehicle %d rests from %d for %d on a leg from %d to %d, break %+v", r.Vehicle, rest.Start, rest.Length, opens, closes, b)
		}
	}
	if next := len(r.Rests); next < len(v.Breaks) && r.Return > v.Breaks[next].Latest {
		c.wrong("vehicle %d returns at %d without its break before %d", r.Vehicle, r.Return, v.Breaks[next].Latest)
	}
}

// late checks that exactly the visits past their act-by are named.
func (c *checker) late(plan Plan) {
	named := map[int]int64{}
	for _, l := range plan.Late {
		named[l.Stop] = l.LateBy
	}
	for _, r := range plan.Routes {
		for _, visit := range r.Visits {
			if !c.known(visit.Stop) {
				return
			}
			by := c.problem.Stops[visit.Stop].ActBy
			want := int64(0)
			if by != 0 {
				want = max(0, visit.Start-by)
			}
			if named[visit.Stop] != want {
				c.wrong("stop %d is late by %d, the plan says %d", visit.Stop, want, named[visit.Stop])
			}
			delete(named, visit.Stop)
		}
	}
	for stop := range named {
		c.wrong("stop %d is called late but not visited", stop)
	}
}
