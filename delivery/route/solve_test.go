package route_test

import (
	"context"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/route"
)

// grid is a problem with stops on a square grid around the depot and vans enough.
func grid(side int) route.Problem {
	var p route.Problem
	p.Vehicles = make([]route.Vehicle, side)
	for v := range p.Vehicles {
		p.Vehicles[v] = route.Vehicle{Until: 10 * hour, Capacity: route.Load{int64(2 * side)}}
	}
	places := side*side + 1
	for i := range places {
		row := make([]int64, places)
		for j := range places {
			dx, dy := i%side-j%side, i/side-j/side
			row[j] = int64(100 * math.Hypot(float64(dx), float64(dy)))
		}
		p.Travel = append(p.Travel, row)
		if i > 0 {
			p.Stops = append(p.Stops, route.Stop{Place: i, Window: [2]int64{0, 10 * hour}, Service: minute, Drop: route.Load{1}})
		}
	}
	p.Distance = p.Travel
	return p
}

// A search cut short gives a plan that holds, marked as cut, even when there was no time at all.
func TestSolveStopsWhenTold(t *testing.T) {
	p := grid(6)
	ctx, cancel := context.WithCancel(context.Background())
	calls := 0
	plan, err := route.Solve(ctx, p, route.Options{Steps: 50_000_000, Workers: 2, Progress: func(route.Progress) {
		calls++
		cancel()
	}})
	require.NoError(t, err)
	assert.Equal(t, 1, calls)
	assert.True(t, plan.Stopped)
	assert.Less(t, plan.Steps, 50_000_000)
	assert.Empty(t, route.Check(p, plan))
	assert.Empty(t, plan.Unserved)

	again, err := route.Solve(ctx, p, route.Options{})
	require.NoError(t, err)
	assert.True(t, again.Stopped)
	assert.Zero(t, again.Steps)
	assert.Empty(t, route.Check(p, again))
}

// A limit alone is the budget, not a cut; with steps it cuts.
func TestSolveKeepsItsLimit(t *testing.T) {
	p := grid(6)
	plan, err := route.Solve(context.Background(), p, route.Options{Limit: 20 * time.Millisecond})
	require.NoError(t, err)
	assert.False(t, plan.Stopped)
	assert.Empty(t, route.Check(p, plan))

	plan, err = route.Solve(context.Background(), p, route.Options{Steps: 50_000_000, Limit: 20 * time.Millisecond})
	require.NoError(t, err)
	assert.True(t, plan.Stopped)
	assert.Empty(t, route.Check(p, plan))
}

// Progress rises to the whole, and the cost never does.
func TestSolveTellsProgress(t *testing.T) {
	var told []route.Progress
	plan, err := route.Solve(context.Background(), grid(6), route.Options{Steps: 40_000, Progress: func(p route.Progress) { told = append(told, p) }})
	require.NoError(t, err)
	require.NotEmpty(t, told)
	for i := 1; i < len(told); i++ {
		assert.Greater(t, told[i].Share, told[i-1].Share)
		assert.LessOrEqual(t, told[i].Cost, told[i-1].Cost)
	}
	assert.Equal(t, 1.0, told[len(told)-1].Share)
	assert.Equal(t, plan.Cost, told[len(told)-1].Cost)
}

// More stops than one part looks after are dealt among several, and the plan still holds and repeats.
func TestSolveManyStops(t *testing.T) {
	p := grid(20)
	o := route.Options{Steps: 24_000, Workers: 2}
	plan, err := route.Solve(context.Background(), p, o)
	require.NoError(t, err)
	assert.Empty(t, route.Check(p, plan))
	assert.Empty(t, plan.Unserved)
	o.Workers = 1
	again, err := route.Solve(context.Background(), p, o)
	require.NoError(t, err)
	assert.Equal(t, plan.Routes, again.Routes)
}

// Problems nobody could mean are refused with a sentence.
func TestSolveRefuses(t *testing.T) {
	tests := []struct {
		says   string
		change func(p *route.Problem)
	}{
		{"row 1 of the travel matrix", func(p *route.Problem) { p.Travel[1] = p.Travel[1][:1] }},
		{"outside 0 to", func(p *route.Problem) { p.Travel[1][0] = -5 }},
		{"place 99 is not in the matrix", func(p *route.Problem) { p.Stops[2].Place = 99 }},
		{"the window runs from 5 to 4", func(p *route.Problem) { p.Stops[0].Window = [2]int64{5, 4} }},
		{"the visit takes -1", func(p *route.Problem) { p.Stops[0].Service = -1 }},
		{"risk NaN", func(p *route.Problem) { p.Stops[0].Risk = math.NaN() }},
		{"drop -1", func(p *route.Problem) { p.Stops[0].Drop[route.Kg] = -1 }},
		{`locked to vehicle "Van 9"`, func(p *route.Problem) { p.Stops[0].LockedTo = "Van 9" }},
		{"the shift runs from 0 until -1", func(p *route.Problem) { p.Vehicles[0].Until = -1 }},
		{"the break starts between 9 and 8", func(p *route.Problem) { p.Vehicles[0].Breaks = []route.Break{{Earliest: 9, Latest: 8}} }},
		{"weight -1", func(p *route.Problem) { p.Weights.Travel = -1 }},
		{"too long for its weights", func(p *route.Problem) { p.Weights.Travel = 1 << 28 }},
	}
	for _, tt := range tests {
		p := grid(3)
		p.Distance = append([][]int64(nil), p.Distance...)
		tt.change(&p)
		_, err := route.Solve(context.Background(), p, route.Options{})
		if assert.Error(t, err, tt.says) {
			assert.Contains(t, err.Error(), tt.says)
		}
	}
}
