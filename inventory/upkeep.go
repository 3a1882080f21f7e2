package inventory

import "time"

// The statements of the workshop.
type (
	// Mended is the outcome of a repair.
	Mended struct {
		Did  string  `json:"did"` // fault and parts
		By   string  `json:"by,omitempty"`
		Cost float64 `json:"cost,omitempty"` // in the money of the programme
		// Board says that a part with the hours meter was replaced: hours count
		// anew.
		Board bool `json:"board,omitempty"`
	}
	// Maintained is one piece of maintenance done.
	Maintained struct {
		What string  `json:"what"` // by the name of the programme's rule
		Cost float64 `json:"cost,omitempty"`
	}
)

// Says implements Statement for the statements of the workshop.
func (*Mended) Says() string     { return "mended" }
func (*Maintained) Says() string { return "maintained" }

func workshopWords() Vocabulary {
	return Vocabulary{
		"mended":     func() Statement { return new(Mended) },
		"maintained": func() Statement { return new(Maintained) },
	}
}

// Repairs are those of one item so far.
type Repairs struct {
	Times int       `json:"times"`
	Cost  float64   `json:"cost,omitempty"`
	Last  time.Time `json:"last"`
}

// Kept is when a piece of maintenance was done last, and at how many hours.
type Kept struct {
	At    time.Time `json:"at"`
	Hours float64   `json:"hours,omitempty"`
}

// mend ends what the item was kept back for; it is tested anew before it is lent.
func (i *Item) mend(s *Mended, f Fact) {
	so := Repairs{Times: 1, Cost: s.Cost, Last: f.Happened}
	if i.Repairs != nil {
		so.Times, so.Cost = so.Times+i.Repairs.Times, so.Cost+i.Repairs.Cost
	}
	i.Why, i.Repairs, i.Passed = "", &so, time.Time{}
	if s.Board {
		i.Hours, i.trail.hours = nil, Fact{}
	}
}

func (i *Item) maintain(s *Maintained, f Fact) {
	kept := Kept{At: f.Happened}
	if i.Hours != nil {
		kept.Hours = i.Hours.Value
	}
	if i.Upkeep == nil {
		i.Upkeep = make(map[string]Kept)
	}
	i.Upkeep[s.What] = kept
}
