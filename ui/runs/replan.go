package runs

import (
	"context"
	"errors"
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// PlanAnew finds a place for everything that waits, around what is under way,
// and shows the difference on the board.
func (m *Model) PlanAnew() {
	if m.Searching {
		return
	}
	board := m.table.board
	m.Searching, m.Share, m.proposal, m.Troubles = true, 0, delivery.DayPlan{}, nil
	m.Changed()
	var anew delivery.Replan
	m.work.Run.Go("plan", func(ctx context.Context) (err error) {
		anew, err = board.Replan(ctx, searchSteps)
		return err
	}, func(err error) {
		m.Searching = false
		switch {
		case err == nil:
			m.tryOut(anew)
		case errors.Is(err, context.Canceled):
			m.work.Say("Planning stopped; nothing is changed.")
		default:
			m.work.Refuse(err)
		}
		m.Changed()
	})
}

// tryOut shows a day planned anew.
func (m *Model) tryOut(r delivery.Replan) {
	m.table.trial, m.table.carried, m.table.notes = r.Board, false, r.Notes
	m.table.moved = len(r.Shifts) > 0 || len(r.Board.Plans()) != len(m.table.board.Plans())
	m.time()
	m.name(r.Troubles)
	if !m.table.moved {
		m.work.Say("Nothing changes: the runs stand as they are.")
	}
	m.Board() // a button took the keyboard; Ctrl+Enter is to accept
}

// name lists what can't be kept.
func (m *Model) name(troubles []delivery.Trouble) {
	m.Troubles = nil
	for i, t := range troubles {
		m.Troubles = append(m.Troubles, Trouble{
			ID: fmt.Sprint("trouble ", i), Who: m.book.who(t.Person, ""), Where: t.Where, Says: t.Says, Relief: t.Relief, Person: t.Person,
		})
	}
}

// AcceptTrial puts the board in force.
func (m *Model) AcceptTrial() {
	if !m.table.moved {
		return
	}
	act := delivery.PlanRuns{Runs: m.table.trial.Plans(), Seen: m.book.seen()}
	m.work.Do("accept board", m.work.Hand(inventory.Keyed), act, func(store.Outcome) {
		m.Troubles, m.table.moved = nil, false // what was tried is in the book
		m.Load()
	})
}

// WithdrawForm takes a vehicle out of service: its stops wait to be planned
// anew.
func (m *Model) WithdrawForm() ask.Form {
	var options []ask.Option
	for _, v := range m.book.programme.Vehicles {
		options = append(options, ask.Option{Value: v.Name, Label: v.Name})
	}
	inHand := ""
	if round, _, on := m.where(m.table.hand); on {
		inHand = m.table.times[round].Vehicle
	}
	return ask.Form{
		Title: "A vehicle falls out", Button: "Take it out of service", Danger: true,
		Before: "Its open stops wait until the day is planned anew. Call the homes that wait for gas first.",
		Fields: []ask.Field{
			{Key: "vehicle", Label: "Vehicle", Kind: ask.Pick, Options: options, Value: inHand},
			{Key: "why", Label: "Why", Hint: "driver ill, broken down"},
			{Key: "until", Label: "Until", Kind: ask.Moment, Hint: "empty: the end of its shift"},
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			act := delivery.Withdraw{Vehicle: a.Text("vehicle"), Why: a.Text("why")}
			if text := a.Text("until"); text != "" {
				until, err := time.Parse(time.RFC3339, text)
				if err != nil {
					return ask.Wrong{"until": err}
				}
				act.Until = until
			}
			m.work.Try("withdraw", m.work.Hand(inventory.Phoned), act, func(_ store.Outcome, err error) {
				closed(err)
				if err == nil {
					m.load(m.PlanAnew)
				}
			})
			return nil
		},
	}
}
