package route

import (
	"cmp"
	"math"
	"slices"
)

// network is the problem made ready for the search: stops are nodes 0 to stops-1, depots the nodes after them,
// and all that is asked of an arc lies side by side in memory.
type network struct {
	problem  *Problem
	weights  Weights
	stops    int
	nodes    int
	places   []int   // the place of each node
	out      []arc   // out[a*nodes+b] leads from a to b
	in       []arc   // in[b*nodes+a] leads from a to b; the same memory as out when the matrix is symmetric
	ready    []int32 // earliest start of service
	due      []int32 // latest start that is in time: the window's end or, if sooner, the act-by
	shut     []int32 // latest start at all: the window's end
	service  []int32
	drop     []Load
	collect  []Load
	late     []float64 // cost of each unit of time past due
	penalty  []int64   // cost of leaving the stop unvisited
	dims     []int     // the dimensions some stop uses
	twoWay   bool      // something is collected
	soft     bool      // some act-by may be broken
	may      []bool    // may[stop*vehicles+v]: skills, lock and empty capacity allow it; nil when all may
	near     [][]int32 // for each stop the other stops, nearest first
	vehicles []fleet
	rides    []ride // what a leg of time below zero goes by
	lines    []line
	hours    *Hours // nil when driving takes as long at any time
}

// arc is the way between two nodes. A time below zero is a crossing: ^time is its ride.
type arc struct{ cost, time int32 }

// fleet is a vehicle as the search sees it.
type fleet struct {
	start, end  int32 // nodes
	from, until int32
	capacity    Load
	breaks      []Break
	kind        int // vehicles of one kind can stand for each other
}

// neighbours bounds how many near stops are remembered for each stop.
const neighbours = 200

func newNetwork(p *Problem) *network {
	n := layNetwork(p)
	n.findNear()
	return n
}

// layNetwork is a network without the neighbours, which only the search asks for.
func layNetwork(p *Problem) *network {
	n := &network{problem: p, weights: p.weights(), stops: len(p.Stops)}
	places := make([]int, 0, n.stops+2)
	for _, s := range p.Stops {
		places = append(places, s.Place)
	}
	depot := func(place int) int32 {
		if i := slices.Index(places[n.stops:], place); i >= 0 {
			return int32(n.stops + i)
		}
		places = append(places, place)
		return int32(len(places) - 1)
	}
	for _, v := range p.Vehicles {
		n.vehicles = append(n.vehicles, fleet{start: depot(v.Start), end: depot(v.End),
			from: int32(v.From), until: int32(v.Until), capacity: v.Capacity, breaks: v.Breaks})
	}
	n.nodes, n.places = len(places), places
	n.layArcs()
	n.copyStops()
	n.sortVehicles()
	return n
}

func (n *network) layArcs() {
	n.out = make([]arc, n.nodes*n.nodes)
	crossings := n.layCrossings()
	symmetric := len(crossings) == 0
	for i, a := range n.places {
		for j, b := range n.places {
			d, t := n.problem.Distance[a][b], n.problem.Travel[a][b]
			n.out[i*n.nodes+j] = arc{int32(d*n.weights.Distance + t*n.weights.Travel), int32(t)}
			if ride, ok := crossings[[2]int{a, b}]; ok {
				n.out[i*n.nodes+j].time = ride
			}
			symmetric = symmetric && d == n.problem.Distance[b][a] && t == n.problem.Travel[b][a]
		}
	}
	n.in = n.out
	if symmetric {
		return
	}
	n.in = make([]arc, n.nodes*n.nodes)
	for i := range n.nodes {
		for j := range n.nodes {
			n.in[j*n.nodes+i] = n.out[i*n.nodes+j]
		}
	}
}

func (n *network) leg(a, b int32) arc { return n.out[int(a)*n.nodes+int(b)] }

func (n *network) copyStops() {
	n.ready, n.due, n.shut = make([]int32, n.nodes), make([]int32, n.nodes), make([]int32, n.nodes)
	n.service = make([]int32, n.nodes)
	n.drop, n.collect = make([]Load, n.nodes), make([]Load, n.nodes)
	n.late, n.penalty = make([]float64, n.stops), make([]int64, n.stops)
	horizon := int64(math.MinInt32)
	for _, v := range n.problem.Vehicles {
		horizon = max(horizon, v.Until)
	}
	for i := range n.nodes {
		n.ready[i], n.due[i], n.shut[i] = -longest, longest, longest // what depots keep
	}
	for i, s := range n.problem.Stops {
		n.ready[i], n.due[i], n.shut[i] = int32(s.Window[0]), int32(s.Window[1]), int32(s.Window[1])
		n.service[i], n.drop[i], n.collect[i] = int32(s.Service), s.Drop, s.Collect
		n.penalty[i] = cmp.Or(s.Later, n.weights.Unserved)
		if s.ActBy != 0 {
			n.late[i] = float64(n.weights.LateSecond) + s.Risk*float64(n.weights.HarmHour)/3600
			n.penalty[i] += capped(n.late[i] * float64(max(horizon-s.ActBy, 0)))
			if s.ActBy < s.Window[1] {
				n.due[i], n.soft = int32(s.ActBy), true
			}
		}
		for d := range Dimensions {
			if (s.Drop[d] > 0 || s.Collect[d] > 0) && !slices.Contains(n.dims, d) {
				n.dims = append(n.dims, d)
			}
			n.twoWay = n.twoWay || s.Collect[d] > 0
		}
	}
}

// lateCost is what starting the visit of a stop at the given time costs beyond driving.
func (n *network) lateCost(stop, start int32) int64 {
	if start <= n.due[stop] {
		return 0
	}
	return capped(n.late[stop] * float64(start-n.due[stop]))
}

// capped keeps a cost small enough that those of all stops can be added up.
func capped(cost float64) int64 { return int64(min(cost, 1<<46)) }

// sortVehicles gives vehicles that differ in nothing the search sees the same kind, and notes who may visit what.
func (n *network) sortVehicles() {
	count := len(n.vehicles)
	n.may = make([]bool, n.stops*count)
	all := true
	for s := range n.stops {
		for v := range count {
			ok := n.suits(s, v) == suited
			n.may[s*count+v] = ok
			all = all && ok
		}
	}
	for v := range n.vehicles {
		n.vehicles[v].kind = v
		for u := range v {
			if n.alike(u, v) {
				n.vehicles[v].kind = n.vehicles[u].kind
				break
			}
		}
	}
	if all {
		n.may = nil
	}
}

func (n *network) alike(u, v int) bool {
	a, b := n.vehicles[u], n.vehicles[v]
	if a.start != b.start || a.end != b.end || a.from != b.from || a.until != b.until ||
		a.capacity != b.capacity || !slices.Equal(a.breaks, b.breaks) {
		return false
	}
	count := len(n.vehicles)
	for s := range n.stops {
		if n.may[s*count+u] != n.may[s*count+v] {
			return false
		}
	}
	return true
}

// suitability says what keeps a vehicle from a stop before any route is made.
type suitability int

const (
	suited suitability = iota
	lockedAway
	unskilled
	tooSmall
)

func (n *network) suits(stop, vehicle int) suitability {
	s, v := &n.problem.Stops[stop], &n.problem.Vehicles[vehicle]
	if s.LockedTo != "" && s.LockedTo != v.Name {
		return lockedAway
	}
	for _, need := range s.Needs {
		if !slices.Contains(v.Skills, need) {
			return unskilled
		}
	}
	for d := range Dimensions {
		if s.Drop[d] > v.Capacity[d] || s.Collect[d] > v.Capacity[d] {
			return tooSmall
		}
	}
	return suited
}

func (n *network) mayVisit(stop, vehicle int32) bool {
	return n.may == nil || n.may[int(stop)*len(n.vehicles)+int(vehicle)]
}

func (n *network) findNear() {
	n.near = make([][]int32, n.stops)
	order, far := make([]int32, n.stops), make([]int64, n.stops)
	for c := range n.stops {
		for o := range order {
			i := c*n.nodes + o
			order[o], far[o] = int32(o), int64(n.out[i].cost)+int64(n.in[i].cost)
		}
		far[c] = -1 // a stop is nearest to itself, even among stops at one address
		slices.SortFunc(order, func(a, b int32) int {
			return cmp.Or(cmp.Compare(far[a], far[b]), cmp.Compare(a, b))
		})
		n.near[c] = slices.Clone(order[:min(len(order), neighbours)])
	}
}
