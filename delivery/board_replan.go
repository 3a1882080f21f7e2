package delivery

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery/route"
	"lungwort/inventory/refusal"
)

// Replan is a day planned anew around what is done and under way.
type Replan struct {
	Board    Board
	Shifts   []Shift   // against the book
	Troubles []Trouble // what can't be kept
	Notes    []string  // what has to be seen to by hand
}

// Replan finds a round for every stop that waits. As long as that breaks
// nothing that was not accepted before, the rounds keep their order and the
// stops join where they cost least; else everything not under way is planned
// anew. When ctx ends early
// the best found until then is returned.
func (b Board) Replan(ctx context.Context, steps int) (Replan, error) {
	r := Replan{Troubles: slices.Clone(b.troubles), Notes: append(b.stranded(), b.roughNotes()...)}
	joined, all := b.join()
	if !all || !joined.kept() {
		anew, troubles, err := b.anew(ctx, steps)
		if err != nil {
			return r, err
		}
		joined, r.Troubles = anew, append(r.Troubles, troubles...)
	}
	r.Board = joined
	r.Shifts = joined.Differences()
	r.Troubles = append(r.Troubles, joined.broken(r.Troubles)...)
	return r, nil
}

// broken names what the rounds do not keep and nobody named yet.
func (b Board) broken(named []Trouble) []Trouble {
	var troubles []Trouble
	add := func(s StopTimes, late time.Duration, says, relief string) {
		who := b.stops[s.On].first()
		if !slices.ContainsFunc(named, func(t Trouble) bool { return t.Person == who && t.Where == s.Where }) {
			troubles = append(troubles, Trouble{Person: who, Where: s.Where, Late: late, Says: says, Relief: relief})
		}
	}
	for _, r := range b.Times() {
		for _, s := range r.Stops {
			switch {
			case s.Late > 0:
				add(s, s.Late, fmt.Sprintf("%s comes %s after act-by", r.Name, Spell(s.Late)), "call the home; send what is nearer")
			case s.Shut > 0:
				add(s, 0, fmt.Sprintf("%s comes %s after the time agreed", r.Name, Spell(s.Shut)), "call and agree on "+Clock(s.Arrive, b.planner.Now))
			}
		}
		if r.NoRest && len(r.Stops) > 0 {
			add(r.Stops[len(r.Stops)-1], 0, r.Name+" finds no time for its break", "let the driver rest later, or take a stop off the run")
		}
		if r.Overtime > 0 && len(r.Stops) > 0 {
			last := r.Stops[len(r.Stops)-1]
			add(last, 0, fmt.Sprintf("%s is back %s after its shift", r.Name, Spell(r.Overtime)), "let the driver stay, or take a stop off the run")
		}
	}
	return troubles
}

// kept reports whether the rounds break nothing but what the book says was
// accepted when they were planned.
func (b Board) kept() bool {
	return !slices.ContainsFunc(b.Times(), func(r RoundTimes) bool {
		return r.Overtime > 0 || r.NoRest || r.Over != route.Load{} || slices.ContainsFunc(r.Stops, func(s StopTimes) bool {
			return s.Late > b.stops[s.On].booked.Late || s.Shut > 0 || s.Unfit
		})
	})
}

// join puts each stop that waits where it costs least and nobody else pays,
// the most pressing first. It reports whether all found a place in time.
func (b Board) join() (Board, bool) {
	pressing := slices.Clone(b.waiting)
	slices.SortStableFunc(pressing, func(x, y int) int {
		return cmp.Compare(b.stops[x].pressing(), b.stops[y].pressing())
	})
	all := true
	for _, stop := range pressing {
		slots := slices.DeleteFunc(b.slots(stop), func(s Slot) bool { return !s.ActBy.IsZero() && s.Arrive.After(s.ActBy) })
		if len(slots) == 0 {
			all = false
			continue
		}
		cheapest := slices.MinFunc(slots, func(x, y Slot) int { return cmp.Compare(x.cost, y.cost) })
		b = b.Put(stop, cheapest.Round, cheapest.Before)
	}
	return b, all
}

// pressing is by when a stop has to be reached, in seconds of the day.
func (s boardStop) pressing() int64 {
	if s.stop.ActBy != 0 {
		return s.stop.ActBy
	}
	return s.stop.Window[1]
}

// anew lets the search order everything that is not under way.
func (b Board) anew(ctx context.Context, steps int) (Board, []Trouble, error) {
	var free []int // the board's stops in the order of the problem
	fixed := make(map[int]bool)
	problem := b.problem
	problem.Stops, problem.Vehicles = nil, slices.Clone(b.problem.Vehicles)
	times := b.Times()
	for i, t := range times {
		v := &problem.Vehicles[i]
		v.From = max(v.From, b.planner.seconds(b.loaded(t.Round)))
		for _, s := range t.Stops {
			if s.Fixed {
				fixed[s.On], v.From = true, b.planner.seconds(s.Leave)
			}
		}
		for k := range i {
			if b.rounds[k].Vehicle == t.Vehicle && len(b.rounds[k].Stops) > 0 {
				v.From = max(v.From, b.planner.seconds(b.time(k, time.Time{}).Back.Add(loading)))
			}
		}
		v.Until = max(v.Until, v.From)
		v.Breaks = b.planner.breaks(b.vehicle(t.Round), v.From)
		if t.Out { // a vehicle on its way finishes its round
			v.Until = max(v.Until, b.planner.seconds(t.Back))
		}
	}
	for i := range b.stops {
		if !fixed[i] {
			free = append(free, i)
			problem.Stops = append(problem.Stops, b.search(i, times))
		}
	}
	for i, r := range b.rounds {
		if !r.Out {
			problem.Vehicles[i].Skills = append(slices.Clone(problem.Vehicles[i].Skills), loads)
		}
	}
	plan, err := route.Solve(ctx, problem, route.Options{Seed: b.planner.Seed, Steps: steps, Limit: b.planner.Limit})
	if err != nil {
		return b, nil, fmt.Errorf("plan the day anew: %w", err)
	}
	return b.ordered(plan, free), b.untold(problem, plan, free), nil
}

// loads is the skill of a vehicle that still loads at its depot.
const loads = "loads at the depot"

// search returns a stop as the search takes it: what is on board of a vehicle
// that has left stays with it, however late it comes, and what is not needs
// one that still loads.
func (b Board) search(i int, times []RoundTimes) route.Stop {
	stop, s := b.stops[i].stop, b.stops[i]
	drops := stop.Drop != route.Load{}
	for _, r := range times {
		k := slices.IndexFunc(r.Stops, func(t StopTimes) bool { return t.On == i })
		if k >= 0 && (s.lock == r.Vehicle || r.Out && drops) {
			stop.LockedTo = r.Name
			stop.Window[1] = max(stop.Window[1], b.planner.seconds(r.Stops[k].Arrive))
			return stop
		}
	}
	if drops {
		stop.Needs = append(slices.Clone(stop.Needs), loads)
	}
	return stop
}

// ordered returns the board with the rounds of a plan.
func (b Board) ordered(plan route.Plan, free []int) Board {
	b.rounds, b.waiting = slices.Clone(b.rounds), nil
	for i := range b.rounds {
		b.rounds[i].Stops = slices.Clone(b.rounds[i].Stops[:b.rounds[i].Begun])
	}
	for _, r := range plan.Routes {
		for _, v := range r.Visits {
			b.rounds[r.Vehicle].Stops = append(b.rounds[r.Vehicle].Stops, free[v.Stop])
		}
	}
	for _, un := range plan.Unserved {
		b.waiting = append(b.waiting, free[un.Stop])
	}
	return b
}

// untold names what a plan does not keep.
func (b Board) untold(problem route.Problem, plan route.Plan, free []int) []Trouble {
	var troubles []Trouble
	for _, late := range plan.Late {
		troubles = append(troubles, b.planner.late(problem, b.stops[free[late.Stop]].call, late))
	}
	for _, un := range plan.Unserved {
		troubles = append(troubles, b.planner.unserved(problem, b.stops[free[un.Stop]].call, un))
	}
	return troubles
}

// stranded says what stays behind with the vehicles out of service.
func (b Board) stranded() []string {
	var notes []string
	for _, r := range b.gone {
		if aboard := b.planner.Aboard[r.Vehicle]; len(aboard) > 0 {
			tags := make([]string, len(aboard))
			for i, item := range aboard {
				tags[i] = item.Label()
			}
			notes = append(notes, fmt.Sprintf("%s has %s on board: fetch them, or count them out of the day", r.Vehicle, strings.Join(tags, ", ")))
		}
		for _, i := range b.waiting {
			s := b.stops[i]
			if !r.Out || s.run != r.Run || s.stop.Drop == (route.Load{}) {
				continue
			}
			notes = append(notes, fmt.Sprintf("%s: %s left with %s; load the same again, or fetch it from the van",
				s.address.Where(), wantedInWords(s.wants()), r.Vehicle))
		}
	}
	return notes
}

// PlanAnew puts the day planned anew in force, as Replan would have it.
type PlanAnew struct {
	Steps int // of the search, should one be needed
}

// Decide plans and writes the runs that change.
func (a PlanAnew) Decide(v View) (Change, error) {
	board, err := v.Board()
	if err != nil {
		return Change{}, err
	}
	anew, err := board.Replan(context.Background(), a.Steps)
	if err != nil {
		return Change{}, err
	}
	if len(anew.Shifts) == 0 && len(board.gone) == 0 {
		return Change{}, refusal.New(refusal.NotFound, "Nothing changes: the runs stand as they are.", "Go on with them, or change one on the board.")
	}
	change, err := PlanRuns{Runs: anew.Board.Plans()}.Decide(v)
	change.Says = fmt.Sprintf("The day is planned anew: %s otherwise, %d can't be kept.", count(len(anew.Shifts), "stop"), len(anew.Troubles))
	return change, err
}
