package delivery

import (
	"fmt"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// ReturnBySlip takes in a thing whose serial nobody can read, by the name on the
// slip it came with: an oximeter by post. The person is credited with the one
// thing of its kind on loan.
type ReturnBySlip struct {
	Person inventory.PersonID `act:"person" help:"as on the slip: record number, name or id"`
	Kind   inventory.Kind     `act:"kind" help:"what came, as oximeter"`
	Depot  string             `act:"depot" help:"where it is"`
	Lacks  []string           `act:"lacks,optional" help:"small parts that did not come back, comma between"`
}

// Decide returns the person's one thing of the kind. Of several it asks.
func (a ReturnBySlip) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	var of []Holding
	for _, h := range care.Kit {
		if h.Spec.Kind == a.Kind {
			of = append(of, h)
		}
	}
	switch {
	case a.Kind.HoldsGas():
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("A %s is not taken in by a slip.", a.Kind), "Read its serial and what is left in it.")
	case len(of) == 0:
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("This person has no %s of ours on loan.", a.Kind), "Read the slip again; else keep it apart as a stray.")
	case len(of) > 1:
		return Change{}, refusal.New(refusal.Ask, fmt.Sprintf("This person has %d of the kind: %s.", len(of), labels(of)), "Read its serial or its pool number, and return that one.")
	}
	c, err := Return{Item: of[0].Item, Depot: a.Depot, Lacks: a.Lacks}.Decide(v)
	if err != nil {
		return c, err
	}
	for _, f := range c.Facts {
		if s, back := f.Statement.(*inventory.Returned); back {
			s.BySlip = true
		}
	}
	c.Says = strings.TrimSpace(fmt.Sprintf("%s is credited by the slip. Compare its plate on the bench.", labels(of)) + c.heldNote(v, a.Kind))
	return c, nil
}

// heldNote says for how long a kind is held before it is lent again.
func (c *Change) heldNote(v View, kind inventory.Kind) string {
	p, err := v.Programme()
	if err != nil || p.Held[kind] == 0 {
		return ""
	}
	return fmt.Sprintf(" It is held %s before it is lent again.", count(p.Held[kind], "day"))
}
