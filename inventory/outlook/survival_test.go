package outlook

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func table(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// remissions returns the weeks of remission of a group of the 6-MP trial
// (Freireich and others, Blood 21, 1963; as printed in Introductory
// Biostatistics, example 11.1).
func remissions(t *testing.T, group string) []Stay {
	var stays []Stay
	for _, row := range table(t, "km_6mp_data.csv") {
		if row[0] == group {
			stays = append(stays, Stay{Length: Days(number(t, row[1])), Ended: row[2] == "1"})
		}
	}
	return stays
}

// The published table of the 6-MP trial: survival and Greenwood's error (NAG
// library, results of the example of g12aac), and the log-log band.
func TestEstimateOfTheSixMPTrial(t *testing.T) {
	for _, group := range []string{"6-MP", "placebo"} {
		c := Estimate(remissions(t, group))
		i := 0
		for _, row := range table(t, "km_6mp.csv") {
			if row[0] != group {
				continue
			}
			s := c.Steps[i]
			i++
			assert.Equal(t, number(t, row[1]), float64(s.Length))
			assert.Equal(t, row[2], strconv.Itoa(s.AtRisk))
			assert.Equal(t, row[3], strconv.Itoa(s.Ended))
			assert.InDelta(t, number(t, row[4]), s.Beyond, 1e-6)
			if strings.EqualFold(row[5], "nan") {
				continue // nobody is left: no error is published
			}
			assert.InDelta(t, number(t, row[5]), s.Error, 1e-6)
			low, high := c.Band(s.Length)
			assert.InDelta(t, number(t, row[11]), low, 1e-6)
			assert.InDelta(t, number(t, row[12]), high, 1e-6)
		}
		assert.Len(t, c.Steps, i)
	}
}

// Medians 23 and 8 weeks and the mean to 35 weeks, of the same trial.
func TestMediansAndMeanOfTheSixMPTrial(t *testing.T) {
	drug, placebo := Estimate(remissions(t, "6-MP")), Estimate(remissions(t, "placebo"))
	median, known := drug.Quantile(0.5)
	assert.True(t, known)
	assert.Equal(t, Days(23), median)
	median, known = placebo.Quantile(0.5)
	assert.True(t, known)
	assert.Equal(t, Days(8), median)
	assert.InDelta(t, 23.2874, float64(drug.Mean(35)), 1e-4)
	_, known = drug.Quantile(0.9)
	assert.False(t, known, "too many are still in remission to know")
}

// Open loans only: nothing can be said of how long they last, and nothing is
// made up.
func TestOpenLoansOnlyAreCensored(t *testing.T) {
	c := Estimate([]Stay{{Length: 1}, {Length: 3}, {Length: 5}})
	_, known := c.Quantile(0.5)
	assert.False(t, known)
	assert.Equal(t, 1.0, c.Beyond(4))
	assert.Zero(t, c.EndsWithin(2, 30))
	assert.Equal(t, 3, c.Stays)
	assert.Zero(t, c.Ended)
}

func TestPublishedCurveHasItsMedian(t *testing.T) {
	c := Published(10, 0.6)
	median, known := c.Quantile(0.5)
	assert.True(t, known)
	assert.InDelta(t, 10, float64(median), 0.5)
	// The mean of a log-normal is median * exp(spread^2/2).
	assert.InDelta(t, 10*math.Exp(0.18), float64(c.Mean(1000)), 0.3)
}

func TestCurvesFall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stays := rapid.SliceOf(rapid.Custom(func(t *rapid.T) Stay {
			return Stay{Length: Days(rapid.IntRange(0, 60).Draw(t, "days")), Ended: rapid.Bool().Draw(t, "ended")}
		})).Draw(t, "stays")
		c := Estimate(stays)
		a, b := Days(rapid.Float64Range(0, 70).Draw(t, "a")), Days(rapid.Float64Range(0, 70).Draw(t, "b"))
		low, high := c.Band(a)
		assert.LessOrEqual(t, low, c.Beyond(a)+1e-12)
		assert.GreaterOrEqual(t, high, c.Beyond(a)-1e-12)
		assert.GreaterOrEqual(t, c.Beyond(a), c.Beyond(a+b))
		chance := c.EndsWithin(a, b)
		assert.True(t, chance >= 0 && chance <= 1, chance)
		assert.LessOrEqual(t, float64(c.Mean(a)), float64(a)+1e-9)
		longer := make([]Stay, len(stays))
		for i, s := range stays {
			longer[i] = Stay{Length: s.Length}
		}
		assert.GreaterOrEqual(t, Estimate(longer).Beyond(a), c.Beyond(a), "censored stays are never shorter")
	})
}
