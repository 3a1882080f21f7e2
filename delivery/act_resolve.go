package delivery

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// Resolve settles a question that facts left open: which evidence counts, and
// why. It changes no fact; what is to be put right is the next step it names.
type Resolve struct {
	Question string `act:"question" help:"key of the question, from 'answer questions'"`
	Choice   string `act:"choice" help:"one of its choices"`
	Why      string `act:"why" help:"what the choice rests on"`
}

// Decide records the answer.
func (a Resolve) Decide(v View) (Change, error) {
	if one, other, is := twins(a.Question); is {
		return a.oneOrTwo(v, one, other)
	}
	q, item, err := a.asked(v)
	if err != nil {
		return Change{}, err
	}
	next, err := a.chosen(q.Clash)
	if err != nil {
		return Change{}, err
	}
	var c Change
	c.about(item, q.Person, a.answered(q.Evidence))
	c.Says = fmt.Sprintf("Answered: %s. %s", a.Choice, next.Next)
	return c, nil
}

func (a Resolve) answered(evidence []inventory.FactID) *inventory.Resolved {
	return &inventory.Resolved{Question: a.Question, Choice: a.Choice, Why: a.Why, Evidence: evidence}
}

// asked returns the open question of the key and the item it is about, if any.
func (a Resolve) asked(v View) (inventory.Question, inventory.ItemID, error) {
	none := refusal.New(refusal.NotFound, fmt.Sprintf("No question %q is open.", a.Question), "Look at the questions: its facts may have been corrected.")
	digits := a.Question[strings.LastIndex(a.Question, "-")+1:]
	n, err := strconv.ParseInt(digits, 10, 64)
	if err != nil {
		return inventory.Question{}, "", none
	}
	f, _, err := v.Fact(inventory.FactID(n))
	if err != nil {
		return inventory.Question{}, "", none
	}
	var open []inventory.Question
	item := f.Item
	if item != "" {
		i, err := v.Item(item)
		if err != nil {
			return inventory.Question{}, "", err
		}
		open = i.Questions
	}
	if f.Person != "" {
		care, err := v.Care(f.Person)
		if err != nil {
			return inventory.Question{}, "", err
		}
		if slices.ContainsFunc(care.Questions, func(q inventory.Question) bool { return q.Key == a.Question }) {
			open, item = care.Questions, ""
		}
	}
	i := slices.IndexFunc(open, func(q inventory.Question) bool { return q.Key == a.Question })
	switch {
	case i < 0:
		return inventory.Question{}, "", none
	case open[i].Answer != nil:
		return inventory.Question{}, "", refusal.New(refusal.Conflict, fmt.Sprintf("It was answered already: %s, by %s.", open[i].Answer.Choice, open[i].Answer.By), "Take that answer back first if it was wrong.")
	}
	return open[i], item, nil
}

// chosen returns the choice, or refuses what is none.
func (a Resolve) chosen(clash inventory.Clash) (Choice, error) {
	next, known := choice(clash, a.Choice)
	switch {
	case !known:
		return next, refusal.New(refusal.Invalid, fmt.Sprintf("%q is no choice here.", a.Choice), "Choose "+choicesInWords(clash)+".")
	case strings.TrimSpace(a.Why) == "":
		return next, refusal.New(refusal.Invalid, "An answer says what it rests on.", "Write what was seen or who said so.")
	}
	return next, nil
}

// oneOrTwo settles whether two records are one person. One person goes on
// under the record that has a kit, else under the older one, with one kit.
func (a Resolve) oneOrTwo(v View, one, other inventory.PersonID) (Change, error) {
	next, err := a.chosen(OnePerson)
	if err != nil {
		return Change{}, err
	}
	kept, err := v.Care(one)
	if err != nil {
		return Change{}, err
	}
	gone, err := v.Care(other)
	if err != nil {
		return Change{}, err
	}
	switch {
	case kept.Phase == Joined || gone.Phase == Joined:
		return Change{}, refusal.New(refusal.Conflict, "One of the two is kept under another record already.", "Look at the record that is kept.")
	case kept.Answers[a.Question] != nil:
		return Change{}, refusal.New(refusal.Conflict, "It was answered already: "+kept.Answers[a.Question].Choice+".", "Take that answer back first if it was wrong.")
	}
	var c Change
	c.person(one, a.answered(nil))
	c.person(other, a.answered(nil))
	c.Says = fmt.Sprintf("Answered: %s. %s", a.Choice, next.Next)
	if a.Choice != "one person" {
		return c, nil
	}
	if len(kept.Kit) == 0 && len(gone.Kit) > 0 {
		kept, gone = gone, kept
	}
	return c, merge(v, &c, kept, gone)
}

// merge puts what one record has under the other.
func merge(v View, c *Change, kept, gone Care) error {
	for _, h := range gone.Kit {
		c.about(h.Item, kept.Person, &inventory.Handed{Spec: h.Spec, Role: h.Role})
	}
	for _, t := range gone.Tasks {
		c.person(gone.Person, &Done{Task: t.ID})
	}
	reserved, err := v.Reserved(gone.Person)
	if err != nil {
		return err
	}
	for _, item := range reserved {
		c.about(item.ID, "", &inventory.Freed{})
	}
	if kept.Order == nil && gone.Order != nil {
		order := *gone.Order
		c.person(kept.Person, &order)
	}
	c.person(gone.Person, &Merged{Into: kept.Person})
	if len(kept.Kit) > 0 && len(gone.Kit) > 0 {
		c.Says += " Both had a kit: collect what is one too many."
	}
	return nil
}
