package inventory

import (
	"cmp"
	"slices"
	"strings"
	"time"
)

// The statements about counted supplies. None is about a single item; what a
// person was given is about the person.
type (
	// Supplied is a delivery of one lot of a supply.
	Supplied struct {
		Handful
		To      Place  `json:"to"`
		From    string `json:"from,omitempty"`    // who supplied it
		Expires string `json:"expires,omitempty"` // 2006-01-02
	}
	// SupplyCounted is a count of one supply at one place, lot by lot: a lot that
	// is not named is not there.
	SupplyCounted struct {
		Supply string    `json:"supply"`
		At     Place     `json:"at"`
		Lots   []Handful `json:"lots"`
	}
	// SupplyMoved takes supplies to another place of ours, or throws them away:
	// then To is retired.
	SupplyMoved struct {
		Handful
		From Place  `json:"from"`
		To   Place  `json:"to"`
		Why  string `json:"why,omitempty"`
	}
	// Given is what a person was given beside a kit.
	Given struct {
		Of   []Handful `json:"of"`
		From Place     `json:"from,omitempty"`
	}
	// SupplyRecalled marks a lot of a supply as named by a recall notice.
	SupplyRecalled struct {
		Supply string `json:"supply"`
		Lot    string `json:"lot"`
		Notice string `json:"notice"`
	}
)

// Giving is a statement by which a person gets supplies.
type Giving interface {
	// Gives returns what was given, and from which place; an empty place is not
	// known.
	Gives() (of []Handful, from Place)
}

// Gives implements Giving.
func (s *Given) Gives() ([]Handful, Place) { return s.Of, s.From }

// Says implements Statement for the statements about supplies.
func (*Supplied) Says() string       { return "supplied" }
func (*SupplyCounted) Says() string  { return "supply counted" }
func (*SupplyMoved) Says() string    { return "supply moved" }
func (*Given) Says() string          { return "given" }
func (*SupplyRecalled) Says() string { return "supply recalled" }

// supplyWords is the vocabulary of supplies.
func supplyWords() Vocabulary {
	return Vocabulary{
		"supplied":        func() Statement { return new(Supplied) },
		"supply counted":  func() Statement { return new(SupplyCounted) },
		"supply moved":    func() Statement { return new(SupplyMoved) },
		"given":           func() Statement { return new(Given) },
		"supply recalled": func() Statement { return new(SupplyRecalled) },
	}
}

// SupplyKey returns the name of a supply as it is compared.
func SupplyKey(supply string) string {
	return strings.ToLower(strings.Join(strings.Fields(supply), " "))
}

// SupplyStock is what the facts say of one lot of one supply at one place.
type SupplyStock struct {
	Supply string `json:"supply"`
	// Lot is empty for what has no lot noted. What was given so is not known to
	// be of any lot: it counts there, under zero.
	Lot     string    `json:"lot,omitempty"`
	At      Place     `json:"at"`
	Count   int       `json:"count"`
	Counted time.Time `json:"counted,omitzero"` // last, by somebody
	Expires string    `json:"expires,omitempty"`
	Recall  string    `json:"recall,omitempty"`
}

// Usable reports whether the lot can be given on a day: it is named by no
// recall and not expired.
func (s SupplyStock) Usable(day time.Time) bool {
	return s.Recall == "" && (s.Expires == "" || s.Expires >= day.Format(time.DateOnly))
}

// shelf names one lot of one supply at one place.
type shelf struct {
	supply, lot string // their keys
	at          Place
}

func shelfOf(h Handful, at Place) shelf { return shelf{SupplyKey(h.Supply), SerialKey(h.Lot), at} }

// store is the supplies of all places while their facts are folded.
type store struct {
	shelves map[shelf]*SupplyStock
	expires map[shelf]string // by supply and lot
	recalls map[shelf]string
	spelt   map[shelf]string // supplies and lots as they were written first
}

// FoldSupplies returns the supplies at each place, whatever order the facts
// come in, by supply, place and lot. A shelf with nothing on it is left out; a
// recalled lot has a line of its own, at no place.
func FoldSupplies(facts []Fact) []SupplyStock {
	s := newStore()
	for _, f := range Standing(facts) {
		s.apply(f)
	}
	return s.stock()
}

func newStore() *store {
	return &store{map[shelf]*SupplyStock{}, map[shelf]string{}, map[shelf]string{}, map[shelf]string{}}
}

func (s *store) apply(f Fact) {
	switch it := f.Statement.(type) {
	case *Supplied:
		s.put(it.Handful, it.To, it.Count)
		if it.Expires != "" {
			s.expires[shelfOf(it.Handful, "")] = it.Expires
		}
	case *SupplyMoved:
		s.put(it.Handful, it.From, -it.Count)
		if it.To.Kind() != AtRetired {
			s.put(it.Handful, it.To, it.Count)
		}
	case *SupplyCounted:
		s.count(it, f.Happened)
	case *SupplyRecalled:
		lot := Handful{Supply: it.Supply, Lot: it.Lot}
		s.recalls[shelfOf(lot, "")] = it.Notice
		s.put(lot, "", 0) // known even where none of it lies
	case Giving:
		of, from := it.Gives()
		for _, h := range of {
			if from != "" {
				s.put(h, from, -h.Count)
			}
		}
	}
}

func (s *store) put(h Handful, at Place, change int) *SupplyStock {
	key := shelfOf(h, at)
	if s.shelves[key] == nil {
		s.shelves[key] = &SupplyStock{Supply: s.spell(shelf{supply: key.supply}, h.Supply), At: at}
		if key.lot != "" {
			s.shelves[key].Lot = s.spell(shelf{supply: key.supply, lot: key.lot}, h.Lot)
		}
	}
	s.shelves[key].Count += change
	return s.shelves[key]
}

// spell returns how a supply, or a lot of it, was written first: one thing goes
// by one name.
func (s *store) spell(what shelf, written string) string {
	if _, known := s.spelt[what]; !known {
		s.spelt[what] = written
	}
	return s.spelt[what]
}

// count sets every lot of a supply at a place to what was counted.
func (s *store) count(c *SupplyCounted, at time.Time) {
	for key, on := range s.shelves {
		if key.at == c.At && key.supply == SupplyKey(c.Supply) {
			on.Count, on.Counted = 0, at
		}
	}
	for _, h := range c.Lots {
		s.put(Handful{Supply: c.Supply, Lot: h.Lot}, c.At, h.Count).Counted = at
	}
}

func (s *store) stock() []SupplyStock {
	var list []SupplyStock
	for key, on := range s.shelves {
		lot := shelf{key.supply, key.lot, ""}
		on.Expires, on.Recall = s.expires[lot], s.recalls[lot]
		if on.Count == 0 && (on.Recall == "" || key.at != "") {
			continue
		}
		list = append(list, *on)
	}
	slices.SortFunc(list, func(a, b SupplyStock) int {
		return cmp.Or(cmp.Compare(SupplyKey(a.Supply), SupplyKey(b.Supply)), cmp.Compare(a.At, b.At), cmp.Compare(a.Lot, b.Lot))
	})
	return list
}

// LotGiven is a person who was given a lot, or may have been.
type LotGiven struct {
	Person PersonID  `json:"person"`
	Supply string    `json:"supply"`
	Lot    string    `json:"lot,omitempty"` // as it was noted
	Count  int       `json:"count"`
	At     time.Time `json:"at"`
	Sure   bool      `json:"sure"`
	Why    string    `json:"why"`
}

// GivenOfLot returns who was given a lot of a supply, oldest first. Where no
// lot was noted although the lot lay at the place then, or the lot noted is
// easily mistaken for it, nobody can tell.
func GivenOfLot(facts []Fact, lot string) []LotGiven {
	s := newStore()
	var got []LotGiven
	for _, f := range Standing(facts) {
		if gives, is := f.Statement.(Giving); is {
			of, from := gives.Gives()
			for _, h := range of {
				if why, sure := s.perhaps(h, from, lot); why != "" {
					got = append(got, LotGiven{Person: f.Person, Supply: h.Supply, Lot: h.Lot, Count: h.Count, At: f.Happened, Sure: sure, Why: why})
				}
			}
		}
		s.apply(f)
	}
	return got
}

// perhaps says why what was given may be of a lot, and whether it surely is;
// empty when it is not.
func (s *store) perhaps(h Handful, from Place, lot string) (why string, sure bool) {
	switch {
	case h.Lot != "" && SerialKey(h.Lot) == SerialKey(lot):
		return "this lot was noted", true
	case h.Lot != "" && NearKey(h.Lot) == NearKey(lot):
		return "lot " + h.Lot + " is near: read the bag", false
	case h.Lot != "":
		return "", false
	}
	for key, on := range s.shelves {
		if key.supply == SupplyKey(h.Supply) && key.lot == SerialKey(lot) && on.Count > 0 && (from == "" || key.at == from) {
			return "no lot was noted while it lay there", false
		}
	}
	return "", false
}
