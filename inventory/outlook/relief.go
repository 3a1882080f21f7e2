package outlook

import (
	"slices"
	"time"
)

// Relief is something that can be done about a shortage: units that are away
// made ready by a day, or units that join.
type Relief struct {
	Name  string
	On    time.Time // takes effect
	Ready []int     // positions in Stock.Away that are ready from then on
	Units int       // that join besides: exchanged, hired or bought
}

// Helped is what a relief would do.
type Helped struct {
	Relief
	Worst  float64 // the highest chance of running short on any day from then on, with it
	Before float64 // on the same days without it
	Mended int     // days over the limit that it brings under it
}

// with returns the stock after a relief. A unit it makes ready by a day is not
// counted on before that day.
func (s Stock) with(r Relief) Stock {
	s.Changes = append(slices.Clone(s.Changes), Change{On: r.On, Units: len(r.Ready) + r.Units})
	away := make([]Away, 0, len(s.Away))
	for i, a := range s.Away {
		if !slices.Contains(r.Ready, i) {
			away = append(away, a)
		}
	}
	s.Away = away
	return s
}

// Compare says what each relief alone would do, in the order given: the
// cheapest first, as the programme sees it.
func (s Stock) Compare(h Horizon, reliefs []Relief) []Helped {
	before := s.Project(h)
	out := make([]Helped, len(reliefs))
	for i, r := range reliefs {
		after := s.with(r).Project(h)
		first := h.first(r.On)
		helped := Helped{Relief: r, Before: worst(before[first:]), Worst: worst(after[first:])}
		for d := range after {
			if before[d].Short > h.Limit && after[d].Short <= h.Limit {
				helped.Mended++
			}
		}
		out[i] = helped
	}
	return out
}

// first returns the day from which on something that takes effect at a time counts;
// the first of all where that is after the last.
func (h Horizon) first(on time.Time) int {
	for d := range h.Days {
		if on.Before(h.midnight(d + 1)) {
			return d
		}
	}
	return 0
}

func worst(days []Day) float64 {
	most := 0.0
	for _, d := range days {
		most = max(most, d.Short)
	}
	return most
}
