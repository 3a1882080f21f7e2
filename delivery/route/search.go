package route

import (
	"context"
	"slices"
)

// search is a state being improved step by step: some stops are ruined off their tours and put back, and the result is kept
// when it is better, or, at a temperature, not too much worse.
type search struct {
	state
	dice       dice
	rounds     []int32 // the tours this part looks after
	mine       []int32 // the stops this part looks after
	busy       []int32 // of rounds, those with visits
	open       []int32 // of rounds, those worth trying
	idle       map[int]bool
	stale      bool // busy and open have to be listed again
	touchedIn  []uint32
	step       uint32
	reported   uint32 // steps already counted
	saved      []tour // as they were before this step
	savedIdle  []int32
	memos      []memo
	lateMemos  []lateOffer
	rules      [][]int64
	keys       []int64
	spare      []int32
	wasAbsent  []int32
	untilBlink int
	best       snapshot
}

// newSearch starts a search from a copy of a state, as one of several parts.
func newSearch(from *state, seed uint64, part, parts int) *search {
	n := from.net
	s := &search{dice: dice(seed), idle: map[int]bool{}, stale: true, untilBlink: 1, rules: n.rules(), keys: make([]int64, n.stops)}
	s.net, s.where, s.absent, s.cost = n, slices.Clone(from.where), slices.Clone(from.absent), from.cost
	s.stride = uint32(parts)
	s.stamp = (from.stamp/s.stride+1)*s.stride + uint32(part)
	s.tours = make([]tour, len(from.tours))
	for i := range s.tours {
		s.tours[i].copyFrom(&from.tours[i])
		s.rounds = append(s.rounds, int32(i))
	}
	for i := range n.stops {
		s.mine = append(s.mine, int32(i))
	}
	s.touchedIn = make([]uint32, len(s.tours))
	s.memos = make([]memo, n.stops*len(s.tours))
	if n.soft {
		s.lateMemos = make([]lateOffer, n.stops*len(s.tours))
	}
	return s
}

// rules are the keys to order stops by, each as often as it should be drawn; nil is chance.
func (n *network) rules() [][]int64 {
	size, far, near := make([]int64, n.stops), make([]int64, n.stops), make([]int64, n.stops)
	width, opens, shuts := make([]int64, n.stops), make([]int64, n.stops), make([]int64, n.stops)
	var capacity Load
	for _, v := range n.vehicles {
		for d := range Dimensions {
			capacity[d] = max(capacity[d], v.capacity[d])
		}
	}
	for i := range n.stops {
		for _, d := range n.dims {
			size[i] -= int64(1e6 * float64(max(n.drop[i][d], n.collect[i][d])) / float64(max(1, capacity[d])))
		}
		if len(n.vehicles) > 0 {
			near[i] = int64(n.in[i*n.nodes+int(n.vehicles[0].start)].cost)
		}
		far[i] = -near[i]
		width[i], opens[i], shuts[i] = int64(n.due[i]-n.ready[i]), int64(n.ready[i]), int64(n.due[i])
	}
	return [][]int64{nil, nil, nil, nil, size, size, size, size, far, far, near, width, width, opens, opens, shuts, shuts}
}

func (s *search) served() int { return len(s.mine) - len(s.absent) }

func (s *search) touched(in int32) bool { return s.touchedIn[in] == s.step }

// touch saves a tour before this step first changes it.
func (s *search) touch(in int32) {
	if s.touched(in) {
		return
	}
	s.touchedIn[in] = s.step
	count := len(s.savedIdle)
	s.savedIdle = append(s.savedIdle, in)
	if count == len(s.saved) {
		s.saved = append(s.saved, tour{})
	}
	s.saved[count].copyFrom(&s.tours[in])
	s.stale = s.stale || s.tours[in].visits() == 0
}

func (t *tour) copyFrom(o *tour) {
	spots, rows, before, after := t.spots, t.rows, t.before, t.after
	*t = *o
	t.rows = append(rows[:0], o.rows...)
	t.spots = append(spots[:0], o.spots...)
	t.before, t.after = append(before[:0], o.before...), append(after[:0], o.after...)
}

// renew refreshes a tour after stops were taken off it.
func (s *search) renew(t *tour) {
	s.cost -= t.cost
	t.refresh(s.net)
	s.stampOn(t)
	s.cost += t.cost
	s.stale = s.stale || t.visits() == 0
}

// try does one step at a temperature.
func (s *search) try(temperature float64) {
	s.step++
	s.savedIdle = s.savedIdle[:0]
	was := s.cost
	absent := append(s.wasAbsent[:0], s.absent...)
	s.wasAbsent = absent
	s.ruin()
	for _, stop := range s.absent[len(absent):] {
		s.cost += s.net.penalty[stop]
	}
	s.recreate()
	if float64(s.cost-was) < temperature*s.dice.heat() {
		if s.cost < s.best.cost {
			s.note()
		}
		return
	}
	s.cost = was
	s.absent = append(s.absent[:0], absent...)
	for _, stop := range s.absent {
		s.where[stop] = -1
	}
	for k, in := range s.savedIdle {
		t := &s.tours[in]
		s.stale = s.stale || t.visits() == 0 || s.saved[k].visits() == 0
		*t, s.saved[k] = s.saved[k], *t
		for _, spot := range t.spots[1 : len(t.spots)-1] {
			s.where[spot.node] = in
		}
	}
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
