package route

import (
	"cmp"
	"slices"
)

// deal splits the tours among the parts so that those of one part lie near each other: a stop is drawn, the tours nearest
// to it are split off, and both halves are split again until there are enough.
func (c *crew) deal() {
	whole := c.parts[0]
	var busy, idle []int32
	for i := range whole.tours {
		if whole.tours[i].visits() > 0 {
			busy = append(busy, int32(i))
		} else {
			idle = append(idle, int32(i))
		}
	}
	groups := c.halve(busy, len(c.parts))
	for k, i := range idle {
		groups[k%len(groups)] = append(groups[k%len(groups)], i)
	}
	absent := slices.Clone(whole.absent)
	for p := len(c.parts) - 1; p >= 0; p-- {
		c.parts[p].takeOver(whole, groups[p], absent, p, len(c.parts))
	}
}

// halve splits tours into groups of about equally many stops.
func (c *crew) halve(tours []int32, groups int) [][]int32 {
	if groups == 1 {
		return [][]int32{tours}
	}
	all, stops := c.parts[0].tours, 0
	for _, i := range tours {
		stops += all[i].visits()
	}
	if stops == 0 {
		return make([][]int32, groups)
	}
	far := c.fromDrawnStop(tours, c.dice.below(stops))
	slices.SortFunc(tours, func(a, b int32) int { return cmp.Or(cmp.Compare(far[a], far[b]), cmp.Compare(a, b)) })
	left, cut, taken := groups/2, 0, 0
	for cut < len(tours) && taken*groups < stops*left {
		taken += all[tours[cut]].visits()
		cut++
	}
	return append(c.halve(slices.Clone(tours[:cut]), left), c.halve(slices.Clone(tours[cut:]), groups-left)...)
}

// fromDrawnStop gives for each tour the mean cost of reaching its stops from the stop with the given number in the group.
func (c *crew) fromDrawnStop(tours []int32, number int) map[int32]int64 {
	all, drawn := c.parts[0].tours, int32(-1)
	for _, i := range tours {
		if count := all[i].visits(); number >= count {
			number -= count
			continue
		}
		drawn = all[i].spots[1+number].node
		break
	}
	far := make(map[int32]int64, len(tours))
	for _, i := range tours {
		t := &all[i]
		for _, spot := range t.spots[1 : len(t.spots)-1] {
			far[i] += int64(c.net.leg(drawn, spot.node).cost)
		}
		far[i] /= int64(t.visits())
	}
	return far
}

// takeOver makes a part look after some tours of the whole and a share of the stops on none.
func (s *search) takeOver(whole *search, tours, absent []int32, part, parts int) {
	s.own, s.mine, s.absent = tours, s.mine[:0], s.absent[:0]
	slices.Sort(s.own)
	for i := range s.where {
		s.where[i] = away
	}
	s.cost = 0
	for _, i := range s.own {
		if s != whole {
			s.tours[i], whole.tours[i] = whole.tours[i], s.tours[i]
		}
		t := &s.tours[i]
		s.cost += t.cost
		for _, spot := range t.spots[1 : len(t.spots)-1] {
			s.where[spot.node] = i
			s.mine = append(s.mine, spot.node)
		}
	}
	for k, stop := range absent {
		if k%parts == part {
			s.where[stop] = -1
			s.absent, s.mine = append(s.absent, stop), append(s.mine, stop)
			s.cost += s.net.penalty[stop]
		}
	}
	s.stale = true
}

// gather gives the tours of all parts back to the first.
func (c *crew) gather() {
	whole := c.parts[0]
	for _, part := range c.parts[1:] {
		for _, i := range part.own {
			whole.tours[i], part.tours[i] = part.tours[i], whole.tours[i]
		}
		whole.absent = append(whole.absent, part.absent...)
	}
}

// adopt goes on from another search's solution.
func (s *search) adopt(o *search) {
	for i := range s.tours {
		if s.tours[i].version != o.tours[i].version {
			s.tours[i].copyFrom(&o.tours[i])
		}
	}
	copy(s.where, o.where)
	s.absent = append(s.absent[:0], o.absent...)
	s.cost, s.stale = o.cost, true
}
