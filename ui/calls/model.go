// Package calls is the screen of the check-in calls: who is due, what to ask,
// what it means, and what the clinician has not heard of yet.
package calls

import (
	"context"
	"fmt"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/work"
)

// List is which of the lists is shown.
type List string

// The lists.
const (
	Due  List = "due"  // calls due now
	Tell List = "tell" // what the clinician has not heard of yet
	Hot  List = "hot"  // whom to call on a hot day
)

// Row is one person as the list shows it, the words ready.
type Row struct {
	ID      inventory.PersonID
	Verdict string
	Name    string
	Why     string // of the call, or what is to be told
	By      string // when it was due at the latest, or since when it stands
	Late    bool
}

// Number is one number to call.
type Number struct {
	Text   string // with whose it is
	Chosen bool   // to be tried now
}

// Model is what the screen shows and does.
type Model struct {
	work *work.Work

	List List
	Rows []Row
	// Counts of the two lists, and what the screen says while one is empty.
	DueCount, TellCount, HotCount int
	Empty                         string

	due, tell, hot []delivery.CheckIn
	rules          delivery.Programme
	now            time.Time

	in      delivery.CheckIn // the person in hand
	page    store.PersonPage
	contact int
	texts   ask.Answers
	drafts  map[inventory.PersonID]ask.Answers // what was written for others and not saved
	Wrong   ask.Wrong
	tried   bool // to save: what lacks is shown
	busy    bool

	Changed func()        // the view draws itself anew
	Focus   func(f Field) // the keyboard goes there
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model {
	return &Model{work: w, List: Due, texts: ask.Answers{}, drafts: map[inventory.PersonID]ask.Answers{}, Wrong: ask.Wrong{}, Changed: func() {}, Focus: func(Field) {}}
}

// loaded is one reading of the book.
type loaded struct {
	rules     delivery.Programme
	due, tell []delivery.CheckIn
	hot       []delivery.CheckIn
	next      delivery.CheckIn // the first that is still to come
	asked     delivery.CheckIn // the person the screen was opened for
	now       time.Time
}

// Load reads what is due anew. What is being written stays, with its person.
func (m *Model) Load(who inventory.PersonID) {
	now := m.work.Now()
	work.Ask(m.work, "calls", func(ctx context.Context) (l loaded, err error) {
		l.now = now
		if l.rules, err = m.work.Desk.Programme(ctx); err != nil {
			return l, err
		}
		rows, err := m.work.Desk.Watch(ctx, now)
		if err != nil {
			return l, err
		}
		l.due, l.tell = delivery.DueCalls(l.rules, rows, now), delivery.ToTell(l.rules, rows, now)
		l.hot = l.rules.HotCalls(rows, now)
		l.next = firstToCome(l.rules, rows, now)
		if who != "" {
			w, err := m.work.Desk.WatchOne(ctx, who, now)
			if err != nil {
				return l, err
			}
			l.asked = delivery.NewCheckIn(l.rules, w, now)
		}
		return l, nil
	}, m.show)
}

func firstToCome(p delivery.Programme, rows []delivery.Watch, now time.Time) (first delivery.CheckIn) {
	for _, w := range rows {
		c := delivery.NewCheckIn(p, w, now)
		if c.Call.Due.After(now) && (first.Call.Due.IsZero() || c.Call.Due.Before(first.Call.Due)) {
			first = c
		}
	}
	return first
}

func (m *Model) show(l loaded) {
	m.rules, m.due, m.tell, m.hot, m.now = l.rules, l.due, l.tell, l.hot, l.now
	m.DueCount, m.TellCount, m.HotCount = len(l.due), len(l.tell), len(l.hot)
	if l.asked.Person.ID != "" {
		m.List = Due
		m.due = append(slices.DeleteFunc(m.due, func(c delivery.CheckIn) bool { return c.Person.ID == l.asked.Person.ID }), delivery.CheckIn{})
		copy(m.due[1:], m.due)
		m.due[0] = l.asked
	}
	m.Empty = "No call is due."
	if at := l.next.Call.Due; !at.IsZero() {
		m.Empty = fmt.Sprintf("No call is due. The next is %s, %s.", l.next.Person.Short(), delivery.Clock(at, l.now))
	}
	if l.asked.Person.ID != "" {
		m.Choose(l.asked.Person.ID)
	}
	m.list()
}

// Show turns to one of the lists.
func (m *Model) Show(list List) {
	m.List, m.in = list, delivery.CheckIn{}
	m.list()
}

// list makes the rows of the list shown.
func (m *Model) list() {
	m.Rows = m.Rows[:0:0]
	switch m.List {
	case Due:
		for _, c := range m.due {
			m.Rows = append(m.Rows, Row{
				ID: c.Person.ID, Verdict: string(c.Verdict), Name: c.Person.Name(), Why: c.Call.Why,
				By: by(c.Call, m.now), Late: c.Call.Late(m.now),
			})
		}
	case Hot:
		for _, c := range m.hot {
			called := ""
			if last := c.Care.LastCall; last != nil {
				called = delivery.Clock(last.At, m.now)
			}
			m.Rows = append(m.Rows, Row{ID: c.Person.ID, Verdict: string(c.Verdict), Name: c.Person.Name(), Why: c.Call.Why, By: called})
		}
	case Tell:
		for _, c := range m.tell {
			x := c.Concerns[0]
			why := x.Says
			if more := len(c.Concerns) - 1; more > 0 {
				why = fmt.Sprintf("%s, and %d more", why, more)
			}
			m.Rows = append(m.Rows, Row{
				ID: c.Person.ID, Verdict: string(c.Verdict), Name: c.Person.Name(), Why: why,
				By: delivery.Clock(x.Since, m.now), Late: x.Now,
			})
		}
	}
	if !m.Has() && len(m.Rows) > 0 {
		m.Choose(m.Rows[0].ID)
	}
	m.Changed()
}

// by says by when a call is to be made, or how late it is.
func by(d delivery.CallDue, now time.Time) string {
	late := now.Sub(d.By)
	switch {
	case !d.Late(now) || late < time.Minute:
		return delivery.Clock(d.By, now)
	case late < time.Hour:
		return fmt.Sprintf("%d min late", late/time.Minute)
	case late < 48*time.Hour:
		return fmt.Sprintf("%d h late", late/time.Hour)
	}
	return fmt.Sprintf("%d d late", late/(24*time.Hour))
}

// Choose takes a person in hand. What was written for the one before waits
// until they are in hand again.
func (m *Model) Choose(id inventory.PersonID) {
	if id == m.in.Person.ID || m.busy {
		return
	}
	for _, c := range slices.Concat(m.calls(), m.due, m.tell) {
		if c.Person.ID == id {
			m.take(c)
			return
		}
	}
	m.take(delivery.CheckIn{})
}

// calls are those of the list shown.
func (m *Model) calls() []delivery.CheckIn {
	return map[List][]delivery.CheckIn{Due: m.due, Tell: m.tell, Hot: m.hot}[m.List]
}

func (m *Model) take(c delivery.CheckIn) {
	if m.Has() && len(m.texts) > 0 {
		m.drafts[m.in.Person.ID] = m.texts
	}
	m.in, m.page, m.contact = c, store.PersonPage{}, c.Call.Contact
	m.texts, m.Wrong, m.tried = m.drafts[c.Person.ID], ask.Wrong{}, false
	if m.texts == nil {
		m.texts = ask.Answers{}
	}
	m.Changed()
	if c.Person.ID == "" {
		return
	}
	now, id := m.work.Now(), c.Person.ID
	work.Ask(m.work, "call page", func(ctx context.Context) (store.PersonPage, error) {
		return m.work.Desk.Page(ctx, id, now)
	}, func(p store.PersonPage) {
		m.page = p
		m.Changed()
	})
}

// Has reports whether somebody is in hand.
func (m *Model) Has() bool { return m.in.Person.ID != "" }

// Name is who is called.
func (m *Model) Name() string { return m.in.Person.Name() }
