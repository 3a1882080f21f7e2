package delivery

import (
	"fmt"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// The acts that end the need for oxygen and ask for a visit.
type (
	// StopOxygen ends the need for oxygen. It takes the person off the watch list,
	// opens the collection and counts the kit as not needed, at once.
	StopOxygen struct {
		Person    inventory.PersonID `act:"person" help:"record number, name or id"`
		Reason    string             `act:"reason" help:"recovered, moved away, died"`
		OrderedBy string             `act:"ordered-by" help:"the clinician who ordered it"`
	}
	// Ask opens a task for a person.
	Ask struct {
		Person inventory.PersonID `act:"person" help:"record number, name or id"`
		Task   Task               `act:"task" help:"deliver, swap or collect"`
		Why    string             `act:"why" help:"the reason"`
		From   time.Time          `act:"from,optional" help:"not before"`
		Until  time.Time          `act:"until,optional" help:"not after"`
		Parts  string             `act:"parts,optional" help:"small things to bring: cannula, key, filter"`
		Bring  []Wanted
	}
)

// Decide stops the oxygen.
func (a StopOxygen) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	switch {
	case strings.TrimSpace(a.OrderedBy) == "":
		return Change{}, refusal.New(refusal.Invalid, "A stop names the clinician who ordered it.", "Ask who ordered it; the programme never stops oxygen by itself.")
	case care.Phase == Over:
		return Change{}, refusal.New(refusal.Conflict, "Oxygen was stopped already.", "Look at the person's page for when and by whom.")
	case !care.Watched():
		return Change{}, refusal.New(refusal.Conflict, "This person has no oxygen of ours.", "Discharge them first.")
	}
	var c Change
	c.person(a.Person, &Stopped{Reason: a.Reason, OrderedBy: a.OrderedBy})
	for _, h := range care.Kit {
		c.about(h.Item, a.Person, &inventory.Serving{As: inventory.NotNeeded})
	}
	for _, t := range care.Tasks {
		if t.Tasked.Task != Collect {
			c.person(a.Person, &Done{Task: t.ID})
		}
	}
	reserved, err := v.Reserved(a.Person)
	if err != nil {
		return Change{}, err
	}
	for _, item := range reserved {
		c.about(item.ID, "", &inventory.Freed{})
	}
	if len(care.Kit) > 0 && !care.Has(Collect) {
		c.person(a.Person, &Tasked{Task: Collect, Why: "oxygen stopped: " + a.Reason})
	}
	c.Says = "Stopped. Nothing of ours is there."
	if len(care.Kit) > 0 {
		c.Says = fmt.Sprintf("Stopped. %s count as not needed; a collection is open.", count(len(care.Kit), "item"))
	}
	return c, nil
}

// Decide opens the task.
func (a Ask) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	switch {
	case a.Task != Deliver && a.Task != Swap && a.Task != Collect:
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("%q is no task.", a.Task), "Say deliver, swap or collect.")
	case (care.Phase == Over || care.Phase == InHospital) && a.Task != Collect:
		return Change{}, refusal.New(refusal.Conflict, "Oxygen was stopped: there is nothing to bring.", "Discharge them again if they are back on oxygen.")
	case endsBeforeItBegins(a.From, a.Until):
		return Change{}, refusal.New(refusal.Invalid, "The window of the visit ends before it begins.", "Check the two times.")
	}
	if care.Died != nil && a.From.Before(care.Died.NotBefore) {
		return Change{}, refusal.New(refusal.Conflict, "This person died; the collection is open and waits for the day agreed.", "Nobody goes there before "+care.Died.NotBefore.Format("Mon 2 Jan")+".")
	}
	var c Change
	c.person(a.Person, &Tasked{Task: a.Task, Why: a.Why, From: a.From, Until: a.Until, Bring: a.Bring, Parts: strings.TrimSpace(a.Parts)})
	c.Says = fmt.Sprintf("A task to %s is open.", a.Task)
	return c, nil
}
