package delivery

import (
	"fmt"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// The acts about what was wrong: with things, and with facts.
type (
	// Recall marks the items a notice names.
	Recall struct {
		Notice string             `act:"notice" help:"number of the recall notice"`
		Items  []inventory.ItemID `act:"items" help:"tags or serials, comma between"`
		Due    time.Time          `act:"due,optional" help:"by when each is out of its home; the runs plan the swaps for it"`
	}
	// Retract takes a fact back.
	Retract struct {
		Fact inventory.FactID `act:"fact" help:"number of the fact"`
		Why  string           `act:"why" help:"the reason"`
	}
)

// Decide marks each item, quarantines it, and opens a swap for each person
// who has one.
func (a Recall) Decide(v View) (Change, error) {
	if len(a.Items) == 0 {
		return Change{}, refusal.New(refusal.Invalid, "The recall names no item of ours.", "Search for what the notice names first.")
	}
	if err := twice(v, a.Items); err != nil {
		return Change{}, err
	}
	var c Change
	homes, held := 0, 0
	for _, id := range a.Items {
		item, err := v.Item(id)
		if err != nil {
			return Change{}, err
		}
		c.item(id, &inventory.Recalled{Notice: a.Notice})
		c.about(id, borrower(item), &inventory.Quarantined{Why: "recall " + a.Notice})
		if who := borrower(item); who != "" {
			homes++
			swap := exchange(item, "recall "+a.Notice)
			swap.Due = a.Due
			c.person(who, swap)
		}
		if item.State == inventory.Held {
			held++
		}
	}
	c.Says = fmt.Sprintf("Recall %s: %d items marked, %d of them in homes; a swap is open for each.", a.Notice, len(a.Items), homes)
	if held > 0 {
		c.Says += fmt.Sprintf(" Set aside for persons: %d; choose others for them.", held)
	}
	return c, nil
}

// exchange is the task to bring another thing of the same sort.
func exchange(item inventory.Item, why string) *Tasked {
	return &Tasked{
		Task: Swap, Why: why,
		Bring: []Wanted{{Kind: item.Spec.Kind, Size: item.Spec.Size, Rated: item.Spec.Rated, Count: 1}},
	}
}

// Decide retracts the fact for the same item, person and run it was about.
func (a Retract) Decide(v View) (Change, error) {
	of, stands, err := v.Fact(a.Fact)
	if err != nil {
		return Change{}, err
	}
	if !stands {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("Fact %d was corrected or taken back already.", a.Fact), "Look at the timeline for what stands now.")
	}
	switch s := of.Statement.(type) {
	case *inventory.Retracted:
		if s.Why == bySlip { // one fact alone would bring back half a thing
			return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("Fact %d takes a thing out of the book that was received by a slip.", a.Fact), "Receive it again, if it is there after all.")
		}
	case *inventory.Enrolled, *Registered:
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("Fact %d brought this into the book and can't be taken back.", a.Fact), "Correct what is wrong in it; retire a thing that is not there.")
	}
	if isAccess(of.Statement) {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("Fact %d says who may work in the book and is not taken back.", a.Fact), "Change the role, or switch sign-in on or off.")
	}
	return Change{
		Facts: []inventory.Fact{{
			Happened:  of.Happened,
			Corrects:  a.Fact,
			Item:      of.Item,
			Person:    of.Person,
			Run:       of.Run,
			Statement: &inventory.Retracted{Why: a.Why},
		}},
		Says: fmt.Sprintf("Fact %d is taken back: %s.", a.Fact, a.Why),
	}, nil
}
