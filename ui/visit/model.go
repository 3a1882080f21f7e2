// Package visit is the screen on which a stop is closed for a person: what was
// left and what was taken, ticked by scan, with gauge and hours, or why
// nothing could be done. What comes in late takes its true time.
package visit

import (
	"context"
	"fmt"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/work"
)

// Thing is one line: an item that was to be left or taken, or one that was
// though nobody planned it.
type Thing struct {
	Want   delivery.Wanted // what the task asks for, to be left
	Item   inventory.Item  // without an ID none was set aside
	Ticked bool
	Value  string // gauge or hours, as typed
	Extra  bool   // not planned
	number int    // among those to be left
}

// ID tells the line apart from the others.
func (t Thing) ID() string {
	if t.Item.ID == "" {
		return fmt.Sprint("any ", t.number)
	}
	return string(t.Item.ID)
}

// Field names an answer of the screen.
type Field string

// The answers asked for.
const (
	Happened Field = "happened"
	Outcome  Field = "outcome" // Done or Failed
	Runs     Field = "runs"    // the concentrator runs: Yes or No
	Oxygen   Field = "oxygen"
	Given    Field = "given" // supplies
	Reason   Field = "reason"
	Next     Field = "next"
	Things   Field = "things" // stands for the two lists
)

// The values of Outcome and Runs.
const (
	Done   = "done"
	Failed = "failed"
	Yes    = "yes"
	No     = "no"
)

// Model is what the screen shows.
type Model struct {
	work *work.Work
	page store.PersonPage
	run  delivery.Run
	now  time.Time // when the screen was opened

	Leave, Take []Thing
	Wrong       map[Field]string
	Bad         map[string]string // by the ID of a line

	texts map[Field]string
	times map[Field]time.Time
	badAt map[Field]error
	busy  bool

	Changed func()
	Focus   func(f Field, thing string)
	Confirm func(title, text, button string, do func())
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model {
	m := &Model{work: w, Changed: func() {}, Focus: func(Field, string) {}, Confirm: func(_, _, _ string, do func()) { do() }}
	m.clear()
	return m
}

func (m *Model) clear() {
	m.Leave, m.Take, m.Wrong, m.Bad = nil, nil, map[Field]string{}, map[string]string{}
	m.texts, m.times, m.badAt = map[Field]string{}, map[Field]time.Time{}, map[Field]error{}
}

// loaded is one reading of the book.
type loaded struct {
	page store.PersonPage
	run  delivery.Run
}

// Load reads what was to be done at a stop for a person.
func (m *Model) Load(run inventory.RunID, who inventory.PersonID) {
	now := m.work.Now()
	work.Ask(m.work, "visit", func(ctx context.Context) (l loaded, err error) {
		if l.page, err = m.work.Desk.Page(ctx, who, now); err != nil {
			return l, err
		}
		err = m.work.Desk.Ask(ctx, now, func(v delivery.View) (err error) {
			if run != "" {
				l.run, err = v.Run(run)
			}
			return err
		})
		return l, err
	}, func(l loaded) { m.show(l, now) })
}

func (m *Model) show(l loaded, now time.Time) {
	m.clear()
	m.page, m.run, m.now = l.page, l.run, now
	m.times[Happened] = now
	m.texts[Outcome] = Done
	for _, t := range m.tasks() {
		m.expect(t)
	}
	m.Changed()
	if len(m.Leave) > 0 {
		m.Focus(Things, m.Leave[0].ID())
	} else if len(m.Take) > 0 {
		m.Focus(Things, m.Take[0].ID())
	} else {
		m.Focus(Outcome, "")
	}
}

// Stop is the person's open stop on the run, and whether there is one.
func (m *Model) Stop() (delivery.Stop, bool) {
	i := slices.IndexFunc(m.run.Stops, func(s delivery.Stop) bool { return s.Waits(m.page.Person.ID) })
	if i < 0 {
		return delivery.Stop{}, false
	}
	return m.run.Stops[i], true
}

// tasks are those the stop was planned for; outside a run all that are open.
func (m *Model) tasks() []delivery.OpenTask {
	stop, planned := m.Stop()
	if !planned {
		return m.page.Care.Tasks
	}
	return slices.DeleteFunc(slices.Clone(m.page.Care.Tasks), func(t delivery.OpenTask) bool { return !slices.Contains(stop.Tasks, t.ID) })
}

// expect lists what a task leaves and takes.
func (m *Model) expect(t delivery.OpenTask) {
	if t.Tasked.Task == delivery.Collect {
		for _, item := range m.page.Kit {
			m.take(item)
		}
		return
	}
	for _, want := range t.Bring {
		for range want.Count {
			one := want
			one.Count = 1
			m.Leave = append(m.Leave, Thing{Want: one, Item: m.setAside(one), number: len(m.Leave)})
			if t.Tasked.Task == delivery.Swap {
				m.takeLike(one)
			}
		}
	}
}

// setAside returns the item reserved for a line of a task; one without an ID
// when there is none.
func (m *Model) setAside(want delivery.Wanted) inventory.Item {
	for _, item := range m.page.Reserved {
		used := slices.ContainsFunc(m.Leave, func(t Thing) bool { return t.Item.ID == item.ID })
		if !used && item.Spec.Kind == want.Kind {
			return item
		}
	}
	return inventory.Item{}
}

func (m *Model) take(item inventory.Item) {
	if !slices.ContainsFunc(m.Take, func(t Thing) bool { return t.Item.ID == item.ID }) {
		m.Take = append(m.Take, Thing{Item: item})
	}
}

// takeLike expects back what a swap replaces: one thing of its kind.
func (m *Model) takeLike(want delivery.Wanted) {
	for _, item := range m.page.Kit {
		taken := slices.ContainsFunc(m.Take, func(t Thing) bool { return t.Item.ID == item.ID })
		if !taken && item.Spec.Kind == want.Kind {
			m.take(item)
			return
		}
	}
}
