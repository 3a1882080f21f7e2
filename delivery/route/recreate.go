package route

// blinkRate is how often an offer is overlooked, so that the same ruin is not always mended the same way.
var blinkRate = 0.01

// freshShare is how often the first stop put back starts a tour of its own: one stop alone never pays for a tour, several may.
var freshShare = 0.1

// memo remembers what a tour of a given version offered a stop.
type memo struct {
	version uint32
	offers  best
}

// recreate puts the absent stops back, each where it costs least, in an order drawn anew each time.
func (s *search) recreate() {
	s.order()
	waiting := s.absent
	s.absent = s.spare[:0]
	fresh := s.dice.share() < freshShare
	for _, stop := range waiting {
		if s.stale {
			s.listOpen()
		}
		among := s.open
		if fresh {
			among, fresh = s.open[:len(s.open)-len(s.busy)], false
		}
		found := s.cheapest(stop, among)
		if found.tour < 0 && len(among) < len(s.open) {
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
		s.put(stop, found.tour, int(found.at))
	}
	s.spare = waiting
}

// cheapest finds the best offer for a stop among the open tours, blinking now and then.
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
			if s.untilBlink--; s.untilBlink > 0 {
				found = place{int64(o.cost), i, o.at}
				break
			}
			s.untilBlink = 1 + int(s.dice.heat()/blinkRate)
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
		if m.cost < found.cost {
			found = place{m.cost, i, m.at}
		}
	}
	return found
}

// listOpen lists the tours in use, and one of each kind of idle vehicle.
func (s *search) listOpen() {
	s.stale = false
	s.busy, s.open = s.busy[:0], s.open[:0]
	clear(s.idle)
	for _, i := range s.rounds {
		if s.tours[i].visits() > 0 {
			s.busy = append(s.busy, i)
		} else if kind := s.net.vehicles[s.tours[i].vehicle].kind; !s.idle[kind] {
			s.idle[kind] = true
			s.open = append(s.open, i)
		}
	}
	s.open = append(s.open, s.busy...)
}

// order sorts the absent stops by a rule drawn by lot: at random, large first, far first, near first, narrow window first,
// early first, early end first.
func (s *search) order() {
	keys := s.keys
	for _, stop := range s.absent {
		keys[stop] = int64(s.dice.next() >> 2)
	}
	if rule := s.rules[s.dice.below(len(s.rules))]; rule != nil {
		for _, stop := range s.absent {
			keys[stop] = rule[stop]
		}
	}
	for i := 1; i < len(s.absent); i++ {
		for j := i; j > 0 && keys[s.absent[j]] < keys[s.absent[j-1]]; j-- {
			s.absent[j], s.absent[j-1] = s.absent[j-1], s.absent[j]
		}
	}
}
