package measures_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/measures"
)

var start = time.Date(2030, time.March, 4, 9, 0, 0, 0, time.UTC)

func on(day float64) time.Time { return start.Add(time.Duration(day * 24 * float64(time.Hour))) }

// The intervals are those of table I of Newcombe, Statistics in Medicine 17,
// 1998, pages 857 to 872, method 3 (score without continuity correction), to
// its four digits; the values are from memory.
func TestWilson(t *testing.T) {
	for _, c := range []struct {
		met, n    int
		low, high float64
	}{
		{81, 263, 0.2553, 0.3662}, {15, 148, 0.0624, 0.1605}, {0, 20, 0, 0.1611}, {1, 29, 0.0061, 0.1718},
	} {
		low, high := measures.Wilson(c.met, c.n)
		assert.InDelta(t, c.low, low, 6e-5, "%d of %d", c.met, c.n)
		assert.InDelta(t, c.high, high, 6e-5, "%d of %d", c.met, c.n)
	}
	low, high := measures.Wilson(0, 0)
	assert.Equal(t, []float64{0, 1}, []float64{low, high})
}

func took(days float64, open bool) measures.Case {
	return measures.Case{At: start, Took: time.Duration(days * 24 * float64(time.Hour)), Open: open}
}

// Remission under 6-MP and placebo, Freireich et al., Blood 21, 1963, in weeks:
// the medians are 23 and 8 with the open cases counted as longer; leaving them
// out would say 10.
func TestOpenCasesCountAsLonger(t *testing.T) {
	drug := measures.Measure{Sort: measures.Lasts}
	for _, weeks := range []float64{6, 6, 6, 7, 10, 13, 16, 22, 23} {
		drug.Cases = append(drug.Cases, took(7*weeks, false))
	}
	ended := drug
	for _, weeks := range []float64{6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35} {
		drug.Cases = append(drug.Cases, took(7*weeks, true))
	}
	f := drug.Figure()
	require.True(t, f.Known)
	assert.Equal(t, 23*7*24*time.Hour, f.Middle)
	assert.False(t, f.TailKnown, "nobody can know when nine of ten have ended")
	assert.Equal(t, []int{21, 12}, []int{f.N, f.Open})
	assert.Equal(t, 10*7*24*time.Hour, ended.Figure().Middle)
	assert.Equal(t, "half within 161.0 days, 12 of 21 open", drug.Says(f))
}

func TestSharesLeaveOutWhatIsNotDecided(t *testing.T) {
	m := measures.Measure{Sort: measures.Shares, Asked: "tried in time", Cases: []measures.Case{{Met: true}, {Met: true}, {}, {Open: true}}}
	f := m.Figure()
	assert.InDelta(t, 2.0/3, f.Share, 1e-12)
	assert.True(t, f.Few)
	assert.Equal(t, "67 % tried in time (21 to 94 %), 1 of 4 open", m.Says(f))
	m.Cases = m.Cases[3:]
	assert.Equal(t, "none is decided yet, 1 of 1 open", m.Says(m.Figure()))
	assert.Equal(t, "no case", m.Says(measures.Measure{Sort: measures.Shares}.Figure()))
}

// A month without a case stands between two that have some, and every case is
// in exactly one month and one part.
func TestMonthsAndPartsHoldEveryCaseOnce(t *testing.T) {
	m := measures.Measure{Sort: measures.Counts, Cases: []measures.Case{
		{At: on(0), Why: "swap"}, {At: on(1), Why: "deliver"}, {At: on(70), Why: "swap"},
	}}
	months := m.Months(on(75))
	require.Len(t, months, 3)
	assert.Equal(t, []int{2, 0, 1}, []int{months[0].N, months[1].N, months[2].N})
	assert.Equal(t, time.April, months[1].Month.Month())
	parts := m.Parts()
	require.Len(t, parts, 2)
	assert.Equal(t, "swap", parts[0].Why)
	assert.Equal(t, 3, parts[0].N+parts[1].N)
}
