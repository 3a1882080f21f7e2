package route_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/delivery/route"
)

// Every plan keeps every rule and names each stop once, whatever the problem.
func TestSolvePlansHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t, 25, 4)
		if rapid.Bool().Draw(t, "one way round") {
			bend(t, p)
		}
		plan, err := route.Solve(context.Background(), p, route.Options{Steps: 2000, Workers: 2})
		require.NoError(t, err)
		assert.Empty(t, route.Check(p, plan), "%+v\n%+v", p, plan)
		for _, u := range plan.Unserved {
			assert.NotEmpty(t, u.Cause.String(), "%+v", u)
			assertCheapestFirst(t, u.Reliefs)
			assert.True(t, !u.Forced || u.LateBy > 0, "%+v", u)
		}
		for _, l := range plan.Late {
			assertCheapestFirst(t, l.Reliefs)
		}
	})
}

// bend makes ways differ by direction and detours sometimes quicker than the straight way.
func bend(t *rapid.T, p route.Problem) {
	for i := range p.Travel {
		for j := range p.Travel[i] {
			if i != j {
				p.Travel[i][j] += rapid.Int64Range(0, 600).Draw(t, "bend")
			}
		}
	}
}

func assertCheapestFirst(t *rapid.T, reliefs []route.Relief) {
	for i, r := range reliefs {
		assert.Positive(t, r.Price, "%+v", r)
		assert.True(t, i == 0 || reliefs[i-1].Price <= r.Price, "%+v", reliefs)
	}
}

// The same problem, seed and steps give the same plan, however many goroutines work on it.
func TestSolveRepeats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t, 20, 3)
		o := route.Options{Steps: 2000, Workers: 1, Seed: rapid.Uint64().Draw(t, "seed")}
		first, err := route.Solve(context.Background(), p, o)
		require.NoError(t, err)
		o.Workers = 3
		second, err := route.Solve(context.Background(), p, o)
		require.NoError(t, err)
		assert.Equal(t, first, second, "%+v", p)
	})
}

// A plan is never worse than driving the stops in the order they were given.
func TestSolveBeatsTheOrderGiven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t, 20, 3)
		plan, err := route.Solve(context.Background(), p, route.Options{Steps: 2000, Workers: 2})
		require.NoError(t, err)
		assert.LessOrEqual(t, plan.Cost, inOrder(p), "%+v", p)
	})
}

// inOrder is the cost of giving each stop in turn to the end of the first vehicle that can still take it.
func inOrder(p route.Problem) int64 {
	orders := make([][]int, len(p.Vehicles))
	total := int64(0)
	for stop, s := range p.Stops {
		taken := false
		for v := range orders {
			longer := append(orders[v][:len(orders[v]):len(orders[v])], stop)
			if _, ok := drivenCost(p, p.Vehicles[v], longer); ok {
				orders[v], taken = longer, true
				break
			}
		}
		if !taken {
			total += leftOut(p, s)
		}
	}
	for v, order := range orders {
		cost, _ := drivenCost(p, p.Vehicles[v], order)
		total += cost
	}
	return total
}
