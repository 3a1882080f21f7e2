package route

// The sizes of a ruin, as Christiaens & Vanden Berghe (Transportation Science 54(2), 2020) set them.
var (
	removedOnAverage = 10.0 // stops taken off in one step
	longestString    = 10.0 // stops in a row taken off one tour
	splitShare       = 0.5  // how often a string keeps some stops in its middle
	splitGrowth      = 0.01 // chance of keeping one more
)

// ruin takes strings of stops off tours that lie near each other.
func (s *search) ruin() {
	seed := s.seedStop()
	if seed < 0 {
		return
	}
	if s.stale {
		s.listOpen()
	}
	size := min(longestString, float64(s.served())/float64(max(1, len(s.busy))))
	tours := int(s.dice.share()*(4*removedOnAverage/(1+size)-1)) + 1
	for _, stop := range s.net.near[seed] {
		in := s.where[stop]
		if in < 0 || s.touched(in) {
			continue
		}
		s.touch(in)
		t := &s.tours[in]
		length := 1 + s.dice.below(int(min(size, float64(t.visits()))))
		s.removeString(t, t.position(stop), length)
		if tours--; tours == 0 {
			return
		}
	}
}

// seedStop draws a stop this part looks after.
func (s *search) seedStop() int32 {
	if len(s.mine) == 0 {
		return -1
	}
	return s.mine[s.dice.below(len(s.mine))]
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
	kept := first + span // nothing kept
	if keep > 0 {
		kept = first + 1 + s.dice.below(length-1)
	}
	w := first
	for i := first; i < len(t.spots); i++ {
		if i >= first+span || i >= kept && i < kept+keep {
			t.spots[w] = t.spots[i]
			w++
			continue
		}
		s.where[t.spots[i].node] = -1
		s.absent = append(s.absent, t.spots[i].node)
	}
	t.spots = t.spots[:w]
	s.renew(t)
	if t.broken { // a matrix in which the way round is quicker: without those stops the rest can't be kept either
		s.clear(t)
	}
}

// clear takes every stop off a tour.
func (s *search) clear(t *tour) {
	last := len(t.spots) - 1
	for _, spot := range t.spots[1:last] {
		s.where[spot.node] = -1
		s.absent = append(s.absent, spot.node)
	}
	t.spots[1] = t.spots[last]
	t.spots = t.spots[:2]
	s.renew(t)
}

func (t *tour) position(stop int32) int {
	k := 1
	for t.spots[k].node != stop {
		k++
	}
	return k
}
