// Package nightlog is the screen for the morning after a night on paper: the
// lines of the night pack's log are keyed in with the times that stand there,
// and beside them stands what is otherwise since the pack was printed.
package nightlog

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/inventory/wall"
	"lungwort/ui/ask"
	"lungwort/ui/work"
)

// The fields of one line, in the order of the columns on paper.
const (
	Clock   = "time"
	Who     = "who"
	Silent  = "silent"
	Worse   = "worse"
	Gauge   = "gauge"
	Flow    = "flow"
	Machine = "machine"
	Said    = "said"
	Again   = "again"
)

// Row is one home that stands otherwise than in the pack.
type Row struct {
	ID     inventory.PersonID
	Number string // in the pack; empty: not in it
	Name   string
	Says   string
}

// Model is what the screen shows and does.
type Model struct {
	work *work.Work

	Answer delivery.Answer
	Rows   []Row
	Caller string // whom the line is about, as far as it is known
	Wrong  ask.Wrong
	Keyed  int // lines since the screen was opened

	pack    delivery.Pack
	who     inventory.PersonID
	texts   ask.Answers
	busy    bool
	Changed func()
	Focus   func(field string)
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model {
	return &Model{work: w, texts: ask.Answers{}, Wrong: ask.Wrong{}, Changed: func() {}, Focus: func(string) {}}
}

// loaded is one reading of the book.
type loaded struct {
	pack    delivery.Pack
	news    []delivery.News
	printed bool
}

// Load reads what stands otherwise. What is being written stays.
func (m *Model) Load() {
	now := m.work.Now()
	work.Ask(m.work, "night log", func(ctx context.Context) (l loaded, err error) {
		l.pack, l.news, l.printed, err = m.work.Desk.PackNews(ctx, now)
		return l, err
	}, func(l loaded) {
		m.pack, m.Answer, m.Rows = l.pack, delivery.PackAnswer(l.pack, l.printed, l.news, now), nil
		for _, n := range l.news {
			r := Row{ID: n.Person, Name: n.Name, Says: strings.Join(n.Says, "; ")}
			if number := l.pack.Number(n.Person); number > 0 {
				r.Number = strconv.Itoa(number)
			}
			m.Rows = append(m.Rows, r)
		}
		m.Changed()
	})
}

// Text is what stands in a field.
func (m *Model) Text(key string) string { return m.texts[key] }

// Set takes what was written into a field. Whom the line is about is looked up
// at once: a slip in a number would land on another home.
func (m *Model) Set(key, text string) {
	if m.texts[key] == text {
		return
	}
	m.texts[key] = text
	delete(m.Wrong, key)
	if key == Who {
		m.lookUp(text)
	}
	m.Changed()
}

func (m *Model) lookUp(text string) {
	m.who, m.Caller = "", ""
	if text = strings.TrimSpace(text); text == "" {
		return
	}
	if _, err := strconv.Atoi(text); err == nil && len(text) <= len(strconv.Itoa(len(m.pack.Persons))) {
		text = "no " + text // a bare number of the pack, as it stands on paper
	}
	now := m.work.Now()
	m.work.Run.Go("night log who", func(ctx context.Context) error {
		id, err := m.work.Desk.Person(ctx, text)
		if err != nil {
			m.Caller = refusal.For(err)
			return nil
		}
		page, err := m.work.Desk.Page(ctx, id, now)
		m.who, m.Caller = id, strings.Join([]string{page.Person.Name(), page.Address.Where()}, ", ")
		return err
	}, func(error) { m.Changed() })
}

// at reads the time of the line: the hour alone is the last time it was that
// hour.
func (m *Model) at() (time.Time, error) {
	now, text := m.work.Now(), m.texts.Text(Clock)
	t, err := wall.ParseOn(text, now)
	if err == nil && t.After(now) && !strings.Contains(text, "-") {
		t, err = wall.ParseOn(text, now.AddDate(0, 0, -1))
	}
	if err == nil && t.After(now) {
		err = fmt.Errorf("%s lies ahead", t.Format("Mon 2 Jan 15:04"))
	}
	return t, err
}

// When says which day the time of the line falls on.
func (m *Model) When() string {
	if t, err := m.at(); err == nil {
		return t.Format("Mon 2 Jan 15:04")
	}
	return ""
}

// line is what the fields stand for, and what is wrong with them.
func (m *Model) line() (act delivery.NightLine, at time.Time, wrong ask.Wrong) {
	r := ask.Read(m.texts)
	at, err := m.at()
	r.Fail(Clock, err)
	act = delivery.NightLine{
		Person: m.who, Silent: m.texts.Is(Silent, "yes"), Worse: m.texts.Is(Worse, "yes"),
		Gauge: r.Gauge(Gauge), Flow: r.Flow(Flow), Machine: delivery.Breathes(m.texts.Text(Machine)), Said: m.texts.Text(Said),
	}
	if again := m.texts.Text(Again); again != "" && err == nil {
		act.Again, err = wall.ParseOn(again, at)
		if err == nil && !act.Again.After(at) {
			act.Again, err = wall.ParseOn(again, at.AddDate(0, 0, 1))
		}
		r.Fail(Again, err)
	}
	if m.who == "" {
		r.Fail(Who, errors.New("the number in the pack, or a name"))
	}
	if !act.Silent && m.texts.Text(Worse) == "" && m.texts.Text(Silent) == "" {
		r.Fail(Worse, errors.New("say whether anybody was breathless, or that nobody answered"))
	}
	return act, at, r.Wrong()
}

// Save keys the line in with its time, and begins the next one.
func (m *Model) Save() {
	if m.busy {
		return
	}
	act, at, wrong := m.line()
	if m.Wrong = wrong; len(wrong) > 0 {
		m.Changed()
		for _, key := range []string{Clock, Who, Silent, Worse, Gauge, Flow, Again} {
			if wrong[key] != nil {
				m.Focus(key)
				return
			}
		}
		return
	}
	hand := m.work.Hand(inventory.Keyed)
	hand.At = at
	m.busy = true
	m.work.Try("night log act", hand, act, func(out store.Outcome, err error) {
		m.busy = false
		if err != nil {
			m.Wrong = ask.Wrong{Who: errors.New(refusal.For(err))}
			m.Changed()
			return
		}
		m.work.OfferUndo(out, m.Load)
		m.Keyed++
		m.texts, m.who, m.Caller = ask.Answers{}, "", ""
		m.Load()
		m.Focus(Clock)
	})
}

// Open goes to the page of a row's person.
func (m *Model) Open(id inventory.PersonID) {
	m.work.Open(work.Target{Room: work.Person, Person: id})
}

// PrintAnew goes to the papers, where the pack is printed.
func (m *Model) PrintAnew() { m.work.Open(work.Target{Room: work.Papers}) }
