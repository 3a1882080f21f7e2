package route

// blinkRate is how often an offer is overlooked, so that the same ruin is not always mended the same way.
const blinkRate = 0.01

// freshShare is how often the first stop put back starts a tour of its own: one stop alone seldom pays for a tour, several may.
// A part of a large problem has idle vehicles enough at each deal, and does better without.
const freshShare = 0.03

// memo remembers what a tour of a given version offered a stop.
type memo struct {
	version uint64
	offers  best
}

// recreate puts the absent stops back, each where it costs least, in an order drawn anew each time.
func (s *search) recreate() {
	s.order()
	waiting := s.absent
	s.absent = s.spare[:0]
	fresh := s.dice.share() < s.fresh
	for _, stop := range waiting {
		if s.stale {
			s.listOpen()
		}
		found := place{tour: -1}
		if fresh {
			fresh = false
			found = s.cheapest(stop, s.open[:len(s.open)-len(s.busy)])
		}
		if found.tour < 0 {
			found = s.cheapest(stop, s.open)
		}
		if found.tour < 0 && s.net.soft {
			found = s.leastLate(stop)
		}
		if found.tour < 0 {
			s.absent = append(s.absent, stop)
			continue
		}
		s.touch(found.tour)
		s.stale = s.stale || s.tours[found.tour].visits() == 0
		s.put(stop, found)
	}
	s.spare = waiting
}

// cheapest finds the best offer for a stop among some tours, blinking now and then.
func (s *search) cheapest(stop int32, among []int32) place {
	found := place{cost: min(int64(noOffer.cost), s.net.penalty[stop]), tour: -1}
	row := s.memos[int(stop)*len(s.tours) : (int(stop)+1)*len(s.tours)]
	for _, i := range among {
		m := &row[i]
		if t := &s.tours[i]; m.version != t.version {
			m.version, m.offers = t.version, t.offers(s.net, stop)
		}
		for j := range m.offers {
			o := &m.offers[j]
			if int64(o.cost) >= found.cost {
				break
			}
			if !s.blinks() {
				found = place{int64(o.cost), i, o.at}
				break
			}
		}
	}
	return found
}

// leastLate finds where a stop that can nowhere be in time does least harm.
func (s *search) leastLate(stop int32) place {
	found := place{cost: s.net.penalty[stop], tour: -1}
	row := s.lateMemos[int(stop)*len(s.tours) : (int(stop)+1)*len(s.tours)]
	for _, i := range s.open {
		m := &row[i]
		if t := &s.tours[i]; m.version != t.version {
			*m = t.lateOffer(s.net, stop)
		}
		if m.cost < found.cost && !s.blinks() {
			found = place{m.cost, i, m.at}
		}
	}
	return found
}

// blinks reports whether the next offer is overlooked. The number of offers until then is drawn at once.
func (s *search) blinks() bool {
	if s.untilBlink--; s.untilBlink > 0 {
		return false
	}
	s.untilBlink = 1 + int(s.dice.heat()/blinkRate)
	return true
}

// order sorts the absent stops by a rule drawn by lot.
func (s *search) order() {
	rule := s.rules[s.dice.below(len(s.rules))]
	for _, stop := range s.absent {
		if rule == nil {
			s.keys[stop] = int64(s.dice.next() >> 1)
		} else {
			s.keys[stop] = rule[stop]
		}
	}
	for i := 1; i < len(s.absent); i++ {
		for j := i; j > 0 && s.keys[s.absent[j]] < s.keys[s.absent[j-1]]; j-- {
			s.absent[j], s.absent[j-1] = s.absent[j-1], s.absent[j]
		}
	}
}

// rules are the keys to order stops by, each as often as it should be drawn: by chance, large first, far first, near first,
// narrow window first, early first, early end first. Chance is nil.
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
		near[i] = int64(n.leg(n.vehicles[0].start, int32(i)).cost)
		far[i] = -near[i]
		width[i], opens[i], shuts[i] = int64(n.due[i]-n.ready[i]), int64(n.ready[i]), int64(n.due[i])
	}
	return [][]int64{nil, nil, nil, nil, size, size, size, size, far, far, near, width, width, opens, opens, shuts, shuts}
}
