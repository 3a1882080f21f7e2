package route

import (
	"math"
	"slices"
)

// mostBreaks is how many breaks one shift may have.
const mostBreaks = 3

// row holds, for each number of breaks taken so far, the earliest a vehicle can leave a spot.
// For a given number earlier is never worse, so nothing else has to be kept.
type row [mostBreaks + 1]cell

// cell is one entry of a row.
type cell struct {
	leave int32
	from  int32 // breaks taken before the leg into the spot
	late  int64 // cost of act-bys broken so far
}

// never is when nobody leaves.
const never = math.MaxInt32

func (v *fleet) firstRow() row {
	r := row{{leave: v.from}}
	for k := 1; k < len(r); k++ {
		r[k].leave = never
	}
	return r
}

// advance drives one leg and does the visit at its end, with none, one or more breaks on the way.
func (n *network) advance(v *fleet, r *row, leg arc, node int32) row {
	next := row{{leave: never}, {leave: never}, {leave: never}, {leave: never}}
	for taken := 0; taken <= len(v.breaks); taken++ {
		now := r[taken].leave
		if now == never {
			continue
		}
		free := now + leg.time
		for after := taken; ; after++ {
			start := max(free, n.ready[node])
			leave := start + n.service[node]
			if start <= n.shut[node] && leave < next[after].leave {
				next[after] = cell{leave: leave, from: int32(taken), late: r[taken].late + n.lateCost(node, start)}
			}
			if after == len(v.breaks) {
				break
			}
			b := &v.breaks[after]
			if now = max(now, int32(b.Earliest)); now > int32(b.Latest) {
				break
			}
			now += int32(b.Length)
			free = max(free+int32(b.Length), now)
		}
	}
	return next
}

// home chooses from the row at a vehicle's end: the number of breaks with which it is back first, or -1 if it can't be
// back before its shift ends with no break overdue.
func (v *fleet) home(r *row) int {
	taken := -1
	for k := 0; k <= len(v.breaks); k++ {
		back := r[k].leave
		due := k < len(v.breaks) && int64(back) > v.breaks[k].Latest
		if back <= v.until && !due && (taken < 0 || back < r[taken].leave) {
			taken = k
		}
	}
	return taken
}

// pass is one way along a tour, driven as early as can be.
type pass struct {
	starts   []int32 // start of each visit, and the return last; the spots after the vehicle's start
	rests    []Rest
	lateness int64 // cost of act-bys broken
}

// walk drives along the nodes of a tour, from depot to depot, taking the breaks where that brings the vehicle home first.
// It reports false when a window shuts, a break is missed or the shift ends.
func (n *network) walk(vehicle int32, nodes []int32) (pass, bool) {
	v := &n.vehicles[vehicle]
	rows := make([]row, len(nodes))
	rows[0] = v.firstRow()
	for k := 1; k < len(nodes); k++ {
		rows[k] = n.advance(v, &rows[k-1], n.leg(nodes[k-1], nodes[k]), nodes[k])
	}
	last := len(nodes) - 1
	taken := v.home(&rows[last])
	if taken < 0 {
		return pass{}, false
	}
	p := pass{starts: make([]int32, last), lateness: rows[last][taken].late}
	for k := last; k > 0; k-- {
		c := rows[k][taken]
		p.starts[k-1] = c.leave - n.service[nodes[k]]
		for j := taken - 1; j >= int(c.from); j-- {
			p.rests = append(p.rests, Rest{After: k - 2, Length: v.breaks[j].Length})
		}
		taken = int(c.from)
	}
	slices.Reverse(p.rests)
	n.timeRests(v, &p, nodes)
	return p, true
}

// timeRests gives each rest its start: as soon as its leg and its earliest time allow.
func (n *network) timeRests(v *fleet, p *pass, nodes []int32) {
	for i := range p.rests {
		r := &p.rests[i]
		r.Start = int64(v.from)
		if r.After >= 0 {
			r.Start = int64(p.starts[r.After] + n.service[nodes[r.After+1]])
		}
		r.Start = max(r.Start, v.breaks[i].Earliest)
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
	return slices.Insert(t.nodes(), k, stop)
}
