package inventory

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"time"
)

// Source says how a fact reached the book.
type Source string

// The sources of facts.
const (
	Scanned Source = "scan"
	Keyed   Source = "keyed"
	Phoned  Source = "phone"
	Paper   Source = "paper"
	Sheet   Source = "sheet"
	Command Source = "command"
	Program Source = "program" // concluded by the program, as a backup task
)

// Statement is what a fact says. There is one type for each kind of thing
// that can happen; a statement is plain data and holds nothing that
// identifies a person.
type Statement interface {
	// Says names the kind of statement in the book.
	Says() string
}

// Fact is one thing that happened, written once and never changed.
type Fact struct {
	ID       FactID
	Happened time.Time // in the offset of the place where it happened
	Recorded time.Time
	By       string // who recorded it
	Source   Source
	Corrects FactID // the fact this one replaces; zero for none

	// What the fact is about. Most are about one of these, a loan about two.
	Item   ItemID
	Person PersonID
	Run    RunID

	Statement Statement
}

// Vocabulary knows how to read statements back, by the name they go under.
type Vocabulary map[string]func() Statement

// And returns a vocabulary that reads what v and more can read.
func (v Vocabulary) And(more Vocabulary) Vocabulary {
	all := make(Vocabulary, len(v)+len(more))
	for _, part := range []Vocabulary{v, more} {
		for name, make := range part {
			all[name] = make
		}
	}
	return all
}

// Read returns the statement that goes under a name from its JSON form.
func (v Vocabulary) Read(name string, body []byte) (Statement, error) {
	make, ok := v[name]
	if !ok {
		return nil, fmt.Errorf("no statement goes by the name %q", name)
	}
	s := make()
	if err := json.Unmarshal(body, s); err != nil {
		return nil, fmt.Errorf("read statement %q: %w", name, err)
	}
	return s, nil
}

// Corrections returns the facts that were corrected, each with the latest fact
// that corrects it. A correction that was itself taken back corrects nothing;
// one that was corrected by another goes on.
func Corrections(facts []Fact) map[FactID]Fact {
	var corrections []Fact
	for _, f := range facts {
		if f.Corrects != 0 {
			corrections = append(corrections, f)
		}
	}
	slices.SortFunc(corrections, func(a, b Fact) int { return cmp.Compare(b.ID, a.ID) })
	corrected, takenBack := make(map[FactID]Fact), make(map[FactID]bool)
	for _, f := range corrections { // the latest first: what corrects f comes before it
		if takenBack[f.ID] {
			continue
		}
		if _, is := f.Statement.(*Retracted); is {
			takenBack[f.Corrects] = true
		}
		if _, already := corrected[f.Corrects]; !already {
			corrected[f.Corrects] = f
		}
	}
	return corrected
}

// InOrder returns the facts in the order in which they happened and then were
// recorded.
func InOrder(facts []Fact) []Fact {
	ordered := slices.Clone(facts)
	sortByHappening(ordered)
	return ordered
}

// Standing returns the facts that stand, in order: those that no later fact
// corrects, without bare retractions.
func Standing(facts []Fact) []Fact {
	corrected := Corrections(facts)
	return slices.DeleteFunc(InOrder(facts), func(f Fact) bool {
		if _, gone := corrected[f.ID]; gone {
			return true
		}
		_, bare := f.Statement.(*Retracted)
		return bare
	})
}
