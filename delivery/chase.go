package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"lungwort/inventory"
)

// ChaseStep is one grade of asking for what is not needed any more.
type ChaseStep struct {
	After int    `json:"after"` // days since it was not needed
	Do    string `json:"do"`
}

// usualChase are the grades that come with the program. Common practice, no
// source.
var usualChase = []ChaseStep{
	{0, "call, and agree when it suits"},
	{3, "call again, another number at another hour"},
	{7, "letter: what is there and when we come by"},
	{14, "stop there with a run that passes"},
	{28, "letter with its value; then decide on loss"},
}

// usualLoanReview is the age in days from which a loan is looked at. Common
// practice, no source.
const usualLoanReview = 180

// ChaseSteps returns the grades of asking, in their order.
func (p Programme) ChaseSteps() []ChaseStep {
	if len(p.Chase) > 0 {
		return p.Chase
	}
	return usualChase
}

// LoanReviewDays returns the age in days from which a loan is looked at.
func (p Programme) LoanReviewDays() int { return cmp.Or(p.LoanReview, usualLoanReview) }

// Chased says that somebody was asked for what is not needed any more.
type Chased struct {
	Step  string `json:"step"`
	Reply string `json:"reply,omitempty"`
}

// Says implements inventory.Statement.
func (*Chased) Says() string { return "chased" }

// chaseWords is the vocabulary of asking.
func chaseWords() inventory.Vocabulary {
	return inventory.Vocabulary{"chased": func() inventory.Statement { return new(Chased) }}
}

// Attempt is one asking, with its time.
type Attempt struct {
	At time.Time `json:"at"`
	Chased
}

// Hidden is what stands in a home and is not needed there: the stock nobody
// sees in a surge.
type Hidden struct {
	Person  Person        `json:"person"`
	Address Address       `json:"address"`
	Things  []Holding     `json:"things"`
	Since   time.Time     `json:"since"`          // not needed
	Ride    time.Duration `json:"ride,omitempty"` // from the nearest depot; zero: not known
	Visit   time.Time     `json:"visit,omitzero"`
	Asked   []Attempt     `json:"asked,omitempty"`
	Step    string        `json:"step"` // the next
	Due     time.Time     `json:"due"`  // of the next step
	Died    bool          `json:"died,omitempty"`
	Silent  bool          `json:"silent,omitempty"` // nobody may be asked yet
}

// HiddenIn returns what a home has and does not need, and whether it has any.
func HiddenIn(p Programme, person Person, h Home, now time.Time) (Hidden, bool) {
	out := Hidden{Person: person, Address: h.Address, Ride: h.Nearest, Visit: h.Visit, Since: now}
	for _, thing := range h.Care.Kit {
		if thing.Role == inventory.NotNeeded {
			out.Things = append(out.Things, thing)
			out.Since = earlier(out.Since, thing.Since)
		}
	}
	if h.Care.Phase == Over {
		out.Since = h.Care.Since
	}
	for _, a := range h.Care.Chases {
		if !a.At.Before(out.Since) {
			out.Asked = append(out.Asked, a)
		}
	}
	out.Died = h.Care.Died != nil
	out.next(p, h.Care, now)
	return out, len(out.Things) > 0
}

// next sets the next step. After a death there is no demand: the one person
// named is asked once, and not before the day.
func (h *Hidden) next(p Programme, care Care, now time.Time) {
	steps := p.ChaseSteps()
	n := len(h.Asked)
	switch {
	case care.Died != nil:
		h.Due, h.Silent = care.Died.NotBefore, now.Before(care.Died.NotBefore)
		h.Step = "ask " + h.Person.onlyContact() + " once, when it suits them; no letter, no value"
		if n > 0 {
			h.Step = "wait for " + h.Person.onlyContact() + "; nothing more is asked"
		}
	case !h.Visit.IsZero():
		h.Due, h.Step = h.Visit, "collect with the visit "+Clock(h.Visit, now)
	case n < len(steps):
		h.Due, h.Step = h.Since.AddDate(0, 0, steps[n].After), steps[n].Do
		if offer := p.Amnesty.offer(now); offer != "" {
			h.Step += "; " + offer
		}
	default:
		h.Due, h.Step = now, "every step was taken: enter it as lost, with value and reason"
	}
}

// onlyContact names the one person who may be called after a death.
func (p Person) onlyContact() string {
	if p.Contact == nil {
		return "the one person named"
	}
	return p.Contact.Whose + ", " + p.Contact.Number
}

// ByDistance orders hidden stock by its ride, what is longest not needed first
// among equals; a way nobody knows comes last.
func ByDistance(list []Hidden) {
	slices.SortStableFunc(list, func(a, b Hidden) int {
		if (a.Ride == 0) != (b.Ride == 0) {
			return cmp.Compare(b.Ride, a.Ride)
		}
		return cmp.Or(cmp.Compare(a.Ride, b.Ride), a.Since.Compare(b.Since))
	})
}

// Says tells the hidden stock of one home in one line.
func (h Hidden) Says(now time.Time) string {
	return fmt.Sprintf("%s, %s: %s, not needed for %s", h.Person.Name(), h.Away(), labels(h.Things), Spell(now.Sub(h.Since)))
}

// Away says how far the home is from the nearest depot.
func (h Hidden) Away() string {
	if h.Ride == 0 {
		return "way not known"
	}
	return Spell(h.Ride) + " away"
}

// Labels names what is not needed, by serial.
func (h Hidden) Labels() string { return labels(h.Things) }

func labels(things []Holding) string {
	text := ""
	for i, t := range things {
		if i > 0 {
			text += ", "
		}
		text += cmp.Or(t.Spec.Serial, t.Spec.What())
	}
	return text
}
