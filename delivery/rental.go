package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// Rented cylinders are owed by count to their owner; owned ones are known by
// serial. Both ledgers come from the same facts.

// Possession is a time one rented cylinder was with us: from the proof of its
// delivery to the proof of its return.
type Possession struct {
	From  time.Time `json:"from"`
	Until time.Time `json:"until,omitzero"` // zero: it is with us
}

// Days returns on how many days of a period the cylinder was with us. The day it
// came counts, the day it went back does not.
func (p Possession) Days(from, until time.Time) int {
	begin, end := later(p.From, from), until
	if !p.Until.IsZero() && p.Until.Before(until) {
		end = p.Until
	}
	return max(0, int(midnight(end).Sub(midnight(begin)).Hours()+12)/24)
}

// midnight returns the start of the day of t, on the clock of t.
func midnight(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, t.Location())
}

// Possessions returns when a thing was with us, by the facts about it: from when
// it came into the book, or back from a plant, until it went to one. What is
// missing or retired is still owed.
func Possessions(facts []inventory.Fact) []Possession {
	var all []Possession
	away := true
	for _, f := range inventory.Standing(facts) {
		move, moved := f.Statement.(*inventory.Moved)
		switch {
		case moved && move.To.Kind() == inventory.AtPlant:
			if !away {
				all[len(all)-1].Until = f.Happened
			}
			away = true
		case away && (moved || len(all) == 0):
			all = append(all, Possession{From: f.Happened})
			away = false
		}
	}
	return all
}

// Rental is one rented cylinder with its times and its last evidence.
type Rental struct {
	Item  inventory.Item
	Times []Possession
	Last  inventory.Fact // the last fact about it
}

// With reports whether the cylinder was with us at t.
func (r Rental) With(t time.Time) bool {
	return slices.ContainsFunc(r.Times, func(p Possession) bool {
		return !t.Before(p.From) && (p.Until.IsZero() || t.Before(p.Until))
	})
}

// left returns when the cylinder went back last before t; zero for never.
func (r Rental) left(t time.Time) time.Time {
	var last time.Time
	for _, p := range r.Times {
		if !p.Until.IsZero() && !p.Until.After(t) {
			last = p.Until
		}
	}
	return last
}

// Evidence says where the cylinder was last known to be, and whom to ask.
func (r Rental) Evidence(now time.Time) string {
	ask := "ask the warehouse"
	switch {
	case r.Item.Place.Kind() == inventory.AtPlant:
		ask = "ask " + r.Item.Place.InWords() + " for its slip"
	case r.Item.Lent():
		ask = "it is in a home"
	case r.Item.State == inventory.WithDriver:
		ask = "ask the driver"
	}
	return fmt.Sprintf("%s %s by %s; %s", Clock(r.Last.Happened, now), Sentence(r.Last), r.Last.By, ask)
}

// RentalLine is what is owed to one owner for one size in a period.
type RentalLine struct {
	Owner string       `json:"owner"`
	Size  gas.SizeCode `json:"size"`
	Count int          `json:"count"` // with us at the end of the period
	Days  int          `json:"days"`  // cylinder days in the period
}

// RentalLines returns what is owed by owner and size.
func RentalLines(all []Rental, from, until time.Time) []RentalLine {
	var lines []RentalLine
	for _, r := range all {
		owner, size := r.Item.Spec.Owner, r.Item.Spec.Size
		i := slices.IndexFunc(lines, func(l RentalLine) bool { return l.Owner == owner && l.Size == size })
		if i < 0 {
			lines, i = append(lines, RentalLine{Owner: owner, Size: size}), len(lines)
		}
		if r.With(until) {
			lines[i].Count++
		}
		for _, p := range r.Times {
			lines[i].Days += p.Days(from, until)
		}
	}
	slices.SortFunc(lines, func(a, b RentalLine) int { return cmp.Or(cmp.Compare(a.Owner, b.Owner), cmp.Compare(a.Size, b.Size)) })
	return lines
}

// Difference is what an owner's invoice and the book do not agree on.
type Difference struct {
	Ours   int      `json:"ours"`
	Theirs int      `json:"theirs"`
	Lines  []string `json:"lines"` // a serial each, with its last evidence and whom to ask
}

// CheckInvoice compares what an owner bills at a time with what was with us then.
// With the serials of the invoice the difference is named exactly; by count alone
// the ones that went back last are named, for a slip not yet booked is the
// likeliest cause.
func CheckInvoice(all []Rental, theirs int, serials []string, at time.Time) Difference {
	d := Difference{Theirs: theirs, Lines: []string{}}
	billed := make(map[string]bool, len(serials))
	for _, s := range serials {
		billed[inventory.SerialKey(s)] = true
	}
	known := make(map[string]bool, len(all))
	var gone []Rental
	for _, r := range all {
		key := inventory.SerialKey(r.Item.Spec.Serial)
		known[key] = true
		with := r.With(at)
		if with {
			d.Ours++
		} else if !r.left(at).IsZero() {
			gone = append(gone, r)
		}
		switch {
		case len(serials) == 0:
		case billed[key] && !with:
			d.Lines = append(d.Lines, fmt.Sprintf("%s is billed and not with us: %s", r.Item.Label(), r.Evidence(at)))
		case !billed[key] && with:
			d.Lines = append(d.Lines, fmt.Sprintf("%s is with us and not billed: %s", r.Item.Label(), r.Evidence(at)))
		}
	}
	for _, s := range serials {
		if !known[inventory.SerialKey(s)] {
			d.Lines = append(d.Lines, s+" is billed and not in the book: ask the owner for its proof of delivery")
		}
	}
	if len(serials) > 0 {
		return d
	}
	slices.SortFunc(gone, func(a, b Rental) int { return b.left(at).Compare(a.left(at)) })
	for _, r := range gone[:min(len(gone), max(0, theirs-d.Ours))] {
		d.Lines = append(d.Lines, fmt.Sprintf("%s went back %s: %s", r.Item.Label(), Clock(r.left(at), at), r.Evidence(at)))
	}
	return d
}
