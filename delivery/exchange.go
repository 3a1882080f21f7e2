package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// ExchangeLine is one owner and size of an exchange. What is rented is owed by
// count, the programme's own by serial.
type ExchangeLine struct {
	Owner  string       `json:"owner,omitempty"` // empty: the programme's own
	Size   gas.SizeCode `json:"size"`
	Before int          `json:"before"` // at the plant before this exchange
	Out    int          `json:"out"`
	In     int          `json:"in"`
	Due    int          `json:"due"`  // of what should come now
	Left   int          `json:"left"` // at the plant afterwards
}

// Short returns how many fewer came than are due; under zero: more.
func (l ExchangeLine) Short() int { return l.Due - l.In }

// Whose says how the cylinders of the line are held.
func (l ExchangeLine) Whose() string {
	if l.Owner == "" {
		return "own"
	}
	return "rented"
}

// ExchangeSlip is an exchange held against what the book knows, before or
// after it is signed.
type ExchangeSlip struct {
	Lines      []ExchangeLine        `json:"lines"`
	Exceptions []inventory.Exception `json:"exceptions"`
}

// Says returns the slip in one sentence: "short 2 E rented; 1 own serial
// missing; sign with exception".
func (s ExchangeSlip) Says() string {
	var parts []string
	for _, l := range s.Lines {
		switch short := l.Short(); {
		case l.Owner == "":
		case short > 0:
			parts = append(parts, fmt.Sprintf("short %d %s rented", short, letterOf(l.Size)))
		case short < 0:
			parts = append(parts, fmt.Sprintf("%d %s rented more than due", -short, letterOf(l.Size)))
		}
	}
	for _, sort := range []struct{ sort, one, many string }{
		{inventory.OwnMissing, "own serial missing", "own serials missing"},
		{inventory.WrongOne, "the book has elsewhere", "the book has elsewhere"},
		{inventory.NotExpected, "out that was not ready to go", "out that were not ready to go"},
		{inventory.Stranger, "unknown serial", "unknown serials"},
		{inventory.NotFull, "not full", "not full"},
		{inventory.PastRequal, "filled past its requalification", "filled past their requalification"},
		{inventory.WithoutLot, "without a lot", "without a lot"},
		{inventory.NotScanned, "counted, not scanned", "counted, not scanned"},
	} {
		if n := s.of(sort.sort); n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, plural(n, sort.one, sort.many)))
		}
	}
	if len(parts) == 0 {
		return "it fits: sign"
	}
	return strings.Join(parts, "; ") + "; sign with exception"
}

func (s ExchangeSlip) of(sort string) int {
	n := 0
	for _, e := range s.Exceptions {
		if e.Sort == sort {
			n++
		}
	}
	return n
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// letterOf returns the letter of a size without its region.
func letterOf(code gas.SizeCode) string {
	if _, letter, ok := strings.Cut(string(code), "-"); ok {
		return letter
	}
	return string(code)
}

// exchangeLines counts an exchange by owner and size.
type exchangeLines []ExchangeLine

func (l *exchangeLines) of(owner string, size gas.SizeCode) *ExchangeLine {
	for i := range *l {
		if (*l)[i].Owner == owner && (*l)[i].Size == size {
			return &(*l)[i]
		}
	}
	*l = append(*l, ExchangeLine{Owner: owner, Size: size})
	return &(*l)[len(*l)-1]
}

func (l exchangeLines) sorted() []ExchangeLine {
	slices.SortFunc(l, func(a, b ExchangeLine) int {
		return cmp.Or(cmp.Compare(a.Owner, b.Owner), cmp.Compare(a.Size, b.Size))
	})
	return l
}

// FillSource is how the fills of one plant and lot read when somebody looked.
type FillSource struct {
	Plant string   `json:"plant"`
	Lot   string   `json:"lot,omitempty"` // empty: all lots of the plant
	Fills int      `json:"fills"`
	Read  int      `json:"read"`
	Low   int      `json:"low"`
	Which []string `json:"which,omitempty"` // serials that read low
}

// StandsOut reports whether so many fills came low that it is the source and
// not one valve: at least three, and one in five of those read. Common
// practice, no source.
func (s FillSource) StandsOut() bool { return s.Low >= 3 && s.Low*5 >= s.Read }

// FillSources returns the plants whose fills were read, the worst first, and
// with each the lots in which any came low.
func FillSources(fills []inventory.FillSeen) []FillSource {
	by := make(map[[2]string]*FillSource)
	add := func(plant, lot string, f inventory.FillSeen) {
		key := [2]string{plant, lot}
		if by[key] == nil {
			by[key] = &FillSource{Plant: plant, Lot: lot}
		}
		s := by[key]
		s.Fills++
		if f.First != nil {
			s.Read++
		}
		if f.Low() {
			s.Low++
			s.Which = append(s.Which, f.Serial)
		}
	}
	for _, f := range fills {
		add(f.Fill.Plant, "", f)
		if f.Fill.Lot != "" {
			add(f.Fill.Plant, f.Fill.Lot, f)
		}
	}
	var list []FillSource
	for _, s := range by {
		if s.Lot == "" || s.Low > 0 {
			list = append(list, *s)
		}
	}
	slices.SortFunc(list, func(a, b FillSource) int {
		return cmp.Or(cmp.Compare(b.share(), a.share()), cmp.Compare(a.Plant, b.Plant), cmp.Compare(a.Lot, b.Lot))
	})
	return list
}

// share is the part of the fills that read low, of those that were read.
func (s FillSource) share() float64 { return float64(s.Low) / float64(max(s.Read, 1)) }
