package delivery

import (
	"fmt"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// The check-in bands. Feeling worse, or breathless at rest, is the emergency
// band whatever the numbers say. A reading without the flow it was taken on is
// incomplete: it is kept, and asked for again.
const (
	Fine       = "fine"
	Borderline = "borderline"
	Emergency  = "emergency"
	Incomplete = "incomplete"
)

// For returns the bands that hold for a person. Who is ordered as much as the
// emergency band begins at needs bands of the clinician's own; without them
// only the target is left of the programme's.
func (b Bands) For(c Care) Bands {
	switch {
	case c.Bands != nil && !c.Bands.Waived && c.bandsStand():
		return c.Bands.Bands
	case b.ownNeeded(c.Order):
		return Bands{Target: b.Target}
	}
	return b
}

// ownNeeded reports whether an order is so high that the programme's bands say
// nothing.
func (b Bands) ownNeeded(order *Ordered) bool {
	return order != nil && b.Emergency > 0 && order.Highest() >= b.Emergency
}

// bandsStand reports whether what the clinician said of the bands still holds:
// not once more is ordered than they were given for.
func (c Care) bandsStand() bool {
	return c.Bands != nil && (c.Order == nil || c.Order.Highest() <= c.Bands.Upto)
}

// LacksBands reports whether the clinician still has to give bands for this
// person, or to waive them.
func (c Care) LacksBands(p Programme) bool {
	return p.Bands.ownNeeded(c.Order) && !c.bandsStand()
}

// Band returns the check-in band a call falls in; empty when no saturation was
// taken, or only the clinician's own bands can tell. Of rest and exertion the
// more careful band holds, and so it does at a shared edge.
func (b Bands) Band(c Called) string {
	if c.Worse {
		return Emergency
	}
	rest, exertion := b.of(c.SpO2, c.Flow), b.of(c.Exertion, c.ExertionFlow)
	for _, band := range []string{Emergency, Incomplete, Borderline, Fine} {
		if rest == band || exertion == band {
			return band
		}
	}
	return ""
}

// of returns the band of one saturation and the flow it was taken on. Under
// the target the flow makes no difference.
func (b Bands) of(spo2 *float64, flow *gas.Flow) string {
	switch {
	case spo2 == nil:
		return ""
	case *spo2 < b.Target:
		return Emergency
	case flow == nil:
		return Incomplete
	case b.Emergency <= 0:
		return ""
	case *flow >= b.Emergency:
		return Emergency
	case *flow >= b.Borderline:
		return Borderline
	}
	return Fine
}

// Check refuses bands that contradict themselves.
func (b Bands) Check() error {
	switch {
	case !(b.Target >= 70 && b.Target <= 100):
		return refusal.New(refusal.Invalid, fmt.Sprintf("A saturation to hold of %g %% can't be.", b.Target), "Ask the clinician for a percentage; 92 is usual.")
	case b.Borderline <= 0 || b.Emergency <= 0:
		return refusal.New(refusal.Invalid, "The flows of the bands are missing.", "Ask from which flow on the clinician is told, and from which the emergency department.")
	case b.Borderline > b.Emergency:
		return refusal.New(refusal.Invalid, "The borderline band begins above the emergency band.", "Let the clinician be told at a lower flow than the emergency department.")
	}
	return nil
}

// InWords returns the bands in one line.
func (b Bands) InWords() string {
	if b.Emergency <= 0 {
		return fmt.Sprintf("under %g %%: emergency", b.Target)
	}
	return fmt.Sprintf("hold %g %%; tell from %s; emergency from %s or under %g %%", b.Target, b.Borderline, b.Emergency, b.Target)
}

// GiveBands records the check-in bands a clinician gives for one person, or
// that the clinician waives them.
type GiveBands struct {
	Person     inventory.PersonID `act:"person" help:"record number, name or id"`
	Target     float64            `act:"hold,optional" help:"saturation to hold, percent"`
	Borderline gas.Flow           `act:"tell,optional" help:"flow from which the clinician is told"`
	Emergency  gas.Flow           `act:"send,optional" help:"flow from which the emergency department is next"`
	By         string             `act:"by-clinician" help:"the clinician who gave or waived them"`
	Waived     bool               `act:"waived,optional" help:"the clinician wants none for this person"`
}

// Decide records the bands for the order in force.
func (a GiveBands) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	bands := Bands{Target: a.Target, Borderline: a.Borderline, Emergency: a.Emergency}
	switch {
	case a.By == "":
		return Change{}, refusal.New(refusal.Invalid, "Nobody is named who gave the bands.", "Name the clinician.")
	case care.Order == nil:
		return Change{}, refusal.New(refusal.Conflict, "There is no order the bands could be for.", "Enter the order first.")
	case a.Waived && bands != (Bands{}):
		return Change{}, refusal.New(refusal.Ask, "Bands can't be given and waived at once.", "Leave the numbers out, or do not waive.")
	case !a.Waived:
		if err := bands.Check(); err != nil {
			return Change{}, err
		}
	}
	var c Change
	given := Banded{Bands: bands, By: a.By, Waived: a.Waived, Upto: care.Order.Highest()}
	c.person(a.Person, &given)
	c.Says = "Recorded: " + banded(given) + "."
	return c, nil
}

// withoutBands refuses to send somebody home whose readings nobody could judge.
func (c Care) withoutBands(p Programme) error {
	if !c.LacksBands(p) {
		return nil
	}
	return refusal.New(refusal.Unready,
		fmt.Sprintf("%s is ordered, and no check-in bands are recorded for this person.", c.Order.Highest()),
		"Ask the clinician which saturation to hold and from which flow on to tell and to send; record that, or who waived it.")
}
