package person

import (
	"errors"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// DoorForm answers the driver who stands at a locked door: how many minutes there
// are, how long to wait, whom to call. If nobody opens, the visit has failed, and
// the next try is written down.
func (m *Model) DoorForm() ask.Form {
	now := m.work.Now()
	a := delivery.DoorAnswer(m.all, m.watch, m.board, now)
	lines := append([]string{string(a.Verdict) + ": " + a.Title + ".", a.Help + "."}, a.Do...)
	return ask.Form{
		Title: "Locked door at " + m.page.Person.Short(), Button: "Nobody opened",
		Before: strings.Join(lines, "\n"),
		Fields: []ask.Field{
			{Key: "why", Label: "What was tried", Hint: "rang, knocked, neighbours, which numbers"},
			{Key: "next", Label: "Next try", Kind: ask.Moment, Value: now.Add(time.Hour).Format(time.RFC3339)},
		},
		Submit: func(answers ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(answers)
			act := delivery.Visit{Person: m.id, Run: m.stopsToday(now), Failed: "locked door: " + r.Need("why", "write what was tried"), Next: r.Time("next", now.Location())}
			if !act.Next.IsZero() && !act.Next.After(now) {
				r.Fail("next", errors.New("that is past"))
			}
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Phoned, m.work.Now(), act, closed)
		},
	}
}

// stopsToday is the run of today, or of a day before, that stops there first; empty when none does.
// A stop of a later day is not failed by a door that stayed shut today.
func (m *Model) stopsToday(now time.Time) inventory.RunID {
	var next inventory.RunID
	var soonest time.Time
	for _, r := range m.page.Runs {
		if at, stops := r.Visit(m.id); stops && r.Day <= now.Format(time.DateOnly) && (next == "" || at.Before(soonest)) {
			next, soonest = r.ID, at
		}
	}
	return next
}
