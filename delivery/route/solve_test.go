package route_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/route"
)

func TestSolveTiny(t *testing.T) {
	day := [2]int64{0, 36000}
	p := route.Problem{
		Travel:   [][]int64{{0, 600, 1200}, {600, 0, 600}, {1200, 600, 0}},
		Distance: [][]int64{{0, 9000, 18000}, {9000, 0, 9000}, {18000, 9000, 0}},
		Stops: []route.Stop{
			{Name: "far", Place: 2, Window: day, Service: 900, Drop: route.Load{1, 15}},
			{Name: "near", Place: 1, Window: [2]int64{7200, 9000}, Service: 900, Drop: route.Load{1, 15}, Collect: route.Load{2, 30}},
			{Name: "gone", Place: 1, Window: [2]int64{0, 300}, Service: 900},
		},
		Vehicles: []route.Vehicle{{Name: "Van 1", Until: 28800, Capacity: route.Load{10, 100}}},
	}
	plan, err := route.Solve(context.Background(), p, route.Options{})
	require.NoError(t, err)
	assert.Empty(t, route.Check(p, plan))
	require.Len(t, plan.Unserved, 1)
	assert.Equal(t, route.TooFar, plan.Unserved[0].Cause)
	require.NotEmpty(t, plan.Unserved[0].Reliefs)
	assert.Equal(t, "a window until 00:10, with Van 1", plan.Unserved[0].Reliefs[0].Says(p))
}
