package route

import "math"

// tour is one vehicle's round during the search, with what is needed to judge an insertion in constant time.
type tour struct {
	vehicle  int32
	version  uint64 // changes whenever spots do
	spots    []spot // the first is the vehicle's start, the last its end
	lateness int64  // cost of act-bys broken, part of cost
	rows     []row  // with breaks: when each spot can be left
	before   []Load // with collections: before[k] is the most on board from the start to the leg into spot k
	after    []Load // with collections: after[k] is the most on board from the leg into spot k to the end
	out      Load   // dropped on the whole round
	back     Load   // collected on the whole round
	cost     int64  // arcs, vehicle and lateness
	broken   bool   // a window shuts or the shift ends before the vehicle is there; never so after an insertion
}

// spot is one place on a tour.
type spot struct {
	node  int32
	leave int32 // earliest time of leaving: the visit as early as can be, plus its service
	late  int32 // latest start that keeps everything from here on in time, or no later than it is
	shut  int32 // latest start that keeps every window and the shift from here on
	leg   arc   // to the next spot
}

func (t *tour) visits() int { return len(t.spots) - 2 }

func newTour(n *network, vehicle int32) tour {
	v := n.vehicles[vehicle]
	t := tour{vehicle: vehicle, spots: []spot{{node: v.start}, {node: v.end}}}
	t.refresh(n)
	return t
}

// insert puts a stop before position k and works out again only what that changes.
func (t *tour) insert(n *network, stop int32, k int) {
	for _, d := range n.dims {
		t.out[d] += n.drop[stop][d]
		t.back[d] += n.collect[stop][d]
	}
	empty := t.visits() == 0
	t.spots = append(t.spots, spot{})
	copy(t.spots[k+1:], t.spots[k:])
	t.spots[k] = spot{node: stop}
	if empty || n.soft || len(n.vehicles[t.vehicle].breaks) > 0 {
		t.refresh(n)
		return
	}
	if n.twoWay {
		t.followLoad(n)
	}
	prev, s, next := &t.spots[k-1], &t.spots[k], &t.spots[k+1]
	t.cost -= int64(prev.leg.cost)
	prev.leg, s.leg = n.leg(prev.node, stop), n.leg(stop, next.node)
	t.cost += int64(prev.leg.cost) + int64(s.leg.cost)
	for i := k; i < len(t.spots); i++ {
		prev, s := &t.spots[i-1], &t.spots[i]
		leave := max(n.reach(prev.leave, prev.leg), n.ready[s.node]) + n.service[s.node]
		if i > k && leave == s.leave {
			break
		}
		s.leave = leave
	}
	for i := k; i >= 0; i-- {
		s := &t.spots[i]
		late := min(n.depart(t.spots[i+1].late, s.leg)-n.service[s.node], n.due[s.node])
		if i < k && late == s.late {
			break
		}
		s.late = late
	}
}

// refresh works out times, loads and cost from the order of the spots.
func (t *tour) refresh(n *network) {
	t.weigh(n)
	v, last := &n.vehicles[t.vehicle], len(t.spots)-1
	t.spots[0].leave, t.cost, t.lateness, t.broken = v.from, 0, 0, false
	for k := 1; k <= last; k++ {
		prev, s := &t.spots[k-1], &t.spots[k]
		prev.leg = n.leg(prev.node, s.node)
		t.cost += int64(prev.leg.cost)
		start := max(n.reach(prev.leave, prev.leg), n.ready[s.node])
		if start > n.due[s.node] {
			t.lateness += n.lateCost(s.node, start)
			t.broken = t.broken || start > n.shut[s.node]
		}
		s.leave = start + n.service[s.node]
	}
	t.broken = t.broken || t.spots[last].leave > v.until
	t.spots[last].late, t.spots[last].shut = v.until, v.until
	for k := last - 1; k >= 0; k-- {
		s, next := &t.spots[k], &t.spots[k+1]
		s.late = min(n.depart(next.late, s.leg)-n.service[s.node], max(n.due[s.node], s.leave-n.service[s.node]))
		s.shut = min(n.depart(next.shut, s.leg)-n.service[s.node], n.shut[s.node])
	}
	if len(v.breaks) > 0 {
		t.followBreaks(n)
	}
	t.cost += t.lateness + n.weights.Vehicle
	if t.visits() == 0 { // the vehicle stays where it is
		t.cost, t.lateness, t.spots[0].leg.cost, t.broken = 0, 0, 0, false
	}
}

// weigh adds up the loads of the tour.
func (t *tour) weigh(n *network) {
	t.out, t.back = Load{}, Load{}
	for _, s := range t.spots[1 : len(t.spots)-1] {
		for _, d := range n.dims {
			t.out[d] += n.drop[s.node][d]
			t.back[d] += n.collect[s.node][d]
		}
	}
	if n.twoWay {
		t.followLoad(n)
	}
}

// followLoad works out the most on board before and after each leg.
func (t *tour) followLoad(n *network) {
	count := len(t.spots)
	if cap(t.before) < count {
		t.before, t.after = make([]Load, count, 2*count), make([]Load, count, 2*count)
	}
	t.before, t.after = t.before[:count], t.after[:count]
	board, most := t.out, t.out
	for k := 1; k < count; k++ {
		t.after[k] = board // for now, the load on the leg into k
		t.before[k] = most
		for _, d := range n.dims {
			board[d] += n.collect[t.spots[k].node][d] - n.drop[t.spots[k].node][d]
			most[d] = max(most[d], board[d])
		}
	}
	for k := count - 2; k > 0; k-- {
		for _, d := range n.dims {
			t.after[k][d] = max(t.after[k][d], t.after[k+1][d])
		}
	}
}

// hasRoom reports whether the stop's load could be taken on at all.
func (t *tour) hasRoom(n *network, stop int32) bool {
	capacity := &n.vehicles[t.vehicle].capacity
	for _, d := range n.dims {
		if t.out[d]+n.drop[stop][d] > capacity[d] || t.back[d]+n.collect[stop][d] > capacity[d] {
			return false
		}
	}
	return true
}

// hasRoomAt reports whether a stop with room on the tour also has it before position k.
func (t *tour) hasRoomAt(n *network, stop int32, k int) bool {
	if !n.twoWay {
		return true
	}
	capacity := &n.vehicles[t.vehicle].capacity
	for _, d := range n.dims {
		if t.before[k][d]+n.drop[stop][d] > capacity[d] || t.after[k][d]+n.collect[stop][d] > capacity[d] {
			return false
		}
	}
	return true
}

// offer is a place where a stop could be put: before position at, for cost more.
type offer struct {
	cost int32
	at   int32
}

// noOffer stands for no place.
var noOffer = offer{cost: math.MaxInt32, at: -1}

// best holds the cheapest offers, cheapest first.
type best [3]offer

func (b *best) add(o offer) {
	switch {
	case o.cost >= b[2].cost:
	case o.cost >= b[1].cost:
		b[2] = o
	case o.cost >= b[0].cost:
		b[1], b[2] = o, b[1]
	default:
		b[0], b[1], b[2] = o, b[0], b[1]
	}
}

// offers finds the cheapest places for a stop that keep every visit in time, or no later than it is.
func (t *tour) offers(n *network, stop int32) best {
	found := best{noOffer, noOffer, noOffer}
	if !n.mayVisit(stop, t.vehicle) || !t.hasRoom(n, stop) {
		return found
	}
	rests := len(n.vehicles[t.vehicle].breaks) > 0
	fixed := int32(0)
	if len(t.spots) == 2 {
		fixed = int32(n.weights.Vehicle)
	}
	row := int(stop) * n.nodes
	in, out := n.in[row:row+n.nodes], n.out[row:row+n.nodes]
	ready, due, service := n.ready[stop], n.due[stop], n.service[stop]
	k := 1
	for k < len(t.spots) && t.spots[k].late < ready+service {
		k++
	}
	for ; k < len(t.spots); k++ {
		prev, next := &t.spots[k-1], &t.spots[k]
		if prev.leave > due {
			break
		}
		to, from := in[prev.node], out[next.node]
		cost := to.cost + from.cost - prev.leg.cost + fixed
		if cost >= found[2].cost {
			continue
		}
		start := max(n.reach(prev.leave, to), ready)
		if start <= due && n.reach(start+service, from) <= next.late && t.hasRoomAt(n, stop, k) &&
			(!rests || t.lateWithBreaks(n, stop, k) <= t.lateness) {
			found.add(offer{cost, int32(k)})
		}
	}
	return found
}
