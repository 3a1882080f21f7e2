package route

import (
	"context"
	"time"
)

// The search budget when none is given.
const (
	stepsPerStop = 1_500
	fewestSteps  = 5_000
	mostSteps    = 1_500_000
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
	if n.stops == 0 || len(n.vehicles) == 0 {
		return s.plan(), nil
	}
	best, steps, done := s.improve(ctx, o)
	plan := best.plan()
	plan.Steps, plan.Stopped = steps, !done
	return plan, nil
}

// improve searches from a state within the budget. It gives the best state found, the steps done, and whether the budget was used up.
func (s *state) improve(ctx context.Context, o Options) (*state, int, bool) {
	pace, caller := &pace{steps: o.Steps}, ctx
	if o.Limit > 0 {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, o.Limit)
		defer cancel()
	}
	switch {
	case o.Steps == 0 && o.Limit > 0:
		go pace.follow(ctx, o.Limit)
	case o.Steps == 0:
		pace.steps = min(max(stepsPerStop*s.net.stops, fewestSteps), mostSteps)
	}
	c := newCrew(s, o)
	done := c.work(ctx, pace, o.Progress) || pace.steps == 0 && caller.Err() == nil
	best := c.best.restore(s.net)
	best.construct() // what blinking overlooked
	return best, c.steps, done
}
