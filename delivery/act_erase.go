package delivery

import (
	"fmt"
	"math"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// Erase takes away who a person was and where the home is. The facts stay; they
// hold the id alone. It can't be taken back.
type Erase struct {
	Person inventory.PersonID `act:"person" help:"record number, name or id"`
	Why    string             `act:"why" help:"who asked for it, or which period is over"`
	// Sooner erases within the period for which the programme keeps records.
	Sooner bool `act:"sooner,optional" help:"the law here asks for it before the period of keeping is over"`
}

// Decide erases the person, once nothing of ours is with them and nothing is
// open. The home goes too when nobody else lives there.
func (a Erase) Decide(v View) (Change, error) {
	person, err := v.Person(a.Person)
	if err != nil {
		return Change{}, err
	}
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	no := func(says, next string) error { return refusal.New(refusal.Conflict, says, next) }
	switch {
	case person.Erased:
		return Change{}, no("This person is erased already.", "Nothing is left to erase.")
	case strings.TrimSpace(a.Why) == "":
		return Change{}, refusal.New(refusal.Invalid, "An erasing says why.", "Write who asked for it, or which period is over.")
	case care.Watched():
		return Change{}, no("This person is on oxygen of ours.", "Erase only after the stop and the collection.")
	case len(care.Kit) > 0:
		return Change{}, no(fmt.Sprintf("%s of ours still with this person.", count(len(care.Kit), "item")), "Collect them or write them off first.")
	case len(care.Tasks) > 0:
		return Change{}, no("A task for this person is open.", "Close it first.")
	}
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	if until := p.keptUntil(care); v.At().Before(until) && !a.Sooner {
		return Change{}, no(fmt.Sprintf("The record of this person is kept until %s.", until.Format("2 Jan 2006")),
			"Wait until then, or say that the law here asks for it sooner, and keep the papers of proof elsewhere.")
	}
	var c Change
	c.person(a.Person, &Erased{Why: a.Why})
	c.Erases = []inventory.PersonID{a.Person}
	c.Says = fmt.Sprintf("Person %s is erased. The facts stay under that number.", a.Person)
	return c, nil
}

// keptUntil returns until when the record of a person has to be kept: years from
// the last service, which is taken to be as late as the stop. Somebody to
// whom nothing was ever lent has no such record.
func (p Programme) keptUntil(c Care) time.Time {
	if c.Phase == Known || c.Since.IsZero() {
		return time.Time{}
	}
	return c.Since.AddDate(0, int(math.Ceil(12*p.KeepYears)), 0)
}
