package route

import (
	"math"
	"slices"
)

// mostBreaks is how many breaks one shift may have.
const mostBreaks = 3

// row holds, for each number of breaks taken so far, two ways to be done with a spot: the one that leaves it soonest and
// the one least late at the visits so far. Resting before a visit may bring the vehicle home sooner, resting after it
// brings the gas sooner; which one counts shows only further on.
type row [2 * (mostBreaks + 1)]cell

// cell is one entry of a row.
type cell struct {
	leave int32
	from  int32 // index of the cell it comes from in the row before
	late  int64 // cost of act-bys broken so far
}

// never is when nobody leaves.
const never = math.MaxInt32

// nowhere is a row nothing leads to.
var nowhere = func() (r row) {
	for i := range r {
		r[i].leave = never
	}
	return r
}()

func (v *fleet) firstRow() row {
	r := nowhere
	r[0].leave, r[1].leave = v.from, v.from
	return r
}

// advance drives one leg and does the visit at its end, with none, one or more breaks on the way.
func (n *network) advance(v *fleet, r *row, leg arc, node int32) row {
	next := nowhere
	for i := range 2 * (len(v.breaks) + 1) {
		now := r[i].leave
		if now == never || i%2 == 1 && now == r[i-1].leave {
			continue // the least late is the soonest
		}
		free := n.reach(now, leg)
		for taken := i / 2; ; taken++ {
			if start := max(free, n.ready[node]); start <= n.shut[node] {
				c := cell{leave: start + n.service[node], from: int32(i), late: r[i].late + n.lateCost(node, start)}
				next.keep(taken, c)
			}
			if taken == len(v.breaks) {
				break
			}
			b := &v.breaks[taken]
			if now = max(now, int32(b.Earliest)); now > int32(b.Latest) {
				break
			}
			now += int32(b.Length)
			free = n.rested(free, now, leg, int32(b.Length))
		}
	}
	return next
}

// rested returns when a leg ends on which the driver has rested until now, where it would have ended at free without. The rest is
// taken on the road, but before setting out where the hour counts.
func (n *network) rested(free, now int32, leg arc, length int32) int32 {
	if n.clocked(leg) {
		return n.reach(now, leg)
	}
	return max(free+length, now)
}

// keep takes a cell if it is the soonest or the least late with so many breaks taken.
func (r *row) keep(taken int, c cell) {
	soonest, calmest := &r[2*taken], &r[2*taken+1]
	if c.leave < soonest.leave || c.leave == soonest.leave && c.late < soonest.late {
		*soonest = c
	}
	if calmest.leave == never || c.late < calmest.late || c.late == calmest.late && c.leave < calmest.leave {
		*calmest = c
	}
}

// home chooses from the row at a vehicle's end the least late way that is back before the shift ends with no break overdue,
// and of equals the soonest. It is -1 when there is none.
func (v *fleet) home(r *row) int {
	chosen := -1
	for i := range 2 * (len(v.breaks) + 1) {
		back, taken := r[i].leave, i/2
		if back > v.until || taken < len(v.breaks) && int64(back) > v.breaks[taken].Latest {
			continue
		}
		if chosen < 0 || r[i].late < r[chosen].late || r[i].late == r[chosen].late && back < r[chosen].leave {
			chosen = i
		}
	}
	return chosen
}

// pass is one way along a tour, driven with as little lateness as can be, and then as early.
type pass struct {
	starts   []int32 // start of each visit, and the return last; the spots after the vehicle's start
	rests    []Rest
	lateness int64 // cost of act-bys broken
}

// walk drives along the nodes of a tour, from depot to depot, taking the breaks where that breaks act-bys least and then
// brings the vehicle home first.
// It reports false when a window shuts, a break is missed or the shift ends.
func (n *network) walk(vehicle int32, nodes []int32) (pass, bool) {
	v := &n.vehicles[vehicle]
	rows := make([]row, len(nodes))
	rows[0] = v.firstRow()
	for k := 1; k < len(nodes); k++ {
		rows[k] = n.advance(v, &rows[k-1], n.leg(nodes[k-1], nodes[k]), nodes[k])
	}
	last := len(nodes) - 1
	chosen := v.home(&rows[last])
	if chosen < 0 {
		return pass{}, false
	}
	p := pass{starts: make([]int32, last), lateness: rows[last][chosen].late}
	for k := last; k > 0; k-- {
		c := rows[k][chosen]
		p.starts[k-1] = c.leave - n.service[nodes[k]]
		for j := chosen/2 - 1; j >= int(c.from)/2; j-- {
			p.rests = append(p.rests, Rest{After: k - 2, Length: v.breaks[j].Length})
		}
		chosen = int(c.from)
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
