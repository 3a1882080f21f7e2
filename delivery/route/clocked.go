package route

import (
	"fmt"
	"slices"
)

// Sailing is one departure of a line: who is at the quay by Leaves is on the other side at Arrives.
type Sailing struct{ Leaves, Arrives int64 }

// Crossing is a way between two places that goes by a line: driving before it, the next departure, driving after it.
// The travel matrix holds what it takes as a rule; that is what the search pays for it.
type Crossing struct {
	From, To      int // places
	Before, After int64
	Line          int // of Problem.Lines
}

// SlowHours is a time of the day in which all driving takes longer.
type SlowHours struct {
	From, Until int64
	Percent     int64 // of the usual time, over 100
}

// missed is how long somebody waits who comes to a line after its last departure: longer than any plan.
const missed = 7 * 24 * 3600

// ride is a crossing as the search sees it.
type ride struct{ before, after, line int32 }

// line holds the departures of one line, no later one arriving sooner.
type line struct{ leaves, arrives []int32 }

// reach returns when a leg ends that begins at a time. No later beginning ever ends it sooner.
func (n *network) reach(now int32, leg arc) int32 {
	if leg.time >= 0 && n.hours == nil {
		return now + leg.time
	}
	return n.reachClocked(now, leg)
}

// depart returns the latest time to begin a leg that is to end by a time.
func (n *network) depart(by int32, leg arc) int32 {
	if leg.time >= 0 && n.hours == nil {
		return by - leg.time
	}
	return n.departClocked(by, leg)
}

// clocked reports whether a leg takes longer at some times than at others.
func (n *network) clocked(leg arc) bool { return leg.time < 0 || n.hours != nil }

func (n *network) reachClocked(now int32, leg arc) int32 {
	if leg.time >= 0 {
		return n.drive(now, leg.time)
	}
	r := n.rides[^leg.time]
	quay, l := n.drive(now, r.before), &n.lines[r.line]
	next, _ := slices.BinarySearch(l.leaves, quay)
	if next == len(l.leaves) {
		return now + missed
	}
	return n.drive(l.arrives[next], r.after)
}

func (n *network) departClocked(by int32, leg arc) int32 {
	if leg.time >= 0 {
		return n.driveBy(by, leg.time)
	}
	r := n.rides[^leg.time]
	l, quay := &n.lines[r.line], n.driveBy(by, r.after)
	next, _ := slices.BinarySearch(l.arrives, quay+1)
	soonest := int32(-longest)
	if next > 0 {
		soonest = n.driveBy(l.leaves[next-1], r.before)
	}
	if late := by - missed; len(l.leaves) == 0 || n.drive(late, r.before) > l.leaves[len(l.leaves)-1] {
		return max(soonest, late)
	}
	return soonest
}

func (n *network) drive(now, time int32) int32 { return int32(n.hours.Reach(int64(now), int64(time))) }

func (n *network) driveBy(by, time int32) int32 { return int32(n.hours.Depart(int64(by), int64(time))) }

// layCrossings turns the crossings into rides and returns which pair of places goes by which.
func (n *network) layCrossings() map[[2]int]int32 {
	p := n.problem
	n.hours = NewHours(p.Slow)
	for _, sailings := range p.Lines {
		var l line
		for _, s := range sailings {
			l.leaves, l.arrives = append(l.leaves, int32(s.Leaves)), append(l.arrives, int32(s.Arrives))
		}
		n.lines = append(n.lines, l)
	}
	by := make(map[[2]int]int32, len(p.Crossings))
	for i, c := range p.Crossings {
		n.rides = append(n.rides, ride{int32(c.Before), int32(c.After), int32(c.Line)})
		by[[2]int{c.From, c.To}] = ^int32(i)
	}
	return by
}

func (p *Problem) validCrossings() error {
	for i, sailings := range p.Lines {
		for k, s := range sailings {
			switch {
			case !timely(s.Leaves, s.Arrives) || s.Arrives < s.Leaves || s.Arrives-s.Leaves >= missed/2:
				return fmt.Errorf("departure %d of line %d leaves at %d and arrives at %d", k, i, s.Leaves, s.Arrives)
			case k > 0 && (s.Leaves <= sailings[k-1].Leaves || s.Arrives <= sailings[k-1].Arrives):
				return fmt.Errorf("departure %d of line %d is overtaken", k, i)
			}
		}
	}
	for i, c := range p.Crossings {
		switch {
		case min(c.From, c.To) < 0 || max(c.From, c.To) >= len(p.Travel):
			return fmt.Errorf("crossing %d joins places %d and %d of %d", i, c.From, c.To, len(p.Travel))
		case c.Line < 0 || c.Line >= len(p.Lines):
			return fmt.Errorf("crossing %d goes by line %d of %d", i, c.Line, len(p.Lines))
		case c.Before < 0 || c.After < 0 || c.Before+c.After >= missed/4:
			return fmt.Errorf("crossing %d drives %d before and %d after", i, c.Before, c.After)
		}
	}
	until := int64(-longest)
	for i, s := range p.Slow {
		if !timely(s.From, s.Until) || s.From < until || s.Until <= s.From || s.Percent < 100 || s.Percent > 1000 {
			return fmt.Errorf("slow hours %d run from %d to %d at %d percent", i, s.From, s.Until, s.Percent)
		}
		until = s.Until
	}
	return nil
}

// Hours says how far one gets by when: the road driven is the integral of the speed over the time, the same for every leg, so
// that who leaves later arrives later (Ichoua, Gendreau & Potvin, European Journal of Operational Research 144(2), 2003).
type Hours struct{ bands []band }

// band is a time of even speed, which lasts until the next one.
type band struct {
	from   int64
	driven int64 // by its beginning, in parts of a second at usual speed
	speed  int64 // parts for each second
}

// parts is how many parts make a second driven at usual speed: every whole percentage up to 1000 that matters divides well.
const parts = 2520 * 100

// NewHours is nil when every hour is like the other.
func NewHours(slow []SlowHours) *Hours {
	if len(slow) == 0 {
		return nil
	}
	h := &Hours{bands: []band{{-2 * longest, -2 * longest * parts, parts}}}
	begin := func(at, speed int64) {
		h.bands = append(h.bands, band{at, h.driven(at), speed})
	}
	for _, s := range slow {
		begin(s.From, parts*100/s.Percent)
		begin(s.Until, parts)
	}
	return h
}

// Reach returns when a drive ends that takes so long at usual speed.
func (h *Hours) Reach(now, time int64) int64 {
	if h == nil {
		return now + time
	}
	road := h.driven(now) + time*parts
	b := h.bands[0]
	for _, next := range h.bands[1:] {
		if next.driven > road {
			break
		}
		b = next
	}
	return b.from + (road-b.driven+b.speed-1)/b.speed
}

// Depart returns the latest time to set out that ends a drive by a time.
func (h *Hours) Depart(by, time int64) int64 {
	if h == nil {
		return by - time
	}
	road := h.driven(by) - time*parts
	b := h.bands[0]
	for _, next := range h.bands[1:] {
		if next.driven > road {
			break
		}
		b = next
	}
	return b.from + (road-b.driven)/b.speed
}

// driven is the road behind somebody who drives without end.
func (h *Hours) driven(at int64) int64 {
	b := h.bands[0]
	for _, next := range h.bands[1:] {
		if next.from > at {
			break
		}
		b = next
	}
	return b.driven + (at-b.from)*b.speed
}
