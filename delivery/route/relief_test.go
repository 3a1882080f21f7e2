package route_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/route"
)

const minute, hour = 60, 3600

// road is a straight road with the depot at 0 and a place every ten minutes, 10 km apart.
func road(places int) (travel, distance [][]int64) {
	for i := range places {
		var times, metres []int64
		for j := range places {
			gap := int64(max(i-j, j-i))
			times, metres = append(times, 10*minute*gap), append(metres, 10_000*gap)
		}
		travel, distance = append(travel, times), append(distance, metres)
	}
	return travel, distance
}

// Each thing that can keep a stop off every route is told, with what would help.
func TestUnservedIsExplained(t *testing.T) {
	van := route.Vehicle{Name: "Van 1", From: 8 * hour, Until: 16 * hour, Capacity: route.Load{10, 100, route.Unlimited, route.Unlimited}}
	day := [2]int64{8 * hour, 16 * hour}
	stop := route.Stop{Name: "asked", Place: 3, Window: day, Service: 20 * minute, Drop: route.Load{2, 20}}
	with := func(change func(s *route.Stop)) route.Stop {
		s := stop
		change(&s)
		return s
	}
	busy := route.Stop{Name: "first", Place: 1, Window: [2]int64{9 * hour, 9 * hour}, ActBy: 9 * hour, Risk: 1, Service: hour, Drop: route.Load{9, 90}}
	tests := []struct {
		name     string
		vehicles []route.Vehicle
		stops    []route.Stop // the last is the one not visited
		cause    route.Cause
		forced   bool
		lateBy   int64
		reliefs  []string
	}{
		{name: "no vehicle at all", stops: []route.Stop{stop}, cause: route.NoVehicle},
		{name: "no skill", vehicles: []route.Vehicle{van}, cause: route.NoSkill,
			stops: []route.Stop{with(func(s *route.Stop) { s.Needs = []string{"hoist"} })}},
		{name: "too large", vehicles: []route.Vehicle{van}, cause: route.TooLarge,
			stops: []route.Stop{with(func(s *route.Stop) { s.Collect[route.Kg] = 101 })}},
		{name: "shuts before anybody can come", vehicles: []route.Vehicle{van}, cause: route.TooFar, forced: true, lateBy: 5 * minute,
			stops:   []route.Stop{with(func(s *route.Stop) { s.Window = [2]int64{8 * hour, 8*hour + 25*minute} })},
			reliefs: []string{"a window until 08:30, with Van 1", "Van 1 leaving at 07:55"}},
		{name: "opens too late for the shift", vehicles: []route.Vehicle{van}, cause: route.TooFar,
			stops:   []route.Stop{with(func(s *route.Stop) { s.Window = [2]int64{15*hour + 30*minute, 16 * hour} })},
			reliefs: []string{"Van 1 out until 16:20"}},
		{name: "full", vehicles: []route.Vehicle{van}, cause: route.NoRoom, stops: []route.Stop{busy, stop},
			reliefs: []string{"one more vehicle like Van 1, there at 08:30"}},
		{name: "no time", vehicles: []route.Vehicle{van}, cause: route.NoTime, forced: true, lateBy: 20 * minute,
			stops: []route.Stop{busy, with(func(s *route.Stop) {
				s.Window, s.Drop = [2]int64{9*hour + 30*minute, 10 * hour}, route.Load{1, 5}
			})},
			reliefs: []string{"a window until 10:20, with Van 1", "one more vehicle like Van 1, there at 09:30"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := route.Problem{Stops: tt.stops, Vehicles: tt.vehicles}
			p.Travel, p.Distance = road(4)
			plan, err := route.Solve(context.Background(), p, route.Options{Steps: 200})
			require.NoError(t, err)
			assert.Empty(t, route.Check(p, plan))
			require.Len(t, plan.Unserved, 1)
			u := plan.Unserved[0]
			assert.Equal(t, len(tt.stops)-1, u.Stop)
			assert.Equal(t, tt.cause, u.Cause, "got %q", u.Cause)
			assert.Equal(t, tt.forced, u.Forced)
			assert.Equal(t, tt.lateBy, u.LateBy)
			var said []string
			for _, r := range u.Reliefs {
				said = append(said, r.Says(p))
			}
			assert.Equal(t, tt.reliefs, said)
		})
	}
}

// When two act-bys can't both be kept, the more endangered person is served in time and the other late, not left out.
func TestTheMoreEndangeredComesFirst(t *testing.T) {
	for _, first := range []int{0, 1} {
		p := route.Problem{
			Vehicles: []route.Vehicle{{Name: "Van 1", From: 8 * hour, Until: 16 * hour, Capacity: route.Load{10}}},
			Stops: []route.Stop{
				{Name: "left", Place: 1, Window: [2]int64{8 * hour, 16 * hour}, ActBy: 8*hour + 30*minute, Risk: 0.02, Service: 15 * minute},
				{Name: "right", Place: 4, Window: [2]int64{8 * hour, 16 * hour}, ActBy: 8*hour + 30*minute, Risk: 0.02, Service: 15 * minute},
			},
		}
		p.Travel, p.Distance = road(5)
		for i := range p.Travel { // the depot lies between the two
			p.Travel[0][i], p.Travel[i][0] = p.Travel[2][i], p.Travel[i][2]
			p.Distance[0][i], p.Distance[i][0] = p.Distance[2][i], p.Distance[i][2]
		}
		p.Travel[0][0], p.Distance[0][0] = 0, 0
		p.Stops[first].Risk = 0.9
		plan, err := route.Solve(context.Background(), p, route.Options{Steps: 200})
		require.NoError(t, err)
		assert.Empty(t, route.Check(p, plan))
		assert.Empty(t, plan.Unserved)
		require.Len(t, plan.Late, 1, "risk on stop %d", first)
		late := plan.Late[0]
		assert.Equal(t, 1-first, late.Stop)
		assert.Equal(t, route.ActByFirst, late.Cause, "got %q", late.Cause)
		require.NotEmpty(t, late.Reliefs)
		assert.Equal(t, route.ExtraVehicle, late.Reliefs[0].Kind)
		assert.LessOrEqual(t, late.Reliefs[0].At, p.Stops[late.Stop].ActBy)
	}
}

// An act-by before anybody could be there is met as early as can be, and the plan says how much earlier to leave.
func TestActByTooSoon(t *testing.T) {
	p := route.Problem{
		Vehicles: []route.Vehicle{{Name: "Van 1", From: 8 * hour, Until: 16 * hour}},
		Stops:    []route.Stop{{Place: 3, Window: [2]int64{0, 16 * hour}, ActBy: 8 * hour, Risk: 0.5, Service: 15 * minute}},
	}
	p.Travel, p.Distance = road(4)
	plan, err := route.Solve(context.Background(), p, route.Options{Steps: 200})
	require.NoError(t, err)
	require.Len(t, plan.Late, 1)
	assert.Equal(t, int64(30*minute), plan.Late[0].LateBy)
	assert.Equal(t, route.TooFar, plan.Late[0].Cause)
	require.Len(t, plan.Late[0].Reliefs, 1)
	assert.Equal(t, "Van 1 leaving at 07:30", plan.Late[0].Reliefs[0].Says(p))
}

// An act-by before the door opens is told as such, with the window that would keep it.
func TestActByBeforeTheWindow(t *testing.T) {
	p := route.Problem{
		Vehicles: []route.Vehicle{{Name: "Van 1", From: 8 * hour, Until: 16 * hour}},
		Stops:    []route.Stop{{Place: 3, Window: [2]int64{12 * hour, 16 * hour}, ActBy: 11 * hour, Risk: 0.5, Service: 15 * minute}},
	}
	p.Travel, p.Distance = road(4)
	plan, err := route.Solve(context.Background(), p, route.Options{Steps: 200})
	require.NoError(t, err)
	assert.Empty(t, route.Check(p, plan))
	require.Len(t, plan.Late, 1)
	assert.Equal(t, int64(hour), plan.Late[0].LateBy)
	assert.Equal(t, route.OpensLate, plan.Late[0].Cause, "got %q", plan.Late[0].Cause)
	require.Len(t, plan.Late[0].Reliefs, 1)
	assert.Equal(t, "a window from 11:00", plan.Late[0].Reliefs[0].Says(p))
}

// A break is taken between its times, where it costs least.
func TestBreakIsTaken(t *testing.T) {
	p := route.Problem{
		Vehicles: []route.Vehicle{{Name: "Van 1", From: 8 * hour, Until: 16 * hour,
			Breaks: []route.Break{{Earliest: 11 * hour, Latest: 13 * hour, Length: 30 * minute}}}},
		Stops: []route.Stop{
			{Place: 1, Window: [2]int64{9 * hour, 9 * hour}, Service: hour},
			{Place: 2, Window: [2]int64{14 * hour, 14 * hour}, Service: hour},
		},
	}
	p.Travel, p.Distance = road(3)
	plan, err := route.Solve(context.Background(), p, route.Options{Steps: 200})
	require.NoError(t, err)
	assert.Empty(t, route.Check(p, plan))
	assert.Empty(t, plan.Unserved)
	require.Len(t, plan.Routes, 1)
	assert.Equal(t, []route.Rest{{After: 0, Start: 11 * hour, Length: 30 * minute}}, plan.Routes[0].Rests)
}
