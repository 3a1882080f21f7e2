package inventory

import (
	"fmt"
	"time"

	"lungwort/inventory/gas"
)

// notCleared is why a thing new to the book is not lent yet; failedTest begins
// why one that failed is kept.
const (
	notCleared = "not yet cleared"
	failedTest = "failed its test: "
)

// Fold returns what the facts about one item say of it, whatever order they
// come in. Facts that contradict each other are kept, the later one counts,
// and the contradiction becomes a doubt.
func Fold(id ItemID, facts []Fact) Item {
	item := Item{ID: id, State: InQuarantine, Place: At(AtMissing, ""), trail: new(trail)}
	standing := Standing(facts)
	for _, f := range standing {
		if f.Item == id {
			item.apply(f)
		}
	}
	item.trail = nil
	answers := Answers(standing)
	for n := range item.Questions {
		item.Questions[n].Answer = answers[item.Questions[n].Key]
	}
	return item
}

func (i *Item) apply(f Fact) {
	switch s := f.Statement.(type) {
	case *Enrolled:
		i.enrol(s, f)
	case *Described:
		i.Spec = s.Spec
	case *Observed:
		i.observe(s, f)
	case *Filled:
		i.Fill = &Fill{Lot: s.Lot, At: f.Happened, Full: s.Full, Plant: s.Plant, Made: s.Made}
		i.Gauge, i.Weight = nil, nil // a new fill: what was read before says nothing of it
	case *Stamped:
		i.Spec.Requal, i.Spec.Shell = s.Due, s.Shell
	case *OwnerTold:
		i.Told = f.Happened
	case *Recalled:
		i.Recall = s.Notice
	case *Mended:
		i.mend(s, f)
	case *Maintained:
		i.maintain(s, f)
	case *Labelled:
		i.label(f)
	case *Resolved: // taken up once everything is folded
	case *Serving:
		if i.Lent() && i.Person == f.Person { // what came back serves nobody, whatever was keyed late
			i.serve(s.As, f)
		}
	case *Reserved, *Freed, *Benched, *Tested:
		if i.Lent() {
			i.doubt(f, "was "+s.Says()+" while on loan")
			return
		}
		i.shelve(f)
	default:
		i.custody(f)
	}
}

func (i *Item) enrol(s *Enrolled, f Fact) {
	if i.Entered.IsZero() {
		i.Entered = f.Happened
	}
	first := i.Since.IsZero()
	stamped := i.Spec
	i.Tag, i.Spec = s.Tag, s.Spec
	if s.Spec.Requal == "" { // a plate entered anew takes no stamp away
		i.Spec.Requal = stamped.Requal
	}
	if s.Spec.Shell == "" {
		i.Spec.Shell = stamped.Shell
	}
	if !first { // something is known to have happened before
		return
	}
	i.Since, i.Why = f.Happened, notCleared
	if s.Spec.Foreign {
		i.become(NotOurs, f)
	}
}

// shelve applies the statements about an item that is in our hands.
func (i *Item) shelve(f Fact) {
	switch s := f.Statement.(type) {
	case *Reserved:
		i.reserve(f)
	case *Freed:
		if i.State == Held {
			i.become(Ready, f)
		}
	case *Benched:
		i.Passed = time.Time{}
		i.become(OnBench, f)
	case *Tested:
		i.test(s, f)
	}
}

// reserve sets aside what is ready; of anything else it is doubtful.
func (i *Item) reserve(f Fact) {
	if i.State != Ready && i.State != Held {
		i.doubt(f, "was reserved while "+string(i.State))
		return
	}
	i.Person = f.Person
	i.become(Held, f)
}

// custody applies the statements that move an item from hand to hand.
func (i *Item) custody(f Fact) {
	switch s := f.Statement.(type) {
	case *Moved:
		i.move(s.To, f)
	case *Lent:
		i.lend(s, f)
	case *Handed:
		if i.Lent() {
			i.Person = f.Person
		}
	case *Carried:
		if i.Lent() && i.Person == f.Person {
			i.Place = s.To
		}
	case *LeftAt:
		i.takeBack()
		i.Place, i.Passed = s.At, time.Time{}
		i.arrive(Dirty, f)
	case *Collected:
		if !i.Lent() && i.State != Missing {
			i.clash(TwoPlaces, f, "was collected from a home while "+string(i.State), i.trail.state)
		}
		i.takeBack()
		i.Place = At(AtVehicle, s.Vehicle)
		i.become(WithDriver, f)
	case *Returned:
		i.takeBack()
		i.full(s, f)
		i.With, i.Lacks, i.Back = nil, s.Lacks, f.Happened
		i.Place, i.Soiled, i.Passed, i.Told = At(AtDepot, s.Depot), s.Soiled, time.Time{}, time.Time{}
		i.arrive(Dirty, f)
	case *Cleared:
		if i.Lent() {
			i.doubt(f, "was cleared while on loan")
			i.takeBack()
		}
		i.Place, i.Soiled, i.Why, i.Told = At(AtDepot, s.Depot), false, "", time.Time{}
		i.Lacks = nil
		i.become(Ready, f)
	case *Quarantined:
		i.quarantine(s.Why, f)
	}
}

// quarantine remembers the reason until somebody clears the item. In a home it
// stays lent and is fetched, or another's and is left alone; on the road, away or lost it goes to quarantine
// when it comes in.
func (i *Item) quarantine(why string, f Fact) {
	i.Why = why
	if i.Place.Kind() == AtAddress {
		return
	}
	switch i.State {
	case Ready, Held, Dirty, OnBench, InQuarantine, NotOurs:
		i.become(InQuarantine, f)
	}
}

// arrive puts the item in a state at our place, or back into quarantine while
// the reason for that stands.
func (i *Item) arrive(s State, f Fact) {
	if i.Why != "" && i.Why != notCleared {
		s = InQuarantine
	}
	i.become(s, f)
}

// become sets the state; whoever had the item or had it reserved keeps it
// only in the states of a loan or a reservation.
func (i *Item) become(s State, f Fact) {
	if i.State == Missing && s != Missing && i.Loss != nil {
		i.Loss.Found = f.Happened
	}
	i.State, i.Since, i.trail.state = s, f.Happened, f
	if !i.Lent() && s != Held {
		i.Person = ""
	}
}

func (i *Item) lend(s *Lent, f Fact) {
	if i.Lent() && i.Person != f.Person {
		i.clash(LentTwice, f, "was lent to a second person while another still had it", i.trail.lent)
	}
	if i.Why == notCleared {
		i.Why = ""
	}
	if i.Why != "" {
		i.doubt(f, "was lent although kept back: "+i.Why)
	}
	i.Person, i.Place, i.With = f.Person, s.At, s.With
	i.trail.lent, i.trail.issued, i.trail.bridged = f, nil, s.Role == Bridging
	i.serve(s.Role, f)
}

func (i *Item) serve(as Role, f Fact) {
	states := map[Role]State{
		Bridging: HandedOver, InUse: AtWork, Backup: AsBackup, NotNeeded: Idle, OnHold: Waiting,
	}
	state, known := states[as]
	if !known {
		state = AtWork // lent for something a later version knows
	}
	i.become(state, f)
}

func (i *Item) takeBack() {
	if i.Lent() {
		i.Last = i.Person
	}
	i.Person = ""
}

func (i *Item) move(to Place, f Fact) {
	wasLent := i.Lent()
	i.lose(to, f)
	if wasLent && to.Kind() != AtMissing && to.Kind() != AtRetired {
		i.clash(TwoPlaces, f, "was moved to "+to.InWords()+" while on loan", i.trail.lent)
	}
	if wasLent {
		i.takeBack()
	}
	i.Place = to
	switch to.Kind() {
	case AtPlant:
		i.Soiled = false // the plant has it now, and cleans it
		i.become(OutAtPlant, f)
	case AtWorkshop:
		i.become(InRepair, f)
	case AtMissing:
		i.become(Missing, f)
	case AtRetired:
		i.become(Gone, f)
	case AtVehicle:
		if i.State != Ready && i.State != Held { // what is ready stays ready: it is van stock
			i.become(WithDriver, f)
		}
	case AtAddress:
		if i.Spec.Foreign { // seen in a home, wherever it was thought to be
			i.become(NotOurs, f)
		}
	case AtDepot, AtWard:
		switch {
		case wasLent || i.State == WithDriver:
			i.arrive(Dirty, f)
		case i.State == OutAtPlant || i.State == InRepair || i.State == Missing || i.State == Gone:
			i.arrive(OnBench, f)
		}
	}
}

// lose remembers how an item came to be missing. The loss stays on the item
// when it is found.
func (i *Item) lose(to Place, f Fact) {
	if to.Kind() != AtMissing {
		return
	}
	i.Loss = &Loss{At: f.Happened}
	if i.Lent() {
		i.Loss.Person = i.Person
	}
	if s, moved := f.Statement.(*Moved); moved {
		i.Loss.Why, i.Loss.Worth = s.Why, s.Worth
	}
}

func (i *Item) test(s *Tested, f Fact) {
	if s.Passed {
		i.Passed = f.Happened
		i.become(OnBench, f)
		return
	}
	i.Passed = time.Time{}
	i.Why = failedTest + s.Detail
	i.become(InQuarantine, f)
}

func (i *Item) observe(s *Observed, f Fact) {
	if s.Gauge != nil {
		i.rose(s, f)
		i.trail.gauge = f
		if i.Lent() && i.trail.issued == nil {
			i.trail.issued = s.Gauge
		}
		i.Gauge = &Seen[gas.Pressure]{Value: *s.Gauge, At: f.Happened, Told: s.Told, Fact: f.ID, Temperature: s.Temperature}
	}
	if s.Weight != nil {
		i.Weight = &Seen[gas.Kilograms]{Value: *s.Weight, At: f.Happened, Told: s.Told, Fact: f.ID}
	}
	if s.Oxygen != nil {
		i.Oxygen = &Seen[float64]{Value: *s.Oxygen, At: f.Happened, Told: s.Told, Fact: f.ID}
	}
	if s.Hours != nil {
		if i.Hours != nil && *s.Hours < i.Hours.Value {
			i.clash(HoursDown, f, fmt.Sprintf("hours meter went down from %.0f to %.0f", i.Hours.Value, *s.Hours), i.trail.hours)
		}
		i.trail.hours = f
		i.Hours = &Seen[float64]{Value: *s.Hours, At: f.Happened, Told: s.Told, Fact: f.ID}
	}
}

func (i *Item) label(f Fact) {
	printed := Labels{Times: 1, Last: f.Happened}
	if i.Labels != nil {
		printed.Times += i.Labels.Times
	}
	i.Labels = &printed
}
