package runs

import (
	"fmt"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/route"
)

// HandWords tells of the stop in hand: when, by when, and what is on board
// after it.
func (m *Model) HandWords() string {
	round, at, on := m.where(m.table.hand)
	if !on {
		return "No stop to move. Plan makes runs of what waits."
	}
	r, s := m.table.times[round], m.table.times[round].Stops[at]
	words := fmt.Sprintf("%d  %s · %s at %s", s.Number, m.whoAt(s), r.Name, m.book.clock(s.Arrive))
	if by, waits := s.Margin(); waits && by >= 0 {
		words += ", " + delivery.Spell(by) + " before act-by"
	} else if waits {
		words += ", " + delivery.Spell(-by) + " after act-by"
	}
	if s.Shut > 0 {
		words += ", " + delivery.Spell(s.Shut) + " after the time agreed"
	}
	if !s.Fixed {
		words += fmt.Sprintf(" · then on board %d of %d pieces, %d of %d kg gas, %d used", s.After[route.Pieces], r.Room[route.Pieces], s.After[route.Kg], r.Room[route.Kg], s.After[route.Dirty])
	}
	if s.Locked {
		words += " · locked"
	}
	return words
}

func (m *Model) whoAt(s delivery.StopTimes) string {
	if len(s.Persons) == 1 {
		return m.book.who(s.Persons[0], s.Address)
	}
	return s.Where
}

// Costs tells what is tried costs against the book: kilometres and minutes,
// then everyone touched, then what is broken.
func (m *Model) Costs() []string {
	t := m.table
	if !t.moved && !t.carried {
		return nil
	}
	var metres int64
	var driving time.Duration
	for i, before := range t.board.Times() {
		metres += t.times[i].Metres - before.Metres
		driving += t.times[i].Driving - before.Driving
	}
	words := []string{fmt.Sprintf("%+.1f km, %s of driving", float64(metres)/1000, signed(driving))}
	words = append(words, m.Broken()...)
	for _, s := range t.trial.Since(t.board) {
		words = append(words, s.Says(m.book.now))
	}
	return append(words, t.notes...)
}

func signed(d time.Duration) string {
	if d < 0 {
		return "-" + delivery.Spell(-d)
	}
	return "+" + delivery.Spell(d)
}

// Broken tells what the rounds on the board do not keep of the vehicles.
func (m *Model) Broken() []string {
	var words []string
	for _, r := range m.table.times {
		if r.Overtime > 0 {
			words = append(words, fmt.Sprintf("%s is back %s after its shift", r.Name, delivery.Spell(r.Overtime)))
		}
		if r.NoRest && len(r.Stops) > 0 {
			words = append(words, r.Name+" finds no time for its break")
		}
		for d, what := range map[int]string{route.Pieces: "pieces", route.Kg: "kg of gas", route.Bulk: "litres", route.Dirty: "used things"} {
			if r.Over[d] > 0 {
				words = append(words, fmt.Sprintf("%s has %d %s too many on board", r.Name, r.Over[d], what))
			}
		}
		for _, s := range r.Stops {
			switch {
			case s.Aboard != "":
				words = append(words, fmt.Sprintf("%s left with what %s is to get: they have to meet", s.Aboard, s.Where))
			case s.Unfit:
				words = append(words, fmt.Sprintf("%s lacks what %s needs", r.Name, s.Where))
			case s.Shut > 0:
				words = append(words, fmt.Sprintf("%s is reached %s after the time agreed", s.Where, delivery.Spell(s.Shut)))
			}
		}
	}
	slices.Sort(words)
	return words
}
