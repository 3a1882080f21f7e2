package runs

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/route"
	"lungwort/inventory"
	"lungwort/labels/scene"
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

// Timelines is the board as a picture.
func (m *Model) Timelines() scene.RoundsData {
	t := m.table
	d := scene.RoundsData{Now: m.book.now, From: m.book.now, To: m.book.now.Add(4 * time.Hour)}
	for _, r := range t.times {
		lane := scene.Lane{Name: r.Name, Below: "nothing to do", Ends: r.Ends, Wrong: r.Overtime > 0 || r.Over != route.Load{}}
		if len(r.Stops) > 0 {
			lane.Below = strings.Trim(r.Driver+" · "+kilometres(r.Metres), " ·")
			lane.Leaves, lane.Back = r.Departs, r.Back
			d.To = latest(d.To, r.Back.Add(10*time.Minute))
			d.From = earliest(d.From, r.Departs)
		}
		for _, s := range r.Stops {
			lane.Blocks = append(lane.Blocks, m.block(r, s))
		}
		d.Lanes = append(d.Lanes, lane)
	}
	if oldest := m.book.now.Add(-2 * time.Hour); d.From.Before(oldest) {
		d.From = oldest
	}
	return d
}

func latest(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

func earliest(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

func (m *Model) block(r delivery.RoundTimes, s delivery.StopTimes) scene.Block {
	inHand := s.On == m.table.hand
	return scene.Block{
		Key: strconv.Itoa(s.On), Label: strconv.Itoa(s.Number), From: s.Arrive, To: s.Leave, Opens: s.Opens, Shuts: s.Shuts, ActBy: s.ActBy,
		Load: fullest(s.After, r.Room), Late: s.Late > 0 || s.Shut > 0 || s.Unfit, Locked: s.Locked, Fixed: s.Fixed,
		InHand: inHand && !m.table.carried, Carried: inHand && m.table.carried,
	}
}

// fullest returns the largest share of a vehicle's limits in use.
func fullest(load, room route.Load) (share float64) {
	for d := range load {
		if room[d] > 0 && room[d] < route.Unlimited {
			share = max(share, float64(load[d])/float64(room[d]))
		}
	}
	return share
}

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
		for d, what := range map[int]string{route.Pieces: "pieces", route.Kg: "kg of gas", route.Dirty: "used things"} {
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
