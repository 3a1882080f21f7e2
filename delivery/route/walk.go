package route

import "math"

// pass is one way along a tour, driven as early as can be.
type pass struct {
	starts   []int32 // start of each visit, and the return last; the spots after the vehicle's start
	rests    []Rest
	lateness int64 // cost of act-bys broken
	tardy    bool
}

// walk drives along the nodes of a tour and takes the breaks where that brings it home earliest.
// It reports false when a window shuts, a break is missed or the shift ends. For each number of breaks taken,
// earlier is never worse, so the earliest leaving time for each such number is all that has to be kept.
func (n *network) walk(vehicle int32, nodes []int32) (pass, bool) {
	v := &n.vehicles[vehicle]
	width := len(v.breaks) + 1
	leave := make([]int32, width*len(nodes))
	for i := range leave {
		leave[i] = math.MaxInt32
	}
	from := make([]int, width*len(nodes)) // breaks taken before the leg into the spot
	leave[0] = v.from
	for k := 1; k < len(nodes); k++ {
		drive := n.out[int(nodes[k-1])*n.nodes+int(nodes[k])].time
		final := k == len(nodes)-1
		for taken := range width {
			clock := leave[(k-1)*width+taken]
			if clock == math.MaxInt32 {
				continue
			}
			free := clock + drive
			for after := taken; ; after++ {
				start, ok := free, false
				if final {
					ok = start <= v.until && !v.restDue(after, start)
				} else {
					start = max(start, n.ready[nodes[k]])
					ok = start <= n.shut[nodes[k]]
				}
				if cell := k*width + after; ok && start+n.service[nodes[k]] < leave[cell] {
					leave[cell], from[cell] = start+n.service[nodes[k]], taken
				}
				if after == len(v.breaks) || max(clock, int32(v.breaks[after].Earliest)) > int32(v.breaks[after].Latest) {
					break
				}
				b := v.breaks[after]
				clock = max(clock, int32(b.Earliest)) + int32(b.Length)
				free = max(free+int32(b.Length), clock)
			}
		}
	}
	return n.retrace(vehicle, nodes, leave, from)
}

// restDue reports whether, back at the given time with some breaks taken, another should have begun.
func (v *fleet) restDue(taken int, back int32) bool {
	return taken < len(v.breaks) && int64(back) > v.breaks[taken].Latest
}

// retrace reads the pass that is home earliest out of the table walk filled.
func (n *network) retrace(vehicle int32, nodes, leave []int32, from []int) (pass, bool) {
	v := &n.vehicles[vehicle]
	width, last := len(v.breaks)+1, len(nodes)-1
	taken := 0
	for j := range width {
		if leave[last*width+j] < leave[last*width+taken] {
			taken = j
		}
	}
	if leave[last*width+taken] == math.MaxInt32 {
		return pass{}, false
	}
	p := pass{starts: make([]int32, last)}
	for k := last; k > 0; k-- {
		start := leave[k*width+taken] - n.service[nodes[k]]
		p.starts[k-1] = start
		if k < last && start > n.due[nodes[k]] {
			p.lateness += n.lateCost(nodes[k], start)
			p.tardy = true
		}
		before := from[k*width+taken]
		for j := taken - 1; j >= before; j-- {
			p.rests = append(p.rests, Rest{After: k - 2, Length: v.breaks[j].Length})
		}
		taken = before
	}
	p.timeRests(v, func(k int) int32 {
		if k == 0 {
			return v.from
		}
		return p.starts[k-1] + n.service[nodes[k]]
	})
	return p, true
}

// timeRests puts the rests in order and gives each its start: as soon as its leg and its earliest time allow.
func (p *pass) timeRests(v *fleet, leave func(k int) int32) {
	for i, j := 0, len(p.rests)-1; i < j; i, j = i+1, j-1 {
		p.rests[i], p.rests[j] = p.rests[j], p.rests[i]
	}
	for i := range p.rests {
		r := &p.rests[i]
		r.Start = max(int64(leave(r.After+1)), v.breaks[i].Earliest)
		if i > 0 {
			r.Start = max(r.Start, p.rests[i-1].Start+p.rests[i-1].Length)
		}
	}
}

func (t *tour) nodes() []int32 {
	nodes := make([]int32, len(t.spots))
	for k, s := range t.spots {
		nodes[k] = s.node
	}
	return nodes
}

// nodesWith lists the tour with a stop put before position k.
func (t *tour) nodesWith(stop int32, k int) []int32 {
	nodes := make([]int32, 0, len(t.spots)+1)
	for i, s := range t.spots {
		if i == k {
			nodes = append(nodes, stop)
		}
		nodes = append(nodes, s.node)
	}
	return nodes
}

// refreshWithBreaks does the timing of refresh for a vehicle with breaks. Its spots carry no latest starts: every insertion is walked.
func (t *tour) refreshWithBreaks(n *network) {
	p, ok := n.walk(t.vehicle, t.nodes())
	t.cost, t.tardy, t.broken = p.lateness, p.tardy, !ok
	for k := 1; k < len(t.spots); k++ {
		prev := &t.spots[k-1]
		prev.leg = n.leg(prev.node, t.spots[k].node)
		t.cost += int64(prev.leg.cost)
	}
	t.settle(n)
}

// added is what putting a stop before position k adds in arcs and vehicle.
func (t *tour) added(n *network, stop int32, k int) int32 {
	row := int(stop) * n.nodes
	cost := n.in[row+int(t.spots[k-1].node)].cost + n.out[row+int(t.spots[k].node)].cost - t.spots[k-1].leg.cost
	if len(t.spots) == 2 {
		cost += int32(n.weights.Vehicle)
	}
	return cost
}

// offersWithBreaks is offers for a vehicle with breaks.
func (t *tour) offersWithBreaks(n *network, stop int32) best {
	found := best{noOffer, noOffer, noOffer}
	was, _ := n.walk(t.vehicle, t.nodes())
	for k := 1; k < len(t.spots); k++ {
		o := offer{t.added(n, stop, k), int32(k)}
		if o.cost >= found[2].cost || !t.hasRoomAt(n, stop, k) {
			continue
		}
		if p, ok := n.walk(t.vehicle, t.nodesWith(stop, k)); ok && p.lateness <= was.lateness {
			found.add(o)
		}
	}
	return found
}

// lateOffer finds the cheapest place for a stop when act-bys may be broken, its own and others'.
func (t *tour) lateOffer(n *network, stop int32) (cost int64, at int) {
	cost, at = math.MaxInt64, -1
	if !n.mayVisit(stop, t.vehicle) || !t.hasRoom(n, stop) {
		return cost, at
	}
	was, _ := n.walk(t.vehicle, t.nodes())
	for k := 1; k < len(t.spots); k++ {
		if !t.hasRoomAt(n, stop, k) {
			continue
		}
		p, ok := n.walk(t.vehicle, t.nodesWith(stop, k))
		if !ok {
			continue
		}
		if c := int64(t.added(n, stop, k)) + p.lateness - was.lateness; c < cost {
			cost, at = c, k
		}
	}
	return cost, at
}
