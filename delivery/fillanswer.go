package delivery

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
)

// LowFill is a cylinder called full that was read low, with what hangs on it.
type LowFill struct {
	Item     inventory.Item
	Siblings []inventory.Item // filled in the same lot, wherever they are now
	Sources  []FillSource     // how the fills of its plant read
	Waits    *Person          // for whom it is set aside
	Instead  *inventory.Item  // ready in its place
}

// Answer says what is done with a fill that reads low: pull it, report it, read
// its siblings, plan the stop anew, and ask the plant to stop where it is the
// source and not one valve.
func (l LowFill) Answer(now time.Time) Answer {
	a := Answer{Verdict: depletion.Holds, Assumed: []string{fmt.Sprintf("a fill reads low under %.0f %% of its service pressure; common practice, no source", inventory.FullShare*100)}}
	full, known := l.Item.Full()
	if !known || l.Item.Gauge == nil || l.Item.Fill == nil {
		a.Verdict, a.Title = depletion.Unknown, "It has no fill with a reading: read its gauge."
		return a
	}
	gauge, fill := l.Item.Gauge.Value, *l.Item.Fill
	if gauge >= full*inventory.FullShare {
		a.Title = fmt.Sprintf("%s reads %s: it is full.", l.Item.Label(), gauge)
		return a
	}
	a.Verdict = depletion.Short
	a.Title = fmt.Sprintf("%s reads %s, full is %s: pull it.", l.Item.Label(), gauge, full)
	plant, lot := cmp.Or(fill.Plant, "the plant"), cmp.Or(fill.Lot, "unknown")
	a.Do = append(a.Do, fmt.Sprintf("Pull %s from where it is: keep it from being lent; feel for a leak, no flame near", l.Item.Label()),
		fmt.Sprintf("Report it to %s: lot %s, filled %s", plant, lot, fill.At.In(now.Location()).Format("Mon 2 Jan")))
	if step := l.readSiblings(lot); step != "" {
		a.Do = append(a.Do, step)
	}
	if l.Waits != nil {
		a.Do = append(a.Do, fmt.Sprintf("%s waits for it: plan that stop anew, %s", l.Waits.Short(), l.another()))
	}
	for _, s := range l.Sources {
		if s.Plant != fill.Plant {
			continue
		}
		if of := cmp.Or(s.Lot, "all lots"); s.Lot == "" || s.Lot == fill.Lot {
			a.Facts = append(a.Facts, fmt.Sprintf("%s, %s: %d of %d read came low (%s)", s.Plant, of, s.Low, s.Read, strings.Join(s.Which, ", ")))
		}
		if s.StandsOut() && (s.Lot == "" || s.Lot == fill.Lot) {
			a.Do = append(a.Do, fmt.Sprintf("Ask %s to stop shipping %s until it knows why: it is the source, not one valve", s.Plant, shipped(s)))
		}
	}
	return a
}

// readSiblings names the others of the lot, those in homes first.
func (l LowFill) readSiblings(lot string) string {
	var homes, here []string
	for _, i := range l.Siblings {
		switch {
		case i.ID == l.Item.ID:
		case i.Lent():
			homes = append(homes, i.Label())
		default:
			here = append(here, i.Label()+" at "+i.Place.InWords())
		}
	}
	if len(homes)+len(here) == 0 {
		return ""
	}
	step := "Read every other of lot " + lot + ": "
	if len(homes) > 0 {
		step += "in homes, call now " + strings.Join(homes, ", ") + "; "
	}
	return strings.TrimSuffix(step+strings.Join(here, ", "), "; ")
}

// shipped names what a plant is asked to stop shipping.
func shipped(s FillSource) string {
	if s.Lot == "" {
		return "anything"
	}
	return "lot " + s.Lot
}

func (l LowFill) another() string {
	if l.Instead == nil {
		return "no other is ready: look at the bench"
	}
	return "take " + l.Instead.Label() + " at " + l.Instead.Place.InWords()
}
