package measures

import (
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/stocking"
	"lungwort/inventory"
)

// Episode is one time a person was at home on oxygen with our kit. A zero time
// has not come.
type Episode struct {
	Person   inventory.PersonID
	First    time.Time // the first order for it
	Complete time.Time // the last order before the valve was opened
	Opened   time.Time // the valve, on the ward
	Running  time.Time // the concentrator was confirmed
	Tried    time.Time // the first call
	Reached  time.Time // the first call that was answered
	Ended    time.Time
	Exit     string // why it ended

	Margin    time.Duration // planning cover left when the concentrator was confirmed
	MarginSet bool          // its gauge was read then
	Without   []Lack        // times without oxygen, or on less to save it
	Consents  bool          // each question of consent was answered
	Read      bool          // a gauge was read at the hand-over
	Lent      []inventory.ItemID
	Proven    map[inventory.ItemID]bool
}

// Lack is evidence that a person was without oxygen.
type Lack struct {
	At  time.Time
	Why string
}

// The evidence of being without oxygen.
const (
	gaugeAtZero = "gauge at zero while on the cylinder"
	savingGas   = "turned down to save gas"
)

// Reasons that nobody enters as a reason.
const (
	noReason = "no reason given"
	died     = "died"
)

// Episodes returns the times a person was on oxygen, oldest first, from the
// person's facts and those of every thing the person had.
func Episodes(id inventory.PersonID, facts []inventory.Fact, p delivery.Programme) []Episode {
	var all []Episode
	var first, complete time.Time
	consents := false
	standing := inventory.Standing(facts)
	for n, f := range standing {
		if f.Person != id {
			continue
		}
		switch s := f.Statement.(type) {
		case *delivery.Ordered:
			complete = f.Happened
			if first.IsZero() {
				first = f.Happened
			}
		case *delivery.Consented:
			consents = true
		case *delivery.Discharged:
			all = append(all, Episode{
				Person: id, First: first, Complete: complete, Opened: s.Opened, Consents: consents, Proven: make(map[inventory.ItemID]bool),
			})
			first, complete = time.Time{}, time.Time{}
		}
		if len(all) > 0 {
			all[len(all)-1].note(f)
			if s, is := f.Statement.(*delivery.Switched); is && s.To == delivery.FromConcentrator {
				all[len(all)-1].run(id, standing[:n+1], p)
			}
		}
	}
	lacks(id, standing, all)
	return all
}

// note takes up one fact about the person within the episode.
func (e *Episode) note(f inventory.Fact) {
	switch s := f.Statement.(type) {
	case *delivery.Consented:
		e.Consents = true
	case *delivery.Called:
		if e.Tried.IsZero() {
			e.Tried = f.Happened
		}
		if s.Answered && e.Reached.IsZero() {
			e.Reached = f.Happened
		}
		if s.Saving || s.Found == delivery.FoundSaving {
			e.Without = append(e.Without, Lack{f.Happened, savingGas})
		}
	case *delivery.Proven:
		for _, item := range s.Items {
			e.Proven[item] = true
		}
	case *inventory.Lent:
		e.Lent = append(e.Lent, f.Item)
	case *delivery.Stopped:
		e.end(f.Happened, s.Reason)
	case *delivery.Died:
		e.end(f.Happened, died)
	}
}

func (e *Episode) end(at time.Time, why string) {
	if !e.Ended.IsZero() && why != died {
		return
	}
	if why == "" {
		why = noReason
	}
	e.Ended, e.Exit = at, why
}

// run notes the first time the concentrator was confirmed, and what was left
// in the cylinder then.
func (e *Episode) run(id inventory.PersonID, until []inventory.Fact, p delivery.Programme) {
	if !e.Running.IsZero() {
		return
	}
	at := until[len(until)-1].Happened
	e.Running = at
	care := delivery.FoldCare(id, until)
	care.Kit = slices.DeleteFunc(care.Kit, func(h delivery.Holding) bool { return !h.Since.Before(at) }) // came with the concentrator
	for _, h := range care.Kit {
		if h.Spec.Kind == inventory.Cylinder && h.Gauge != nil && at.Sub(h.Gauge.At).Abs() <= time.Hour {
			e.Margin, e.MarginSet = care.Cover(p)
			return
		}
	}
}

// nth returns which of a person's times at home a loan belongs to, or -1.
func nth(episodes []Episode, c stocking.Cycle) int {
	for n := len(episodes) - 1; n >= 0; n-- {
		if !c.Lent.Before(episodes[n].Opened.Add(-24 * time.Hour)) {
			return n
		}
	}
	return -1
}
