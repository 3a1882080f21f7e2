package stocking

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/outlook"
)

// Home is what was known of a person as a time at home began.
type Home struct {
	From time.Time
	Ward string
	Flow gas.Flow // the highest ordered; zero: not known
}

// Homes are the times at home of each person, oldest first.
type Homes map[inventory.PersonID][]Home

// at returns the time at home a loan belongs to.
func (h Homes) at(who inventory.PersonID, lent time.Time) Home {
	var home Home
	for _, one := range h[who] {
		if one.From.After(lent) {
			break
		}
		home = one
	}
	return home
}

// Split is how long people needed what they were lent, of the loans that have
// something in common.
type Split struct {
	By     string       `json:"by"` // "flow", "ward" or "kit"
	Of     string       `json:"of"`
	Loans  int          `json:"loans"`
	Open   int          `json:"open"`             // of those, still needed: counted as longer
	Median outlook.Days `json:"median,omitempty"` // zero: not known yet
	// Past is the share still needed after two weeks, with its 95 % band by
	// Greenwood's error; of no use while nothing has ended.
	Past     float64 `json:"past"`
	PastLow  float64 `json:"past_low"`
	PastHigh float64 `json:"past_high"`
}

// Says tells a split in one line.
func (s Split) Says() string {
	half := "half have not ended"
	if s.Median > 0 {
		half = "half within " + InDays(s.Median)
	}
	says := fmt.Sprintf("%s: %s", s.Of, half)
	if s.Open < s.Loans {
		says += fmt.Sprintf(", %.0f %% past %d days (%.0f to %.0f %%)", 100*s.Past, Days, 100*s.PastLow, 100*s.PastHigh)
	}
	return fmt.Sprintf("%s, %d loans, %d open", says, s.Loans, s.Open)
}

// InDays writes a length: short ones in hours.
func InDays(d outlook.Days) string {
	if d < 2 {
		return delivery.Spell(time.Duration(float64(d) * 24 * float64(time.Hour)))
	}
	return fmt.Sprintf("%.0f days", d)
}

// unknown is the group of loans of which nothing is known.
const unknown = "not known"

// Splits returns the days on oxygen of loans by ordered flow, by ward and by
// kit, the largest group of each first.
func (o Outlook) Splits(cycles []Cycle) []Split {
	kits := o.kits()
	var all []Split
	for _, by := range []struct {
		name string
		of   func(Cycle) string
	}{
		{"flow", func(c Cycle) string { return flowBand(o.Homes.at(c.Person, c.Lent).Flow) }},
		{"ward", func(c Cycle) string { return cmp.Or(o.Homes.at(c.Person, c.Lent).Ward, unknown) }},
		{"kit", func(c Cycle) string { return kits[stayOf{c.Person, o.Homes.at(c.Person, c.Lent).From}] }},
	} {
		groups := make(map[string][]outlook.Stay)
		for _, c := range cycles {
			if stay, was := c.Stay(Oxygen, o.Now); was {
				groups[by.of(c)] = append(groups[by.of(c)], stay)
			}
		}
		var splits []Split
		for of, stays := range groups {
			splits = append(splits, split(by.name, of, outlook.Estimate(stays)))
		}
		slices.SortFunc(splits, func(a, b Split) int { return cmp.Or(cmp.Compare(b.Loans, a.Loans), cmp.Compare(a.Of, b.Of)) })
		all = append(all, splits...)
	}
	return all
}

func split(by, of string, c outlook.Curve) Split {
	s := Split{By: by, Of: of, Loans: c.Stays, Open: c.Stays - c.Ended, Past: c.Beyond(Days)}
	s.Median, _ = c.Quantile(0.5)
	s.PastLow, s.PastHigh = c.Band(Days)
	return s
}

// flowBand is the band of an ordered flow. Where the bands part is common
// practice, no source; 4 L/min is also where the clinician's own check-in
// bands begin.
func flowBand(f gas.Flow) string {
	switch {
	case f <= 0:
		return unknown
	case f <= 2:
		return "to 2 L/min"
	case f < 4:
		return "over 2, under 4 L/min"
	}
	return "4 L/min or more"
}

// stayOf is one time at home of one person.
type stayOf struct {
	person inventory.PersonID
	from   time.Time
}

// kits names what each person breathed from in each time at home, by the
// things lent.
func (o Outlook) kits() map[stayOf]string {
	machine, cylinder := make(map[stayOf]bool), make(map[stayOf]bool)
	names := make(map[stayOf]string)
	for _, s := range o.Shelves {
		for _, c := range s.Cycles {
			at := stayOf{c.Person, o.Homes.at(c.Person, c.Lent).From}
			machine[at] = machine[at] || s.Kind == inventory.Concentrator
			cylinder[at] = cylinder[at] || s.Kind == inventory.Cylinder
			switch {
			case machine[at] && cylinder[at]:
				names[at] = "concentrator and cylinder"
			case machine[at]:
				names[at] = "concentrator alone"
			case cylinder[at]:
				names[at] = "cylinder alone"
			default:
				names[at] = "neither"
			}
		}
	}
	return names
}

// Loans are the loans of every shelf.
func (o Outlook) Loans() []Cycle {
	var all []Cycle
	for _, s := range o.Shelves {
		all = append(all, s.Cycles...)
	}
	return all
}
