// Package alarm is the screen of a call about a machine that beeps, or about
// somebody short of breath on a machine that seems fine: four questions on the
// left, what to do on the right, anew with every answer.
package alarm

import (
	"context"
	"errors"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/work"
)

// The fields beside the four questions.
const (
	Worse   = "worse"
	SpO2    = "spo2"
	Flow    = "flow"
	Gauge   = "gauge"
	Changed = "changed"
	Swap    = "swap"
)

// leastShown is the least saturation that says anything while it is typed: the
// first figure of 93 is not a reading of 9 %.
const leastShown = 40

// Model is what the screen shows and does.
type Model struct {
	work *work.Work
	who  inventory.PersonID

	Name    string
	Numbers string
	Answer  delivery.Answer
	Wrong   ask.Wrong

	texts   ask.Answers
	busy    bool
	Changed func()
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model {
	return &Model{work: w, texts: ask.Answers{}, Wrong: ask.Wrong{}, Changed: func() {}}
}

// Has reports whether it is known who calls.
func (m *Model) Has() bool { return m.who != "" }

// Open begins the call with a person.
func (m *Model) Open(who inventory.PersonID) {
	if who != m.who {
		m.texts = ask.Answers{}
	}
	m.who, m.Name, m.Numbers = who, "", ""
	m.Wrong, m.Answer = ask.Wrong{}, delivery.Answer{}
	m.Changed()
	if who == "" {
		return
	}
	now := m.work.Now()
	work.Ask(m.work, "alarm page", func(ctx context.Context) (store.PersonPage, error) {
		return m.work.Desk.Page(ctx, who, now)
	}, func(p store.PersonPage) {
		m.Name = p.Person.Name()
		numbers := make([]string, len(p.Person.Phones))
		for i, ph := range p.Person.Phones {
			numbers[i] = strings.TrimSpace(ph.Whose + " " + ph.Number)
		}
		m.Numbers = strings.Join(append(numbers, p.Address.Where()), " · ")
		m.Changed()
	})
	m.answer()
}

// Text is what stands in a field.
func (m *Model) Text(key string) string { return m.texts[key] }

// Set takes an answer and says anew what it means.
func (m *Model) Set(key, text string) {
	if m.texts[key] == text || !m.Has() {
		return
	}
	m.texts[key] = text
	_, m.Wrong = m.alarm()
	m.answer()
}

// alarm is what was told so far, and what is wrong with it.
func (m *Model) alarm() (delivery.Alarm, ask.Wrong) {
	r := ask.Read(m.texts)
	sign := func(key string) delivery.Sign { return delivery.Sign(m.texts.Text(key)) }
	a := delivery.Alarm{
		Person: m.who, Worse: m.texts.Is(Worse, "yes"), SpO2: r.Number(SpO2, "%", 0, 100), Flow: r.Flow(Flow), Gauge: r.Gauge(Gauge),
		Power: sign("power"), Light: sign("light"), Air: sign("air"), Line: sign("line"),
		Changed: m.texts.Is(Changed, "yes"), Swap: m.texts.Is(Swap, "yes"),
	}
	return a, r.Wrong()
}

// answer asks anew; the answer to an older state of the call is dropped.
func (m *Model) answer() {
	a, _ := m.alarm()
	if a.SpO2 != nil && *a.SpO2 < leastShown {
		a.SpO2 = nil
	}
	now := m.work.Now()
	m.Changed()
	work.Ask(m.work, "alarm answer", func(ctx context.Context) (delivery.Answer, error) {
		return m.work.Desk.Alarm(ctx, a, now)
	}, func(answer delivery.Answer) {
		m.Answer = answer
		m.Changed()
	})
}

// Save records the call and goes to the page of the person.
func (m *Model) Save() {
	if !m.Has() || m.busy {
		return
	}
	a, wrong := m.alarm()
	if m.texts.Text(Worse) == "" {
		wrong[Worse] = errors.New("ask: it overrides the machine")
	}
	if m.Wrong = wrong; len(wrong) > 0 {
		m.Changed()
		return
	}
	m.busy = true
	m.work.Try("alarm act", m.work.Hand(inventory.Phoned), a, func(out store.Outcome, err error) {
		m.busy = false
		if err != nil {
			m.work.Refuse(err)
			return
		}
		m.work.OfferUndo(out, func() { m.Open(a.Person) })
		m.texts = ask.Answers{}
		m.OpenPage()
	})
}

// OpenPage goes to the page of the person.
func (m *Model) OpenPage() {
	if m.Has() {
		m.work.Open(work.Target{Room: work.Person, Person: m.who})
	}
}
