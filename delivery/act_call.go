package delivery

import (
	"fmt"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// The act of a call.
type (
	// Call records a call with a person.
	Call struct {
		Person   inventory.PersonID `act:"person" help:"record number, name or id"`
		Answered bool               `act:"answered,optional" help:"somebody answered"`
		SpO2     *float64           `act:"spo2,optional" help:"saturation, percent"`
		Flow     *gas.Flow          `act:"flow,optional" help:"flow in use"`
		Worse    bool               `act:"worse,optional" help:"feels worse, or breathless at rest"`
		Saving   bool               `act:"saving,optional" help:"turned it down to save gas"`
		Gauge    *gas.Pressure      `act:"gauge,optional" help:"gauge of the cylinder in use, as told"`
	}
)

// For returns the bands that hold under an order. Who is ordered as much as the
// emergency band begins at needs bands of the clinician's own: of the
// programme's only the target is left.
func (b Bands) For(order *Ordered) Bands {
	if order != nil && order.Highest() >= b.Emergency {
		return Bands{Target: b.Target}
	}
	return b
}

// Band returns the check-in band a call falls in: fine, borderline or
// emergency; empty when no saturation was taken with a flow, or only the
// clinician's own bands can tell. At a shared edge
// the more careful band holds; feeling worse overrides the numbers.
func (b Bands) Band(c Called) string {
	switch {
	case c.Worse:
		return "emergency"
	case c.SpO2 == nil || c.Flow == nil:
		return ""
	case *c.SpO2 < b.Target:
		return "emergency"
	case b.Emergency <= 0:
		return ""
	case *c.Flow >= b.Emergency:
		return "emergency"
	case *c.Flow >= b.Borderline:
		return "borderline"
	}
	return "fine"
}

// Decide records the call, and the gauge that was told for the cylinder in
// use.
func (a Call) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	if err := a.may(); err != nil {
		return Change{}, err
	}
	heard := Called{Answered: a.Answered, SpO2: a.SpO2, Flow: a.Flow, Worse: a.Worse, Saving: a.Saving}
	bands := p.Bands.For(care.Order)
	heard.Band = bands.Band(heard)
	var c Change
	c.person(a.Person, &heard)
	if a.Gauge != nil {
		i := inUse(care)
		if i < 0 {
			return Change{}, refusal.New(refusal.Conflict, "This person has no cylinder of ours.", "Ask for the label of the cylinder.")
		}
		item, err := v.Item(care.Kit[i].Item)
		if err != nil {
			return Change{}, err
		}
		if err := plausible(v, item, a.Gauge); err != nil {
			return Change{}, err
		}
		c.observed(item.ID, a.Person, inventory.Observed{Gauge: a.Gauge, Told: true})
	}
	c.Says = p.Heard(heard) + care.unlikeOrdered(heard)
	if bands.Emergency <= 0 && heard.SpO2 != nil {
		c.Says += fmt.Sprintf(" %s ordered: the clinician's own bands for this person decide.", care.Order.Highest())
	}
	return c, nil
}

// may refuses a call that contradicts itself.
func (a Call) may() error {
	told := a.SpO2 != nil || a.Flow != nil || a.Gauge != nil || a.Worse || a.Saving
	switch {
	case told && !a.Answered:
		return refusal.New(refusal.Ask, "A call that nobody answered can't have told anything.", "Say that it was answered, or leave the readings out.")
	case a.SpO2 != nil && a.Flow == nil:
		return refusal.New(refusal.Ask, "A saturation without the flow it was taken on says nothing.", "Ask for the flow that is set now.")
	case a.SpO2 != nil && !(*a.SpO2 >= 0 && *a.SpO2 <= 100):
		return refusal.New(refusal.Invalid, fmt.Sprintf("A saturation of %g %% is not possible.", *a.SpO2), "Ask for the reading again.")
	}
	return nil
}

// unlikeOrdered says what the clinician must hear of a flow in use that is not
// as ordered.
func (c Care) unlikeOrdered(heard Called) string {
	switch {
	case heard.Flow == nil:
	case c.Order == nil:
		return fmt.Sprintf(" %s in use and no order in the book: tell the clinician now.", *heard.Flow)
	case *heard.Flow > c.Order.Highest():
		return fmt.Sprintf(" %s in use, %s ordered: tell the prescriber; gas is counted at %s.", *heard.Flow, c.Order.Highest(), *heard.Flow)
	case heard.Saving:
		return fmt.Sprintf(" Turned down to %s to save gas: tell the clinician.", *heard.Flow)
	}
	return ""
}

// inUse returns the index of the cylinder breathed from first, or -1.
func inUse(care Care) int {
	for i, h := range care.Kit {
		if h.Spec.Kind == inventory.Cylinder {
			return i
		}
	}
	return -1
}

// Heard says what was heard on a call means, by the programme's bands.
func (p Programme) Heard(c Called) string {
	switch {
	case !c.Answered:
		return "No answer is recorded."
	case c.Band == "emergency":
		return "Emergency band: send to the emergency department now, number " + p.Emergency + ". A clinician decides."
	case c.Band == "borderline":
		return "Borderline band: tell the clinician today."
	}
	return "The call is recorded."
}
