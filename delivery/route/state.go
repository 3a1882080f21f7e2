package route

// away marks a stop that another part of the search looks after.
const away = -2

// state is a whole solution under search: tours, and the stops on none of them.
type state struct {
	net    *network
	tours  []tour
	where  []int32 // the tour each stop is on, -1 for none, away for another part's
	absent []int32
	cost   int64 // of all tours, and the penalties of the absent
	stamp  uint64
	stride uint64 // stamps step by this, so that two parts never give the same one
}

func newState(n *network) *state {
	s := &state{net: n, where: make([]int32, n.stops), stride: 1}
	for v := range n.vehicles {
		t := newTour(n, int32(v))
		s.stampOn(&t)
		s.tours = append(s.tours, t)
	}
	for i := range s.where {
		s.where[i] = -1
		s.absent = append(s.absent, int32(i))
		s.cost += n.penalty[i]
	}
	return s
}

func (s *state) stampOn(t *tour) {
	s.stamp += s.stride
	t.version = s.stamp
}

// put inserts a stop into a tour.
func (s *state) put(stop int32, p place) {
	t := &s.tours[p.tour]
	s.cost -= t.cost + s.net.penalty[stop]
	t.insert(s.net, stop, int(p.at))
	s.stampOn(t)
	s.cost += t.cost
	s.where[stop] = p.tour
}

// place is a tour and a position on it, and what putting a stop there costs.
type place struct {
	cost int64
	tour int32
	at   int32
}

// construct puts the absent stops, in their order, where each costs least.
func (s *state) construct() {
	waiting := s.absent
	s.absent = nil
	for _, stop := range waiting {
		found := place{cost: s.net.penalty[stop], tour: -1}
		for i := range s.tours {
			if o := s.tours[i].offers(s.net, stop)[0]; o.at >= 0 && int64(o.cost) < found.cost {
				found = place{int64(o.cost), int32(i), o.at}
			}
		}
		for i := 0; found.tour < 0 && s.net.soft && i < len(s.tours); i++ {
			if o := s.tours[i].lateOffer(s.net, stop); o.cost < found.cost {
				found = place{o.cost, int32(i), o.at}
			}
		}
		if found.tour < 0 {
			s.absent = append(s.absent, stop)
			continue
		}
		s.put(stop, found)
	}
}
