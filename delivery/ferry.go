package delivery

import (
	"fmt"
	"math"
	"slices"
	"time"

	"lungwort/inventory/refusal"
)

// Ferry is a crossing between two areas, by ferry or by a link that opens at
// set times. Without a timetable it takes as long at any hour, the wait
// included; with one it takes the passage alone.
type Ferry struct {
	Between [2]string     `json:"between"`
	Takes   time.Duration `json:"takes"`
	Metres  int64         `json:"metres"`
	// Ports is where it lands in each of the two areas, and Departs when it
	// leaves each; both or neither are given.
	Ports   [2]Point       `json:"ports,omitzero"`
	Departs [2][]Departure `json:"departs,omitzero"`
}

// Departure is one time a week at which a ferry leaves.
type Departure struct {
	Day time.Weekday `json:"day"`
	At  string       `json:"at"` // 15:04
}

// timed reports whether the ferry keeps a timetable.
func (f Ferry) timed() bool { return len(f.Departs[0])+len(f.Departs[1]) > 0 }

// check refuses a timetable nobody can keep to.
func (f Ferry) check() error {
	name := f.Between[0] + " and " + f.Between[1]
	switch {
	case f.Takes <= 0 || f.Takes > 24*time.Hour:
		return refusal.New(refusal.Invalid, fmt.Sprintf("The ferry between %s takes %s.", name, f.Takes), "Give what it takes, as 40 min.")
	case !f.timed():
		return nil
	case len(f.Departs[0]) == 0 || len(f.Departs[1]) == 0:
		return refusal.New(refusal.Invalid, fmt.Sprintf("The ferry between %s leaves one side only.", name), "Give the departures from both sides.")
	case !f.Ports[0].Known() || !f.Ports[1].Known():
		return refusal.New(refusal.Invalid, fmt.Sprintf("Where the ferry between %s lands is not given.", name), "Give the point of each quay; the drive to it counts.")
	}
	for _, d := range slices.Concat(f.Departs[0], f.Departs[1]) {
		if _, err := time.Parse("15:04", d.At); err != nil || d.Day < time.Sunday || d.Day > time.Saturday {
			return refusal.New(refusal.Invalid, fmt.Sprintf("The ferry between %s leaves at %q.", name, d.At), "Give each departure as a time of day, as 07:30.")
		}
	}
	return nil
}

// hop is a ferry taken one way: from the side with the index.
type hop struct {
	Ferry
	side int
}

func (h hop) from() Point { return h.Ports[h.side] }
func (h hop) to() Point   { return h.Ports[1-h.side] }

// wait is what somebody waits for the ferry as a rule: half the usual time
// between two departures.
func (h hop) wait() time.Duration {
	var gaps, minutes []int
	for _, d := range h.Departs[h.side] {
		if at, err := time.Parse("15:04", d.At); err == nil {
			minutes = append(minutes, int(d.Day)*24*60+at.Hour()*60+at.Minute())
		}
	}
	slices.Sort(minutes)
	for i, m := range minutes {
		if i == 0 {
			m += 7 * 24 * 60
			gaps = append(gaps, m-minutes[len(minutes)-1])
			continue
		}
		gaps = append(gaps, m-minutes[i-1])
	}
	if len(gaps) == 0 {
		return 0
	}
	slices.Sort(gaps)
	return time.Duration(gaps[len(gaps)/2]) * time.Minute / 2
}

// passage is the ferries between two areas, one or two.
type passage []hop

// timed reports whether any of them keeps a timetable.
func (w passage) timed() bool { return slices.ContainsFunc(w, func(h hop) bool { return h.timed() }) }

func (w passage) takes() (sum time.Duration) {
	for _, h := range w {
		sum += h.Takes + h.wait()
	}
	return sum
}

func (w passage) metres() (sum int64) {
	for _, h := range w {
		sum += h.Metres
	}
	return sum
}

// passage returns the ferry between two areas; where none joins them directly,
// the quickest two by way of one other area.
func (p Programme) passage(a, b string) (passage, bool) {
	if h, ok := p.hop(a, b); ok {
		return passage{h}, true
	}
	var best passage
	for _, first := range p.Ferries {
		for _, via := range first.Between {
			h1, ok1 := p.hop(a, via)
			h2, ok2 := p.hop(via, b)
			if way := (passage{h1, h2}); ok1 && ok2 && (best == nil || way.takes() < best.takes()) {
				best = way
			}
		}
	}
	return best, best != nil
}

func (p Programme) hop(a, b string) (hop, bool) {
	for _, f := range p.Ferries {
		switch f.Between {
		case [2]string{a, b}:
			return hop{f, 0}, true
		case [2]string{b, a}:
			return hop{f, 1}, true
		}
	}
	return hop{}, false
}

// shore is the drive to the first quay, or from the last. Where a quay is not
// given the way there is half of what is left beside the crossing.
func (p Programme) shore(home, quay Point, left float64) Leg {
	if !quay.Known() {
		return p.road(left / 2)
	}
	return p.road(GreatCircle(home, quay) * p.Detour)
}

// shores returns the drives before and after a passage.
func (p Programme) shores(from, to Point, way passage) (before, after Leg) {
	left := math.Max(0, GreatCircle(from, to)*p.Detour-float64(way.metres()))
	return p.shore(from, way[0].from(), left), p.shore(to, way[len(way)-1].to(), left)
}

// between is the drive from one ferry to the next.
func (p Programme) between(first, second hop) time.Duration {
	if !first.to().Known() || !second.from().Known() {
		return 0
	}
	return p.road(GreatCircle(first.to(), second.from()) * p.Detour).Takes
}

// byTimetable returns the usual ride over the water.
func (p Programme) byTimetable(from, to Point, way passage) Leg {
	before, after := p.shores(from, to, way)
	leg := Leg{
		Takes: before.Takes + way.takes() + after.Takes, Metres: before.Metres + way.metres() + after.Metres,
		Crosses: true, Known: true,
	}
	if len(way) == 2 {
		leg.Takes += p.between(way[0], way[1])
	}
	return leg
}
