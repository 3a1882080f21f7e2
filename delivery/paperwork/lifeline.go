package paperwork

import (
	"fmt"
	"slices"
	"time"

	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/labels/scene"
)

// LifeLine returns the picture of an item's life: a dot for each fact, in
// order of happening, and the times it spent with somebody. Facts that happen
// at one time share a dot.
func LifeLine(page store.ItemPage, now time.Time) scene.LifeData {
	life := scene.LifeData{Now: now}
	corrected := inventory.Corrections(page.Facts)
	for _, f := range inventory.InOrder(page.Facts) {
		if _, bare := f.Statement.(*inventory.Retracted); bare {
			continue
		}
		e := scene.LifeEvent{
			At: f.Happened, Place: placeAfter(f.Statement), Says: lifeWords(f.Statement), Key: factKey(f.ID),
		}
		_, e.Replaced = corrected[f.ID]
		if e.Replaced {
			e.Place = ""
		}
		life.Events = joined(life.Events, e)
	}
	life.Persons = stays(page)
	return life
}

// joined adds an event, into the one before when both happened at one time.
func joined(events []scene.LifeEvent, e scene.LifeEvent) []scene.LifeEvent {
	n := len(events)
	if n == 0 || !events[n-1].At.Equal(e.At) || events[n-1].Replaced != e.Replaced {
		return append(events, e)
	}
	last := &events[n-1]
	if e.Place != "" {
		last.Place = e.Place
	}
	switch {
	case last.Says == "":
		last.Says, last.Key = e.Says, e.Key
	case e.Says != "":
		last.Says += ", " + e.Says
	}
	return events
}

// placeAfter returns where an item is after a fact; empty when it did not
// move. It names no home.
func placeAfter(states inventory.Statement) string {
	switch s := states.(type) {
	case *inventory.Moved:
		return s.To.InWords()
	case *inventory.Lent:
		return s.At.InWords()
	case *inventory.Collected:
		return s.Vehicle
	case *inventory.Returned:
		return "dirty bay"
	case *inventory.Benched:
		return "bench"
	case *inventory.Cleared:
		return "ready"
	case *inventory.Quarantined:
		return "quarantine"
	}
	return ""
}

// lifeWords are the few words under a dot, shorter than a sentence: the place
// over the dot says the rest.
func lifeWords(states inventory.Statement) string {
	switch s := states.(type) {
	case *inventory.Enrolled:
		return "new"
	case *inventory.Observed:
		return seenWords(*s)
	case *inventory.Filled:
		return "fill " + s.Lot
	case *inventory.Tested:
		if s.Passed {
			return "passed"
		}
		return "failed"
	case *inventory.Lent:
		return string(s.Role)
	case *inventory.Serving:
		return string(s.As)
	case *inventory.Recalled:
		return "recall " + s.Notice
	case *inventory.Reserved:
		return "set aside"
	}
	return ""
}

func seenWords(s inventory.Observed) string {
	switch {
	case s.Gauge != nil:
		return s.Gauge.String()
	case s.Oxygen != nil:
		return fmt.Sprintf("%.1f %%", *s.Oxygen)
	case s.Hours != nil:
		return fmt.Sprintf("%.0f h", *s.Hours)
	}
	return ""
}

// stays returns the times an item spent with somebody, as far as the facts
// that stand tell.
func stays(page store.ItemPage) []scene.LifePerson {
	var list []scene.LifePerson
	end := func(at time.Time) {
		if n := len(list); n > 0 && list[n-1].To.IsZero() {
			list[n-1].To = at
		}
	}
	for _, f := range inventory.Standing(page.Facts) {
		switch f.Statement.(type) {
		case *inventory.Lent:
			end(f.Happened)
			list = append(list, scene.LifePerson{From: f.Happened, Name: page.Names[f.Person]})
		case *inventory.Collected, *inventory.Returned, *inventory.Cleared, *inventory.Moved:
			end(f.Happened)
		}
	}
	return slices.Clip(list)
}
