package route

// Driven times given orders of stops, one for each vehicle, as the search would.
func Driven(p Problem, orders [][]int) Plan {
	n := newNetwork(&p)
	s := newState(n)
	s.absent = nil
	for v, order := range orders {
		for _, stop := range order {
			t := &s.tours[v]
			s.put(int32(stop), place{tour: int32(v), at: int32(len(t.spots) - 1)})
		}
	}
	for stop, in := range s.where {
		if in < 0 {
			s.absent = append(s.absent, int32(stop))
		}
	}
	return s.plan()
}
