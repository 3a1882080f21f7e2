package route_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/delivery/route"
)

// On problems of every kind with up to eight stops the search finds what trying every order finds.
func TestSolveMatchesExhaustiveSearch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t, 8, 2)
		plan, err := route.Solve(context.Background(), p, route.Options{Steps: 4000, Workers: 1, Seed: rapid.Uint64().Draw(t, "seed")})
		require.NoError(t, err)
		require.Empty(t, route.Check(p, plan), "%+v", p)
		least := exhaustive(p)
		assert.Equal(t, least, plan.Cost, "%+v\n%+v", p, plan)
	})
}

// drawProblem draws a problem with everything in it: windows, act-bys, two-way loads, skills, locks, stops that may wait for another
// day, shifts and breaks.
// Ways are straight, so that a detour never saves time.
func drawProblem(t *rapid.T, stops, vehicles int) route.Problem {
	p := route.Problem{Weights: route.Weights{Distance: 1, Travel: 2, Vehicle: 500, LateSecond: 3, HarmHour: 360_000, Unserved: 1_000_000}}
	count := rapid.IntRange(1, stops).Draw(t, "stops")
	places := rapid.SliceOfN(rapid.SliceOfN(rapid.Float64Range(0, 1000), 2, 2), count+2, count+2).Draw(t, "places")
	for _, a := range places {
		var way, time []int64
		for _, b := range places {
			straight := math.Hypot(a[0]-b[0], a[1]-b[1])
			way, time = append(way, int64(math.Ceil(straight))), append(time, int64(math.Ceil(straight))*2)
		}
		p.Distance, p.Travel = append(p.Distance, way), append(p.Travel, time)
	}
	for v := range rapid.IntRange(1, vehicles).Draw(t, "vehicles") {
		p.Vehicles = append(p.Vehicles, drawVehicle(t, v))
	}
	for s := range count {
		p.Stops = append(p.Stops, drawStop(t, s, p.Vehicles))
	}
	drawHours(t, &p, places)
	return p
}

// drawHours puts a strait through some problems, crossed by a line to either side, and slow hours into some.
func drawHours(t *rapid.T, p *route.Problem, places [][]float64) {
	draw := func(low, high int64, label string) int64 { return rapid.Int64Range(low, high).Draw(t, label) }
	if rapid.IntRange(0, 2).Draw(t, "strait") == 0 {
		p.Lines = make([][]route.Sailing, 2)
		for way := range p.Lines {
			for at := draw(0, 3000, "first"); at < 15_000; at += draw(300, 4000, "gap") {
				p.Lines[way] = append(p.Lines[way], route.Sailing{Leaves: at, Arrives: at + 200})
			}
		}
		for a := range places {
			for b := range places {
				if west := places[a][0] < 500; west != (places[b][0] < 500) {
					way := 0
					if west {
						way = 1
					}
					p.Crossings = append(p.Crossings, route.Crossing{From: a, To: b, Before: p.Travel[a][b] / 2, After: p.Travel[a][b] / 3, Line: way})
				}
			}
		}
	}
	if rapid.IntRange(0, 2).Draw(t, "slow") == 0 {
		from := draw(0, 5000, "slow from")
		p.Slow = []route.SlowHours{{From: from, Until: from + draw(1, 4000, "slow for"), Percent: draw(100, 300, "percent")}}
	}
}

// clocked reports whether a way takes longer at some times than at others.
func clocked(p route.Problem, from, to int) bool {
	return len(p.Slow) > 0 || slices.ContainsFunc(p.Crossings, func(c route.Crossing) bool { return c.From == from && c.To == to })
}

// reached drives second by second and waits for the line.
func reached(p route.Problem, now int64, from, to int) int64 {
	const second = 252_000 // a slow second is rounded down to so many parts of a usual one
	drive := func(now, time int64) int64 {
		for left := time * second; left > 0; now++ {
			percent := int64(100)
			for _, s := range p.Slow {
				if s.From <= now && now < s.Until {
					percent = s.Percent
				}
			}
			left -= second * 100 / percent
		}
		return now
	}
	for _, c := range p.Crossings {
		if c.From != from || c.To != to {
			continue
		}
		quay := drive(now, c.Before)
		for _, s := range p.Lines[c.Line] {
			if s.Leaves >= quay {
				return drive(s.Arrives, c.After)
			}
		}
		return now + 7*24*3600
	}
	if len(p.Slow) == 0 {
		return now + p.Travel[from][to]
	}
	return drive(now, p.Travel[from][to])
}

func drawVehicle(t *rapid.T, number int) route.Vehicle {
	draw := func(low, high int64, label string) int64 { return rapid.Int64Range(low, high).Draw(t, label) }
	v := route.Vehicle{Name: fmt.Sprintf("Van %d", number+1), Start: 0, End: int(draw(0, 1, "end")), From: draw(0, 500, "from"),
		Capacity: route.Load{draw(4, 12, "pieces"), draw(20, 60, "kg"), route.Unlimited, draw(3, 6, "dirty")}}
	v.Until = v.From + draw(2000, 12000, "shift")
	if rapid.Bool().Draw(t, "hoist") {
		v.Skills = []string{"hoist"}
	}
	if rapid.IntRange(0, 2).Draw(t, "break") == 0 {
		earliest := v.From + draw(0, 4000, "break from")
		v.Breaks = []route.Break{{Earliest: earliest, Latest: earliest + draw(0, 2500, "break width"), Length: draw(100, 900, "break length")}}
	}
	return v
}

func drawStop(t *rapid.T, number int, vehicles []route.Vehicle) route.Stop {
	draw := func(low, high int64, label string) int64 { return rapid.Int64Range(low, high).Draw(t, label) }
	s := route.Stop{Name: fmt.Sprint(number), Place: number + 2, Service: draw(0, 600, "service"),
		Drop: route.Load{draw(0, 4, "drop"), draw(0, 20, "drop kg")}, Collect: route.Load{draw(0, 4, "collect"), draw(0, 20, "collect kg"), 0, draw(0, 3, "dirty")}}
	s.Window[0] = draw(0, 5000, "opens")
	s.Window[1] = s.Window[0] + draw(0, 8000, "width")
	switch rapid.IntRange(0, 5).Draw(t, "special") {
	case 0:
		s.Needs = []string{"hoist"}
	case 1:
		s.LockedTo = rapid.SampledFrom(vehicles).Draw(t, "locked").Name
	case 2, 3:
		s.ActBy, s.Risk = draw(1, 9000, "act by"), rapid.Float64Range(0, 1).Draw(t, "risk")
	case 4:
		s.Later = draw(1, 4000, "later")
	}
	return s
}

// exhaustive is the least cost of all ways to give the stops to the vehicles, in every order, or to leave them out:
// for each vehicle the best order of each set of stops, then the best way to share the stops out.
func exhaustive(p route.Problem) int64 {
	sets := 1 << len(p.Stops)
	least := make([]int64, sets) // by the stops given so far; those on no vehicle are left out
	for set := range least {
		for i, s := range p.Stops {
			if set>>i&1 == 1 {
				least[set] += leftOut(p, s)
			}
		}
	}
	for _, v := range p.Vehicles {
		best := bestOrders(p, v)
		next := make([]int64, sets)
		for set := range next {
			next[set] = math.MaxInt64
			for own := set; ; own = (own - 1) & set {
				if best[own] < math.MaxInt64 {
					next[set] = min(next[set], best[own]+least[set&^own])
				}
				if own == 0 {
					break
				}
			}
		}
		least = next
	}
	return least[sets-1]
}

// bestOrders drives a vehicle through every order of every set of stops; a set it can't drive costs the most there is.
func bestOrders(p route.Problem, v route.Vehicle) []int64 {
	best := make([]int64, 1<<len(p.Stops))
	for set := range best {
		best[set] = math.MaxInt64
	}
	var order []int
	var drive func(set int)
	drive = func(set int) {
		if cost, ok := drivenCost(p, v, order); ok {
			best[set] = min(best[set], cost)
		}
		for i := range p.Stops {
			if set>>i&1 == 0 {
				order = append(order, i)
				drive(set | 1<<i)
				order = order[:len(order)-1]
			}
		}
	}
	drive(0)
	return best
}

func leftOut(p route.Problem, s route.Stop) int64 {
	if s.Later > 0 {
		return s.Later
	}
	cost, horizon := p.Weights.Unserved, int64(0)
	for _, v := range p.Vehicles {
		horizon = max(horizon, v.Until)
	}
	if s.ActBy != 0 {
		cost += int64(perSecond(p, s) * float64(max(0, horizon-s.ActBy)))
	}
	return cost
}

func perSecond(p route.Problem, s route.Stop) float64 {
	return float64(p.Weights.LateSecond) + s.Risk*float64(p.Weights.HarmHour)/3600
}

// drivenCost drives one vehicle through an order of stops and says whether it can.
func drivenCost(p route.Problem, v route.Vehicle, order []int) (int64, bool) {
	if len(order) == 0 {
		return 0, true
	}
	board, cost := route.Load{}, p.Weights.Vehicle
	for _, i := range order {
		s := p.Stops[i]
		if s.LockedTo != "" && s.LockedTo != v.Name || len(s.Needs) > 0 && !slices.Equal(s.Needs, v.Skills) {
			return 0, false
		}
		for d := range board {
			board[d] += s.Drop[d]
		}
	}
	at := v.Start
	for i := -1; i < len(order); i++ {
		next := v.End
		if i+1 < len(order) {
			next = p.Stops[order[i+1]].Place
		}
		if i >= 0 {
			for d := range board {
				board[d] += p.Stops[order[i]].Collect[d] - p.Stops[order[i]].Drop[d]
			}
		}
		for d := range board {
			if board[d] > v.Capacity[d] {
				return 0, false
			}
		}
		cost += p.Weights.Distance*p.Distance[at][next] + p.Weights.Travel*p.Travel[at][next]
		at = next
	}
	late, ok := soonest(p, v, order, 0, v.From, v.Start, 0)
	return cost + late, ok
}

// soonest is the least cost of lateness from stop k of an order on, leaving a place at a time with some breaks taken.
func soonest(p route.Problem, v route.Vehicle, order []int, k int, now int64, at, breaks int) (int64, bool) {
	least, found := int64(math.MaxInt64), false
	for after := breaks; after <= len(v.Breaks); after++ {
		next := v.End
		if k < len(order) {
			next = p.Stops[order[k]].Place
		}
		reach := reached(p, now, at, next)
		if after > breaks {
			b := v.Breaks[after-1]
			begin := max(now, b.Earliest)
			if after > breaks+1 || begin > b.Latest {
				break // the drawn vehicles have one break at most
			}
			reach = max(reach+b.Length, begin+b.Length)
			if len(p.Crossings)+len(p.Slow) > 0 && clocked(p, at, next) {
				reach = reached(p, begin+b.Length, at, next) // the rest comes before setting out
			}
		}
		if k == len(order) {
			if reach <= v.Until && (after == len(v.Breaks) || reach <= v.Breaks[after].Latest) {
				return 0, true
			}
			continue
		}
		s := p.Stops[order[k]]
		start := max(reach, s.Window[0])
		if start > s.Window[1] {
			continue
		}
		late := int64(0)
		if s.ActBy != 0 && start > s.ActBy {
			late = int64(perSecond(p, s) * float64(start-s.ActBy))
		}
		if rest, ok := soonest(p, v, order, k+1, start+s.Service, next, after); ok && late+rest < least {
			least, found = late+rest, true
		}
	}
	return least, found
}
