// Package measures answers "are we any good?": what the programme is judged
// by, from the facts alone, with what is not finished counted as unfinished.
// It is pure.
package measures

import (
	"math"
	"slices"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/outlook"
)

// Sort is what the cases of a measure are.
type Sort string

// The sorts of measures.
const (
	Lasts  Sort = "lasts"  // each case took, or is taking, a time
	Shares Sort = "shares" // each case met what is asked, or did not
	Counts Sort = "counts" // each case is one too many
	Sums   Sort = "sums"   // each case has an amount
)

// Case is one case behind a measure.
type Case struct {
	Person inventory.PersonID `json:"person,omitempty"`
	Item   inventory.ItemID   `json:"item,omitempty"`
	At     time.Time          `json:"at"` // the month it counts in
	Took   time.Duration      `json:"took,omitempty"`
	Amount float64            `json:"amount,omitempty"`
	Open   bool               `json:"open,omitempty"` // not finished: it has taken so long and goes on
	Met    bool               `json:"met,omitempty"`
	Why    string             `json:"why,omitempty"` // cause, kind or reason
}

// Measure is one measure with its definition and its cases, oldest first.
type Measure struct {
	Name       string `json:"name"`
	Definition string `json:"definition"`
	Sort       Sort   `json:"sort"`
	Asked      string `json:"asked,omitempty"` // what Shares meet
	Least      bool   `json:"least,omitempty"` // the short ones are what matters
	Cases      []Case `json:"cases"`
}

// few is under how many cases a figure is called small. Common practice, no
// source.
const few = 10

// Figure is what the cases of a measure come to.
type Figure struct {
	N    int  `json:"n"`
	Open int  `json:"open,omitempty"`
	Few  bool `json:"few,omitempty"` // too few to say much
	// Of Lasts: half took no longer, and nine of ten (of a measure whose short
	// cases matter: one of ten), open cases counted as longer; Known and
	// TailKnown say whether enough have ended to tell. Known and TailKnown say whether enough have ended to tell. Low
	// and High are the 95 % band of the middle.
	Middle    time.Duration `json:"middle,omitempty"`
	Tail      time.Duration `json:"tail,omitempty"`
	Known     bool          `json:"known,omitempty"`
	TailKnown bool          `json:"tail_known,omitempty"`
	// Of Shares: the share that met, with its 95 % band.
	Share float64 `json:"share,omitempty"`
	Low   float64 `json:"low,omitempty"`
	High  float64 `json:"high,omitempty"`
	// Of Sums: the amount in all.
	Sum float64 `json:"sum,omitempty"`
}

// Figure returns what all cases come to.
func (m Measure) Figure() Figure { return m.figure(m.Cases) }

func (m Measure) figure(cases []Case) Figure {
	f := Figure{N: len(cases), Few: len(cases) < few}
	var stays []outlook.Stay
	met := 0
	for _, c := range cases {
		if c.Open {
			f.Open++
		}
		if c.Met {
			met++
		}
		f.Sum += c.Amount
		stays = append(stays, outlook.Stay{Length: outlook.Days(c.Took.Hours() / 24), Ended: !c.Open})
	}
	switch m.Sort {
	case Lasts:
		curve := outlook.Estimate(stays)
		f.Middle, f.Known = length(curve, 0.5)
		tail := 0.9
		if m.Least {
			tail = 0.1
		}
		f.Tail, f.TailKnown = length(curve, tail)
	case Shares:
		decided := f.N - f.Open
		if decided > 0 {
			f.Share = float64(met) / float64(decided)
		}
		f.Low, f.High = Wilson(met, decided)
	}
	return f
}

func length(c outlook.Curve, share float64) (time.Duration, bool) {
	days, known := c.Quantile(share)
	return time.Duration(float64(days) * 24 * float64(time.Hour)).Round(time.Minute), known
}

// Wilson returns the 95 % interval of a share that was met so many times of n:
// the score interval without continuity correction. Source: Wilson, Journal of
// the American Statistical Association 22, 1927. Of nothing it is everything.
func Wilson(met, n int) (low, high float64) {
	if n == 0 {
		return 0, 1
	}
	const z = 1.959964
	p, size := float64(met)/float64(n), float64(n)
	middle := p + z*z/(2*size)
	width := z * math.Sqrt(p*(1-p)/size+z*z/(4*size*size))
	return max(0, (middle-width)/(1+z*z/size)), min(1, (middle+width)/(1+z*z/size))
}

// Month is what the cases of one month come to.
type Month struct {
	Month time.Time `json:"month"` // its first day
	Figure
}

// Months returns the figures month by month up to now, without gaps.
func (m Measure) Months(now time.Time) []Month {
	if len(m.Cases) == 0 {
		return nil
	}
	first := monthOf(slices.MinFunc(m.Cases, func(a, b Case) int { return a.At.Compare(b.At) }).At, now)
	var months []Month
	for month := first; !month.After(now); month = month.AddDate(0, 1, 0) {
		var cases []Case
		for _, c := range m.Cases {
			if monthOf(c.At, now).Equal(month) {
				cases = append(cases, c)
			}
		}
		months = append(months, Month{month, m.figure(cases)})
	}
	return months
}

func monthOf(t, now time.Time) time.Time {
	t = t.In(now.Location())
	return time.Date(t.Year(), t.Month(), 1, 0, 0, 0, 0, now.Location())
}

// Part is the cases that share a why.
type Part struct {
	Why string `json:"why"`
	Figure
}

// Parts splits a measure by its whys, the most cases first.
func (m Measure) Parts() []Part {
	by := make(map[string][]Case)
	for _, c := range m.Cases {
		by[c.Why] = append(by[c.Why], c)
	}
	parts := make([]Part, 0, len(by))
	for why, cases := range by {
		parts = append(parts, Part{why, m.figure(cases)})
	}
	slices.SortFunc(parts, func(a, b Part) int {
		if a.N != b.N {
			return b.N - a.N
		}
		if a.Why < b.Why {
			return -1
		}
		return 1
	})
	return parts
}
