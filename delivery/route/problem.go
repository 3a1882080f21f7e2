// Package route decides which vehicle visits which stop, in which order and at what time: a matrix goes in, routes come out.
//
// A vehicle leaves its start with everything it has to drop, carries home everything it collects, keeps to its shift,
// its room and its breaks, and starts each visit inside the stop's window. A stop may also have an act-by, the time by
// which gas must arrive: the search keeps it whenever that can be kept, and otherwise visits the stop late, weighed by the
// chance of harm, rather than not at all. What cannot be kept is named in the plan, with its cause and its reliefs.
//
// The package is pure. It reads no clock unless Options.Limit asks it to, and the same problem, seed and steps give the same plan.
package route

import (
	"errors"
	"fmt"
	"math"
)

// The dimensions of a Load. Callers round loads up and capacities down to whole units.
const (
	Pieces     = iota // things handled, each counted once
	Kg                // gross weight in kilograms: cylinders and machines as they stand
	Bulk              // space taken, in any unit the caller keeps to
	Dirty             // space taken by what comes back used; a capacity of its own keeps it apart from clean kit
	Dimensions        // the number of dimensions
)

// Unlimited is a capacity no plan can reach, for a dimension that does not matter.
const Unlimited = 1 << 40

// longest bounds every time, distance and cost the search works with, so that sums of them stay exact.
const longest = 1 << 28

// Load says how much is carried in each dimension a vehicle can run out of.
type Load [Dimensions]int64

// Problem is one planning task: places, what has to be done at them, and who can do it.
// Times are whole seconds since the plan's day start, distances whole metres. A benchmark file may use any other unit throughout.
type Problem struct {
	Travel   [][]int64 // Travel[a][b] is the time from place a to place b
	Distance [][]int64 // Distance[a][b] is the way from place a to place b
	Stops    []Stop
	Vehicles []Vehicle
	// What depends on the hour: the lines some ways go by, and when all driving is slow. Ordered by time.
	Lines     [][]Sailing
	Crossings []Crossing
	Slow      []SlowHours
	Weights   Weights // what counts how much; the zero value stands for DefaultWeights
}

// Stop is one visit to one place.
type Stop struct {
	Name     string
	Place    int
	Window   [2]int64 // earliest and latest start of the visit; hard, since nobody opens the door outside it
	ActBy    int64    // time by which gas must arrive; 0 for none. It may be broken, at a price, when it cannot be kept
	Risk     float64  // chance of being without oxygen for each hour past ActBy, from 0 to 1
	Service  int64    // how long the visit takes
	Drop     Load     // carried from the start of the route to the stop
	Collect  Load     // carried from the stop to the end of the route
	Needs    []string // skills or equipment the vehicle must have
	LockedTo string   // name of the only vehicle that may come; empty for any
	Later    int64    // what leaving the stop for another day costs; 0 when it has to be visited
}

// Vehicle is a vehicle with its driver for one shift.
type Vehicle struct {
	Name     string
	Start    int   // place it leaves from
	End      int   // place it returns to
	From     int64 // earliest departure
	Until    int64 // latest return; hard
	Capacity Load
	Skills   []string
	Breaks   []Break // in order of time, three at most
}

// Break is a rest the driver takes between two visits or on the way.
type Break struct {
	Earliest, Latest int64 // earliest and latest start
	Length           int64
}

// Weights says what counts how much, in one unit of cost: the metre driven. Common practice, no source.
type Weights struct {
	Distance   int64 // for each metre
	Travel     int64 // for each second on the road
	Vehicle    int64 // for each vehicle used
	LateSecond int64 // for each second past an act-by, whatever the risk
	HarmHour   int64 // for each hour past an act-by at a risk of 1
	Unserved   int64 // for each stop not visited, on top of what being late all day would cost
}

// DefaultWeights makes one second on the road worth ten metres, an extra vehicle worth twenty kilometres, a minute past an
// act-by worth six, and an hour's certain lack of oxygen worth more than any amount of driving.
var DefaultWeights = Weights{Distance: 1, Travel: 10, Vehicle: 20_000, LateSecond: 100, HarmHour: 100_000_000, Unserved: 10_000_000}

func (p *Problem) weights() Weights {
	if p.Weights == (Weights{}) {
		return DefaultWeights
	}
	return p.Weights
}

// Validate reports the first thing that makes the problem unreadable. An overfull problem is valid; its plan says what does not fit.
func (p *Problem) Validate() error {
	if err := validMatrix("travel", p.Travel); err != nil {
		return err
	}
	if err := validMatrix("distance", p.Distance); err != nil {
		return err
	}
	if len(p.Travel) != len(p.Distance) {
		return fmt.Errorf("the travel matrix has %d places, the distance matrix %d", len(p.Travel), len(p.Distance))
	}
	w := p.weights()
	for _, x := range []int64{w.Distance, w.Travel, w.Vehicle, w.LateSecond, w.HarmHour, w.Unserved} {
		if x < 0 || x > longest {
			return fmt.Errorf("weight %d is outside 0 to %d", x, longest)
		}
	}
	if err := p.validCrossings(); err != nil {
		return err
	}
	names := map[string]bool{}
	for i, v := range p.Vehicles {
		if err := v.valid(len(p.Travel)); err != nil {
			return fmt.Errorf("vehicle %d %q: %w", i, v.Name, err)
		}
		names[v.Name] = true
	}
	for i, s := range p.Stops {
		if err := s.valid(len(p.Travel)); err != nil {
			return fmt.Errorf("stop %d %q: %w", i, s.Name, err)
		}
		if s.LockedTo != "" && !names[s.LockedTo] {
			return fmt.Errorf("stop %d %q is locked to vehicle %q, which is not in the plan", i, s.Name, s.LockedTo)
		}
	}
	return p.validCosts(w)
}

func validMatrix(name string, rows [][]int64) error {
	for i, row := range rows {
		if len(row) != len(rows) {
			return fmt.Errorf("row %d of the %s matrix has %d entries for %d places", i, name, len(row), len(rows))
		}
		for j, x := range row {
			if x < 0 || x > longest {
				return fmt.Errorf("entry %d, %d of the %s matrix is %d, outside 0 to %d", i, j, name, x, longest)
			}
		}
	}
	return nil
}

func (p *Problem) validCosts(w Weights) error {
	for i, row := range p.Distance {
		for j, d := range row {
			if d*w.Distance+p.Travel[i][j]*w.Travel > longest {
				return fmt.Errorf("the way from place %d to place %d is too long for its weights", i, j)
			}
		}
	}
	return nil
}

func (v Vehicle) valid(places int) error {
	switch {
	case v.Start < 0 || v.Start >= places:
		return fmt.Errorf("start place %d is not in the matrix", v.Start)
	case v.End < 0 || v.End >= places:
		return fmt.Errorf("end place %d is not in the matrix", v.End)
	case !timely(v.From, v.Until) || v.From > v.Until:
		return fmt.Errorf("the shift runs from %d until %d", v.From, v.Until)
	}
	if len(v.Breaks) > mostBreaks {
		return fmt.Errorf("%d breaks, where a shift may have %d", len(v.Breaks), mostBreaks)
	}
	for _, b := range v.Breaks {
		if !timely(b.Earliest, b.Latest, b.Length) || b.Earliest > b.Latest || b.Length < 0 {
			return fmt.Errorf("the break starts between %d and %d and takes %d", b.Earliest, b.Latest, b.Length)
		}
	}
	return v.Capacity.valid("capacity")
}

func (s Stop) valid(places int) error {
	switch {
	case s.Place < 0 || s.Place >= places:
		return fmt.Errorf("place %d is not in the matrix", s.Place)
	case !timely(s.Window[0], s.Window[1], s.ActBy, s.Service) || s.Window[0] > s.Window[1]:
		return fmt.Errorf("the window runs from %d to %d, act-by %d, service %d", s.Window[0], s.Window[1], s.ActBy, s.Service)
	case s.Service < 0:
		return fmt.Errorf("the visit takes %d", s.Service)
	case math.IsNaN(s.Risk) || s.Risk < 0 || s.Risk > 1:
		return fmt.Errorf("risk %v is outside 0 to 1", s.Risk)
	case s.Later < 0 || s.Later > longest:
		return fmt.Errorf("leaving it for another day costs %d", s.Later)
	case s.Later > 0 && s.ActBy != 0:
		return errors.New("it has an act-by and can't be left for another day")
	}
	if err := s.Drop.valid("drop"); err != nil {
		return err
	}
	return s.Collect.valid("collection")
}

func (l Load) valid(what string) error {
	for d, x := range l {
		if x < 0 || x > Unlimited {
			return fmt.Errorf("%s %d in dimension %d is outside 0 to %d", what, x, d, int64(Unlimited))
		}
	}
	return nil
}

func timely(times ...int64) bool {
	for _, t := range times {
		if t < -longest || t > longest {
			return false
		}
	}
	return true
}
