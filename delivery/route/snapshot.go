package route

// snapshot is a solution written down: for each tour in use its vehicle and its stops.
type snapshot struct {
	cost     int64
	unserved int
	lists    []int32 // for each tour the vehicle, the number of stops, the stops
}

func (b *snapshot) clear() { b.cost, b.unserved, b.lists = 0, 0, b.lists[:0] }

func (b *snapshot) take(o *snapshot) {
	b.clear()
	b.add(o)
}

func (b *snapshot) add(o *snapshot) {
	b.cost += o.cost
	b.unserved += o.unserved
	b.lists = append(b.lists, o.lists...)
}

// note writes the present solution of a part down as its best.
func (s *search) note() {
	b := &s.best
	b.clear()
	b.cost, b.unserved = s.cost, len(s.absent)
	for _, in := range s.own {
		t := &s.tours[in]
		if t.visits() == 0 {
			continue
		}
		b.lists = append(b.lists, in, int32(t.visits()))
		for _, spot := range t.spots[1 : len(t.spots)-1] {
			b.lists = append(b.lists, spot.node)
		}
	}
}

// restore makes a state of a snapshot.
func (b *snapshot) restore(n *network) *state {
	s := newState(n)
	for rest := b.lists; len(rest) > 0; {
		in, count := rest[0], rest[1]
		t := &s.tours[in]
		end := t.spots[1]
		t.spots = t.spots[:1]
		for _, stop := range rest[2 : 2+count] {
			t.spots = append(t.spots, spot{node: stop})
			s.where[stop] = in
			s.cost -= n.penalty[stop]
		}
		t.spots = append(t.spots, end)
		s.cost -= t.cost
		t.refresh(n)
		s.stampOn(t)
		s.cost += t.cost
		rest = rest[2+count:]
	}
	s.absent = s.absent[:0]
	for stop, in := range s.where {
		if in < 0 {
			s.absent = append(s.absent, int32(stop))
		}
	}
	return s
}
