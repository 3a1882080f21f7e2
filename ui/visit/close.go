package visit

import (
	"context"
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/work"
)

// Text is an answer; Time an answer that is a time.
func (m *Model) Text(f Field) string { return m.texts[f] }

// Time is an answer that is a time; zero for none.
func (m *Model) Time(f Field) time.Time { return m.times[f] }

// Set takes an answer.
func (m *Model) Set(f Field, text string) {
	if m.texts[f] != text {
		m.texts[f] = text
		delete(m.Wrong, f)
		m.Changed()
	}
}

// SetTime takes an answer that is a time, or why it can't be read.
func (m *Model) SetTime(f Field, t time.Time, err error) {
	m.times[f], m.badAt[f] = t, err
	delete(m.Wrong, f)
	m.Changed()
}

// SetValue takes what was read on a line's thing. Writing a value ticks it:
// nobody reads what is not there.
func (m *Model) SetValue(id, text string) {
	m.change(id, func(t *Thing) {
		t.Value = text
		t.Ticked = t.Ticked || text != "" && t.Item.ID != ""
	})
}

// Tick turns the tick of a line. What nobody set aside has to be scanned.
func (m *Model) Tick(id string) {
	m.change(id, func(t *Thing) {
		if t.Item.ID == "" {
			m.Bad[id] = "Scan the one that was left."
			return
		}
		t.Ticked = !t.Ticked
	})
}

// TickAll ticks everything that went as planned.
func (m *Model) TickAll() {
	for _, things := range [][]Thing{m.Leave, m.Take} {
		for i := range things {
			things[i].Ticked = things[i].Item.ID != ""
		}
	}
	m.Changed()
}

// Drop takes a line out that nobody planned.
func (m *Model) Drop(id string) {
	keep := func(things []Thing) []Thing {
		var kept []Thing
		for _, t := range things {
			if t.ID() != id || !t.Extra {
				kept = append(kept, t)
			}
		}
		return kept
	}
	m.Leave, m.Take = keep(m.Leave), keep(m.Take)
	m.Changed()
}

func (m *Model) change(id string, how func(*Thing)) {
	delete(m.Bad, id)
	for _, things := range [][]Thing{m.Leave, m.Take} {
		for i := range things {
			if things[i].ID() == id {
				how(&things[i])
			}
		}
	}
	m.Changed()
}

// LeavesMachine reports whether a concentrator is among what was left: then
// somebody has to say whether it runs.
func (m *Model) LeavesMachine() bool {
	for _, t := range m.Leave {
		if t.Ticked && t.Item.Spec.Kind == inventory.Concentrator {
			return true
		}
	}
	return false
}

// Close records the visit, or says what is in the way. What was planned and
// is not ticked is asked about.
func (m *Model) Close() {
	if m.busy || m.page.Person.ID == "" {
		return
	}
	act := m.act()
	m.Changed()
	for _, f := range []Field{Happened, Outcome, Runs, Oxygen, Given, Reason, Next} {
		if m.Wrong[f] != "" {
			m.Focus(f, "")
			return
		}
	}
	if id := m.firstBad(); id != "" {
		m.Focus(Things, id)
		return
	}
	if m.Wrong[Things] != "" {
		m.Focus(Things, "")
		return
	}
	if open := m.open(); open != "" && act.Failed == "" {
		m.Confirm("Close with things not ticked?", open+" Their tasks stay open and are planned again.", "Close the stop", func() { m.write(act) })
		return
	}
	m.write(act)
}

func (m *Model) firstBad() string {
	for _, things := range [][]Thing{m.Leave, m.Take} {
		for _, t := range things {
			if m.Bad[t.ID()] != "" {
				return t.ID()
			}
		}
	}
	return ""
}

// open says what was planned and is not ticked.
func (m *Model) open() string {
	var parts []string
	count := func(things []Thing, words string) {
		n := 0
		for _, t := range things {
			if !t.Ticked {
				n++
			}
		}
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%d was to be %s and is not ticked.", n, words))
		}
	}
	count(m.Leave, "left")
	count(m.Take, "taken")
	return strings.Join(parts, " ")
}

func (m *Model) write(act delivery.Visit) {
	hand := store.Hand{By: m.work.By, Source: inventory.Keyed, At: ask.Exact(m.times[Happened], m.work.Now())}
	if late := m.work.Now().Sub(hand.At); late > time.Hour {
		hand.Source = inventory.Paper
	}
	m.busy = true
	var out store.Outcome
	var run delivery.Run
	m.work.Run.Go("close stop", func(ctx context.Context) (err error) {
		if out, err = m.work.Desk.Do(ctx, hand, act); err != nil || act.Run == "" {
			return err
		}
		return m.work.Desk.Ask(ctx, hand.At, func(v delivery.View) (err error) {
			run, err = v.Run(act.Run)
			return err
		})
	}, func(err error) {
		m.busy = false
		if err != nil {
			m.work.Refuse(err)
			return
		}
		m.work.Changed()
		m.closed(out, run)
	})
}

// closed goes back to the runs, and offers to end a run whose stops are all
// closed.
func (m *Model) closed(out store.Outcome, run delivery.Run) {
	if run.ID == "" {
		m.work.Say(out.Says)
		m.work.Open(work.Target{Room: work.Person, Person: m.page.Person.ID})
		return
	}
	m.work.Open(work.Target{Room: work.Runs, Run: run.ID})
	if len(run.Open()) > 0 {
		m.work.Say(out.Says)
		return
	}
	m.work.Offer(out.Says+" Every stop of "+run.Vehicle+" is closed.", "End the run", func() {
		m.work.Open(work.Target{Room: work.Runs, Run: run.ID, Text: work.EndRun})
	})
}
