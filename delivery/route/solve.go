package route

import (
	"context"
	"time"
)

// Options says how long and how hard to search.
type Options struct {
	Seed     uint64
	Steps    int            // search steps; 0 means a budget that suits the size of the problem, or as many as Limit allows
	Limit    time.Duration  // cuts the search; 0 for no limit. A plan cut by it depends on the machine
	Workers  int            // goroutines to use, at least 1; the plan does not depend on it
	Progress func(Progress) // called now and then from the goroutine that called Solve; may be nil
}

// Progress tells how far a search has come.
type Progress struct {
	Share    float64 // of the budget, from 0 to 1
	Steps    int
	Cost     int64 // of the best plan so far
	Unserved int
}

// Solve finds routes for a problem. It returns an error only when the problem is not valid; a problem that cannot be
// kept whole gives a plan that says so. When ctx ends first the best plan so far is returned, marked Stopped.
func Solve(ctx context.Context, p Problem, o Options) (Plan, error) {
	if err := p.Validate(); err != nil {
		return Plan{}, err
	}
	n := newNetwork(&p)
	s := newState(n)
	s.construct()
	plan := s.plan()
	plan.Stopped = ctx.Err() != nil
	return plan, nil
}
