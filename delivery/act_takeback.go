package delivery

import (
	"fmt"
	"slices"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// TakeBack takes back everything a take-in wrote. What was done since with the
// things and persons it brought rests on it, and has to be taken back before.
type TakeBack struct {
	TookIn inventory.FactID `act:"list" help:"number of the take-in; intake --list tells it"`
	Why    string           `act:"why" help:"the reason"`
}

// Decide retracts the facts of the take-in that stand. Answers stay, and so do
// the places it added to the settings: other things may lie there by now.
func (a TakeBack) Decide(v View) (Change, error) {
	closing, stands, err := v.Fact(a.TookIn)
	if err != nil {
		return Change{}, err
	}
	took, is := closing.Statement.(*TookIn)
	switch {
	case !is:
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("Fact %d is no list that was taken in.", a.TookIn), "Choose one of the lists that were taken in.")
	case !stands:
		return Change{}, refusal.New(refusal.Conflict, "This list was taken back already.", "Take it in anew if it was right.")
	}
	wrote, later, err := v.Wrote(took.First, a.TookIn)
	if err != nil {
		return Change{}, err
	}
	list := newWritten(wrote)
	if err := list.bears(v, later); err != nil {
		return Change{}, err
	}
	var c Change
	corrected := inventory.Corrections(slices.Concat(wrote, later))
	for _, f := range wrote {
		_, gone := corrected[f.ID]
		if _, settings := f.Statement.(*Decided); gone || settings {
			continue
		}
		c.Facts = append(c.Facts, inventory.Fact{
			Happened: f.Happened, Corrects: f.ID, Item: f.Item, Person: f.Person, Run: f.Run,
			Statement: &inventory.Retracted{Why: a.Why, TookIn: a.TookIn},
		})
		switch f.Statement.(type) {
		case *Registered:
			c.Persons = append(c.Persons, Person{ID: f.Person, Erased: true})
		case *Amended:
			if err := c.unamend(v, f); err != nil {
				return Change{}, err
			}
		}
	}
	c.Says = fmt.Sprintf("The list is taken back: %s, with %s and %s.", count(len(c.Facts), "fact"), count(took.Things, "thing"), count(took.Persons, "person"))
	return c, nil
}

// unamend gives a person, and the home, back what a list changed of them.
func (c *Change) unamend(v View, f inventory.Fact) error {
	p, err := v.Person(f.Person)
	if err != nil {
		return err
	}
	if was, otherwise := p.takenBack(f.Happened); otherwise {
		c.Persons = append(c.Persons, was)
	}
	care, err := v.Care(f.Person)
	if err != nil || care.Address == "" {
		return err
	}
	home, err := v.Address(care.Address)
	if err != nil {
		return err
	}
	if was, otherwise := home.takenBack(f.Happened); otherwise {
		c.Addresses = append(c.Addresses, was)
	}
	return nil
}

// written is what a take-in wrote, as later facts may rest on it.
type written struct {
	facts   map[inventory.FactID]bool
	brought map[any]bool // things and persons that came into the book with it
	placed  map[inventory.ItemID]bool
}

func newWritten(facts []inventory.Fact) written {
	w := written{map[inventory.FactID]bool{}, map[any]bool{}, map[inventory.ItemID]bool{}}
	for _, f := range facts {
		w.facts[f.ID] = true
		switch f.Statement.(type) {
		case *inventory.Enrolled:
			w.brought[f.Item] = true
		case *Registered:
			w.brought[f.Person] = true
		case *inventory.Observed:
		default:
			if f.Item != "" {
				w.placed[f.Item] = true
			}
		}
	}
	return w
}

// rests reports whether a later fact makes sense only with what was written: it
// is about something that came in with it, or that it put into other hands, or
// it names one of its facts.
func (w written) rests(f inventory.Fact) bool {
	switch s := f.Statement.(type) {
	case *Done:
		if w.facts[s.Task] {
			return true
		}
	case *Planned:
		return slices.ContainsFunc(s.Stops, func(stop PlannedStop) bool {
			return slices.ContainsFunc(stop.Tasks, func(id inventory.FactID) bool { return w.facts[id] })
		})
	}
	return w.brought[f.Item] || w.brought[f.Person] || w.placed[f.Item]
}

// bears refuses when later facts that stand rest on what was written, and
// names the first of them.
func (w written) bears(v View, later []inventory.Fact) error {
	const named = 5
	var said []string
	n := 0
	for _, f := range inventory.Standing(later) {
		if !w.rests(f) {
			continue
		}
		if n++; n > named {
			continue
		}
		about, err := nameOf(v, f)
		if err != nil {
			return err
		}
		said = append(said, fmt.Sprintf("%s (fact %d): %s", about, f.ID, Sentence(f)))
	}
	if n == 0 {
		return nil
	}
	if n > named {
		said = append(said, fmt.Sprintf("and %d more", n-named))
	}
	return refusal.New(refusal.Conflict, fmt.Sprintf("%s since then on this list: %s.", rest(n), strings.Join(said, "; ")),
		"Take those back first, or correct the single facts that are wrong.")
}

func rest(n int) string {
	if n == 1 {
		return "1 fact rests"
	}
	return fmt.Sprintf("%d facts rest", n)
}

// nameOf names what a fact is about.
func nameOf(v View, f inventory.Fact) (string, error) {
	switch {
	case f.Item != "":
		item, err := v.Item(f.Item)
		return item.Label(), err
	case f.Person != "":
		p, err := v.Person(f.Person)
		return p.Name(), err
	}
	return "Run " + string(f.Run), nil
}
