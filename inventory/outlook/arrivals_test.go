package outlook

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

var monday = time.Date(2026, 3, 2, 0, 0, 0, 0, time.FixedZone("", -3*3600))

// draw returns a number of arrivals with a Poisson mean: how many waits of
// mean 1 fit into it.
func draw(r *rand.Rand, mean float64) int {
	n := 0
	for at := r.ExpFloat64(); at < mean; at += r.ExpFloat64() {
		n++
	}
	return n
}

// discharges returns discharges of some weeks: on working days from 14 to 18,
// a few a day, growing by a factor a week.
func discharges(r *rand.Rand, weeks int, daily, growth float64) []time.Time {
	var seen []time.Time
	for d := range 7 * weeks {
		day := monday.AddDate(0, 0, d)
		if day.Weekday() == time.Saturday || day.Weekday() == time.Sunday {
			continue
		}
		for range draw(r, daily*math.Pow(growth, float64(d)/7)) {
			seen = append(seen, day.Add(14*time.Hour+time.Duration(r.Int64N(int64(4*time.Hour)))))
		}
	}
	return seen
}

func TestRhythmFindsWeekdaysHoursAndTrend(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	now := monday.AddDate(0, 0, 70)
	rhythm := Learn(discharges(r, 10, 6, 1.05), monday, now)
	assert.InDelta(t, 0.2, rhythm.Weekday(time.Tuesday), 0.05)
	assert.Less(t, rhythm.Weekday(time.Sunday), 0.02)
	assert.Greater(t, rhythm.Hour(time.Friday, 15), rhythm.Hour(time.Friday, 9))
	factor, low, high := rhythm.Trend()
	assert.True(t, low < 1.05 && 1.05 < high, "%v %v %v", factor, low, high)

	demand := rhythm.Demand(now)
	week, _ := demand(now, now.AddDate(0, 0, 7))
	truth := 0.0
	for d := 70; d < 77; d++ {
		if day := monday.AddDate(0, 0, d).Weekday(); day != time.Saturday && day != time.Sunday {
			truth += 6 * math.Pow(1.05, float64(d)/7)
		}
	}
	assert.InEpsilon(t, truth, week, 0.15)
	afternoon, _ := demand(now.Add(12*time.Hour), now.Add(24*time.Hour))
	all, _ := demand(now, now.Add(24*time.Hour))
	assert.Greater(t, afternoon, 0.8*all)
}

// The stated uncertainty of a coming week holds the truth as often as it
// says.
// Two wild weeks at the end are no trend that doubles the programme each
// fortnight: the weeks before them differ as much.
func TestAFewWildWeeksAreNoTrend(t *testing.T) {
	var seen []time.Time
	counts := []int{6, 2, 9, 3, 8, 2, 7, 4, 30, 40}
	for w, n := range counts {
		for i := range n {
			seen = append(seen, monday.AddDate(0, 0, 7*w+i%5).Add(15*time.Hour))
		}
	}
	now := monday.AddDate(0, 0, 7*len(counts))
	factor, low, high := Learn(seen, monday, now).Trend()
	assert.Less(t, factor, 1.2)
	assert.Greater(t, high/low, 1.1, "and nobody is sure of it")
	mean, _ := Learn(seen, monday, now).Demand(now)(now.AddDate(0, 0, 7), now.AddDate(0, 0, 14))
	assert.Less(t, mean, 40.0)
	assert.Greater(t, mean, 11.1, "the mean of all weeks")
}

func TestDemandBandCovers(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	now := monday.AddDate(0, 0, 56)
	inside, trials := 0, 400
	for range trials {
		rhythm := Learn(discharges(r, 8, 4, 1), monday, now)
		mean, variance := rhythm.Demand(now)(now, now.AddDate(0, 0, 7))
		b := arrivals(mean, mean+variance).less(certain(0))
		if n := draw(r, 20); n >= b.quantile(0.05) && n <= b.quantile(0.95) {
			inside++
		}
	}
	share := float64(inside) / float64(trials)
	assert.True(t, share > 0.87 && share < 0.99, "90 %% band covers %.1f %%", 100*share)
}

// What the weeks differ by is the same whether a week is taken whole or day by
// day: its days are high or low together.
func TestDaysAreAsUnsureAsTheirWeek(t *testing.T) {
	var seen []time.Time
	for w, n := range []int{3, 40, 9, 31, 2, 37, 12, 28} {
		for i := range n {
			seen = append(seen, monday.AddDate(0, 0, 7*w).Add(time.Duration(i)*4*time.Hour))
		}
	}
	now := monday.AddDate(0, 0, 56)
	demand := Learn(seen, monday, now).Demand(now)
	mean, variance := demand(now, now.AddDate(0, 0, 7))
	assert.Greater(t, variance, 2*mean, "the weeks differ more than Poisson counts")
	days := 0.0
	for d := range 7 {
		_, v := demand(now.AddDate(0, 0, d), now.AddDate(0, 0, d+1))
		days += math.Sqrt(v)
	}
	assert.InDelta(t, math.Sqrt(variance), days, 0.15*days)
}

func TestRhythmOfNothingIsCautious(t *testing.T) {
	rhythm := Learn(nil, monday, monday)
	mean, variance := rhythm.Demand(monday)(monday, monday.AddDate(0, 0, 7))
	assert.False(t, math.IsNaN(mean) || math.IsInf(mean, 0) || math.IsNaN(variance))
	assert.Greater(t, variance, mean*mean, "nothing is known of it")
}

func TestSharesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seen := rapid.SliceOf(rapid.Custom(func(t *rapid.T) time.Time {
			return monday.Add(time.Duration(rapid.Int64Range(-1e6, 6e6).Draw(t, "s")) * time.Second)
		})).Draw(t, "seen")
		r := Learn(seen, monday, monday.AddDate(0, 0, rapid.IntRange(0, 60).Draw(t, "days")))
		sum := 0.0
		for d := range 7 {
			hours := 0.0
			for h := range 24 {
				hours += r.Hour(time.Weekday(d), h)
			}
			assert.InDelta(t, 1, hours, 1e-9)
			sum += r.Weekday(time.Weekday(d))
		}
		assert.InDelta(t, 1, sum, 1e-9)
		mean, variance := r.Demand(monday)(monday, monday.AddDate(0, 0, 1))
		assert.True(t, mean >= 0 && variance >= 0 && !math.IsNaN(mean+variance))
	})
}
