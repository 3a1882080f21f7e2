// Package nightcall is the screen of a call at any hour about gas that ends:
// the gauge and the flow on the left; on the right how long it is at the least,
// who can be there, and what to do when nobody can be in time.
package nightcall

import (
	"context"
	"errors"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
	"lungwort/ui/ask"
	"lungwort/ui/work"
)

// The fields, in the order in which they are asked.
const (
	Gauge = "gauge"
	Flow  = "flow"
	Pulse = "pulse" // of a pulse device: what a breath takes
	Worse = "worse"
	Size  = "size"
	Near  = "near" // where the caller is, when the book does not know them
)

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

// Known reports whether the caller is in the book.
func (m *Model) Known() bool { return m.who != "" }

// Open begins the call: with a person, or with somebody the book does not know.
func (m *Model) Open(who inventory.PersonID) {
	if who != m.who {
		m.texts = ask.Answers{}
	}
	m.who, m.Name, m.Numbers, m.Wrong = who, "", "", ask.Wrong{}
	m.answer()
	if who == "" {
		return
	}
	now := m.work.Now()
	work.Ask(m.work, "night call page", func(ctx context.Context) (store.PersonPage, error) {
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
}

// Text is what stands in a field.
func (m *Model) Text(key string) string { return m.texts[key] }

// Set takes an answer and says anew what it means.
func (m *Model) Set(key, text string) {
	if m.texts[key] != text {
		m.texts[key] = text
		m.answer()
	}
}

// told is what the caller told so far.
type told struct {
	gauge   *gas.Pressure
	flow    *gas.Flow
	setting string // of a pulse device, in place of the flow
	pulse   gas.Pulse
}

// enough reports whether an answer can be given.
func (t told) enough() bool { return t.gauge != nil && (t.flow != nil || t.setting != "") }

// Setting is what stands on the dial of a pulse device where that was told in
// place of a flow; empty: a flow, or nothing yet.
func (m *Model) Setting() string {
	var setting *gas.SettingError
	if _, err := gas.ParseFlow(m.texts.Text(Flow)); errors.As(err, &setting) {
		return setting.Setting()
	}
	return ""
}

// told reads the fields, and says what is wrong with them.
func (m *Model) told() (t told, wrong ask.Wrong) {
	r := ask.Read(m.texts)
	t.gauge, t.setting = r.Gauge(Gauge), m.Setting()
	if t.setting == "" {
		t.flow = r.Flow(Flow)
		return t, r.Wrong()
	}
	var err error
	if t.pulse, err = gas.ParsePulse(m.texts.Text(Pulse)); err != nil {
		r.Fail(Pulse, err)
	}
	return t, r.Wrong()
}

// answer asks anew; the answer to an older state of the call is dropped.
func (m *Model) answer() {
	told, wrong := m.told()
	m.Wrong = wrong
	if !told.enough() {
		m.Answer = delivery.Answer{Verdict: depletion.Unknown, Title: "two things: what does the gauge show, and on which flow?",
			Do: []string{"Gauge with its unit; the flow as the meter stands now", "Breathless, blue, confused: emergency number first, whatever the gauge shows"}}
		m.Changed()
		return
	}
	call := delivery.NightCall{At: m.work.Now(), Gauge: *told.gauge, Setting: told.setting, Pulse: told.pulse, Worse: m.texts.Is(Worse, "yes")}
	if told.flow != nil {
		call.Flow = *told.flow
	}
	if size := m.texts.Text(Size); size != "" {
		call.Sizes = []gas.SizeCode{gas.SizeCode(size)}
	}
	who, near := m.who, ""
	if who == "" {
		near = m.texts.Text(Near)
	}
	m.Changed()
	work.Ask(m.work, "night call", func(ctx context.Context) (delivery.Answer, error) {
		answer, err := m.work.Desk.NightCall(ctx, call, who, near)
		return asked(answer, err)
	}, func(answer delivery.Answer) {
		m.Answer = answer
		m.Changed()
	})
}

// asked turns a refusal into what to ask next: on the phone nobody reads a
// message that comes up in between.
func asked(answer delivery.Answer, err error) (delivery.Answer, error) {
	var no *refusal.Error
	if !errors.As(err, &no) || no.Kind != refusal.Ask && no.Kind != refusal.NotFound && no.Kind != refusal.Invalid {
		return answer, err
	}
	return delivery.Answer{Verdict: depletion.Unknown, Title: no.Says, Do: []string{no.Next}}, nil
}

// Save records the call with what was told, and goes to the page of the person.
func (m *Model) Save() {
	if !m.Known() || m.busy {
		return
	}
	told, wrong := m.told()
	if m.texts.Text(Worse) == "" {
		wrong[Worse] = errors.New("ask: it overrides the numbers")
	}
	if told.gauge == nil && wrong[Gauge] == nil {
		wrong[Gauge] = errors.New("ask for the gauge and its unit")
	}
	if m.Wrong = wrong; len(wrong) > 0 {
		m.Changed()
		return
	}
	act := delivery.Call{Person: m.who, Answered: true, Gauge: told.gauge, Flow: told.flow, Worse: m.texts.Is(Worse, "yes"), Problem: "gas is ending"}
	if told.setting != "" {
		act.Problem += ", on pulse setting " + told.setting
	}
	m.busy = true
	m.work.Try("night call act", m.work.Hand(inventory.Phoned), act, func(out store.Outcome, err error) {
		m.busy = false
		if err != nil {
			m.work.Refuse(err)
			return
		}
		m.work.OfferUndo(out, func() { m.Open(act.Person) })
		m.texts = ask.Answers{}
		m.OpenPage()
	})
}

// OpenPage goes to the page of the person.
func (m *Model) OpenPage() {
	if m.Known() {
		m.work.Open(work.Target{Room: work.Person, Person: m.who})
	}
}
