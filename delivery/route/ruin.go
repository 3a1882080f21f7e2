package route

// The sizes of a ruin, as Christiaens & Vanden Berghe (Transportation Science 54(2), 2020) set them.
const (
	removedOnAverage = 10   // stops taken off in one step
	longestString    = 10   // stops in a row taken off one tour, and no more than a tour has on average
	shortestString   = 5    // but so many may always be, so that short tours can be emptied at once; not in the paper
	splitShare       = 0.5  // how often a string keeps some stops in its middle
	splitGrowth      = 0.01 // chance of keeping one more
)

// ruin takes strings of stops off tours that lie near each other.
func (s *search) ruin() {
	if len(s.mine) == 0 {
		return
	}
	seed := s.mine[s.dice.below(len(s.mine))]
	average := float64(len(s.mine)-len(s.absent)) / float64(max(1, len(s.busy)))
	size := min(longestString, max(shortestString, average))
	tours := 1 + int(s.dice.share()*(4*removedOnAverage/(1+size)-1))
	for _, stop := range s.net.near[seed] {
		in := s.where[stop]
		if in < 0 || s.touchedIn[in] == s.steps {
			continue
		}
		s.touch(in)
		t := &s.tours[in]
		length := 1 + int(s.dice.share()*min(size, float64(t.visits())))
		s.removeString(t, t.position(stop), length)
		if tours--; tours == 0 {
			return
		}
	}
}

// removeString takes off length stops around position k. Half of the strings leave a few in their middle where they are.
func (s *search) removeString(t *tour, k, length int) {
	keep := 0
	if length > 1 && length < t.visits() && s.dice.share() < splitShare {
		keep = 1
		for length+keep < t.visits() && s.dice.share() < splitGrowth {
			keep++
		}
	}
	span := length + keep
	first := max(1, k-span+1)
	first += s.dice.below(min(k, t.visits()-span+1) - first + 1)
	kept := first
	if keep > 0 {
		kept += 1 + s.dice.below(length-1)
	}
	s.takeOff(t, first, first+span, kept, kept+keep)
	if t.broken { // a matrix in which the way round is quicker: without those stops the rest can't be kept either
		s.takeOff(t, 1, len(t.spots)-1, 1, 1)
	}
}

// takeOff takes the stops at positions first to last (not included) off a tour, but for those kept from one position to another.
func (s *search) takeOff(t *tour, first, last, kept, until int) {
	w := first
	for i := first; i < len(t.spots); i++ {
		stop := t.spots[i].node
		if i >= last || i >= kept && i < until {
			t.spots[w] = t.spots[i]
			w++
			continue
		}
		s.where[stop] = -1
		s.absent = append(s.absent, stop)
		s.cost += s.net.penalty[stop]
	}
	t.spots = t.spots[:w]
	s.cost -= t.cost
	t.refresh(s.net)
	s.stampOn(t)
	s.cost += t.cost
	s.stale = s.stale || t.visits() == 0
}

func (t *tour) position(stop int32) int {
	k := 1
	for t.spots[k].node != stop {
		k++
	}
	return k
}
