package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// The statements of a recall's file, about an item and who has it.
type (
	// Noticed says that a person was sent the recall's letter.
	Noticed struct {
		Notice string `json:"notice"`
		How    string `json:"how,omitempty"` // letter, phone, in person
	}
	// Replied is the person's reply.
	Replied struct {
		Notice string `json:"notice"`
		Has    bool   `json:"has"`   // the thing is there
		Rests  bool   `json:"rests"` // and is not used any more
	}
)

// Says implements inventory.Statement for the statements of a recall.
func (*Noticed) Says() string { return "noticed" }
func (*Replied) Says() string { return "replied" }

// recallWords is the vocabulary of a recall's file.
func recallWords() inventory.Vocabulary {
	return inventory.Vocabulary{
		"noticed": func() inventory.Statement { return new(Noticed) },
		"replied": func() inventory.Statement { return new(Replied) },
	}
}

func noticed(s Noticed) string {
	words := "told of recall " + s.Notice
	if s.How != "" {
		words += " by " + s.How
	}
	return words
}

func replied(s Replied) string {
	switch {
	case !s.Has:
		return "replied to recall " + s.Notice + ": it is not there"
	case s.Rests:
		return "replied to recall " + s.Notice + ": it is there and not used any more"
	}
	return "replied to recall " + s.Notice + ": it is there and in use"
}

// The acts of a recall's file.
type (
	// RecallLetter records that who has a recalled thing was told.
	RecallLetter struct {
		Item inventory.ItemID `act:"item" help:"tag or serial"`
		How  string           `act:"how,optional" help:"letter, phone or in person"`
	}
	// RecallReply records the reply.
	RecallReply struct {
		Item  inventory.ItemID `act:"item" help:"tag or serial"`
		Gone  bool             `act:"gone,optional" help:"the thing is not there"`
		Rests bool             `act:"rests,optional" help:"it is not used any more"`
	}
)

// Decide records the letter for who has the item.
func (a RecallLetter) Decide(v View) (Change, error) {
	item, who, err := recalledAt(v, a.Item)
	if err != nil {
		return Change{}, err
	}
	var c Change
	c.about(item.ID, who, &Noticed{Notice: item.Recall, How: a.How})
	c.Says = fmt.Sprintf("Who has %s was told of recall %s.", item.Label(), item.Recall)
	return c, nil
}

// Decide records the reply of who has the item.
func (a RecallReply) Decide(v View) (Change, error) {
	item, who, err := recalledAt(v, a.Item)
	if err != nil {
		return Change{}, err
	}
	var c Change
	c.about(item.ID, who, &Replied{Notice: item.Recall, Has: !a.Gone, Rests: a.Rests && !a.Gone})
	c.Says = fmt.Sprintf("The reply about %s is in the file of recall %s.", item.Label(), item.Recall)
	if a.Gone {
		c.Says += " Nobody knows where it is: look for it, or mark it missing."
	}
	return c, nil
}

// recalledAt returns a recalled item and who has it, or had it last.
func recalledAt(v View, id inventory.ItemID) (inventory.Item, inventory.PersonID, error) {
	item, err := v.Item(id)
	if err != nil {
		return item, "", err
	}
	who := cmp.Or(borrower(item), item.Last)
	switch {
	case item.Recall == "":
		return item, "", refusal.New(refusal.Conflict, item.Label()+" is named by no recall.", "Mark it with the notice first.")
	case who == "":
		return item, "", refusal.New(refusal.Conflict, item.Label()+" was with nobody.", "It is in our places: fetch it there.")
	}
	return item, who, nil
}

// RecallUnit is one marked item in the file of a recall.
type RecallUnit struct {
	Item    inventory.Item
	Person  inventory.PersonID // who has it, or had it last
	Marked  time.Time
	Told    time.Time     // the last letter; zero for none
	Reply   string        // in words; empty for none
	Located time.Time     // seen by one of us or told by who has it; zero: not yet
	Done    bool          // out of the home
	Cover   time.Duration // how long the home's gas lasts without the machine
	Urgent  bool          // the home itself needs somebody
	Due     time.Time     // of the swap
	Visit   time.Time     // planned; zero for none
}

// RecallUnitOf returns an item's part in the file of a recall. What stands in
// a place of ours is located when somebody touched or counted it after it was
// marked.
func RecallUnitOf(item inventory.Item, facts []inventory.Fact) RecallUnit {
	u := RecallUnit{Item: item, Person: cmp.Or(borrower(item), item.Last), Done: !item.Lent()}
	for _, f := range inventory.Standing(facts) {
		if s, is := f.Statement.(*inventory.Recalled); is && s.Notice == item.Recall && u.Marked.IsZero() {
			u.Marked = f.Happened
			continue
		}
		if u.Marked.IsZero() {
			continue
		}
		switch s := f.Statement.(type) {
		case *Noticed:
			u.Told = f.Happened
		case *Replied:
			u.Reply = replied(*s)
			if s.Has {
				u.locate(f)
			}
		case *inventory.Observed:
			if !s.Told {
				u.locate(f)
			}
		case *inventory.Sighted, *inventory.Collected, *inventory.Returned, *inventory.Benched, *inventory.Tested, *inventory.Moved:
			u.locate(f)
		}
	}
	return u
}

func (u *RecallUnit) locate(f inventory.Fact) {
	if u.Located.IsZero() {
		u.Located = f.Happened
	}
}

// RecallProgress is how far a recall has come.
type RecallProgress struct {
	All, InHomes, Told, Replied, Located int
	Day                                  int // located within 24 h of the mark
}

// Progress counts the units of a recall.
func Progress(units []RecallUnit) RecallProgress {
	var p RecallProgress
	for _, u := range units {
		p.All++
		if !u.Done {
			p.InHomes++
		}
		if !u.Told.IsZero() {
			p.Told++
		}
		if u.Reply != "" {
			p.Replied++
		}
		if !u.Located.IsZero() {
			p.Located++
			if u.Located.Sub(u.Marked) <= 24*time.Hour {
				p.Day++
			}
		}
	}
	return p
}

// Says returns the progress in one line.
func (p RecallProgress) Says() string {
	return fmt.Sprintf("%d of %d located, %d within 24 h · %d still in homes · %d told · %d replied", p.Located, p.All, p.Day, p.InHomes, p.Told, p.Replied)
}

// ByRisk orders units as the swaps are made: in homes first, those that need
// somebody anyway, then those whose gas would end soonest without the machine.
func ByRisk(units []RecallUnit) {
	rank := func(u RecallUnit) int {
		switch {
		case u.Done:
			return 2
		case u.Urgent:
			return 0
		}
		return 1
	}
	slices.SortStableFunc(units, func(a, b RecallUnit) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(a.Cover, b.Cover), cmp.Compare(a.Item.Tag, b.Item.Tag))
	})
}
