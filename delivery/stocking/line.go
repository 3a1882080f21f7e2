package stocking

import (
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/outlook"
)

// Days is how far the outlook looks ahead.
const Days = 14

// learnt is how far back hand-overs are looked at for their rhythm. Common
// practice, no source.
const learnt = 8 * 7 * 24 * time.Hour

// WhatIf is what the outlook supposes beside what is usual.
type WhatIf struct {
	Surge    float64 // hand-overs are so many times the usual for the two weeks; zero: the usual
	Strike   bool    // the filling plants give nothing for the two weeks
	Recalled string  // every thing of this model is out of use at once
}

// Line is the outlook of one shelf.
type Line struct {
	What    string         `json:"what"`
	Kind    inventory.Kind `json:"kind"`
	Size    gas.SizeCode   `json:"size,omitempty"`
	Ready   int            `json:"ready"`
	Needed  int            `json:"needed"` // with a person who needs it, or set aside
	Idle    int            `json:"idle"`   // in homes, not needed there
	Coming  int            `json:"coming"` // collected, on the bench, at the plant
	Kept    map[string]int `json:"kept,omitempty"`
	Weekly  float64        `json:"weekly"` // hand-overs of a usual week
	Trend   [3]float64     `json:"trend"`  // of a week, as a factor: middle, and its 95 % band
	Target  int            `json:"target"` // pieces owned that meet the demand at the service level
	Days    []outlook.Day  `json:"days"`
	Ways    []Way          `json:"ways,omitempty"`
	Lasting []Lasting      `json:"lasting"`
	Splits  []Split        `json:"splits"` // the days on oxygen by flow, ward and kit
	// Upkeep are the ready things that maintenance takes from the shelf within
	// the days, and for as long as the bench takes.
	Upkeep  int      `json:"upkeep,omitempty"`
	Assumed []string `json:"assumed,omitempty"`
}

// Lasting is how long one stage of a loan lasts.
type Lasting struct {
	Stage  Stage         `json:"stage"`
	Curve  outlook.Curve `json:"-"`
	Median outlook.Days  `json:"median,omitempty"` // zero: not known yet
	Mean   outlook.Days  `json:"mean"`             // up to the longest seen
	Loans  int           `json:"loans"`
	Open   int           `json:"open"` // of those, still in it: counted as longer
}

// Worst returns the day with the highest chance of running short.
func (l Line) Worst() outlook.Day {
	return slices.MaxFunc(l.Days, func(a, b outlook.Day) int {
		switch {
		case a.Short < b.Short:
			return -1
		case a.Short > b.Short:
			return 1
		}
		return 0
	})
}

// Short reports whether the line is likelier to run short on some day than
// the programme accepts.
func (l Line) Short(p delivery.Programme) bool { return l.Worst().Short > p.Shortage }

// Outlook is what the outlook rests on.
type Outlook struct {
	Programme delivery.Programme
	Shelves   []Shelf
	Homes     Homes
	Hidden    []delivery.Hidden // what is not needed in homes, nearest first
	Now       time.Time
}

// Lines returns the outlook of every shelf, the most likely to run short
// first.
func (o Outlook) Lines(w WhatIf) []Line {
	lines := make([]Line, 0, len(o.Shelves))
	for _, s := range o.Shelves {
		lines = append(lines, o.line(s, w))
	}
	slices.SortStableFunc(lines, func(a, b Line) int {
		switch x, y := a.Worst().Short, b.Worst().Short; {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	return lines
}

func (o Outlook) line(s Shelf, w WhatIf) Line {
	until, guessed := s.untilReady(o.Now)
	coming, kept := s.away(o.Now, Days)
	l := Line{What: s.What, Kind: s.Kind, Size: s.Size, Kept: kept}
	stock := outlook.Stock{Each: 1, Cycle: until[Oxygen]}
	counted := make([]out, 0, len(coming))
	for _, c := range coming {
		l.count(c)
		if !comes(c, w) {
			continue
		}
		counted = append(counted, c)
		stock.Away = append(stock.Away, outlook.Away{
			Age: max(0, outlook.Days(o.Now.Sub(c.since).Hours()/24)), Until: until[c.stage],
		})
	}
	for _, item := range s.Items {
		if item.State == inventory.Ready && item.Recall == "" {
			l.Ready++
		}
	}
	stock.Ready = l.Ready
	l.Upkeep = o.upkeep(s, &stock)
	o.recall(s, w, &stock)
	rhythm := o.rhythm(s)
	h := outlook.Horizon{Now: o.Now, Days: Days, Limit: o.Programme.Shortage, Demand: rhythm.Demand(o.Now)}
	l.Weekly, _ = h.Demand(o.Now, o.Now.AddDate(0, 0, 7))
	if w.Surge > 0 {
		h.Demand = h.Demand.Surge(w.Surge, o.Now, o.Now.AddDate(0, 0, Days))
	}
	l.Trend[0], l.Trend[1], l.Trend[2] = rhythm.Trend()
	l.Days = stock.Project(h)
	l.Target = outlook.Level(l.Weekly/7*float64(until[Oxygen].Mean(until[Oxygen].Last)), 1-o.Programme.Shortage)
	l.Ways = o.ways(s, stock, counted, h, l, w)
	for _, stage := range Stages {
		l.Lasting = append(l.Lasting, lasting(stage, s.Lasting(stage, o.Now)))
	}
	l.Splits = o.Splits(s.Cycles)
	l.Assumed = assumptions(guessed, o.Now.Sub(o.seen()))
	return l
}

func (l *Line) count(c out) {
	switch c.stage {
	case Idle:
		l.Idle++
	case Turnaround:
		l.Coming++
	default:
		l.Needed++
	}
}

// comes reports whether a thing comes back in spite of what is supposed.
// While the plants strike, a cylinder that was not filled yet does not.
func comes(c out, w WhatIf) bool {
	if w.Recalled != "" && c.item.Spec.Model == w.Recalled {
		return false
	}
	filled := c.stage == Turnaround && c.item.State == inventory.OnBench
	return !w.Strike || c.item.Spec.Kind != inventory.Cylinder || filled
}

// recall takes what is of a recalled model from the stock: the ready ones, and
// one more for each that has to be replaced in a home.
func (o Outlook) recall(s Shelf, w WhatIf, stock *outlook.Stock) {
	if w.Recalled == "" {
		return
	}
	gone := 0
	for _, item := range s.Items {
		if item.Spec.Model == w.Recalled && item.Recall == "" && (item.State == inventory.Ready || item.Lent() && item.State != inventory.Idle) {
			gone++
		}
	}
	stock.Changes = append(stock.Changes, outlook.Change{On: o.Now, Units: -gone})
}

// upkeep takes ready things from the stock on the day maintenance of them is
// due, and gives them back when the bench is likely to be done. It returns how
// many. What is out waits for its maintenance on the bench: that is in how long
// things take until they are ready.
func (o Outlook) upkeep(s Shelf, stock *outlook.Stock) int {
	n := 0
	for _, item := range s.Items {
		if item.State != inventory.Ready || item.Recall != "" {
			continue
		}
		due, is := o.Programme.UpkeepFalls(item, o.Now)
		if is && due.Before(o.Now.AddDate(0, 0, Days)) {
			n++
			stock.Changes = append(stock.Changes, outlook.Change{On: due, Units: -1}, outlook.Change{On: due.Add(o.Programme.Lead.Bench), Units: 1})
		}
	}
	return n
}

// rhythm learns how many are handed over from the loans of a shelf.
func (o Outlook) rhythm(s Shelf) outlook.Rhythm {
	seen := make([]time.Time, len(s.Cycles))
	for i, c := range s.Cycles {
		seen[i] = c.Lent
	}
	return outlook.Learn(seen, o.seen(), o.Now)
}

// seen returns since when hand-overs are looked at: since the first of any
// kind, but not further back than their rhythm is likely to hold.
func (o Outlook) seen() time.Time {
	first := o.Now
	for _, s := range o.Shelves {
		for _, c := range s.Cycles {
			if c.Lent.Before(first) {
				first = c.Lent
			}
		}
	}
	if earliest := o.Now.Add(-learnt); first.Before(earliest) {
		return earliest
	}
	return first
}

func lasting(stage Stage, c outlook.Curve) Lasting {
	l := Lasting{Stage: stage, Curve: c, Mean: c.Mean(c.Last), Loans: c.Stays, Open: c.Stays - c.Ended}
	l.Median, _ = c.Quantile(0.5)
	return l
}
