package route

import (
	"cmp"
	"slices"
)

// plan writes the state down for people: times, loads, and what could not be kept.
func (s *state) plan() Plan {
	p := Plan{Cost: s.cost}
	for i := range s.tours {
		if s.tours[i].visits() > 0 {
			r := s.net.route(&s.tours[i])
			p.Distance += r.Distance
			p.Duration += r.Duration
			p.Routes = append(p.Routes, r)
		}
	}
	for _, stop := range s.absent {
		p.Unserved = append(p.Unserved, s.explainUnserved(stop))
	}
	for _, r := range p.Routes {
		for _, v := range r.Visits {
			if by := s.net.problem.Stops[v.Stop].ActBy; by != 0 && v.Start > by {
				p.Late = append(p.Late, s.explainLate(v, r.Vehicle))
			}
		}
	}
	stops := s.net.problem.Stops
	slices.SortStableFunc(p.Unserved, func(a, b Unserved) int {
		return cmp.Or(cmp.Compare(stops[b.Stop].Risk, stops[a.Stop].Risk), cmp.Compare(a.Stop, b.Stop))
	})
	slices.SortStableFunc(p.Late, func(a, b Late) int {
		harm := func(l Late) float64 { return stops[l.Stop].Risk * float64(l.LateBy) }
		return cmp.Or(cmp.Compare(harm(b), harm(a)), cmp.Compare(b.LateBy, a.LateBy), cmp.Compare(a.Stop, b.Stop))
	})
	return p
}

// route turns a tour into visits with times. The vehicle leaves as late as starts no visit later.
func (n *network) route(t *tour) Route {
	driven, _ := n.walk(t.vehicle, t.nodes())
	return n.write(t, driven)
}

// write writes a tour down as it was driven.
func (n *network) write(t *tour, driven pass) Route {
	v := &n.vehicles[t.vehicle]
	r := Route{Vehicle: int(t.vehicle), Departure: int64(v.from), Rests: driven.rests, Out: t.out}
	board := t.out
	at := int64(v.from)
	for k := 1; k < len(t.spots); k++ {
		from, node := t.spots[k-1].node, t.spots[k].node
		r.Distance += n.metres(from, node)
		leg := n.leg(from, node)
		at = int64(n.reach(int32(at), leg))
		for _, rest := range driven.rests {
			if rest.After == k-2 {
				at = int64(n.rested(int32(at), int32(rest.Start+rest.Length), leg, int32(rest.Length)))
			}
		}
		if k == len(t.spots)-1 {
			break
		}
		start := int64(driven.starts[k-1])
		if k == 1 && (len(driven.rests) == 0 || driven.rests[0].After >= 0) {
			r.Departure = int64(n.depart(int32(start), leg))
			at = int64(n.reach(int32(r.Departure), leg))
		}
		for d := range Dimensions {
			board[d] += n.collect[node][d] - n.drop[node][d]
		}
		leave := start + int64(n.service[node])
		r.Visits = append(r.Visits, Visit{Stop: int(node), Arrival: at, Start: start, Wait: start - at, Leave: leave, After: board})
		at = leave
	}
	r.Return = at
	r.Duration = r.Return - r.Departure
	return r
}

// metres is the way between two nodes without its weight.
func (n *network) metres(a, b int32) int64 {
	return n.problem.Distance[n.places[a]][n.places[b]]
}
