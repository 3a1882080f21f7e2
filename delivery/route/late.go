package route

import "math"

// followBreaks times a tour whose vehicle has breaks. What refresh found without them stays as a bound:
// no visit can start sooner, and none may start later.
func (t *tour) followBreaks(n *network) {
	v := &n.vehicles[t.vehicle]
	t.rows = append(t.rows[:0], v.firstRow())
	for k := 1; k < len(t.spots); k++ {
		t.rows = append(t.rows, n.advance(v, &t.rows[k-1], t.spots[k-1].leg, t.spots[k].node))
	}
	last := &t.rows[len(t.rows)-1]
	if chosen := v.home(last); chosen >= 0 {
		t.lateness = last[chosen].late
	} else {
		t.broken = true
	}
}

// lateWith is the cost of all act-bys broken on the tour with a stop put before position k, or never-ending when that can't be driven.
func (t *tour) lateWith(n *network, stop int32, k int) int64 {
	if len(n.vehicles[t.vehicle].breaks) > 0 {
		return t.lateWithBreaks(n, stop, k)
	}
	start := max(n.reach(t.spots[k-1].leave, n.leg(t.spots[k-1].node, stop)), n.ready[stop])
	late, leave := t.lateness+n.lateCost(stop, start), start+n.service[stop]
	leg := n.leg(stop, t.spots[k].node)
	for i := k; i < len(t.spots); i++ {
		s := &t.spots[i]
		was := s.leave - n.service[s.node]
		start = max(n.reach(leave, leg), n.ready[s.node])
		if start == was {
			break
		}
		late += n.lateCost(s.node, start) - n.lateCost(s.node, was)
		leave, leg = start+n.service[s.node], s.leg
	}
	return late
}

func (t *tour) lateWithBreaks(n *network, stop int32, k int) int64 {
	v := &n.vehicles[t.vehicle]
	r := n.advance(v, &t.rows[k-1], n.leg(t.spots[k-1].node, stop), stop)
	leg := n.leg(stop, t.spots[k].node)
	for i := k; i < len(t.spots); i++ {
		r = n.advance(v, &r, leg, t.spots[i].node)
		leg = t.spots[i].leg
	}
	if chosen := v.home(&r); chosen >= 0 {
		return r[chosen].late
	}
	return math.MaxInt64
}

// lateOffer is a place where a stop could be put when act-bys may be broken, its own and others'.
type lateOffer struct {
	version uint64 // of the tour it is for
	at      int32  // -1 for none
	cost    int64
}

// lateOffer finds the cheapest such place.
func (t *tour) lateOffer(n *network, stop int32) lateOffer {
	found := lateOffer{version: t.version, at: -1, cost: math.MaxInt64}
	if !n.mayVisit(stop, t.vehicle) || !t.hasRoom(n, stop) {
		return found
	}
	ready, shut, service := n.ready[stop], n.shut[stop], n.service[stop]
	for k := 1; k < len(t.spots); k++ {
		prev, next := &t.spots[k-1], &t.spots[k]
		start := max(n.reach(prev.leave, n.leg(prev.node, stop)), ready)
		if start > shut || n.reach(start+service, n.leg(stop, next.node)) > next.shut || !t.hasRoomAt(n, stop, k) {
			continue
		}
		added := int64(t.added(n, stop, k))
		if added >= found.cost {
			continue
		}
		late := t.lateWith(n, stop, k)
		if late < math.MaxInt64 && added+late-t.lateness < found.cost {
			found.at, found.cost = int32(k), added+late-t.lateness
		}
	}
	return found
}

// added is what putting a stop before position k adds in arcs and vehicle.
func (t *tour) added(n *network, stop int32, k int) int32 {
	cost := n.leg(t.spots[k-1].node, stop).cost + n.leg(stop, t.spots[k].node).cost - t.spots[k-1].leg.cost
	if t.visits() == 0 {
		cost += int32(n.weights.Vehicle)
	}
	return cost
}
