package route

import (
	"context"
	"math"
	"slices"
	"sync"
	"sync/atomic"
	"time"
)

// Up to manyStops stops the two parts of a crew both search the whole problem and the better one is followed now and then.
// Above, each part looks after its own tours, dealt anew each round. The numbers are fixed, so that a plan does not depend
// on how many processors there are.
const (
	manyStops  = 300
	partStops  = 125  // stops a part looks after, about
	splitRound = 1000 // most steps of each part between two deals
	wholeRound = 200  // most steps of each part between two looks at the clock
	fewRounds  = 50   // least number of rounds in a search by steps, so that the temperature falls smoothly
	meetings   = 25   // how often in a search the worse of two whole searches gives way
)

// The temperature falls from hot to cold times the cost of a typical arc between neighbours.
const (
	hot  = 5.0
	cold = 0.03
)

// crew is several searches working side by side.
type crew struct {
	net     *network
	parts   []*search
	split   bool // each part has its own tours; else each has all
	dice    dice
	best    snapshot
	scale   float64
	workers int
}

func newCrew(s *state, o Options) *crew {
	c := &crew{net: s.net, dice: dice(o.Seed), workers: max(1, o.Workers), scale: s.net.typicalArc()}
	count := 2
	if s.net.stops > manyStops {
		c.split, count = true, max(2, s.net.stops/partStops)
	}
	for i := range count {
		c.parts = append(c.parts, newSearch(s, c.dice.next(), i, count))
		if !c.split {
			c.parts[i].fresh = freshShare
		}
	}
	c.parts[0].note()
	c.best.take(&c.parts[0].best)
	return c
}

// typicalArc is the median cost of going to a near neighbour, which sets the scale of temperatures.
func (n *network) typicalArc() float64 {
	var costs []int32
	for stop, near := range n.near {
		for _, other := range near[1:min(len(near), 11)] {
			costs = append(costs, n.leg(int32(stop), other).cost)
		}
	}
	if len(costs) == 0 {
		return 1
	}
	slices.Sort(costs)
	return max(1, float64(costs[len(costs)/2]))
}

// pace tells how much of the budget is used.
type pace struct {
	steps int           // of all parts; 0 to go by time
	timed atomic.Uint64 // bits of the share of time used
}

func (p *pace) share(done int) float64 {
	if p.steps > 0 {
		return min(1, float64(done)/float64(p.steps))
	}
	return min(1, math.Float64frombits(p.timed.Load()))
}

// follow keeps the share of time up to date until ctx ends.
func (p *pace) follow(ctx context.Context, limit time.Duration) {
	beat := max(time.Millisecond, limit/500)
	ticker := time.NewTicker(beat)
	defer ticker.Stop()
	var begin time.Time
	for {
		select {
		case <-ctx.Done():
			return
		case now := <-ticker.C:
			if begin.IsZero() {
				begin = now.Add(-beat)
			}
			p.timed.Store(math.Float64bits(float64(now.Sub(begin)) / float64(limit)))
		}
	}
}

// work searches until the budget is used or ctx ends, and reports whether it came to its end.
func (c *crew) work(ctx context.Context, p *pace, progress func(Progress)) bool {
	met, told := 0.0, -1.0
	for ctx.Err() == nil {
		share := p.share(c.steps())
		if progress != nil && share >= told+0.01 {
			told = share
			progress(Progress{Share: share, Steps: c.steps(), Cost: c.best.cost, Unserved: c.best.unserved})
		}
		if share >= 1 {
			return true
		}
		if c.split {
			c.deal()
		} else if share >= met+1.0/meetings {
			met = share
			c.meet()
		}
		c.round(ctx, c.roundSteps(p), c.scale*hot*math.Pow(cold/hot, share))
		if c.split {
			c.gather()
		}
	}
	return p.share(c.steps()) >= 1
}

func (c *crew) steps() (done int) {
	for _, part := range c.parts {
		done += part.steps
	}
	return done
}

// roundSteps is how many steps each part does in the next round.
func (c *crew) roundSteps(p *pace) int {
	most := wholeRound
	if c.split {
		most = splitRound
	}
	if p.steps == 0 {
		return most
	}
	each := func(steps int) int { return (steps + len(c.parts) - 1) / len(c.parts) }
	return min(most, max(1, each(p.steps)/fewRounds), each(p.steps-c.steps()))
}

// round lets every part do its steps, as many parts at once as there are workers.
func (c *crew) round(ctx context.Context, steps int, temperature float64) {
	var group sync.WaitGroup
	room := make(chan struct{}, c.workers)
	for _, part := range c.parts {
		room <- struct{}{}
		group.Go(func() {
			part.run(ctx, steps, temperature)
			<-room
		})
	}
	group.Wait()
	c.keepBest()
}

// keepBest writes down what is better than all before: the best whole, or the bests of all parts together.
func (c *crew) keepBest() {
	if !c.split {
		for _, part := range c.parts {
			if part.best.cost < c.best.cost {
				c.best.take(&part.best)
			}
		}
		return
	}
	sum := int64(0)
	for _, part := range c.parts {
		sum += part.best.cost
	}
	if sum >= c.best.cost {
		return
	}
	c.best.clear()
	for _, part := range c.parts {
		c.best.add(&part.best)
	}
}

// meet lets the part with the worse present solution go on from the better one's.
func (c *crew) meet() {
	a, b := c.parts[0], c.parts[1]
	if a.cost > b.cost {
		a, b = b, a
	}
	b.adopt(a)
}
