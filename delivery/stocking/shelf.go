package stocking

import (
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/outlook"
	"lungwort/inventory/requal"
)

// Shelf is one kind and size of thing as the book tells it: every thing of it
// that is not another supplier's, and all its loans. What nobody has said the kind of
// is on no shelf.
type Shelf struct {
	What   string // "oxygen cylinder US-E"
	Kind   inventory.Kind
	Size   gas.SizeCode
	Items  []inventory.Item
	Cycles []Cycle
}

// Shelves sorts things and their loans by kind and size, in the order in which
// the things come.
func Shelves(items []inventory.Item, cycles map[inventory.ItemID][]Cycle) []Shelf {
	var shelves []Shelf
	at := make(map[string]int)
	for _, item := range items {
		if item.Spec.Foreign || item.Spec.Kind == "" || item.State == inventory.NotOurs {
			continue
		}
		what := item.Spec.What()
		i, known := at[what]
		if !known {
			i = len(shelves)
			at[what] = i
			shelves = append(shelves, Shelf{What: what, Kind: item.Spec.Kind, Size: item.Spec.Size})
		}
		shelves[i].Items = append(shelves[i].Items, item)
		shelves[i].Cycles = append(shelves[i].Cycles, cycles[item.ID]...)
	}
	return shelves
}

// enough is how many stays must have ended before they are believed.
// Common practice, no source.
const enough = 8

// assumed are the stays until ready that are taken while too few have ended:
// log-normal, the days on oxygen by the published lengths (medians of 6 to 13
// days in the cohorts of J Clin Med 2022, Pediatrics 2014 and BMC Infect Dis
// 2023), the others common practice, no source.
var assumed = map[Stage]outlook.Curve{
	Waiting:    outlook.Published(15, 0.6),
	Oxygen:     outlook.Published(14, 0.6),
	Idle:       outlook.Published(5, 0.8),
	Turnaround: outlook.Published(2, 0.8),
}

// untilReady returns how long it takes from the begin of each stage until a
// thing is ready again, and which stages are only assumed.
func (s Shelf) untilReady(now time.Time) (map[Stage]outlook.Curve, []Stage) {
	curves := make(map[Stage]outlook.Curve)
	var guessed []Stage
	for _, stage := range Stages {
		var stays []outlook.Stay
		for _, c := range s.Cycles {
			if stay, was := c.UntilReady(stage, now); was {
				stays = append(stays, stay)
			}
		}
		curves[stage] = outlook.Estimate(stays)
		if curves[stage].Ended < enough {
			curves[stage] = assumed[stage]
			guessed = append(guessed, stage)
		}
	}
	return curves, guessed
}

// Lasting returns how long the loans were in a stage.
func (s Shelf) Lasting(stage Stage, now time.Time) outlook.Curve {
	var stays []outlook.Stay
	for _, c := range s.Cycles {
		if stay, was := c.Stay(stage, now); was {
			stays = append(stays, stay)
		}
	}
	return outlook.Estimate(stays)
}

// out is one thing that is not ready and will be.
type out struct {
	item  inventory.Item
	stage Stage
	since time.Time
}

// away returns what is not ready and will be, and what nobody can count on,
// by why.
func (s Shelf) away(now time.Time, days int) (coming []out, kept map[string]int) {
	last := make(map[inventory.ItemID]Cycle)
	for _, c := range s.Cycles {
		last[c.Item] = c
	}
	kept = make(map[string]int)
	for _, item := range s.Items {
		if item.State == inventory.Ready && item.Recall == "" {
			continue
		}
		if why := notCounted(item, now.AddDate(0, 0, days)); why != "" {
			kept[why]++
			continue
		}
		o := out{item: item, stage: Turnaround, since: item.Since}
		switch stage, since, open := last[item.ID].Stage(); {
		case item.State == inventory.Held:
			o.stage = Waiting
		case open && !since.IsZero():
			o.stage, o.since = stage, since
		}
		coming = append(coming, o)
	}
	return coming, kept
}

// notCounted says why a thing is not counted on before an end; empty when it
// is.
func notCounted(item inventory.Item, end time.Time) string {
	switch {
	case item.State == inventory.Gone:
		return "retired"
	case item.State == inventory.Missing:
		return "missing"
	case item.Recall != "":
		return "recalled"
	case item.State == inventory.InRepair:
		return "in repair"
	case item.State == inventory.InQuarantine:
		return "in quarantine"
	}
	if due, known := requal.ParseMonth(item.Spec.Requal); known && item.Spec.Kind == inventory.Cylinder {
		if fill, _ := requal.MayFill(due, end); !fill {
			return "to be requalified before it is filled"
		}
	}
	return ""
}
