package inventory

import (
	"fmt"
	"time"

	"lungwort/inventory/gas"
)

// Clash is how facts contradict each other.
type Clash string

// The clashes between facts about one item.
const (
	FullAsEmpty   Clash = "full-as-empty" // a cylinder that was used, or called empty, came back full
	HoursDown     Clash = "hours-down"
	GaugeRose     Clash = "gauge-rose" // with no fill between
	TwoPlaces     Clash = "two-places"
	LentTwice     Clash = "lent-twice"
	LateFact      Clash = "late-fact" // keyed late, against what was recorded before
	Contradiction Clash = "contradiction"
)

// Question is a contradiction between facts that somebody has to settle. The
// facts stay as they are; the answer is a fact of its own.
type Question struct {
	Key      string    `json:"key"` // the clash and the number of the fact that raised it
	Clash    Clash     `json:"clash"`
	Says     string    `json:"says"`
	Evidence []FactID  `json:"evidence"`
	Person   PersonID  `json:"person,omitempty"`
	Opened   time.Time `json:"opened"` // when the book first had all the evidence
	Answer   *Answer   `json:"answer,omitempty"`
}

// Answer is who chose which evidence, when and why.
type Answer struct {
	Choice string    `json:"choice"`
	Why    string    `json:"why"`
	By     string    `json:"by"`
	At     time.Time `json:"at"`
	Fact   FactID    `json:"fact"`
}

// Ask returns the question that a fact raises together with the facts it
// clashes with. It opens when the last of them was recorded, in the offset of
// the fact.
func Ask(c Clash, says string, raised Fact, with ...Fact) Question {
	q := Question{Key: fmt.Sprintf("%s-%d", c, raised.ID), Clash: c, Says: says, Person: raised.Person}
	for _, f := range append(with, raised) {
		if f.ID == 0 {
			continue
		}
		q.Evidence = append(q.Evidence, f.ID)
		if f.Recorded.After(q.Opened) {
			q.Opened = f.Recorded.In(raised.Happened.Location())
		}
	}
	return q
}

// Answers returns what was answered to which question, by its key; the answer
// recorded last counts.
func Answers(facts []Fact) map[string]*Answer {
	answers := make(map[string]*Answer)
	for _, f := range facts {
		s, is := f.Statement.(*Resolved)
		if !is {
			continue
		}
		if before := answers[s.Question]; before == nil || before.Fact < f.ID {
			answers[s.Question] = &Answer{Choice: s.Choice, Why: s.Why, By: f.By, At: f.Happened, Fact: f.ID}
		}
	}
	return answers
}

// Open returns how many of the questions wait for an answer.
func Open(questions []Question) int {
	n := 0
	for _, q := range questions {
		if q.Answer == nil {
			n++
		}
	}
	return n
}

// trail is what a fold remembers of the facts behind what it says.
type trail struct {
	state   Fact // put the item where it is
	lent    Fact
	hours   Fact
	gauge   Fact
	issued  *gas.Pressure // at hand-over of this loan
	bridged bool          // it was to be breathed from in this loan
}

// doubt records that a fact contradicts the one that put the item where it is.
func (i *Item) doubt(f Fact, what string) {
	clash := Contradiction
	if i.trail.state.ID > f.ID {
		clash = LateFact
	}
	i.clash(clash, f, what, i.trail.state)
}

// clash records a doubt and opens its question.
func (i *Item) clash(c Clash, f Fact, what string, with ...Fact) {
	i.Doubts = append(i.Doubts, fmt.Sprintf("%s (%s)", what, f.Happened.Format("Mon 2 Jan 15:04")))
	i.ask(c, f, what, with...)
}

// ask opens a question about the item, and about the person it concerns.
func (i *Item) ask(c Clash, f Fact, what string, with ...Fact) {
	q := Ask(c, what, f, with...)
	if q.Person == "" {
		q.Person = i.Person
	}
	if q.Person == "" {
		q.Person = i.Last
	}
	i.Questions = append(i.Questions, q)
}

// A cylinder called empty that holds more than this share of its filling
// pressure was not empty; one that was to be breathed from and lost less than
// this share of what it was handed over with was not breathed from. A gauge
// that rose by more than this share was filled, misread, or is another one's:
// from -10 °C to 21 °C it rises by about 15 %. Common practice, no source.
const (
	notEmpty = 0.25
	unused   = 0.03
	warmed   = 0.20
)

// rose asks about a gauge that rose without a fill.
func (i *Item) rose(s *Observed, f Fact) {
	full, known := i.Full()
	if !known || i.Gauge == nil {
		return
	}
	was, now := i.Gauge.Value, *s.Gauge
	if i.Gauge.Temperature != nil && s.Temperature != nil {
		was = gas.AtTemperature(was, *i.Gauge.Temperature, *s.Temperature)
	}
	if now-was <= full*warmed {
		return
	}
	i.ask(GaugeRose, f, fmt.Sprintf("the gauge rose from %s to %s and no fill is recorded", i.Gauge.Value, now), i.trail.gauge)
}

// Full returns what the gauge of a cylinder shows when it is full, as far as the
// facts about it say: its own marks, a size that comes with the program, or what
// it was last filled to.
func (i Item) Full() (gas.Pressure, bool) {
	size, known := gas.LookUp(i.Spec.Size)
	switch {
	case i.Spec.Kind != Cylinder:
		return 0, false
	case i.Spec.Marked.Service > 0:
		return i.Spec.Marked.Service, true
	case known:
		return size.Service, true
	case i.Fill != nil:
		return i.Fill.Full, i.Fill.Full > 0
	}
	return 0, false
}

// HoldsGas reports whether a cylinder that is full at a pressure still holds too
// much to be called empty.
func HoldsGas(full, gauge gas.Pressure) bool { return full > 0 && gauge > full*notEmpty }

// full asks about a cylinder that comes back with gas although it was to be
// breathed from, or is called empty.
func (i *Item) full(s *Returned, f Fact) {
	if i.Gauge == nil || !i.Gauge.At.After(i.trail.lent.Happened) {
		return
	}
	full, _ := i.Full()
	switch back := i.Gauge.Value; {
	case s.Empty && HoldsGas(full, back):
		i.ask(FullAsEmpty, f, fmt.Sprintf("called empty, but its gauge reads %s: did this person have gas?", back), i.trail.lent, i.trail.gauge)
	case i.trail.bridged && i.trail.issued != nil && back >= *i.trail.issued*(1-unused):
		i.ask(FullAsEmpty, f, fmt.Sprintf("handed over with %s to breathe from, back with %s: did this person have gas?", *i.trail.issued, back), i.trail.lent, i.trail.gauge)
	}
}
