package delivery

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// Call records a call with a person, or that nobody answered.
type Call struct {
	Person   inventory.PersonID `act:"person" help:"record number, name or id"`
	Answered bool               `act:"answered,optional" help:"somebody answered"`
	Contact  int                `act:"contact,optional" help:"which of the numbers was called: 0 is the first"`
	Worse    bool               `act:"worse,optional" help:"feels worse, or breathless at rest"`
	SpO2     *float64           `act:"spo2,optional" help:"saturation at rest, percent"`
	Flow     *gas.Flow          `act:"flow,optional" help:"flow in use, at rest"`
	Exertion *float64           `act:"exertion,optional" help:"saturation on exertion, percent"`
	// ExertionFlow is the flow the saturation on exertion was taken on.
	ExertionFlow *gas.Flow     `act:"exertion-flow,optional" help:"flow it was taken on"`
	Gauge        *gas.Pressure `act:"gauge,optional" help:"gauge of the cylinder in use, as told"`
	Hours        *float64      `act:"hours,optional" help:"hours meter of the concentrator, as told"`
	Saving       bool          `act:"saving,optional" help:"turned it down to save gas"`
	Problem      string        `act:"problem,optional" help:"what is wrong"`
	Parts        string        `act:"parts,optional" help:"what to bring"`
	Next         time.Time     `act:"next,optional" help:"when the next call was agreed"`
	// Told is who was told at once of what stands open now, and Reply what they
	// said.
	Told  string `act:"told,optional" help:"who was told at once of what stands open"`
	Reply string `act:"reply,optional" help:"what they said"`
}

// Called returns what the call says, with its band.
func (a Call) Called(b Bands) Called {
	c := Called{
		Answered: a.Answered, Contact: a.Contact, Worse: a.Worse, Saving: a.Saving,
		SpO2: a.SpO2, Flow: a.Flow, Exertion: a.Exertion, ExertionFlow: a.ExertionFlow,
		Problem: a.Problem, Parts: a.Parts, Next: a.Next,
	}
	c.Band = b.Band(c)
	return c
}

// Decide records the call, and what was told of the gauge of the cylinder in
// use and of the machine's meter. A reading without its flow is kept as
// incomplete.
func (a Call) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	if err := a.may(v.At()); err != nil {
		return Change{}, err
	}
	if err := mayCall(v, care); err != nil {
		return Change{}, err
	}
	bands := p.Bands.For(care)
	heard := a.Called(bands)
	var c Change
	c.person(a.Person, &heard)
	if err := a.readings(v, &c, care); err != nil {
		return Change{}, err
	}
	c.Says = strings.TrimSpace(strings.TrimSpace(p.Heard(heard)+" "+care.Unlike(heard)) + " " + care.next(a.Gauge))
	a.bring(&c, care)
	if strings.TrimSpace(a.Told) != "" {
		told, err := a.tell(v, p, care, heard)
		if err != nil {
			return Change{}, err
		}
		c = c.and(told)
	}
	if bands.Emergency <= 0 && heard.SpO2 != nil {
		c.Says += fmt.Sprintf(" %s ordered: the clinician's own bands for this person decide.", care.Order.Highest())
	}
	return c, nil
}

// bring opens a visit for the parts that are asked for; one that is open already
// takes them along.
func (a Call) bring(c *Change, care Care) {
	parts := strings.TrimSpace(a.Parts)
	if parts == "" || !care.Watched() {
		return
	}
	if care.Has(Deliver) || care.Has(Swap) {
		c.Says += " The visit that is open brings: " + parts + "."
		return
	}
	c.person(a.Person, &Tasked{Task: Swap, Why: "parts asked for on the phone", Parts: parts})
	c.Says += " A visit is open to bring: " + parts + "."
}

// tell records that somebody was told at once of everything that stands open
// once the call is written.
func (a Call) tell(v View, p Programme, care Care, heard Called) (Change, error) {
	ahead := care
	ahead.Checks = slices.Clone(care.Checks)
	ahead.hear(&heard, inventory.Fact{Happened: v.At(), Statement: &heard})
	about, err := Escalate{Person: a.Person, Told: a.Told}.matters(ahead, p, v)
	if err != nil {
		return Change{}, err
	}
	var c Change
	c.person(a.Person, &Escalated{About: about, Told: strings.TrimSpace(a.Told), Reply: strings.TrimSpace(a.Reply)})
	c.Says = fmt.Sprintf("%s was told of %s.", strings.TrimSpace(a.Told), matterList(about))
	return c, nil
}

// readings records what was told of the things in the home.
func (a Call) readings(v View, c *Change, care Care) error {
	if a.Gauge != nil {
		i := inUse(care)
		if i < 0 {
			return refusal.New(refusal.Conflict, "This person has no cylinder of ours.", "Ask for the label of the cylinder.")
		}
		if err := told(v, c, care, care.Kit[i], inventory.Observed{Gauge: a.Gauge, Told: true}); err != nil {
			return err
		}
	}
	if a.Hours != nil {
		machine, has := care.Concentrator()
		if !has {
			return refusal.New(refusal.Conflict, "This person has no concentrator of ours.", "Ask for the label of the machine.")
		}
		return told(v, c, care, machine, inventory.Observed{Hours: a.Hours, Told: true})
	}
	return nil
}

// told records a reading told by phone.
func told(v View, c *Change, care Care, h Holding, seen inventory.Observed) error {
	item, err := v.Item(h.Item)
	if err != nil {
		return err
	}
	if err := observable(v, item, seen); err != nil {
		return err
	}
	c.observed(item.ID, care.Person, seen)
	return nil
}

// mayCall refuses a call to the home of somebody who died before the day their
// contact agreed to.
func mayCall(v View, care Care) error {
	if care.Died == nil || !v.At().Before(care.Died.NotBefore) {
		return nil
	}
	person, err := v.Person(care.Person)
	if err != nil {
		return err
	}
	whom := "the one person named"
	if person.Contact != nil {
		whom = person.Contact.Whose + ", " + person.Contact.Number
	}
	return refusal.New(refusal.Conflict, fmt.Sprintf("This person died. Nobody is called before %s.", care.Died.NotBefore.Format("Mon 2 Jan")),
		"Then only "+whom+".")
}

// may refuses a call that contradicts itself.
func (a Call) may(at time.Time) error {
	told := a.SpO2 != nil || a.Flow != nil || a.Exertion != nil || a.ExertionFlow != nil || a.Gauge != nil || a.Hours != nil ||
		a.Worse || a.Saving || a.Problem != "" || a.Parts != ""
	switch {
	case told && !a.Answered:
		return refusal.New(refusal.Ask, "A call that nobody answered can't have told anything.", "Say that it was answered, or leave the readings out.")
	case a.Reply != "" && strings.TrimSpace(a.Told) == "":
		return refusal.New(refusal.Ask, "A reply is written, but not whose.", "Name who was told.")
	case a.Contact < 0:
		return refusal.New(refusal.Invalid, "There is no such number.", "Count the person's numbers from 0.")
	case !a.Next.IsZero() && !a.Next.After(at):
		return refusal.New(refusal.Invalid, "The next call is agreed for before this one.", "Give a time to come.")
	}
	for _, spo2 := range []*float64{a.SpO2, a.Exertion} {
		if spo2 != nil && !(*spo2 >= 0 && *spo2 <= 100) {
			return refusal.New(refusal.Invalid, fmt.Sprintf("A saturation of %g %% is not possible.", *spo2), "Ask for the reading again.")
		}
	}
	return nil
}

// incomplete reports whether a saturation came without the flow it was taken
// on.
func (c Called) incomplete() bool {
	return c.SpO2 != nil && c.Flow == nil || c.Exertion != nil && c.ExertionFlow == nil
}

// Unlike says what the clinician must hear of a flow in use that is not as
// ordered; empty when there is nothing.
func (c Care) Unlike(heard Called) string {
	top := heard.highest()
	switch {
	case heard.Flow == nil && heard.ExertionFlow == nil:
	case c.Order == nil:
		return fmt.Sprintf("%s in use and no order in the book: tell the clinician now.", top)
	case top > c.Order.Highest():
		return fmt.Sprintf("%s in use, %s ordered: tell the prescriber; gas is counted at %s.", top, c.Order.Highest(), top)
	case heard.Flow == nil:
	case heard.Saving:
		return fmt.Sprintf("Turned down to %s to save gas: tell the clinician.", *heard.Flow)
	case *heard.Flow < c.Order.Rest:
		return fmt.Sprintf("%s in use, %s ordered at rest: tell the clinician.", *heard.Flow, c.Order.Rest)
	}
	return ""
}

// Heard says what was heard on a call means, by the programme's bands.
func (p Programme) Heard(c Called) string {
	switch {
	case !c.Answered:
		return "No answer is recorded."
	case c.Band == Emergency:
		return "Emergency band: send to the emergency department now, number " + p.Emergency + ". A clinician decides."
	case c.Band == Borderline:
		return "Borderline band: tell the clinician today."
	case c.incomplete():
		return "Incomplete: a saturation without the flow it was taken on says nothing. It is kept; ask for the flow."
	}
	return "The call is recorded."
}
