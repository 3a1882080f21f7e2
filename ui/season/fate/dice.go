package fate

import (
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"time"
)

// Seed chooses a season.
type Seed uint64

// Dice returns the dice of one matter: a person, a day, a door. The same matter
// of the same season always throws the same, whatever was thrown before, so
// that two policies meet the same luck wherever they do the same.
func (s Seed) Dice(matter ...any) *rand.Rand {
	h := fnv.New128a()
	fmt.Fprintln(h, append([]any{uint64(s)}, matter...)...)
	sum := h.Sum(nil)
	var halves [2]uint64
	for i, b := range sum {
		halves[i/8] = halves[i/8]<<8 | uint64(b)
	}
	return rand.New(rand.NewPCG(halves[0], halves[1]))
}

// Happens reports whether something with a chance happens in a matter.
func (s Seed) Happens(chance float64, matter ...any) bool {
	return chance > 0 && s.Dice(matter...).Float64() < chance
}

// about draws a value that is median in the middle and as likely to be so many
// times larger as smaller: log-normal.
func about(r *rand.Rand, median, sigma float64) float64 {
	return median * math.Exp(sigma*r.NormFloat64())
}

// minutes returns a number of minutes as a duration, in whole minutes.
func minutes(n float64) time.Duration { return time.Duration(math.Round(n)) * time.Minute }

// days returns a number of days as a duration, in whole minutes.
func days(n float64) time.Duration { return minutes(n * 24 * 60) }

// choose returns the index of one of some weights.
func choose(r *rand.Rand, weights ...float64) int {
	var sum float64
	for _, w := range weights {
		sum += w
	}
	u := r.Float64() * sum
	for i, w := range weights {
		if u -= w; u < 0 {
			return i
		}
	}
	return len(weights) - 1
}
