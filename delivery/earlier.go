package delivery

import (
	"reflect"
	"slices"
	"time"
)

// A list that changes who a person is, or what a home is like, overwrites what
// stands in the erasable table. What it was is kept there too, beside what it
// became, so that the list can be taken back, and goes when the person is erased.
type (
	// PersonChange is one such change of a person.
	PersonChange struct {
		At          time.Time `json:"at"` // of the fact that tells of it
		Was, Became Person
	}
	// AddressChange is one such change of a home.
	AddressChange struct {
		At          time.Time `json:"at"`
		Was, Became Address
	}
)

// amended returns the person as a list has it, with what it was before.
func (p Person) amended(to Person, at time.Time) Person {
	was, became := p, to
	was.Earlier, became.Earlier = nil, nil
	to.Earlier = append(slices.Clone(p.Earlier), PersonChange{at, was, became})
	return to
}

// takenBack undoes the change made at a time, and reports whether anything is
// otherwise then. What was changed since by other hands stays.
func (p Person) takenBack(at time.Time) (Person, bool) {
	i := slices.IndexFunc(p.Earlier, func(c PersonChange) bool { return c.At.UnixMilli() == at.UnixMilli() })
	if i < 0 {
		return p, false
	}
	was, became := p.Earlier[i].Was, p.Earlier[i].Became
	p.Earlier = slices.Delete(slices.Clone(p.Earlier), i, i+1)
	for _, text := range []struct{ now, was, became *string }{
		{&p.Family, &was.Family, &became.Family}, {&p.Given, &was.Given, &became.Given}, {&p.Born, &was.Born, &became.Born},
		{&p.Record, &was.Record, &became.Record}, {&p.Language, &was.Language, &became.Language}, {&p.Note, &was.Note, &became.Note},
	} {
		if *text.now == *text.became {
			*text.now = *text.was
		}
	}
	if slices.Equal(p.Phones, became.Phones) {
		p.Phones = was.Phones
	}
	return p, true
}

// amended returns the home as a list has it, with what it was before.
func (a Address) amended(to Address, at time.Time) Address {
	was, became := a, to
	was.Earlier, became.Earlier = nil, nil
	to.Earlier = append(slices.Clone(a.Earlier), AddressChange{at, was, became})
	return to
}

// takenBack undoes the change made at a time, unless the home was changed since,
// and reports whether anything is otherwise then.
func (a Address) takenBack(at time.Time) (Address, bool) {
	i := slices.IndexFunc(a.Earlier, func(c AddressChange) bool { return c.At.UnixMilli() == at.UnixMilli() })
	if i < 0 {
		return a, false
	}
	bare, change := a, a.Earlier[i]
	bare.Earlier = nil
	if !reflect.DeepEqual(bare, change.Became) {
		return a, false
	}
	was := change.Was
	was.Earlier = slices.Delete(slices.Clone(a.Earlier), i, i+1)
	return was, true
}
