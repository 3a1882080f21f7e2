package inventory

// Sighted says that somebody counting a place had the item in hand there. It
// moves nothing: where the book has it elsewhere, that is a difference to
// settle.
type Sighted struct {
	At Place `json:"at"`
}

// Stocktaken is a blind count of one place, held against the book as it stood
// then. It is about the whole programme.
type Stocktaken struct {
	Place     Place       `json:"place"`
	Zone      Zone        `json:"zone,omitempty"` // of a depot; empty: all of the place
	Seen      int         `json:"seen"`
	Expected  int         `json:"expected"`
	Different []Exception `json:"different,omitempty"`
	Owner     string      `json:"owner"` // who settles the differences
}

// The sorts of differences of a count, beside those of an exchange.
const (
	NotFound  = "not found"  // the book has it here, nobody had it in hand
	Elsewhere = "elsewhere"  // it is here, the book has it elsewhere
	OtherZone = "other zone" // it is in this zone, by its state it belongs in another
)

// Where names what was counted.
func (s Stocktaken) Where() string {
	if s.Zone != "" {
		return string(s.Zone) + ", " + s.Place.InWords()
	}
	return s.Place.InWords()
}

// Says implements Statement for the statements of a count.
func (*Sighted) Says() string    { return "sighted" }
func (*Stocktaken) Says() string { return "stocktaken" }
