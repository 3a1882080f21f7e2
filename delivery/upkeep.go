package delivery

import (
	"fmt"
	"strings"
	"time"

	"lungwort/inventory"
)

// UpkeepRule is one piece of maintenance the programme wants done by hours or by
// date, whichever comes first. The maker's manual says how often.
type UpkeepRule struct {
	Kind  inventory.Kind `json:"kind"`
	Model string         `json:"model,omitempty"` // empty: every model
	What  string         `json:"what"`
	Hours float64        `json:"hours,omitempty"` // of the meter, between two; zero: not by hours
	Days  int            `json:"days,omitempty"`  // between two; zero: not by date
}

// UpkeepDue is a piece of maintenance that is due.
type UpkeepDue struct {
	What string
	Says string
}

// DueUpkeep returns what maintenance of a thing is due at a time. What was never
// recorded counts from when the thing came into the book, by hours from zero.
func (p Programme) DueUpkeep(item inventory.Item, now time.Time) []UpkeepDue {
	var due []UpkeepDue
	for _, r := range p.Upkeep {
		if !r.covers(item.Spec) {
			continue
		}
		kept, done := item.Upkeep[r.What]
		if !done {
			kept.At = item.Entered
		}
		if says := r.due(item, kept, now); says != "" {
			due = append(due, UpkeepDue{r.What, r.What + ": " + says})
		}
	}
	return due
}

func (r UpkeepRule) covers(s inventory.Spec) bool {
	return s.Kind == r.Kind && !s.Foreign && (r.Model == "" || inventory.SerialKey(r.Model) == inventory.SerialKey(s.Model))
}

// due says by how much the maintenance is over; empty while it is not.
func (r UpkeepRule) due(item inventory.Item, kept inventory.Kept, now time.Time) string {
	if r.Hours > 0 && item.Hours != nil {
		since := item.Hours.Value - kept.Hours
		if kept.Hours > item.Hours.Value { // the meter counts anew
			since = item.Hours.Value
		}
		if since >= r.Hours {
			return fmt.Sprintf("%.0f h since the last, due every %.0f h", since, r.Hours)
		}
	}
	if by := kept.At.AddDate(0, 0, r.Days); r.Days > 0 && !now.Before(by) {
		return fmt.Sprintf("due since %s, every %d days", by.In(now.Location()).Format("Mon 2 Jan 2006"), r.Days)
	}
	return ""
}

// NextUpkeep is the next maintenance of a sort, by date, by hours on the meter
// or by whichever comes first.
type NextUpkeep struct {
	What  string
	On    time.Time // zero: not by date
	Hours float64   // zero: not by hours
}

// NextUpkeep returns the maintenance a thing is due for next.
func (p Programme) NextUpkeep(item inventory.Item) []NextUpkeep {
	var all []NextUpkeep
	for _, r := range p.Upkeep {
		if !r.covers(item.Spec) {
			continue
		}
		kept, done := item.Upkeep[r.What]
		if !done {
			kept.At = item.Entered
		}
		next := NextUpkeep{What: r.What}
		if r.Days > 0 && !kept.At.IsZero() {
			next.On = kept.At.AddDate(0, 0, r.Days)
		}
		if r.Hours > 0 {
			next.Hours = kept.Hours + r.Hours
		}
		all = append(all, next)
	}
	return all
}

// UpkeepFalls returns when the next maintenance of a thing on the shelf is due,
// where its meter stands still: now, where it is over already; false where none
// comes by date.
func (p Programme) UpkeepFalls(item inventory.Item, now time.Time) (time.Time, bool) {
	if len(p.DueUpkeep(item, now)) > 0 {
		return now, true
	}
	var next time.Time
	for _, r := range p.Upkeep {
		if r.Days == 0 || !r.covers(item.Spec) {
			continue
		}
		kept, done := item.Upkeep[r.What]
		if !done {
			kept.At = item.Entered
		}
		if due := kept.At.AddDate(0, 0, r.Days); next.IsZero() || due.Before(next) {
			next = due
		}
	}
	return next, !next.IsZero()
}

// upkeepInWords lists what is due.
func upkeepInWords(due []UpkeepDue) string {
	words := make([]string, len(due))
	for i, d := range due {
		words[i] = d.Says
	}
	return strings.Join(words, "; ")
}
