package inventory

import (
	"fmt"
	"strings"
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
	// Temperature of a cylinder when its gauge was read; nil where none was noted.
	Temperature *gas.Celsius `json:"temperature,omitempty"`
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
	Made  time.Time    `json:"made,omitzero"` // the day on the label, where it differs
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
	// Weight of a liquid vessel with what is in it.
	Weight *Seen[gas.Kilograms] `json:"weight,omitempty"`

	Passed  time.Time       `json:"passed,omitzero"` // its last test, since it came back
	Soiled  bool            `json:"soiled,omitempty"`
	Back    time.Time       `json:"back,omitzero"`   // when it last came back from a loan
	With    []string        `json:"with,omitempty"`  // small parts that went along on this loan
	Lacks   []string        `json:"lacks,omitempty"` // that did not come back, until it is whole again
	Told    time.Time       `json:"told,omitzero"`   // its owner was, of what is wrong with it
	Recall  string          `json:"recall,omitempty"`
	Why     string          `json:"why,omitempty"` // of a quarantine
	Doubts  []string        `json:"doubts,omitempty"`
	Labels  *Labels         `json:"labels,omitempty"`  // printed for it; nil for none
	Loss    *Loss           `json:"loss,omitempty"`    // the last, whether found since or not
	Repairs *Repairs        `json:"repairs,omitempty"` // nil: none
	Upkeep  map[string]Kept `json:"upkeep,omitempty"`  // maintenance done, by name
	Entered time.Time       `json:"entered,omitzero"`  // into the book
	// Questions are what the facts leave open, each with its answer once
	// somebody gave one.
	Questions []Question `json:"questions,omitempty"`

	trail *trail // while folding
}

// Labels is how often a label was printed for an item, and when last.
type Labels struct {
	Times int       `json:"times"`
	Last  time.Time `json:"last"`
}

// Loss is how an item came to be missing, and when it was found again.
type Loss struct {
	At     time.Time `json:"at"`
	Why    string    `json:"why,omitempty"`
	Worth  float64   `json:"worth,omitempty"`
	Person PersonID  `json:"person,omitempty"` // who had it on loan then
	Found  time.Time `json:"found,omitzero"`
}

// Lent reports whether a person has the item on loan.
func (i Item) Lent() bool {
	switch i.State {
	case HandedOver, AtWork, AsBackup, Idle, Waiting:
		return true
	}
	return false
}

// Failed reports whether the item failed its last test.
func (i Item) Failed() bool {
	return i.Passed.IsZero() && strings.HasPrefix(i.Why, failedTest)
}

// Label returns how people name the item: by its serial, and by the number of
// our label where it has no serial.
func (i Item) Label() string {
	if i.Spec.Serial != "" {
		return i.Spec.Serial
	}
	return fmt.Sprintf("no. %d", i.Tag)
}
