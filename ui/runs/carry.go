package runs

import "time"

// carryAcross puts the stop on the next round, at the time it has.
func (m *Model) carryAcross(round, across int) {
	next := round + across
	if next < 0 || next >= len(m.table.times) {
		return
	}
	_, at, _ := m.where(m.table.hand)
	m.putAt(next, m.table.times[round].Stops[at].Arrive)
}

// putAt puts the stop in hand on a round where a time lies.
func (m *Model) putAt(round int, at time.Time) {
	before := 0
	for _, s := range m.table.times[round].Stops {
		if s.On != m.table.hand && s.Arrive.Before(at) {
			before++
		}
	}
	m.put(round, before)
}

// put puts the stop in hand on a round. A locked one stays with its vehicle.
func (m *Model) put(round, before int) {
	now, at, on := m.where(m.table.hand)
	if on && m.table.times[now].Stops[at].Locked && m.table.times[round].Vehicle != m.table.times[now].Vehicle {
		m.work.Say("This stop is locked to " + m.table.times[now].Vehicle + ". L lets it free.")
		return
	}
	m.table.trial = m.table.trial.Put(m.table.hand, round, max(before, 0))
	m.time()
}

// PickUp picks the stop in hand up, or puts it down where it is.
func (m *Model) PickUp() {
	if m.table.carried {
		m.Drop()
		return
	}
	round, at, on := m.where(m.table.hand)
	switch {
	case !on:
	case m.table.times[round].Stops[at].Fixed:
		m.work.Say("The vehicle is on its way there: this stop stays.")
	default:
		m.table.before, m.table.carried = m.table.trial, true
	}
	m.Changed()
}

// Drop leaves the stop where it is now.
func (m *Model) Drop() {
	m.table.carried = false
	m.table.moved = len(m.table.trial.Since(m.table.board)) > 0 || m.table.moved
	m.Changed()
}

// PutBack returns a stop that is picked up to where it came from; with none in
// hand it drops everything that was tried.
func (m *Model) PutBack() {
	if m.table.carried {
		m.table.trial, m.table.carried = m.table.before, false
		m.time()
		m.Changed()
		return
	}
	m.lay(m.table.board)
	m.Changed()
}

// DragTo carries a stop to where the pointer is.
func (m *Model) DragTo(key string, x, y, w, h float64) {
	if !m.table.carried {
		m.HandStop(key)
		if m.PickUp(); !m.table.carried {
			return
		}
	}
	if lane, at, ok := m.Timelines().LaneAt(x, y, w, h); ok {
		m.putAt(lane, at)
	}
	m.Changed()
}

// Lock keeps the stop in hand with its vehicle, or lets it free.
func (m *Model) Lock() {
	if _, _, on := m.where(m.table.hand); !on {
		return
	}
	m.table.trial, m.table.moved = m.table.trial.Lock(m.table.hand), true
	m.time()
	m.Changed()
}
