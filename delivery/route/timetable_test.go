package route_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/delivery/route"
)

// What the search planned, driven stop by stop, goes as planned and breaks nothing.
func TestDriveGoesAsPlanned(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t, 20, 3)
		plan, err := route.Solve(context.Background(), p, route.Options{Steps: 1000})
		require.NoError(t, err)
		table, err := route.NewTimetable(p)
		require.NoError(t, err)
		for _, r := range plan.Routes {
			trip := table.Drive(r.Vehicle, p.Vehicles[r.Vehicle].From, stopsOf(r))
			assert.Equal(t, r, trip.Route)
			assert.Zero(t, trip.Overtime)
			assert.Zero(t, trip.Over)
			assert.Empty(t, trip.Unsuited)
			assert.False(t, trip.NoRest)
			for _, shut := range trip.Shut {
				assert.Zero(t, shut)
			}
		}
	})
}

func stopsOf(r route.Route) []int {
	stops := make([]int, len(r.Visits))
	for i, v := range r.Visits {
		stops[i] = v.Stop
	}
	return stops
}

// Two stops an hour apart: the second's door shuts after half an hour, the van holds one thing, lacks the skill, and its
// shift ends before it is back.
func TestDriveTellsWhatIsNotKept(t *testing.T) {
	ride := [][]int64{{0, hour, hour}, {hour, 0, hour}, {hour, hour, 0}}
	p := route.Problem{
		Travel: ride, Distance: ride,
		Vehicles: []route.Vehicle{{Until: 2 * hour, Capacity: route.Load{1}}},
		Stops: []route.Stop{
			{Place: 1, Window: [2]int64{0, 9 * hour}, Drop: route.Load{1}},
			{Place: 2, Window: [2]int64{0, hour / 2}, Drop: route.Load{1}, Needs: []string{"two persons"}},
		},
	}
	table, err := route.NewTimetable(p)
	require.NoError(t, err)
	trip := table.Drive(0, 0, []int{0, 1})
	assert.Equal(t, []int64{0, 3 * hour / 2}, trip.Shut)
	assert.Equal(t, []int{1}, trip.Unsuited)
	assert.Equal(t, int64(hour), trip.Overtime)
	assert.Equal(t, route.Load{1}, trip.Over)
	assert.Equal(t, route.Load{2}, trip.Most)
	assert.Equal(t, int64(3*hour), trip.Return)

	later := table.Drive(0, hour, nil)
	assert.Equal(t, int64(hour), later.Return, "nothing to do: it stays")
	assert.Zero(t, later.Distance)
	assert.Zero(t, later.Overtime)
}
