package outlook

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func steady(daily float64) Demand {
	return func(from, until time.Time) (float64, float64) { return daily * until.Sub(from).Hours() / 24, 0 }
}

func fortnight(daily float64) Horizon {
	return Horizon{Now: monday.Add(8 * time.Hour), Days: 14, Demand: steady(daily), Limit: 0.05}
}

// The chances of the outlook against the same stock played out many times.
func TestProjectAgainstPlay(t *testing.T) {
	cycle := Published(8, 0.5)
	s := Stock{Ready: 7, Each: 1, Cycle: cycle, Changes: []Change{{On: monday.AddDate(0, 0, 4), Units: -2}}}
	for age := range 12 {
		s.Away = append(s.Away, Away{Age: Days(age), Until: cycle})
	}
	h := fortnight(1.5)
	days := s.Project(h)

	r := rand.New(rand.NewPCG(5, 6))
	const plays = 4000
	short := make([]int, len(days))
	for range plays {
		for d, ready := range play(r, s, h, 1.5) {
			if ready < 0 {
				short[d]++
			}
		}
	}
	for d := range days {
		assert.InDelta(t, float64(short[d])/plays, days[d].Short, 0.03, "day %d", d)
	}
	assert.Greater(t, days[13].Short, 0.05)
	assert.Positive(t, days[13].ToBeSafe)
}

// play returns what is ready at the end of each day, once. Loans made within
// the days begin at the start of a day and end after whole days, as Project
// counts them.
func play(r *rand.Rand, s Stock, h Horizon, daily float64) []int {
	length := func(c Curve, age Days) Days {
		u := r.Float64() * c.Beyond(age)
		for _, step := range c.Steps {
			if step.Length > age && step.Beyond <= u {
				return step.Length - age
			}
		}
		return math.MaxInt32
	}
	ready := make([]int, h.Days)
	for d := range ready {
		ready[d] = s.Ready
		for _, c := range s.Changes {
			if c.On.Before(h.midnight(d + 1)) {
				ready[d] += c.Units
			}
		}
	}
	for _, a := range s.Away {
		back := length(a.Until, a.Age)
		for d := range ready {
			if Days(h.midnight(d+1).Sub(h.Now).Hours()/24) >= back {
				ready[d]++
			}
		}
	}
	for i := range ready {
		mean, _ := h.Demand(later(h.Now, h.midnight(i)), h.midnight(i+1))
		for range draw(r, mean) {
			lasts := length(s.Cycle, 0)
			for d := i; d < h.Days && Days(d-i) < lasts; d++ {
				ready[d]--
			}
		}
	}
	return ready
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

func TestMoreStockIsNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cycle := Published(Days(rapid.Float64Range(2, 20).Draw(t, "median")), 0.6)
		s := Stock{Ready: rapid.IntRange(0, 12).Draw(t, "ready"), Each: rapid.IntRange(1, 2).Draw(t, "each"), Cycle: cycle}
		for range rapid.IntRange(0, 8).Draw(t, "away") {
			s.Away = append(s.Away, Away{Age: Days(rapid.Float64Range(0, 20).Draw(t, "age")), Until: cycle})
		}
		h := fortnight(rapid.Float64Range(0, 3).Draw(t, "daily"))
		h.Demand = h.Demand.Surge(2, monday.AddDate(0, 0, 3), monday.AddDate(0, 0, 6))
		before := s.Project(h)
		more := s
		more.Ready += 3
		after := more.Project(h)
		for d := range before {
			assert.LessOrEqual(t, after[d].Short, before[d].Short+1e-6)
			assert.LessOrEqual(t, before[d].Low, before[d].High)
			if before[d].ToBeSafe > 0 {
				enough := s
				enough.Ready += before[d].ToBeSafe
				assert.LessOrEqual(t, enough.Project(h)[d].Short, h.Limit+1e-6)
			}
		}
	})
}

func TestCompareReliefs(t *testing.T) {
	never := Estimate([]Stay{{Length: 400}})
	s := Stock{Ready: 1, Each: 1, Cycle: never, Away: []Away{{Age: 3, Until: never}, {Age: 9, Until: never}}}
	h := fortnight(0.3)
	helped := s.Compare(h, []Relief{
		{Name: "collect two idle units", On: monday.AddDate(0, 0, 1), Ready: []int{0, 1}},
		{Name: "hire ten", On: monday.AddDate(0, 0, 1), Units: 10},
		{Name: "buy one, in three weeks", On: monday.AddDate(0, 0, 21), Units: 1},
	})
	assert.Less(t, helped[0].Worst, helped[0].Before)
	assert.Less(t, helped[1].Worst, 0.05)
	assert.Positive(t, helped[1].Mended)
	assert.Equal(t, helped[2].Before, helped[2].Worst, "too late to help")
}

// What comes on Thursday does nothing on Wednesday: it is judged by the days from
// Thursday on, on which nothing that can be done makes it worse.
func TestReliefIsJudgedFromWhenItIsThere(t *testing.T) {
	soon := Published(1, 0.3)
	s := Stock{Ready: 0, Each: 1, Cycle: Published(30, 0.3), Away: []Away{{Until: soon}, {Until: soon}, {Until: soon}}}
	h := fortnight(0.2)
	helped := s.Compare(h, []Relief{
		{Name: "hire ten", On: monday.AddDate(0, 0, 3), Units: 10},
		{Name: "fetch all", On: monday.AddDate(0, 0, 5), Ready: []int{0, 1, 2}},
	})
	assert.Less(t, helped[0].Worst, 0.01, "however short the days before")
	for _, way := range helped {
		assert.LessOrEqual(t, way.Worst, way.Before+1e-9, way.Name)
	}
}
