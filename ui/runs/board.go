package runs

import (
	"slices"
	"strconv"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
)

// table is the board of the day with what is tried on it. Nothing of a trial
// is in the book until it is accepted.
type table struct {
	board    delivery.Board // as the book has it
	trial    delivery.Board
	times    []delivery.RoundTimes // of the trial
	hand     int                   // the stop in hand; -1 for none
	carried  bool
	before   delivery.Board // where a stop picked up came from
	moved    bool           // the trial is not the book
	troubles []delivery.Trouble
	notes    []string
}

// Trying reports whether the board shows what is not in the book.
func (m *Model) Trying() bool { return m.table.moved }

// Carrying reports whether a stop is picked up.
func (m *Model) Carrying() bool { return m.table.carried }

// again puts the day as it was read now on the board, with what is tried on it
// as long as the book still stands as it stood. A stop that is picked up is not
// taken out of the hand.
func (m *Model) again(b delivery.Board) {
	if m.table.carried {
		return
	}
	tried, same := b.Again(m.table.trial)
	kept := m.table
	m.lay(b)
	switch {
	case !kept.moved:
	case !same:
		m.Troubles = nil
		m.work.Say("The runs changed meanwhile: what was tried on the board is dropped.")
	default:
		m.table.trial, m.table.moved, m.table.notes, m.table.hand = tried, true, kept.notes, kept.hand
		m.time()
	}
}

// lay puts the day anew on the board.
func (m *Model) lay(b delivery.Board) {
	var at inventory.AddressID // of the stop in hand: it stays in hand
	var run inventory.RunID
	if round, k, on := m.where(m.table.hand); on {
		at, run = m.table.times[round].Stops[k].Address, m.table.times[round].Run
	}
	m.table = table{board: b, trial: b, hand: -1}
	m.time()
	m.table.hand = m.firstStop()
	for _, r := range m.table.times {
		for _, s := range r.Stops {
			if s.Address == at && (run == "" || r.Run == run) {
				m.table.hand = s.On
			}
		}
	}
}

func (m *Model) time() { m.table.times = m.table.trial.Times() }

// firstStop is the first stop that can be moved.
func (m *Model) firstStop() int {
	for _, r := range m.table.times {
		for _, s := range r.Stops {
			if !s.Fixed {
				return s.On
			}
		}
	}
	return -1
}

// where returns on which round a stop is, and which of its stops.
func (m *Model) where(stop int) (round, at int, on bool) {
	for i, r := range m.table.times {
		if k := slices.IndexFunc(r.Stops, func(s delivery.StopTimes) bool { return s.On == stop }); k >= 0 {
			return i, k, true
		}
	}
	return 0, 0, false
}

// HandStop takes the stop of a key of the picture.
func (m *Model) HandStop(key string) {
	stop, err := strconv.Atoi(key)
	if _, _, on := m.where(stop); err != nil || !on || m.table.carried {
		return
	}
	m.table.hand = stop
	m.Changed()
}

// Step moves along the board: along a round, or to the next one; a stop that
// is picked up goes along. Along and across are -1, 0 or 1.
func (m *Model) Step(along, across int) {
	round, at, on := m.where(m.table.hand)
	switch {
	case !on:
		m.table.hand = m.firstStop()
	case m.table.carried && across == 0:
		m.put(round, at+along)
	case m.table.carried:
		m.carryAcross(round, across)
	case across == 0:
		stops := m.table.times[round].Stops
		m.table.hand = stops[min(max(at+along, 0), len(stops)-1)].On
	default:
		m.handAcross(round, across, m.table.times[round].Stops[at].Arrive)
	}
	m.Changed()
}

// handAcross takes the stop nearest in time on the next round that has any.
func (m *Model) handAcross(round, across int, at time.Time) {
	for i := round + across; i >= 0 && i < len(m.table.times); i += across {
		stops := m.table.times[i].Stops
		if len(stops) == 0 {
			continue
		}
		m.table.hand = slices.MinFunc(stops, func(a, b delivery.StopTimes) int {
			return int(a.Arrive.Sub(at).Abs() - b.Arrive.Sub(at).Abs())
		}).On
		return
	}
}
