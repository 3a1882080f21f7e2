package route

import (
	"context"
	"slices"
)

// search is a state being improved step by step: some stops are taken off their tours and put back, and the result is kept
// when it is better, or, at a temperature, not too much worse.
type search struct {
	state
	dice  dice
	fresh float64 // how often the first stop put back starts a tour of its own
	own   []int32 // the tours this part looks after
	mine  []int32 // the stops this part looks after
	best  snapshot
	steps int

	busy  []int32 // of own, those with visits
	open  []int32 // of own, those worth trying: an idle one of each kind, then the busy ones
	stale bool    // busy and open have to be listed again
	idle  []bool  // scratch of listOpen, by kind

	touched   []int32 // the tours this step has changed
	touchedIn []int   // the step that last changed each tour
	saved     []tour  // the touched tours as they were
	wasAbsent []int32 // the absent as they were
	spare     []int32 // memory for the next absent

	memos      []memo // by stop, then tour
	lateMemos  []lateOffer
	rules      [][]int64
	keys       []int64 // scratch of order, by stop
	untilBlink int
}

// newSearch starts a search from a copy of a state, as one of several parts.
func newSearch(from *state, seed uint64, part, parts int) *search {
	n := from.net
	s := &search{dice: dice(seed), stale: true, untilBlink: 1, rules: n.rules(), keys: make([]int64, n.stops)}
	s.net, s.where, s.absent, s.cost = n, slices.Clone(from.where), slices.Clone(from.absent), from.cost
	s.stride = uint64(parts)
	s.stamp = (from.stamp/s.stride+1)*s.stride + uint64(part)
	s.tours = make([]tour, len(from.tours))
	for i := range s.tours {
		s.tours[i].copyFrom(&from.tours[i])
		s.own = append(s.own, int32(i))
	}
	for i := range n.stops {
		s.mine = append(s.mine, int32(i))
	}
	s.idle, s.touchedIn = make([]bool, len(s.tours)), make([]int, len(s.tours))
	s.memos = make([]memo, n.stops*len(s.tours))
	if n.soft {
		s.lateMemos = make([]lateOffer, n.stops*len(s.tours))
	}
	return s
}

// run does a number of steps at a temperature, or as many as there is time for.
func (s *search) run(ctx context.Context, steps int, temperature float64) {
	s.note()
	for k := range steps {
		if k%64 == 0 && ctx.Err() != nil {
			return
		}
		s.try(temperature)
	}
}

// try does one step: ruin, recreate, and keep it or take it back.
func (s *search) try(temperature float64) {
	s.steps++
	was := s.cost
	s.touched = s.touched[:0]
	s.wasAbsent = append(s.wasAbsent[:0], s.absent...)
	if s.stale {
		s.listOpen()
	}
	s.ruin()
	s.recreate()
	if float64(s.cost-was) >= temperature*s.dice.heat() {
		s.takeBack()
		s.cost = was
	} else if s.cost < s.best.cost {
		s.note()
	}
}

// touch saves a tour before this step first changes it.
func (s *search) touch(in int32) {
	if s.touchedIn[in] == s.steps {
		return
	}
	s.touchedIn[in] = s.steps
	k := len(s.touched)
	s.touched = append(s.touched, in)
	if k == len(s.saved) {
		s.saved = append(s.saved, tour{})
	}
	s.saved[k].copyFrom(&s.tours[in])
}

// takeBack makes everything but the cost as it was before the step.
func (s *search) takeBack() {
	s.absent = append(s.absent[:0], s.wasAbsent...)
	for _, stop := range s.absent {
		s.where[stop] = -1
	}
	for k, in := range s.touched {
		t := &s.tours[in]
		s.stale = s.stale || t.visits() == 0 || s.saved[k].visits() == 0
		*t, s.saved[k] = s.saved[k], *t
		for _, spot := range t.spots[1 : len(t.spots)-1] {
			s.where[spot.node] = in
		}
	}
}

func (t *tour) copyFrom(o *tour) {
	spots, rows, before, after := t.spots, t.rows, t.before, t.after
	*t = *o
	t.spots, t.rows = append(spots[:0], o.spots...), append(rows[:0], o.rows...)
	t.before, t.after = append(before[:0], o.before...), append(after[:0], o.after...)
}

// listOpen lists the tours in use, and one of each kind of idle vehicle.
func (s *search) listOpen() {
	s.stale = false
	s.busy, s.open = s.busy[:0], s.open[:0]
	clear(s.idle)
	for _, i := range s.own {
		if s.tours[i].visits() > 0 {
			s.busy = append(s.busy, i)
		} else if kind := s.net.vehicles[s.tours[i].vehicle].kind; !s.idle[kind] {
			s.idle[kind] = true
			s.open = append(s.open, i)
		}
	}
	s.open = append(s.open, s.busy...)
}
