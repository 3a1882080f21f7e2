package delivery

import (
	"context"
	"fmt"
	"slices"
	"time"

	"lungwort/delivery/route"
	"lungwort/inventory"
)

// Errand is a home with open tasks, and what is set aside to be brought.
type Errand struct {
	Watch
	Reserved []inventory.Item
}

// Trouble is a stop that can't be kept, with the cause and what would help.
type Trouble struct {
	Person inventory.PersonID
	Where  string
	Says   string // what can't be kept and why
	Relief string // the cheapest change that would mend it; may be empty
	Late   time.Duration
}

// DayPlan is what the planner proposes for a day.
type DayPlan struct {
	Runs     []Planned
	Troubles []Trouble
	Notes    []string // what the plan rests on that may be wrong, and what waits for another day
}

// The hours in which a home opens its door when nothing else was agreed.
// Common practice, no source.
const (
	doorOpens  = 8
	doorCloses = 21
)

// loading is how long a vehicle needs before it can leave. Common practice,
// no source.
const loading = 10 * time.Minute

// Planner makes runs out of errands.
type Planner struct {
	Programme Programme
	Now       time.Time
	Day       time.Time // any time on the day the runs are driven
	// Back is when each vehicle is back from the runs it is on.
	Back map[string]time.Time
	// Out is until when each vehicle out of service makes no run.
	Out map[string]time.Time
	// Aboard is what each vehicle carries by the book.
	Aboard map[string][]inventory.Item
	// Scarce names the kinds of which little is ready: what is collected of them
	// waits for no vehicle that comes near.
	Scarce map[inventory.Kind]bool
	Seed   uint64
	Steps  int           // of the search
	Limit  time.Duration // of the search; zero: none
	// Tell is told how far the search is, from 0 to 1, off the window's
	// goroutine; may be nil.
	Tell func(share float64)
}

// call is one stop being planned: an address and the errands there.
type call struct {
	address Address
	errands []Errand
}

// Plan returns the runs of the day for the errands: act-by times, windows,
// capacities and shifts kept, and what can't be kept named. When every shift
// of the day is over, the runs are those of the day after.
func (pl Planner) Plan(ctx context.Context, errands []Errand) (DayPlan, error) {
	if len(pl.onDuty(pl.depots())) == 0 {
		pl.Day = pl.Day.AddDate(0, 0, 1) // the shifts are over: tomorrow's runs
	}
	calls, troubles := pl.calls(errands)
	problem := pl.problem(calls)
	options := route.Options{Seed: pl.Seed, Steps: pl.Steps, Limit: pl.Limit}
	if pl.Tell != nil {
		options.Progress = func(p route.Progress) { pl.Tell(p.Share) }
	}
	for i, c := range calls {
		problem.Stops[i].Later = pl.mayWait(c)
	}
	plan, err := route.Solve(ctx, problem, options)
	if err != nil {
		return DayPlan{}, fmt.Errorf("plan the day: %w", err)
	}
	out := DayPlan{Troubles: troubles, Notes: roughNotes(calls)}
	for _, r := range plan.Routes {
		if len(r.Visits) > 0 {
			out.Runs = append(out.Runs, pl.run(problem, calls, r))
		}
	}
	for _, late := range plan.Late {
		out.Troubles = append(out.Troubles, pl.late(problem, calls[late.Stop], late))
	}
	for _, un := range plan.Unserved {
		if un.Cause == route.OtherDay {
			out.Notes = append(out.Notes, pl.waits(calls[un.Stop]))
			continue
		}
		out.Troubles = append(out.Troubles, pl.unserved(problem, calls[un.Stop], un))
	}
	return out, nil
}

// calls groups errands by address, and names those that can't be planned
// because nobody knows where the address is.
func (pl Planner) calls(errands []Errand) ([]call, []Trouble) {
	var calls []call
	var troubles []Trouble
	at := make(map[inventory.AddressID]int)
	for _, e := range errands {
		if !e.Address.Point.Known() {
			troubles = append(troubles, Trouble{
				Person: e.Person.ID, Where: e.Address.Where(),
				Says: "the address has no place on the map", Relief: "set its place on the map screen",
			})
			continue
		}
		if e.Care.Tasks = pl.ofTheDay(e); len(e.Care.Tasks) == 0 {
			continue
		}
		i, seen := at[e.Address.ID]
		if !seen {
			i = len(calls)
			at[e.Address.ID] = i
			calls = append(calls, call{address: e.Address})
		}
		calls[i].errands = append(calls[i].errands, e)
	}
	return calls, troubles
}

// ofTheDay returns the tasks of an errand without those agreed for a later
// day, unless the gas ends before.
func (pl Planner) ofTheDay(e Errand) []OpenTask {
	over, by := pl.midnight().AddDate(0, 0, 1), pl.needed(e)
	return slices.DeleteFunc(slices.Clone(e.Care.Tasks), func(t OpenTask) bool {
		return !t.From.Before(over) && (by.IsZero() || by.After(t.From))
	})
}

func (pl Planner) midnight() time.Time { return pl.hour(0) }

// hour returns an hour of the day by the clock on the wall, which is not so
// many hours after midnight on a day the clocks are changed.
func (pl Planner) hour(h int) time.Time {
	d := pl.Day.In(pl.Now.Location())
	return time.Date(d.Year(), d.Month(), d.Day(), h, 0, 0, 0, pl.Now.Location())
}

func (pl Planner) seconds(t time.Time) int64 { return int64(t.Sub(pl.midnight()) / time.Second) }

func (pl Planner) clock(seconds int64) time.Time {
	return pl.midnight().Add(time.Duration(seconds) * time.Second)
}

func (pl Planner) run(problem route.Problem, calls []call, r route.Route) Planned {
	name := problem.Vehicles[r.Vehicle].Name
	vehicle, _ := pl.Programme.Vehicle(name)
	run := Planned{
		Vehicle: name, Driver: vehicle.Driver, Day: pl.midnight().Format(time.DateOnly),
		Departs: pl.clock(r.Departure), Back: pl.clock(r.Return), Metres: r.Distance,
		Rests: pl.rests(r.Rests),
	}
	for _, v := range r.Visits {
		c := calls[v.Stop]
		stop := PlannedStop{Address: c.address.ID, Arrive: pl.clock(v.Start), Leave: pl.clock(v.Leave)}
		for _, e := range c.errands {
			stop.Persons = append(stop.Persons, e.Person.ID)
			for _, t := range e.Care.Tasks {
				stop.Tasks = append(stop.Tasks, t.ID)
			}
		}
		if by := pl.due(c); !by.IsZero() {
			stop.ActBy = by
			stop.Late = max(0, stop.Arrive.Sub(by))
		}
		run.Stops = append(run.Stops, stop)
	}
	return run
}
