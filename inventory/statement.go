package inventory

import (
	"cmp"
	"slices"
	"time"

	"lungwort/inventory/gas"
)

// Role is what a lent thing does for the person who has it.
type Role string

// The roles of a lent thing.
const (
	Bridging  Role = "bridge" // the gas that lasts until the concentrator runs
	InUse     Role = "in use"
	Backup    Role = "backup"
	NotNeeded Role = "not needed"
	OnHold    Role = "on hold"
)

// Handful is a counted supply given or taken, by lot.
type Handful struct {
	Supply string `json:"supply"` // cannula, extension tubing, swivel connector
	Count  int    `json:"count"`
	Lot    string `json:"lot,omitempty"`
}

// The statements about items.
type (
	// Enrolled brings an item into the book.
	Enrolled struct {
		Tag  uint32 `json:"tag"` // number of our own label
		Spec Spec   `json:"spec"`
	}
	// Described says anew what an item of the book is, as after an edit of its
	// owner or model in a list.
	Described struct {
		Spec Spec `json:"spec"`
	}
	// Moved puts an item at a place of ours.
	Moved struct {
		To    Place   `json:"to"`
		Why   string  `json:"why,omitempty"`
		Worth float64 `json:"worth,omitempty"` // of what is lost, in the money of the programme
	}
	// Observed is what somebody saw: any of gauge, hours meter, oxygen at a
	// flow, weight. Told means reported by phone, not read by one of us.
	Observed struct {
		Gauge  *gas.Pressure `json:"gauge,omitempty"`
		Hours  *float64      `json:"hours,omitempty"`
		Oxygen *float64      `json:"oxygen,omitempty"` // percent
		Flow   *gas.Flow     `json:"flow,omitempty"`
		// Temperature of the cylinder when its gauge was read.
		Temperature *gas.Celsius  `json:"temperature,omitempty"`
		Warm        time.Duration `json:"warm,omitempty"` // the machine had run so long
		// Weight of a liquid vessel on a scale, with what is in it.
		Weight *gas.Kilograms `json:"weight,omitempty"`
		Told   bool           `json:"told,omitempty"`
	}
	// Filled starts a new fill of a cylinder.
	Filled struct {
		Lot   string       `json:"lot"`
		Full  gas.Pressure `json:"full"`
		Plant string       `json:"plant,omitempty"`
		Made  time.Time    `json:"made,omitzero"` // the day on the label, where it differs
	}
	// Reserved sets a ready item aside for a person.
	Reserved struct{}
	// Freed takes a reservation back.
	Freed struct{}
	// Lent hands an item over to a person.
	Lent struct {
		Spec Spec  `json:"spec"` // as it was at hand-over
		Role Role  `json:"role"`
		At   Place `json:"at"` // where the item goes
		// With are the small parts that went along; none: nobody looked.
		With []string `json:"with,omitempty"`
	}
	// Handed puts a loan on the record it belongs to: the thing stays where it
	// is, with the same person.
	Handed struct {
		Spec Spec `json:"spec"`
		Role Role `json:"role"`
	}
	// LeftAt ends a loan at a place of ours, to be fetched from there.
	LeftAt struct {
		At Place `json:"at"`
	}
	// Carried says that a lent thing went along to another address.
	Carried struct {
		To Place `json:"to"`
	}
	// Serving says what a lent item does from now on.
	Serving struct {
		As Role `json:"as"`
	}
	// Collected takes a lent item from a person onto a vehicle.
	Collected struct {
		Vehicle string `json:"vehicle"`
	}
	// Returned books an item into a dirty bay.
	Returned struct {
		Depot  string   `json:"depot"`
		Soiled bool     `json:"soiled,omitempty"`
		Lacks  []string `json:"lacks,omitempty"` // small parts that did not come back
		Empty  bool     `json:"empty,omitempty"` // a cylinder given back as empty
		Found  string   `json:"found,omitempty"` // of what was missing: where it was
		// Unasked: left in an amnesty; who brought it is not noted. BySlip: taken
		// in by the name on a slip, its plate not read.
		Unasked bool `json:"unasked,omitempty"`
		BySlip  bool `json:"by_slip,omitempty"`
	}
	// Benched starts the work on a returned item.
	Benched struct{}
	// Tested is the outcome of the bench.
	Tested struct {
		Passed bool   `json:"passed"`
		Detail string `json:"detail,omitempty"`
		// Steps are what was looked at and found good; By signs for it.
		Steps []string `json:"steps,omitempty"`
	}
	// Cleared releases an item: clean, tested, ready to lend.
	Cleared struct {
		Depot string `json:"depot"`
	}
	// Quarantined keeps an item from being lent until somebody clears it.
	Quarantined struct {
		Why string `json:"why"`
	}
	// Recalled marks an item as named by a recall notice.
	Recalled struct {
		Notice string `json:"notice"`
	}
	// Catalogued says what a maker's product number stands for. It is about no
	// single thing.
	Catalogued struct {
		GTIN string `json:"gtin"`
		Spec Spec   `json:"spec"`
	}
	// Labelled is a label of ours printed for the item: the first, or once more.
	Labelled struct {
		Stock  string `json:"stock"`
		Copies int    `json:"copies"`
	}
	// Resolved settles a question that facts left open: which evidence counts,
	// and why.
	Resolved struct {
		Question string   `json:"question"` // its key
		Choice   string   `json:"choice"`
		Why      string   `json:"why"`
		Evidence []FactID `json:"evidence"`
	}
	// Retracted takes a fact back without putting another in its place. One
	// that belongs to a list which was taken back as a whole names that
	// take-in: the same list brings the fact again when it is taken in anew.
	Retracted struct {
		Why    string `json:"why"`
		TookIn FactID `json:"took_in,omitempty"`
	}
)

// Says implements Statement for each statement about items.
func (*Enrolled) Says() string    { return "enrolled" }
func (*Described) Says() string   { return "described" }
func (*Moved) Says() string       { return "moved" }
func (*Observed) Says() string    { return "observed" }
func (*Filled) Says() string      { return "filled" }
func (*Reserved) Says() string    { return "reserved" }
func (*Freed) Says() string       { return "freed" }
func (*Lent) Says() string        { return "lent" }
func (*Handed) Says() string      { return "handed" }
func (*LeftAt) Says() string      { return "left at" }
func (*Carried) Says() string     { return "carried" }
func (*Serving) Says() string     { return "serving" }
func (*Collected) Says() string   { return "collected" }
func (*Returned) Says() string    { return "returned" }
func (*Benched) Says() string     { return "benched" }
func (*Tested) Says() string      { return "tested" }
func (*Cleared) Says() string     { return "cleared" }
func (*Quarantined) Says() string { return "quarantined" }
func (*Recalled) Says() string    { return "recalled" }
func (*Catalogued) Says() string  { return "catalogued" }
func (*Labelled) Says() string    { return "labelled" }
func (*Resolved) Says() string    { return "resolved" }
func (*Retracted) Says() string   { return "retracted" }

// Words is the vocabulary of statements about items.
func Words() Vocabulary {
	return Vocabulary{
		"enrolled":    func() Statement { return new(Enrolled) },
		"described":   func() Statement { return new(Described) },
		"moved":       func() Statement { return new(Moved) },
		"observed":    func() Statement { return new(Observed) },
		"filled":      func() Statement { return new(Filled) },
		"reserved":    func() Statement { return new(Reserved) },
		"freed":       func() Statement { return new(Freed) },
		"lent":        func() Statement { return new(Lent) },
		"handed":      func() Statement { return new(Handed) },
		"left at":     func() Statement { return new(LeftAt) },
		"carried":     func() Statement { return new(Carried) },
		"serving":     func() Statement { return new(Serving) },
		"collected":   func() Statement { return new(Collected) },
		"returned":    func() Statement { return new(Returned) },
		"benched":     func() Statement { return new(Benched) },
		"tested":      func() Statement { return new(Tested) },
		"cleared":     func() Statement { return new(Cleared) },
		"quarantined": func() Statement { return new(Quarantined) },
		"recalled":    func() Statement { return new(Recalled) },
		"catalogued":  func() Statement { return new(Catalogued) },
		"labelled":    func() Statement { return new(Labelled) },
		"resolved":    func() Statement { return new(Resolved) },
		"retracted":   func() Statement { return new(Retracted) },
	}.And(depotWords()).And(supplyWords()).And(workshopWords())
}

// sortByHappening orders facts by when they happened, then by when they were
// recorded, which their numbers tell.
func sortByHappening(facts []Fact) {
	slices.SortStableFunc(facts, func(a, b Fact) int {
		return cmp.Or(a.Happened.Compare(b.Happened), cmp.Compare(a.ID, b.ID))
	})
}
