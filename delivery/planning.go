package delivery

import (
	"context"
	"fmt"
	"time"

	"lungwort/delivery/route"
	"lungwort/inventory"
	"lungwort/inventory/gas"
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
}

// The hours in which a home opens its door when nothing else was agreed.
// Common practice, no source.
const (
	doorOpens  = 8 * time.Hour
	doorCloses = 21 * time.Hour
)

// loading is how long a vehicle needs before it can leave. Common practice,
// no source.
const loading = 10 * time.Minute

// Planner makes runs out of errands.
type Planner struct {
	Programme Programme
	Now       time.Time
	Day       time.Time // any time on the day the runs are driven
	Seed      uint64
	Steps     int           // of the search
	Limit     time.Duration // of the search; zero: none
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
// capacities and shifts kept, and what can't be kept named.
func (pl Planner) Plan(ctx context.Context, errands []Errand) (DayPlan, error) {
	calls, troubles := pl.calls(errands)
	problem := pl.problem(calls)
	options := route.Options{Seed: pl.Seed, Steps: pl.Steps, Limit: pl.Limit}
	if pl.Tell != nil {
		options.Progress = func(p route.Progress) { pl.Tell(p.Share) }
	}
	plan, err := route.Solve(ctx, problem, options)
	if err != nil {
		return DayPlan{}, fmt.Errorf("plan the day: %w", err)
	}
	out := DayPlan{Troubles: troubles}
	for _, r := range plan.Routes {
		if len(r.Visits) > 0 {
			out.Runs = append(out.Runs, pl.run(problem, calls, r))
		}
	}
	for _, late := range plan.Late {
		out.Troubles = append(out.Troubles, pl.late(problem, calls[late.Stop], late))
	}
	for _, un := range plan.Unserved {
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
				Says: "the address has no place on the map", Relief: "set its place on the person's page",
			})
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

func (pl Planner) midnight() time.Time {
	d := pl.Day.In(pl.Now.Location())
	return time.Date(d.Year(), d.Month(), d.Day(), 0, 0, 0, 0, pl.Now.Location())
}

func (pl Planner) seconds(t time.Time) int64 { return int64(t.Sub(pl.midnight()) / time.Second) }

func (pl Planner) clock(seconds int64) time.Time {
	return pl.midnight().Add(time.Duration(seconds) * time.Second)
}

func (pl Planner) problem(calls []call) route.Problem {
	p := pl.Programme
	points := make([]Point, 0, len(p.Depots)+len(calls))
	depots := make(map[string]int)
	for _, d := range p.Depots {
		depots[d.Name] = len(points)
		points = append(points, d.Point)
	}
	problem := route.Problem{}
	for _, c := range calls {
		problem.Stops = append(problem.Stops, pl.stop(c, len(points)))
		points = append(points, c.address.Point)
	}
	problem.Travel, problem.Distance = p.matrix(points)
	for _, v := range p.Vehicles {
		if vehicle, ok := pl.vehicle(v, depots); ok {
			problem.Vehicles = append(problem.Vehicles, vehicle)
		}
	}
	return problem
}

// unreachable stands for a ride nobody can make: longer than any day.
const unreachable = 7 * 24 * 3600

func (p Programme) matrix(points []Point) (seconds, metres [][]int64) {
	seconds, metres = make([][]int64, len(points)), make([][]int64, len(points))
	for i, from := range points {
		seconds[i], metres[i] = make([]int64, len(points)), make([]int64, len(points))
		for j, to := range points {
			if i == j {
				continue
			}
			leg := p.Ride(from, to)
			if !leg.Known {
				seconds[i][j] = unreachable
				continue
			}
			seconds[i][j], metres[i][j] = int64(leg.Takes/time.Second), leg.Metres
		}
	}
	return seconds, metres
}

func (pl Planner) vehicle(v Vehicle, depots map[string]int) (route.Vehicle, bool) {
	from, err1 := time.Parse("15:04", v.From)
	until, err2 := time.Parse("15:04", v.Until)
	depot, known := depots[v.Depot]
	if err1 != nil || err2 != nil || !known {
		return route.Vehicle{}, false
	}
	earliest := int64(from.Hour()*3600 + from.Minute()*60)
	if now := pl.seconds(pl.Now.Add(loading)); now > earliest {
		earliest = now
	}
	latest := int64(until.Hour()*3600 + until.Minute()*60)
	if earliest >= latest {
		return route.Vehicle{}, false // its shift is over
	}
	return route.Vehicle{
		Name: v.Name, Start: depot, End: depot, From: earliest, Until: latest,
		Capacity: route.Load{
			route.Pieces: int64(v.Pieces), route.Kg: int64(v.Kg),
			route.Bulk: route.Unlimited, route.Dirty: int64(v.Pieces),
		},
		Skills: v.skills(),
	}, true
}

func (v Vehicle) skills() []string {
	skills := append([]string(nil), v.Languages...)
	if v.Pair {
		skills = append(skills, "two persons")
	}
	return skills
}

// stop turns a call into a stop of the problem.
func (pl Planner) stop(c call, place int) route.Stop {
	s := route.Stop{
		Name: string(c.address.ID), Place: place,
		Window: [2]int64{int64(doorOpens / time.Second), int64(doorCloses / time.Second)},
	}
	for _, e := range c.errands {
		for _, t := range e.Care.Tasks {
			pl.add(&s, e, t)
		}
		if by := pl.needed(e); !by.IsZero() {
			if at := max(pl.seconds(by), 1); s.ActBy == 0 || at < s.ActBy {
				s.ActBy = at
			}
			s.Risk = max(s.Risk, e.Forecast.WithoutBy(by.Add(time.Hour)))
		}
	}
	if s.Window[1] < s.Window[0] {
		s.Window[1] = s.Window[0]
	}
	return s
}

// needed returns by when the visit has to be there: the act-by, less set-up
// and warm-up where a machine has to run first.
func (pl Planner) needed(e Errand) time.Time {
	by := e.ActBy()
	if by.IsZero() || !e.Care.Watched() {
		return time.Time{}
	}
	brings := false
	for _, i := range e.Reserved {
		brings = brings || i.Spec.Kind == inventory.Cylinder
	}
	if e.Care.Has(Deliver) && !brings {
		by = by.Add(-pl.Programme.SetUp - pl.Programme.WarmUp)
	}
	return by
}

func (pl Planner) add(s *route.Stop, e Errand, t OpenTask) {
	if !t.From.IsZero() {
		s.Window[0] = max(s.Window[0], pl.seconds(t.From))
	}
	if !t.Until.IsZero() {
		s.Window[1] = min(s.Window[1], pl.seconds(t.Until))
	}
	brings := load(t.Bring)
	switch t.Tasked.Task {
	case Deliver:
		s.Service += int64((pl.Programme.SetUp + pl.Programme.WarmUp) / time.Second)
		if d := e.Care.Discharge; d != nil {
			ride := pl.Programme.Ride(pl.Programme.Hospital.Point, e.Address.Point)
			s.Window[0] = max(s.Window[0], pl.seconds(d.Leaves.Add(ride.Takes)))
		}
	case Swap:
		s.Service += int64(pl.Programme.SwapTime / time.Second)
		for i := range brings { // as much is taken as is brought
			s.Collect[i] += brings[i]
		}
	case Collect:
		s.Service += int64(pl.Programme.SwapTime / time.Second)
		for _, h := range e.Care.Kit {
			s.Collect[route.Pieces]++
			s.Collect[route.Dirty]++
			s.Collect[route.Kg] += GrossKg(h.Spec.Kind, h.Spec.Size)
		}
	}
	for i := range brings {
		s.Drop[i] += brings[i]
	}
}

func load(wanted []Wanted) route.Load {
	var l route.Load
	for _, w := range wanted {
		l[route.Pieces] += int64(w.Count)
		l[route.Kg] += int64(w.Count) * GrossKg(w.Kind, w.Size)
	}
	return l
}

// GrossKg returns the mass that counts against a vehicle's limit, rounded up:
// the limit is on cylinders.
func GrossKg(kind inventory.Kind, code gas.SizeCode) int64 {
	if kind != inventory.Cylinder {
		return 0
	}
	size, ok := gas.LookUp(code)
	if !ok || size.GrossMass <= 0 {
		return 10
	}
	return int64(size.GrossMass) + 1
}

func (pl Planner) run(problem route.Problem, calls []call, r route.Route) Planned {
	name := problem.Vehicles[r.Vehicle].Name
	vehicle, _ := pl.Programme.Vehicle(name)
	run := Planned{
		Vehicle: name, Driver: vehicle.Driver, Day: pl.midnight().Format(time.DateOnly),
		Departs: pl.clock(r.Departure), Back: pl.clock(r.Return), Metres: r.Distance,
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
		if by := problem.Stops[v.Stop].ActBy; by != 0 {
			stop.ActBy = pl.clock(by)
			stop.Late = max(0, stop.Arrive.Sub(stop.ActBy))
		}
		run.Stops = append(run.Stops, stop)
	}
	return run
}

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

// Free returns the vehicles with their shifts cut to when each is back from
// the runs it is on.
func (p Programme) Free(back map[string]time.Time) []Vehicle {
	free := make([]Vehicle, len(p.Vehicles))
	for i, v := range p.Vehicles {
		if at, busy := back[v.Name]; busy && at.Format("15:04") > v.From {
			v.From = at.Format("15:04")
		}
		free[i] = v
	}
	return free
}
