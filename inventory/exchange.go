package inventory

import (
	"lungwort/inventory/gas"
)

// Counted is how many cylinders of one owner and size; an empty owner is the
// programme itself.
type Counted struct {
	Owner string       `json:"owner,omitempty"`
	Size  gas.SizeCode `json:"size"`
	Count int          `json:"count"`
}

// Exception is what an exchange was signed with although it did not fit, and
// the next step.
type Exception struct {
	Sort   string `json:"sort"` // one of the exceptions below
	Item   ItemID `json:"item,omitempty"`
	Serial string `json:"serial,omitempty"`
	Says   string `json:"says"`
	Next   string `json:"next"`
}

// The sorts of exceptions.
const (
	ShortOf     = "short"     // fewer came than are due
	OverCount   = "over"      // more came than are due
	OwnMissing  = "missing"   // an own serial did not come back
	WrongOne    = "wrong"     // came in although the book has it elsewhere
	Stranger    = "unknown"   // a serial the book does not know
	NotFull     = "low"       // the gauge sample is under full
	WithoutLot  = "lot"       // no lot on the label
	NotBagged   = "soiled"    // went out soiled with the owner told
	PastRequal  = "requalify" // filled after its month of requalification
	NotScanned  = "unscanned" // counted on the slip, not scanned
	NotExpected = "place"     // went out although the book has it elsewhere
)

// Exchanged is a signed exchange with a filling plant. It is about the whole
// programme; each cylinder has facts of its own beside it.
type Exchanged struct {
	Plant      string      `json:"plant"`
	Depot      string      `json:"depot"`
	Slip       string      `json:"slip,omitempty"` // the plant's own number
	Driver     string      `json:"driver"`         // who signed for the plant
	Out        []Counted   `json:"out,omitempty"`
	In         []Counted   `json:"in,omitempty"`
	Went       []ItemID    `json:"went,omitempty"`
	Came       []ItemID    `json:"came,omitempty"`
	Exceptions []Exception `json:"exceptions,omitempty"`
}

// OwnerTold says that the owner of a thing, or who fills it, was told what is
// wrong with it.
type OwnerTold struct {
	Owner string `json:"owner,omitempty"`
	How   string `json:"how,omitempty"` // phone, mail, in person
	What  string `json:"what,omitempty"`
}

// Says implements Statement for the statements of the depot's dealings with
// plants and owners.
func (*Exchanged) Says() string { return "exchanged" }
func (*OwnerTold) Says() string { return "owner told" }

// depotWords is the vocabulary of those statements.
func depotWords() Vocabulary {
	return Vocabulary{
		"exchanged":  func() Statement { return new(Exchanged) },
		"owner told": func() Statement { return new(OwnerTold) },
		"stamped":    func() Statement { return new(Stamped) },
		"sighted":    func() Statement { return new(Sighted) },
		"stocktaken": func() Statement { return new(Stocktaken) },
	}
}

// FillSeen is one fill of a plant and the first gauge anybody read after it.
type FillSeen struct {
	Item   ItemID
	Serial string
	Size   gas.SizeCode
	Marked gas.Marks
	Fill   Fill
	First  *Seen[gas.Pressure] // nil: not read yet
}

// FullShare is the share of the service pressure under which a fill called
// full reads low. Common practice, no source.
const FullShare = 0.9

// Low reports whether the fill was read, and read under full. A fill is
// judged before the cylinder was lent: later a low gauge is use.
func (f FillSeen) Low() bool {
	full, known := Item{Spec: Spec{Kind: Cylinder, Size: f.Size, Marked: f.Marked}, Fill: &f.Fill}.Full()
	return known && f.First != nil && f.First.Value < full*FullShare
}

// FillsOf returns the fills by a plant among the facts of one item, in order,
// each with the first reading before the cylinder was lent or filled again.
func FillsOf(id ItemID, facts []Fact) []FillSeen {
	var fills []FillSeen
	var spec Spec
	open := false // the last fill waits for its first reading
	for _, f := range Standing(facts) {
		switch s := f.Statement.(type) {
		case *Enrolled:
			spec = s.Spec
		case *Described:
			spec = s.Spec
		case *Filled:
			open = s.Plant != ""
			if open {
				fills = append(fills, FillSeen{Item: id, Fill: Fill{Lot: s.Lot, At: f.Happened, Full: s.Full, Plant: s.Plant, Made: s.Made}})
			}
		case *Observed:
			if open && s.Gauge != nil {
				fills[len(fills)-1].First = &Seen[gas.Pressure]{Value: *s.Gauge, At: f.Happened, Told: s.Told, Fact: f.ID}
				open = false
			}
		case *Lent:
			open = false
		}
	}
	for i := range fills {
		fills[i].Serial, fills[i].Size, fills[i].Marked = spec.Serial, spec.Size, spec.Marked
	}
	return fills
}
