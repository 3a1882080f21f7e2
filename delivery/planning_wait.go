package delivery

import (
	"fmt"
	"slices"
	"time"
)

// aDayLater is what leaving a collection for another day costs for each day it
// has waited, the first included: a way of five kilometres with the time it takes. What lies nearer to a round is taken along. Common practice, no
// source.
const aDayLater = 8_000

// scarce is the share of the things of a kind under which those that are ready
// count as few. Common practice, no source.
const scarce = 0.1

// IsScarce reports whether few of all the things of a kind are ready.
func IsScarce(ready, all int) bool { return float64(ready) < scarce*float64(all) }

// mayWait returns what leaving a call for another day costs, in the units of the
// plan; zero where somebody has to go there today: anything but a collection
// without a time agreed, one that has waited as long as the programme allows, and
// things that are wanted on the shelf.
func (pl Planner) mayWait(c call) int64 {
	since := pl.waitsSince(c)
	waited := pl.Now.Sub(since)
	if since.IsZero() || waited+24*time.Hour > pl.Programme.CollectWait || pl.wanted(c) {
		return 0
	}
	return aDayLater * (1 + int64(max(0, waited)/(24*time.Hour)))
}

// waitsSince returns since when a call that is nothing but collections could have
// been made; zero for any other.
func (pl Planner) waitsSince(c call) (since time.Time) {
	for _, e := range c.errands {
		for _, t := range e.Care.Tasks {
			if t.Tasked.Task != Collect || !t.Until.IsZero() || !t.Due.IsZero() {
				return time.Time{}
			}
			since = earlier(since, later(t.Opened, t.From))
		}
	}
	return since
}

// wanted reports whether something at a call is wanted on the shelf.
func (pl Planner) wanted(c call) bool {
	return slices.ContainsFunc(c.errands, func(e Errand) bool {
		return slices.ContainsFunc(e.Care.Kit, func(h Holding) bool { return pl.Scarce[h.Spec.Kind] })
	})
}

// waits says that a collection is left for another day.
func (pl Planner) waits(c call) string {
	latest := pl.waitsSince(c).Add(pl.Programme.CollectWait)
	return fmt.Sprintf("%s: the collection waits for a vehicle that comes near, until %s at the latest", c.address.Where(), latest.Format("Mon 2 Jan"))
}
