package delivery

import (
	"cmp"
	"fmt"
	"time"

	"lungwort/delivery/route"
	"lungwort/inventory"
)

// late tells of a visit after its act-by, or, where the gas lasts, after what
// was promised.
func (pl Planner) late(problem route.Problem, c call, l route.Late) Trouble {
	arrives := pl.clock(problem.Stops[l.Stop].ActBy + l.LateBy)
	t := Trouble{Person: c.first(), Where: c.address.Where()}
	t.Late = max(0, arrives.Sub(pl.due(c)))
	t.Relief = cmp.Or(pl.moreGas(c, t.Late), pl.relief(problem, l.Reliefs))
	by, after := t.Late, "act-by"
	if t.Late == 0 {
		by, after = time.Duration(l.LateBy)*time.Second, "the promised "+Clock(pl.promised(c), pl.Now)
	}
	t.Says = fmt.Sprintf("%s comes %s after %s: %s", problem.Vehicles[l.Vehicle].Name, Spell(by), after, l.Cause)
	return t
}

// moreGas names cylinders to be added at discharge where somebody late at has not
// left the ward: no way and no hour is cheaper. Empty where nobody is there yet.
func (pl Planner) moreGas(c call, late time.Duration) string {
	for _, e := range c.errands {
		d := e.Care.Discharge
		if d == nil || !d.Leaves.After(pl.Now) || e.Care.Breathes != FromCylinder {
			continue
		}
		_, highest := e.Care.Flow()
		for _, h := range e.Care.Kit {
			more := Bridge{Flow: highest, Reserve: pl.Programme.Reserve, Sizes: pl.Programme.Sizes}.more(h.Spec.Size, late)
			if h.Spec.Kind == inventory.Cylinder && more > 0 {
				return fmt.Sprintf("%d full %s more at discharge; they leave the ward %s", more, letter(h.Spec.Size), Clock(d.Leaves, pl.Now))
			}
		}
	}
	return ""
}

// relief returns the cheapest relief that can still be had, in words.
func (pl Planner) relief(problem route.Problem, reliefs []route.Relief) string {
	for _, r := range reliefs {
		if r.Kind != route.EarlierShift || pl.clock(r.At).After(pl.Now) {
			return r.Says(problem)
		}
	}
	return ""
}

func (pl Planner) unserved(problem route.Problem, c call, u route.Unserved) Trouble {
	t := Trouble{
		Person: c.first(), Where: c.address.Where(),
		Says: fmt.Sprintf("no vehicle comes that day: %s", u.Cause),
	}
	if u.Forced {
		t.Late = time.Duration(u.LateBy) * time.Second
	}
	t.Relief = pl.relief(problem, u.Reliefs)
	return t
}

// first returns the person a call is told by; empty when nobody there has a
// task any more.
func (c call) first() inventory.PersonID {
	if len(c.errands) == 0 {
		return ""
	}
	return c.errands[0].Person.ID
}
