package delivery

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// PlanRuns puts runs in force. A run with an id is planned anew; one without
// gets an id.
type PlanRuns struct {
	Runs []RunPlan
	// Seen are the open runs as they stood when the plan was made: where they
	// were changed since, it is refused. Nil holds it against nothing.
	Seen []Run
}

// RunPlan is one run as it is decided.
type RunPlan struct {
	ID inventory.RunID
	Planned
}

// Decide records the plans.
func (a PlanRuns) Decide(v View) (Change, error) {
	var c Change
	if a.Seen != nil {
		if err := a.unchanged(v); err != nil {
			return Change{}, err
		}
	}
	for _, r := range a.Runs {
		id := r.ID
		if err := r.may(v); err != nil {
			return Change{}, err
		}
		if err := r.waits(v); err != nil {
			return Change{}, err
		}
		if id == "" {
			var err error
			if id, err = v.NewRun(); err != nil {
				return Change{}, err
			}
		}
		plan := r.Planned
		c.Facts = append(c.Facts, inventory.Fact{Run: id, Statement: &plan})
		if r.ID != "" && len(plan.Stops) == 0 {
			c.Facts = append(c.Facts, inventory.Fact{Run: id, Statement: &Ended{}}) // every stop went elsewhere
		}
	}
	c.Says = fmt.Sprintf("%s planned.", count(len(a.Runs), "run"))
	return c, nil
}

// unchanged refuses the plan when somebody else changed a run of it, or planned
// one of its stops, after it was looked at.
func (a PlanRuns) unchanged(v View) error {
	seen := make(map[inventory.RunID]Run, len(a.Seen))
	for _, r := range a.Seen {
		seen[r.ID] = r
	}
	for _, plan := range a.Runs {
		var now []Run
		if plan.ID != "" {
			run, err := v.Run(plan.ID)
			if err != nil {
				return err
			}
			now = append(now, run)
		}
		for _, stop := range plan.Stops {
			for _, who := range stop.Persons {
				visits, err := v.Visits(who)
				if err != nil {
					return err
				}
				now = append(now, visits...)
			}
		}
		for _, run := range now {
			if !reflect.DeepEqual(run, seen[run.ID]) {
				return refusal.New(refusal.Conflict, fmt.Sprintf("The run of %s was changed while you looked.", run.Vehicle),
					"Look at the runs as they stand now, then plan again.")
			}
		}
	}
	return nil
}

// may refuses a vehicle the programme does not have, and a run that is over.
func (r RunPlan) may(v View) error {
	if err := knownPlace(v, inventory.At(inventory.AtVehicle, r.Vehicle)); err != nil || r.ID == "" {
		return err
	}
	return goesOn(v, r.ID)
}

// waits refuses a stop whose tasks were all done since it was planned, unless
// it stands on this run already: the driver then calls in.
func (r RunPlan) waits(v View) error {
	var stands []Stop
	if r.ID != "" {
		run, err := v.Run(r.ID)
		if err != nil {
			return err
		}
		stands = run.Stops
	}
	for _, s := range r.Stops {
		if len(s.Tasks) == 0 || slices.ContainsFunc(stands, func(o Stop) bool { return o.Address == s.Address }) {
			continue
		}
		open := false
		for _, who := range s.Persons {
			care, err := v.Care(who)
			if err != nil {
				return err
			}
			open = open || slices.ContainsFunc(care.Tasks, func(t OpenTask) bool { return slices.Contains(s.Tasks, t.ID) })
		}
		if !open {
			return refusal.New(refusal.Conflict, fmt.Sprintf("A stop of %s was made meanwhile.", r.Vehicle), "Plan anew: the runs changed while you looked.")
		}
	}
	return nil
}

// goesOn refuses a run that is over.
func goesOn(v View, id inventory.RunID) error {
	run, err := v.Run(id)
	if err == nil && !run.Ended.IsZero() {
		return refusal.New(refusal.Conflict, fmt.Sprintf("The run of %s on %s is closed.", run.Vehicle, run.Day), "Plan a new one.")
	}
	return err
}

// EndRun closes a run. Its stops must all be closed or failed first. Where the
// cylinders on the van are counted, a difference from the book is explained.
type EndRun struct {
	Run  inventory.RunID `act:"run" help:"id of the run"`
	Full *int            `act:"full,optional" help:"full cylinders counted on the van"`
	Used *int            `act:"used,optional" help:"used cylinders counted on the van"`
	Why  string          `act:"why,optional" help:"why the count is not what the book has"`
}

// Decide ends the run.
func (a EndRun) Decide(v View) (Change, error) {
	if err := goesOn(v, a.Run); err != nil {
		return Change{}, err
	}
	run, err := v.Run(a.Run)
	if err != nil {
		return Change{}, err
	}
	if open := run.Open(); len(open) > 0 {
		return Change{}, refusal.New(refusal.Conflict,
			fmt.Sprintf("%d stops of the run are still open.", len(open)),
			"Close each: what was left and taken, or why it failed.")
	}
	counted, err := a.counted(v, run)
	if err != nil {
		return Change{}, err
	}
	says := "The run is closed."
	if counted != nil && counted.differs() {
		says += " The van is not as the book has it: " + counted.InWords() + "."
	}
	return Change{Facts: []inventory.Fact{{Run: a.Run, Statement: &Ended{Counted: counted}}}, Says: says}, nil
}

// counted holds the van against the book; nil where nobody counted.
func (a EndRun) counted(v View, run Run) (*VanCount, error) {
	if a.Full == nil && a.Used == nil {
		return nil, nil
	}
	if a.Full == nil || a.Used == nil || *a.Full < 0 || *a.Used < 0 {
		return nil, refusal.New(refusal.Invalid, "A van is counted in full and used cylinders.", "Give both numbers; write 0 for none.")
	}
	cargo, err := CargoOf(v, run)
	if err != nil {
		return nil, err
	}
	c := &VanCount{Full: *a.Full, Used: *a.Used, BookFull: cargo.Now.Full, BookUsed: cargo.Now.Used, Why: strings.TrimSpace(a.Why)}
	if c.differs() && c.Why == "" {
		return nil, refusal.New(refusal.Conflict, "The van is not as the book has it: "+c.InWords()+".",
			"Count again; a stop may be closed with the wrong thing. Else say why with the run.")
	}
	return c, nil
}

func (c VanCount) differs() bool { return c.Full != c.BookFull || c.Used != c.BookUsed }

// InWords tells the count against the book.
func (c VanCount) InWords() string {
	words := fmt.Sprintf("%d full and %d used counted, the book has %d full and %d used", c.Full, c.Used, c.BookFull, c.BookUsed)
	return because(words, c.Why)
}
