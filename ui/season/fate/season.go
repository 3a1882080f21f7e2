// Package fate is what happens to a programme whatever anybody in it does: who
// is sent home when, how long they need oxygen, whose machine stops, where
// power goes out, which gauge is misread. It knows nothing of the program and
// shares nothing with its forecast. The same seed and weeks are the same
// season, for every policy.
package fate

import (
	"math/rand/v2"
	"slices"
	"time"
)

// Season is everything that will happen by itself.
type Season struct {
	Seed
	Weeks  int
	Ends   time.Time
	People []Person // in the order in which they want to go home
	Cuts   []Cut    // in the order in which they begin
}

// New returns the season of a seed.
func New(weeks int, seed Seed) Season {
	s := Season{Seed: seed, Weeks: weeks, Ends: Begins.AddDate(0, 0, 7*weeks)}
	for day := range 7 * weeks {
		at := Begins.AddDate(0, 0, day)
		for _, wants := range wishes(seed.Dice("day", day), at) {
			s.People = append(s.People, seed.draw(len(s.People), wants))
		}
	}
	for _, d := range districts {
		s.Cuts = append(s.Cuts, seed.cuts(d, s.Ends)...)
	}
	slices.SortStableFunc(s.Cuts, func(a, b Cut) int { return a.From.Compare(b.From) })
	return s
}

// wishes draws when people want to go home on a day: fewer at the weekend, most
// in the afternoon, when the orders are written. Common practice, no source.
func wishes(r *rand.Rand, day time.Time) []time.Time {
	shares := [7]float64{time.Sunday: 0.07, time.Monday: 0.16, time.Tuesday: 0.16, time.Wednesday: 0.16, time.Thursday: 0.16, time.Friday: 0.2, time.Saturday: 0.09}
	var at []time.Time
	for next := r.ExpFloat64(); next < Weekly*shares[day.Weekday()]; next += r.ExpFloat64() {
		hour := 9 + 4*r.Float64()
		if r.Float64() < 0.65 {
			hour = 13 + 4.5*r.Float64()
		}
		at = append(at, day.Add(minutes(60*hour)))
	}
	slices.SortFunc(at, time.Time.Compare)
	return at
}
