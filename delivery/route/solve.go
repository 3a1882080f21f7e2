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
	Seed uint64
	// Steps is the number of search steps, of all goroutines together. 0 means as many as Limit allows or, without a limit,
	// a number that suits the size of the problem. The same problem, seed and steps give the same plan.
	Steps int
	// Limit ends the search; 0 for no limit. A plan ended by it depends on how fast the machine is.
	Limit time.Duration
	// Workers is how many goroutines search at once; below 1 means 1. The plan does not depend on it.
	Workers int
	// Progress is called now and then from the goroutine that called Solve; it may be nil.
	Progress func(Progress)
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
	pace, timed := &pace{steps: o.Steps}, ctx
	if o.Limit > 0 {
		var cancel context.CancelFunc
		timed, cancel = context.WithTimeout(ctx, o.Limit)
		defer cancel()
	}
	byTime := o.Steps == 0 && o.Limit > 0
	if byTime {
		go pace.follow(timed, o.Limit)
	} else if o.Steps == 0 {
		pace.steps = min(max(stepsPerStop*len(p.Stops), fewestSteps), mostSteps)
	}

	s := newState(newNetwork(&p))
	s.construct()
	if len(p.Stops) == 0 || len(p.Vehicles) == 0 {
		return s.plan(), nil
	}
	c := newCrew(s, o)
	done := c.work(timed, pace, o.Progress)
	best := c.best.restore(s.net)
	best.construct() // what blinking overlooked
	plan := best.plan()
	plan.Steps, plan.Stopped = c.steps(), !done && !(byTime && ctx.Err() == nil)
	return plan, nil
}
