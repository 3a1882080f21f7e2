package route

import (
	"cmp"
	"math"
	"slices"
)

// explainUnserved says why a stop is on no route and what would put it on one.
func (s *state) explainUnserved(stop int32) Unserved {
	if s.net.problem.Stops[stop].Later > 0 {
		return Unserved{Stop: int(stop), Cause: OtherDay}
	}
	u := Unserved{Stop: int(stop), Cause: s.cause(stop)}
	if u.Cause < TooFar {
		return u
	}
	if r, ok := s.laterWindow(stop); ok {
		u.Forced, u.LateBy = true, r.At-int64(s.net.shut[stop])
		u.Reliefs = append(u.Reliefs, r)
	}
	if r, ok := s.longerShift(stop); ok {
		u.Reliefs = append(u.Reliefs, r)
	}
	if r, ok := s.extraVehicle(stop, math.MaxInt32); ok {
		u.Reliefs = append(u.Reliefs, r)
	} else if r, ok := s.earlierShift(stop); ok {
		u.Reliefs = append(u.Reliefs, r)
	}
	sortReliefs(u.Reliefs)
	return u
}

// explainLate says why a visit is past its act-by and what would bring gas sooner.
func (s *state) explainLate(v Visit, vehicle int) Late {
	stop := int32(v.Stop)
	l := Late{Stop: v.Stop, Vehicle: vehicle, LateBy: v.Start - s.net.problem.Stops[v.Stop].ActBy, Cause: ActByFirst}
	if opens, due := s.net.ready[stop], s.net.due[stop]; opens > due {
		l.Cause = OpensLate
		l.Reliefs = []Relief{{Kind: EarlierWindow, Vehicle: -1, At: int64(due), Price: int64(opens - due)}}
		return l
	}
	r, ok := s.extraVehicle(stop, int32(v.Start))
	if ok {
		l.Reliefs = append(l.Reliefs, r)
	}
	if !ok || r.At > int64(s.net.due[stop]) {
		l.Cause = TooFar
		if r, ok := s.earlierShift(stop); ok {
			l.Reliefs = append(l.Reliefs, r)
		}
	}
	sortReliefs(l.Reliefs)
	return l
}

func sortReliefs(reliefs []Relief) {
	slices.SortStableFunc(reliefs, func(a, b Relief) int { return cmp.Compare(a.Price, b.Price) })
}

// cause says what keeps a stop off every route.
func (s *state) cause(stop int32) Cause {
	var kept [tooSmall + 1]int
	for v := range s.net.vehicles {
		kept[s.net.suits(int(stop), v)]++
	}
	switch {
	case kept[suited] > 0:
	case kept[tooSmall] > 0:
		return TooLarge
	case kept[unskilled] > 0:
		return NoSkill
	default:
		return NoVehicle
	}
	if _, ok := s.extraVehicle(stop, math.MaxInt32); !ok {
		return TooFar
	}
	roomy := *s.net
	roomy.dims, roomy.twoWay = nil, false
	for i := range s.tours {
		if s.tours[i].offers(&roomy, stop)[0].at >= 0 {
			return NoRoom
		}
	}
	return NoTime
}

// laterWindow finds the route that could visit a stop soonest after its window with every other visit kept.
func (s *state) laterWindow(stop int32) (Relief, bool) {
	open := *s.net
	open.due, open.shut = slices.Clone(open.due), slices.Clone(open.shut)
	open.due[stop], open.shut[stop] = longest, longest
	tour, start := s.squeeze(&open, stop, func(p pass, _ *tour, k int) int64 { return int64(p.starts[k-1]) })
	if tour < 0 || start <= int64(s.net.shut[stop]) {
		return Relief{}, false
	}
	return Relief{Kind: LaterWindow, Vehicle: tour, At: start, Price: start - int64(s.net.shut[stop])}, true
}

// longerShift finds the route that could visit a stop inside its window with the least overtime.
func (s *state) longerShift(stop int32) (Relief, bool) {
	free := *s.net
	free.vehicles = slices.Clone(free.vehicles)
	for v := range free.vehicles {
		free.vehicles[v].until = longest
	}
	tour, over := s.squeeze(&free, stop, func(p pass, t *tour, _ int) int64 {
		return int64(p.starts[len(p.starts)-1] - s.net.vehicles[t.vehicle].until)
	})
	if tour < 0 || over <= 0 {
		return Relief{}, false
	}
	back := int64(s.net.vehicles[tour].until) + over
	return Relief{Kind: LongerShift, Vehicle: tour, At: back, Price: over}, true
}

// squeeze tries a stop everywhere it has room under a relaxed network and keeps the place with the least score
// that makes no act-by worse. The tour is -1 when there is none.
func (s *state) squeeze(n *network, stop int32, score func(p pass, t *tour, k int) int64) (vehicle int, least int64) {
	vehicle, least = -1, math.MaxInt64
	for i := range s.tours {
		t := &s.tours[i]
		if !n.mayVisit(stop, t.vehicle) || !t.hasRoom(n, stop) {
			continue
		}
		was, _ := n.walk(t.vehicle, t.nodes())
		for k := 1; k < len(t.spots); k++ {
			if !t.hasRoomAt(n, stop, k) {
				continue
			}
			p, ok := n.walk(t.vehicle, t.nodesWith(stop, k))
			if ok && p.lateness <= was.lateness && score(p, t, k) < least {
				vehicle, least = int(t.vehicle), score(p, t, k)
			}
		}
	}
	return vehicle, least
}

// extraVehicle finds the vehicle whose like, sent to this stop alone, would be there before the given time with the shortest trip.
func (s *state) extraVehicle(stop, before int32) (Relief, bool) {
	found := Relief{Kind: ExtraVehicle, Price: math.MaxInt64}
	for v := range s.net.vehicles {
		u := &s.net.vehicles[v]
		if !s.net.mayVisit(stop, int32(v)) {
			continue
		}
		p, ok := s.net.walk(int32(v), []int32{u.start, stop, u.end})
		if !ok || p.starts[0] >= before {
			continue
		}
		leave := s.net.depart(p.starts[0], s.net.leg(u.start, stop))
		if trip := int64(p.starts[1] - leave); trip < found.Price {
			found.Vehicle, found.At, found.Price = v, int64(p.starts[0]), trip
		}
	}
	return found, found.Price < math.MaxInt64
}

// earlierShift finds the vehicle that would have to leave the least earlier to reach a stop in time, going there first.
func (s *state) earlierShift(stop int32) (Relief, bool) {
	found := Relief{Kind: EarlierShift, Price: math.MaxInt64}
	for v := range s.net.vehicles {
		u := &s.net.vehicles[v]
		there, home := s.net.leg(u.start, stop), s.net.leg(stop, u.end)
		leave := min(s.net.depart(s.net.due[stop], there), u.from)
		back := s.net.reach(max(s.net.reach(leave, there), s.net.ready[stop])+s.net.service[stop], home)
		if early := int64(u.from - leave); s.net.mayVisit(stop, int32(v)) && early > 0 && back <= u.until && early < found.Price {
			found.Vehicle, found.At, found.Price = v, int64(leave), early
		}
	}
	return found, found.Price < math.MaxInt64
}
