package delivery

import (
	"slices"

	"lungwort/inventory"
)

// Again tries on this board what was tried on one of the same day that was read
// earlier: every stop on the round, at the place and with the lock it has
// there. False when the book stands otherwise by now: a stop was made or came
// in, a vehicle set out or fell out.
func (b Board) Again(tried Board) (Board, bool) {
	sameRound := func(x, y Round) bool { return x.Run == y.Run && x.Name == y.Name && x.Begun == y.Begun }
	if len(b.stops) != len(tried.stops) || !slices.EqualFunc(b.rounds, tried.rounds, sameRound) {
		return b, false
	}
	type name struct {
		address inventory.AddressID
		run     inventory.RunID
	}
	here := make(map[name]int, len(b.stops))
	for i, s := range b.stops {
		here[name{s.address.ID, s.run}] = i
	}
	on := make([]int, len(tried.stops)) // the stops of this board in the order of the other
	b.stops, b.rounds = slices.Clone(b.stops), slices.Clone(b.rounds)
	for i, s := range tried.stops {
		k, known := here[name{s.address.ID, s.run}]
		if !known || !slices.Equal(b.stops[k].waits, s.waits) {
			return b, false
		}
		on[i], b.stops[k].lock = k, s.lock
	}
	moved := func(stops []int) []int {
		var list []int
		for _, i := range stops {
			list = append(list, on[i])
		}
		return list
	}
	for i, r := range tried.rounds {
		if under := b.rounds[i].Stops[:r.Begun]; !slices.Equal(under, moved(r.Stops[:r.Begun])) {
			return b, false
		}
		b.rounds[i].Stops = moved(r.Stops)
	}
	b.waiting = moved(tried.waiting)
	return b, true
}
