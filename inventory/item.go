package inventory

import (
	"fmt"
	"time"

	"lungwort/inventory/gas"
)

// State is what can be done with an item now.
type State string

// The states of an item.
const (
	Ready        State = "ready"
	Held         State = "reserved"
	HandedOver   State = "handed over"
	AtWork       State = "in use"
	AsBackup     State = "backup"
	Idle         State = "not needed"
	Waiting      State = "on hold"
	WithDriver   State = "with driver"
	Dirty        State = "dirty"
	InQuarantine State = "quarantine"
	OnBench      State = "on bench"
	InRepair     State = "in repair"
	OutAtPlant   State = "at plant"
	Missing      State = "missing"
	Gone         State = "retired"
	NotOurs      State = "not ours"
)

// Seen is one observed value with its age and its source.
type Seen[T any] struct {
	Value T         `json:"value"`
	At    time.Time `json:"at"`
	Told  bool      `json:"told,omitempty"`
	Fact  FactID    `json:"fact"`
}

// How says how the value reached us: read by one of us, or told.
func (s Seen[T]) How() string {
	if s.Told {
		return "told"
	}
	return "read"
}

// Fill is one filling of one cylinder.
type Fill struct {
	Lot   string       `json:"lot"`
	At    time.Time    `json:"at"`
	Full  gas.Pressure `json:"full"`
	Plant string       `json:"plant,omitempty"`
}

// Item is what the facts say of an item: the fold of its facts.
type Item struct {
	ID     ItemID    `json:"id"`
	Tag    uint32    `json:"tag"`
	Spec   Spec      `json:"spec"`
	State  State     `json:"state"`
	Place  Place     `json:"place"`
	Person PersonID  `json:"person,omitempty"` // who has it on loan, or whom it is reserved for
	Last   PersonID  `json:"last,omitempty"`   // who had it last
	Since  time.Time `json:"since"`            // in this state

	Gauge  *Seen[gas.Pressure] `json:"gauge,omitempty"`
	Hours  *Seen[float64]      `json:"hours,omitempty"`
	Oxygen *Seen[float64]      `json:"oxygen,omitempty"`
	Fill   *Fill               `json:"fill,omitempty"`

	Passed time.Time `json:"passed,omitzero"` // its last test, since it came back
	Soiled bool      `json:"soiled,omitempty"`
	Recall string    `json:"recall,omitempty"`
	Why    string    `json:"why,omitempty"` // of a quarantine
	Doubts []string  `json:"doubts,omitempty"`
}

// notCleared is why a thing new to the book is not lent yet.
const notCleared = "not yet cleared"

// Lent reports whether a person has the item on loan.
func (i Item) Lent() bool {
	switch i.State {
	case HandedOver, AtWork, AsBackup, Idle, Waiting:
		return true
	}
	return false
}

// Fold returns what the facts about one item say of it, whatever order they
// come in. Facts that contradict each other are kept, the later one counts,
// and the contradiction becomes a doubt.
func Fold(id ItemID, facts []Fact) Item {
	item := Item{ID: id, State: InQuarantine, Place: At(AtMissing, "")}
	for _, f := range Standing(facts) {
		if f.Item == id {
			item.apply(f)
		}
	}
	return item
}

func (i *Item) apply(f Fact) {
	switch s := f.Statement.(type) {
	case *Enrolled:
		i.Tag, i.Spec, i.Since = s.Tag, s.Spec, f.Happened
		i.Why = notCleared
		if s.Spec.Foreign {
			i.become(NotOurs, f)
		}
	case *Observed:
		i.observe(s, f)
	case *Filled:
		i.Fill = &Fill{Lot: s.Lot, At: f.Happened, Full: s.Full, Plant: s.Plant}
		i.Gauge = nil // a new fill: what was read before says nothing of it
	case *Recalled:
		i.Recall = s.Notice
	case *Serving:
		if i.Lent() { // what came back serves nobody, whatever was keyed late
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

// shelve applies the statements about an item that is in our hands.
func (i *Item) shelve(f Fact) {
	switch s := f.Statement.(type) {
	case *Reserved:
		i.Person = f.Person
		i.become(Held, f)
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

// custody applies the statements that move an item from hand to hand.
func (i *Item) custody(f Fact) {
	switch s := f.Statement.(type) {
	case *Moved:
		i.move(s.To, f)
	case *Lent:
		i.lend(s, f)
	case *Collected:
		i.takeBack()
		i.Place = At(AtVehicle, s.Vehicle)
		i.become(WithDriver, f)
	case *Returned:
		i.takeBack()
		i.Place, i.Soiled, i.Passed = At(AtDepot, s.Depot), s.Soiled, time.Time{}
		i.become(Dirty, f)
		if i.Why != "" && i.Why != notCleared {
			i.become(InQuarantine, f)
		}
	case *Cleared:
		i.takeBack()
		i.Place, i.Soiled, i.Why = At(AtDepot, s.Depot), false, ""
		i.become(Ready, f)
	case *Quarantined:
		i.Why = s.Why
		if !i.Lent() { // in a home it stays lent and is fetched
			i.become(InQuarantine, f)
		}
	}
}

// become sets the state; whoever had the item or had it reserved keeps it
// only in the states of a loan or a reservation.
func (i *Item) become(s State, f Fact) {
	i.State, i.Since = s, f.Happened
	if !i.Lent() && s != Held {
		i.Person = ""
	}
}

func (i *Item) lend(s *Lent, f Fact) {
	if i.Lent() && i.Person != f.Person {
		i.doubt(f, "was lent to a second person while another still had it")
	}
	i.Person, i.Place, i.Why = f.Person, s.At, ""
	i.serve(s.Role, f)
}

func (i *Item) serve(as Role, f Fact) {
	states := map[Role]State{
		Bridging: HandedOver, InUse: AtWork, Backup: AsBackup, NotNeeded: Idle, OnHold: Waiting,
	}
	i.become(states[as], f)
}

func (i *Item) takeBack() {
	if i.Person != "" {
		i.Last = i.Person
	}
	i.Person = ""
}

func (i *Item) move(to Place, f Fact) {
	if i.Lent() {
		if to.Kind() != AtMissing && to.Kind() != AtRetired {
			i.doubt(f, "was moved to "+string(to)+" while on loan")
		}
		i.takeBack()
	}
	i.Place = to
	switch to.Kind() {
	case AtPlant:
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
	case AtDepot, AtWard:
		if i.State == OutAtPlant || i.State == InRepair || i.State == Missing || i.State == WithDriver {
			i.become(OnBench, f)
		}
	}
}

func (i *Item) test(s *Tested, f Fact) {
	if s.Passed {
		i.Passed = f.Happened
		i.become(OnBench, f)
		return
	}
	i.Passed = time.Time{}
	i.Why = "failed its test: " + s.Detail
	i.become(InQuarantine, f)
}

func (i *Item) observe(s *Observed, f Fact) {
	if s.Gauge != nil {
		i.Gauge = &Seen[gas.Pressure]{*s.Gauge, f.Happened, s.Told, f.ID}
	}
	if s.Oxygen != nil {
		i.Oxygen = &Seen[float64]{*s.Oxygen, f.Happened, s.Told, f.ID}
	}
	if s.Hours != nil {
		if i.Hours != nil && *s.Hours < i.Hours.Value {
			i.doubt(f, fmt.Sprintf("hours meter went down from %.0f to %.0f", i.Hours.Value, *s.Hours))
		}
		i.Hours = &Seen[float64]{*s.Hours, f.Happened, s.Told, f.ID}
	}
}

func (i *Item) doubt(f Fact, what string) {
	i.Doubts = append(i.Doubts, fmt.Sprintf("%s (%s)", what, f.Happened.Format("Mon 2 Jan 15:04")))
}

// Label returns how people name the item: by its serial, and by the number of
// our label where it has no serial.
func (i Item) Label() string {
	if i.Spec.Serial != "" {
		return i.Spec.Serial
	}
	return fmt.Sprintf("no. %d", i.Tag)
}
