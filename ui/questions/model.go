// Package questions is the inbox of what facts leave open: what clashes, about
// whom or what, the evidence, whose it is to settle, and by when.
package questions

import (
	"context"
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/history"
	"lungwort/ui/work"
)

// Row is one question as the list shows it, its words ready.
type Row struct {
	Key     string
	About   string
	What    string // item in words, or whose records
	Title   string
	Says    string
	Owner   string
	Who     string // name and phone, where the programme has one
	Due     string
	Overdue bool
	Answer  string // empty while it is open
}

// Model is what the screen shows.
type Model struct {
	work *work.Work

	All  bool // those already answered too
	Rows []Row
	Open int

	list      []delivery.Inquiry
	programme delivery.Programme
	now       time.Time

	Changed func()
}

// NewModel returns an empty inbox.
func NewModel(w *work.Work) *Model { return &Model{work: w, Changed: func() {}} }

type loaded struct {
	list      []delivery.Inquiry
	programme delivery.Programme
	now       time.Time
}

// Load reads the questions anew.
func (m *Model) Load() {
	now, all := m.work.Now(), m.All
	work.Ask(m.work, "questions", func(ctx context.Context) (loaded, error) {
		list, err := m.work.Desk.Questions(ctx, all)
		if err != nil {
			return loaded{}, err
		}
		p, err := m.work.Desk.Programme(ctx)
		return loaded{list, p, now}, err
	}, m.show)
}

func (m *Model) show(l loaded) {
	m.list, m.programme, m.now = l.list, l.programme, l.now
	m.Rows, m.Open = m.Rows[:0:0], 0
	for _, q := range l.list {
		if q.Answer == nil {
			m.Open++
		}
		m.Rows = append(m.Rows, m.row(q))
	}
	m.Changed()
}

func (m *Model) row(q delivery.Inquiry) Row {
	r := Row{
		Key: q.Key, About: q.About(), What: "two records", Title: q.Title(), Says: q.Says,
		Owner: string(q.Owner()), Due: delivery.Clock(q.Due(), m.now), Overdue: q.Answer == nil && q.Due().Before(m.now),
	}
	switch {
	case q.Item != nil:
		r.What = q.Item.Spec.What()
	case q.Other == nil:
		r.What = "person"
	}
	if q.Owner() == delivery.Clinician && len(m.programme.Clinician) > 0 {
		c := m.programme.Clinician[0]
		r.Who = c.Name + " " + c.Phone
	}
	if q.Answer != nil {
		r.Answer = fmt.Sprintf("%s: %s", q.Answer.Choice, q.Answer.Why)
		r.Due = delivery.Clock(q.Answer.At, m.now)
		r.Who = "answered by " + q.Answer.By
	}
	return r
}

// SetAll shows those already answered too, or only what is open.
func (m *Model) SetAll(all bool) {
	m.All = all
	m.Load()
}

// Title says how many questions are open.
func (m *Model) Title() string {
	if m.Open == 1 {
		return "1 open"
	}
	return fmt.Sprintf("%d open", m.Open)
}

// find returns the question of a row.
func (m *Model) find(key string) (delivery.Inquiry, bool) {
	for _, q := range m.list {
		if q.Key == key {
			return q, true
		}
	}
	return delivery.Inquiry{}, false
}

// Evidence returns the facts a question rests on, newest first.
func (m *Model) Evidence(key string) []history.Row {
	q, ok := m.find(key)
	if !ok {
		return nil
	}
	return history.Rows(q.Facts, m.now, func(f inventory.Fact) string {
		for _, p := range []*delivery.Person{q.Person, q.Other} {
			if p != nil && p.ID == f.Person && q.Other != nil {
				return p.Short()
			}
		}
		return ""
	})
}

// OpenItem goes to the item of a question, OpenPerson to its person.
func (m *Model) OpenItem(key string) {
	if q, ok := m.find(key); ok && q.Item != nil {
		m.work.Open(work.Target{Room: work.Item, Item: q.Item.ID})
	}
}

// OpenPerson goes to the person of a question.
func (m *Model) OpenPerson(key string) {
	if q, ok := m.find(key); ok && q.Person != nil {
		m.work.Open(work.Target{Room: work.Person, Person: q.Person.ID})
	}
}

// Form asks which evidence counts, and whether there is anything to answer.
func (m *Model) Form(key string) (ask.Form, bool) {
	q, ok := m.find(key)
	if !ok || q.Answer != nil {
		return ask.Form{}, false
	}
	choice := ask.Field{Key: "choice", Label: "What counts", Kind: ask.Pick}
	for _, c := range q.Choices() {
		choice.Options = append(choice.Options, ask.Option{Value: c.Value, Label: c.Value})
	}
	return ask.Form{
		Title: q.Title() + ": " + q.About(), Button: "Answer",
		Before: sentence(q.Says) + spoken(q) + " Nothing is changed by the answer; what is to be put right comes with it.",
		Fields: []ask.Field{choice, {Key: "why", Label: "Why", Hint: "what was seen, who said so"}},
		Live: func(a ask.Answers) (string, bool) {
			for _, c := range q.Choices() {
				if a.Is("choice", c.Value) {
					return strings.TrimSpace(sentence(c.Because) + " " + c.Next), false
				}
			}
			return "", false
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.Resolve{Question: key, Choice: r.Need("choice", "choose one"), Why: r.Need("why", "write what it rests on")}
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			m.work.Try("answer", m.work.Hand(inventory.Keyed), act, func(out store.Outcome, err error) {
				closed(err)
				if err == nil {
					m.work.OfferUndo(out, m.Load)
					m.Load()
				}
			})
			return nil
		},
	}, true
}

// spoken is what in the book speaks for each answer.
func spoken(q delivery.Inquiry) string {
	words := ""
	for _, c := range q.Choices() {
		if c.Because != "" {
			words += "\n" + strings.ToUpper(c.Value[:1]) + c.Value[1:] + ": " + c.Because + "."
		}
	}
	if words != "" {
		words += "\n"
	}
	return words
}

// sentence ends what clashes like a sentence.
func sentence(says string) string {
	if says == "" || strings.HasSuffix(says, "?") {
		return says
	}
	return says + "."
}
