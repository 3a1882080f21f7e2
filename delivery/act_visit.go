package delivery

import (
	"fmt"
	"iter"
	"maps"
	"slices"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// Taken is one item taken home from a visit, with what was read on it.
type Taken struct {
	Item   inventory.ItemID
	Gauge  *gas.Pressure
	Hours  *float64
	Weight *gas.Kilograms
}

// Visit records what happened at one stop for one person: what was left and
// what was collected, or why it failed.
type Visit struct {
	Run     inventory.RunID // empty: outside any run
	Person  inventory.PersonID
	Left    []Piece
	Took    []Taken
	Running bool     // the concentrator was confirmed running at the ordered flow
	Oxygen  *float64 // percent, after warm-up
	// Supplies are what was given beside things with a serial; From the place they
	// were taken from, empty: the vehicle's depot, else the first.
	Supplies []inventory.Handful
	From     inventory.Place
	Failed   string // why nothing could be done
	Next     time.Time
}

// Decide records the visit in one act.
func (a Visit) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	if err := a.may(v, care); err != nil {
		return Change{}, err
	}
	var c Change
	if a.Run != "" {
		if err := a.closeStop(v, &c, care); err != nil {
			return Change{}, err
		}
	}
	if a.Failed != "" {
		for _, t := range care.Tasks {
			c.person(a.Person, &Done{Task: t.ID, Failed: a.Failed, Next: a.Next})
		}
		left, err := gasLeft(v, care, a.Next)
		c.Says = strings.TrimSpace("The stop failed: " + a.Failed + ". Its tasks stay open. " + left)
		return c, err
	}
	for _, piece := range a.Left {
		if err := a.leave(v, &c, care, piece); err != nil {
			return Change{}, err
		}
	}
	for _, taken := range a.Took {
		if err := a.take(v, &c, taken); err != nil {
			return Change{}, err
		}
	}
	if err := a.started(v, &c, care); err != nil {
		return Change{}, err
	}
	c.Says = fmt.Sprintf("Left %d, took %d.", len(a.Left), len(a.Took))
	if err := a.give(v, &c); err != nil {
		return Change{}, err
	}
	left, fits, err := a.leftKinds(v)
	if err != nil {
		return Change{}, err
	}
	c.Says += fits
	for _, t := range care.Tasks {
		if a.does(t, care, left) {
			c.person(a.Person, &Done{Task: t.ID})
		} else {
			c.Says += fmt.Sprintf(" The task to %s stays open.", t.Tasked.Task)
		}
	}
	return c, nil
}

// gasLeft says how long a person whose visit failed can still breathe from the
// cylinder, whom to call when that is not long, and whether the next try comes
// too late; empty on a concentrator.
func gasLeft(v View, care Care, next time.Time) (string, error) {
	if care.Breathes != FromCylinder {
		return "", nil
	}
	p, err := v.Programme()
	if err != nil {
		return "", err
	}
	_, f := (Home{Care: care}).Forecast(p, v.At())
	switch {
	case !f.Known:
		return "How long the gas lasts is not known: call them now.", nil
	case !f.PlanningDry.After(v.At()):
		return "Plan on no gas left. " + p.emergencyFirst()[0] + ".", nil
	}
	plan := fmt.Sprintf("Plan on %s of gas, until %s: neighbour, other address, or the next slot before then.",
		Spell(f.PlanningDry.Sub(v.At())), Clock(f.PlanningDry, v.At()))
	if next.After(f.PlanningDry) {
		plan += " The next try, " + Clock(next, v.At()) + ", is too late."
	}
	return plan, nil
}

// may refuses a visit that contradicts itself, and one that leaves things with
// somebody who needs none.
func (a Visit) may(v View, care Care) error {
	did := len(a.Left) > 0 || len(a.Took) > 0 || len(a.Supplies) > 0 || a.Running || a.Oxygen != nil
	switch {
	case a.Failed != "" && did:
		return refusal.New(refusal.Invalid, "A stop that failed left and took nothing.", "Say what was done, or why nothing could be.")
	case care.Phase == Over && (len(a.Left) > 0 || a.Running):
		return refusal.New(refusal.Conflict, "Oxygen was stopped: nothing is left there.", "Discharge them again if they are back on oxygen.")
	}
	ids := make([]inventory.ItemID, 0, len(a.Left)+len(a.Took))
	for _, piece := range a.Left {
		ids = append(ids, piece.Item)
	}
	for _, taken := range a.Took {
		ids = append(ids, taken.Item)
	}
	return twice(v, ids)
}

// closeStop closes the person's part of the run's stop.
func (a Visit) closeStop(v View, c *Change, care Care) error {
	run, err := v.Run(a.Run)
	if err != nil {
		return err
	}
	i := slices.IndexFunc(run.Stops, func(s Stop) bool { return s.Waits(a.Person) })
	if i < 0 {
		return refusal.New(refusal.Conflict, "This run has no open stop for the person.", "Look at the run: the stop may be closed already.")
	}
	visited := &Visited{Address: run.Stops[i].Address, Failed: a.Failed}
	for _, piece := range a.Left {
		visited.Left = append(visited.Left, piece.Item)
	}
	for _, taken := range a.Took {
		visited.Took = append(visited.Took, taken.Item)
	}
	c.Facts = append(c.Facts, inventory.Fact{Run: a.Run, Person: a.Person, Statement: visited})
	return nil
}

func (a Visit) take(v View, c *Change, taken Taken) error {
	item, err := v.Item(taken.Item)
	if err != nil {
		return err
	}
	if !item.Lent() || item.Person != a.Person {
		return a.another(v, item)
	}
	seen := inventory.Observed{Gauge: taken.Gauge, Hours: taken.Hours, Weight: taken.Weight}
	if err := observable(v, item, seen); err != nil {
		return err
	}
	c.observed(item.ID, a.Person, seen)
	vehicle := "unknown"
	if a.Run != "" {
		run, err := v.Run(a.Run)
		if err != nil {
			return err
		}
		vehicle = run.Vehicle
	}
	c.about(item.ID, a.Person, &inventory.Collected{Vehicle: vehicle})
	return nil
}

// another refuses to take what is not this person's, and says what is to be
// taken instead: two persons in one house each have their own.
func (a Visit) another(v View, item inventory.Item) error {
	says, leave := fmt.Sprintf("%s is not on loan to this person.", item.Label()), item.Label()
	if item.Lent() {
		owner, err := v.Person(item.Person)
		if err != nil {
			return err
		}
		says = fmt.Sprintf("%s is on loan to %s.", item.Label(), owner.Short())
		theirs, err := v.Care(item.Person)
		if err != nil {
			return err
		}
		_, flow := theirs.Flow()
		leave += fmt.Sprintf(" (%s, %s, %s)", owner.Short(), flow, item.State)
	}
	person, err := v.Person(a.Person)
	if err != nil {
		return err
	}
	care, err := v.Care(a.Person)
	if err != nil {
		return err
	}
	next := ""
	for _, h := range care.Kit {
		if h.Spec.Kind == item.Spec.Kind {
			next += fmt.Sprintf("Take %s (%s). ", h.Spec.Serial, person.Short())
		}
	}
	return refusal.New(refusal.Conflict, says, next+"Do not touch "+leave+".")
}

// started records what the concentrator gives and that it runs: the bridge is
// over and its cylinders become the backup. A machine under the floor is kept
// from being lent again, and a swap opened.
func (a Visit) started(v View, c *Change, care Care) error {
	if !a.Running && a.Oxygen == nil {
		return nil
	}
	machine, err := a.machine(v, care)
	if err != nil {
		return err
	}
	seen := inventory.Observed{Oxygen: a.Oxygen}
	if err := observable(v, machine, seen); err != nil {
		return err
	}
	low := a.Oxygen != nil && *a.Oxygen < PurityFloor
	if low && a.Running {
		return refusal.New(refusal.Unready,
			fmt.Sprintf("%s gives %.1f %% oxygen, under %d %%.", machine.Label(), *a.Oxygen, PurityFloor),
			"Leave the person on the cylinder, record the reading without the machine running, and tell the coordinator.")
	}
	c.observed(machine.ID, a.Person, seen)
	if low {
		why := fmt.Sprintf("oxygen %.1f %%, under %d %%", *a.Oxygen, PurityFloor)
		c.about(machine.ID, a.Person, &inventory.Quarantined{Why: why})
		c.person(a.Person, exchange(machine, why))
	}
	if !a.Running {
		return nil
	}
	c.person(a.Person, &Switched{To: FromConcentrator, Why: "set up"})
	for _, h := range care.Kit {
		took := slices.ContainsFunc(a.Took, func(t Taken) bool { return t.Item == h.Item })
		if h.Role == inventory.Bridging && !took {
			c.about(h.Item, a.Person, &inventory.Serving{As: inventory.Backup})
		}
	}
	return nil
}

// machine returns the concentrator that was left, or is in the home already.
func (a Visit) machine(v View, care Care) (inventory.Item, error) {
	for _, piece := range a.Left {
		item, err := v.Item(piece.Item)
		if err != nil || item.Spec.Kind == inventory.Concentrator {
			return item, err
		}
	}
	if h, ok := care.Concentrator(); ok {
		return v.Item(h.Item)
	}
	return inventory.Item{}, refusal.New(refusal.Conflict, "There is no concentrator to run.", "Scan the concentrator that was left.")
}

// does reports whether the visit did the whole of a task: everything it was to
// bring was left, everything it was to collect was taken. What remains stays
// open, so that it is planned again.
func (a Visit) does(t OpenTask, care Care, left map[inventory.Kind]int) bool {
	if t.Tasked.Task == Collect {
		remains := slices.ContainsFunc(care.Kit, func(h Holding) bool {
			needed := care.Watched() && h.Role != inventory.NotNeeded
			return !needed && !slices.ContainsFunc(a.Took, func(t Taken) bool { return t.Item == h.Item })
		})
		return len(a.Took) > 0 && !remains
	}
	if t.Tasked.Task == Deliver && t.brings(inventory.Concentrator) && care.Breathes != FromConcentrator && !a.Running {
		return false // it is left but does not run yet: the bridge goes on
	}
	if len(t.Bring) == 0 && t.Parts != "" {
		return true // nothing with a serial was to be left
	}
	wanted := make(map[inventory.Kind]int)
	for _, w := range t.Bring {
		wanted[w.Kind] += w.Count
	}
	for kind, count := range wanted {
		if left[kind] < count {
			return false
		}
	}
	return len(a.Left) > 0 || t.Tasked.Task == Swap && len(a.Took) > 0
}

// sortedConsents walks consents in the order of their names, so that the
// same act always writes the same facts.
func sortedConsents(consents map[string]bool) iter.Seq2[string, bool] {
	return func(yield func(string, bool) bool) {
		for _, to := range slices.Sorted(maps.Keys(consents)) {
			if !yield(to, consents[to]) {
				return
			}
		}
	}
}
