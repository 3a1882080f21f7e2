package calls

import (
	"errors"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// Field names one thing asked on a call.
type Field string

// The fields, in the order in which they are asked.
const (
	Feels    Field = "worse"
	SpO2     Field = "spo2"
	Flow     Field = "flow"
	Exertion Field = "exertion"
	Walking  Field = "walking" // the flow on exertion
	Gauge    Field = "gauge"
	Hours    Field = "hours"
	Saving   Field = "saving"
	Problem  Field = "problem"
	Parts    Field = "parts"
	Next     Field = "next"
	When     Field = "when" // the call was, when it is keyed in later
	Told     Field = "told"
	Reply    Field = "reply"
	Rows     Field = "rows" // stands for the list
)

// inOrder is the order of the fields for the keyboard.
var inOrder = []Field{Feels, SpO2, Flow, Exertion, Walking, Told, Reply, Gauge, Hours, Saving, Problem, Parts, Next, When}

// The answers to how somebody feels.
const (
	Better = "better"
	Same   = "same"
	Worse  = "worse"
	Yes    = "yes"
	No     = "no"
)

// leastShown is the least saturation that says anything while it is typed: the
// first figure of 93 is not a reading of 9 %.
const leastShown = 40

// Text is what stands in a field.
func (m *Model) Text(f Field) string { return m.texts[string(f)] }

// Set takes what was written into a field.
func (m *Model) Set(f Field, text string) {
	if m.texts[string(f)] == text || !m.Has() {
		return
	}
	m.texts[string(f)] = text
	_, m.Wrong = m.call()
	m.Changed()
}

// Shows reports whether a field is asked for this person.
func (m *Model) Shows(f Field) bool {
	if m.List == Tell {
		return f == Told || f == Reply
	}
	switch f {
	case Gauge:
		return m.has(inventory.Cylinder)
	case Hours:
		return m.has(inventory.Concentrator)
	case Told, Reply:
		return m.opens()
	}
	return true
}

func (m *Model) has(kind inventory.Kind) bool {
	for _, h := range m.in.Care.Kit {
		if h.Spec.Kind == kind {
			return true
		}
	}
	return false
}

// Says is the line of the script of a field.
func (m *Model) Says(f Field) string {
	if f == Told {
		return m.clinicians()
	}
	return delivery.Script[string(f)]
}

// clinicians are who can be told, with their numbers.
func (m *Model) clinicians() string {
	var list []string
	for _, c := range m.rules.Clinician {
		list = append(list, strings.TrimSpace(c.Name+" "+c.Phone))
	}
	return strings.Join(list, ", ")
}

// call is the call the fields stand for, and what is wrong with them. What
// lacks is named once somebody has tried to save.
func (m *Model) call() (delivery.Call, ask.Wrong) {
	r := ask.Read(m.texts)
	c := delivery.Call{
		Person: m.in.Person.ID, Answered: true, Contact: m.contact,
		Worse: m.texts.Is(string(Feels), Worse), Saving: m.texts.Is(string(Saving), Yes),
		SpO2: r.Number(string(SpO2), "%", 0, 100), Flow: r.Flow(string(Flow)),
		Exertion: r.Number(string(Exertion), "%", 0, 100), ExertionFlow: r.Flow(string(Walking)),
		Gauge: r.Gauge(string(Gauge)), Hours: r.Number(string(Hours), "h", 0, 1e6),
		Problem: m.texts.Text(string(Problem)), Parts: m.texts.Text(string(Parts)),
		Told: m.texts.Text(string(Told)), Reply: m.texts.Text(string(Reply)),
	}
	c.Next = r.Time(string(Next), m.now.Location())
	if !c.Next.IsZero() && !c.Next.After(m.now) {
		r.Fail(string(Next), errors.New("that is past"))
	}
	if r.Time(string(When), m.now.Location()).After(m.work.Now()) {
		r.Fail(string(When), errors.New("that lies ahead"))
	}
	if m.tried && m.texts[string(Feels)] == "" {
		r.Fail(string(Feels), errors.New("ask: it overrides the numbers"))
	}
	return c, r.Wrong()
}

// heard is what the call says so far.
func (m *Model) heard() delivery.Called {
	c, _ := m.call()
	for _, spo2 := range []**float64{&c.SpO2, &c.Exertion} {
		if *spo2 != nil && **spo2 < leastShown {
			*spo2 = nil
		}
	}
	return c.Called(m.rules.Bands.For(m.in.Care))
}

// opens reports whether what is written so far is to be told to somebody.
func (m *Model) opens() bool {
	h := m.heard()
	return h.Band == delivery.Emergency || h.Band == delivery.Borderline || h.Saving || m.in.Care.Unlike(h) != ""
}

// Card is what the call means, as far as it is answered.
func (m *Model) Card() delivery.Answer {
	if m.List == Tell {
		return m.tellCard()
	}
	a := m.rules.Reading(m.in.Care, m.heard())
	a.Facts = append(a.Facts, m.previous()...)
	for _, x := range m.in.Concerns {
		a.Do = append(a.Do, "Still to tell the clinician: "+x.Says)
	}
	return a
}

// tellCard is what the clinician is to hear of the person in hand.
func (m *Model) tellCard() delivery.Answer {
	a := delivery.Answer{Verdict: depletion.Unknown, Title: "Nothing to tell", Assumed: []string{delivery.NoFlowAdvice, "what was seen, not what to do"}}
	for i, x := range m.in.Concerns {
		if i == 0 {
			a.Title = "Tell the clinician: " + string(x.Matter)
			a.Verdict = depletion.Tight
		}
		if x.Now {
			a.Verdict = depletion.Dry
		}
		a.Do = append(a.Do, x.Says)
		a.Facts = append(a.Facts, x.Facts...)
	}
	a.Facts = append(a.Facts, m.previous()...)
	return a
}

// Save records what was heard, or who was told, and goes on to the next.
func (m *Model) Save() {
	if !m.Has() || m.busy {
		return
	}
	m.tried = true
	if m.List == Tell {
		m.saveTold()
		return
	}
	act, wrong := m.call()
	m.Wrong = wrong
	if len(wrong) > 0 {
		m.Changed()
		for _, f := range inOrder {
			if wrong[string(f)] != nil {
				m.Focus(f)
				return
			}
		}
		return
	}
	m.do(act)
}

func (m *Model) saveTold() {
	m.Wrong = ask.Wrong{}
	if m.texts.Text(string(Told)) == "" {
		m.Wrong[string(Told)] = errors.New("name who was told")
		m.Changed()
		m.Focus(Told)
		return
	}
	m.do(delivery.Escalate{Person: m.in.Person.ID, Told: m.Text(Told), Reply: m.Text(Reply)})
}

// NoAnswer records that nobody answered the number tried, and goes on.
func (m *Model) NoAnswer() {
	if !m.Has() || m.busy || m.List == Tell {
		return
	}
	m.do(delivery.Call{Person: m.in.Person.ID, Contact: m.contact})
}

// called returns when the call was: now, unless it is keyed in later.
func (m *Model) called() time.Time {
	now := m.work.Now()
	r := ask.Read(m.texts)
	if at := r.Time(string(When), now.Location()); !at.IsZero() && !at.After(now) {
		return ask.Exact(at, now)
	}
	return now
}

// do records an act of the person in hand and takes the next in hand.
func (m *Model) do(act delivery.Act) {
	hand := m.work.Hand(inventory.Phoned)
	hand.At = m.called()
	done, after := m.in.Person.ID, m.after()
	m.busy = true
	m.work.Try("calls act", hand, act, func(out store.Outcome, err error) {
		m.busy = false
		if err != nil {
			m.work.Refuse(err)
			return
		}
		m.work.OfferUndo(out, func() { m.Load("") })
		delete(m.drafts, done)
		m.in = delivery.CheckIn{}
		m.Choose(after)
		m.Load("")
		if m.Has() {
			m.Focus(m.first())
		} else {
			m.Focus(Rows)
		}
	})
}

// first is the field the work begins with.
func (m *Model) first() Field {
	if m.List == Tell {
		return Told
	}
	return Feels
}

// after is who stands below the person in hand, or above at the end.
func (m *Model) after() inventory.PersonID {
	for i, r := range m.Rows {
		if r.ID != m.in.Person.ID {
			continue
		}
		if i+1 < len(m.Rows) {
			return m.Rows[i+1].ID
		}
		if i > 0 {
			return m.Rows[i-1].ID
		}
	}
	return ""
}

// SetTime takes a time written into a field, or why it can't be read.
func (m *Model) SetTime(f Field, t time.Time, err error) {
	switch {
	case err != nil:
		m.Set(f, err.Error())
	case t.IsZero():
		m.Set(f, "")
	default:
		m.Set(f, t.Format(time.RFC3339))
	}
}
