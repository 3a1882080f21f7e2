package delivery

import (
	"fmt"
	"time"

	"lungwort/delivery/route"
)

func (pl Planner) late(problem route.Problem, c call, l route.Late) Trouble {
	by := time.Duration(l.LateBy) * time.Second
	t := Trouble{
		Person: c.errands[0].Person.ID, Where: c.address.Where(), Late: by,
		Says: fmt.Sprintf("%s comes %s after act-by: %s", problem.Vehicles[l.Vehicle].Name, Spell(by), l.Cause),
	}
	t.Relief = pl.relief(problem, l.Reliefs)
	return t
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
		Person: c.errands[0].Person.ID, Where: c.address.Where(),
		Says: fmt.Sprintf("no vehicle comes that day: %s", u.Cause),
	}
	if u.Forced {
		t.Late = time.Duration(u.LateBy) * time.Second
	}
	t.Relief = pl.relief(problem, u.Reliefs)
	return t
}
