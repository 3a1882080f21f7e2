package outlook

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Stock for a Poisson demand, worked out with 30 digits independently of this
// package.
func TestLevelsOfThePoissonTable(t *testing.T) {
	services := []float64{0.80, 0.90, 0.95, 0.975, 0.99, 0.995, 0.999}
	for _, row := range table(t, "poisson_stock.csv") {
		mean := number(t, row[0])
		for i, service := range services {
			assert.Equal(t, row[i+1], strconv.Itoa(Level(mean, service)), "mean %v service %v", mean, service)
		}
	}
	assert.Equal(t, 73, Level(60, 0.95), "20 discharges a week kept for 21 days")
	assert.Positive(t, Level(5, 1), "certainty is not promised, but an answer comes")
}

// Base stock at a mean of 10 and of 2, computed with 30 digits.
func TestFillRateAndBackorders(t *testing.T) {
	assert.InDelta(t, 1-0.9512596, ShortOf(10, 15), 1e-7)
	assert.InDelta(t, 0.9165415, FillRate(10, 15), 1e-7)
	assert.InDelta(t, 0.10347868, Backorders(10, 15), 1e-8)
	assert.InDelta(t, 0.8571235, FillRate(2, 4), 1e-7)
	assert.InDelta(t, 0.0751410, Backorders(2, 4), 1e-7)
}

// Erlang's loss formula: the table of loads (the printed tables show 4.46,
// 12.0, 37.9 and 84.1 erlang at 1 % for 10, 20, 50 and 100 servers, from
// memory) and single values as exact fractions.
func TestRefusedOfErlangsTable(t *testing.T) {
	losses := []float64{0.001, 0.002, 0.005, 0.01, 0.02, 0.03, 0.05, 0.1}
	rows := table(t, "erlang_b.csv")
	require.NotEmpty(t, rows)
	for _, row := range rows {
		units, err := strconv.Atoi(strings.TrimSpace(row[0]))
		require.NoError(t, err)
		for i, loss := range losses {
			assert.InEpsilon(t, loss, Refused(number(t, row[i+1]), units), 1e-6)
		}
	}
	assert.InDelta(t, 81.0/736, Refused(3, 5), 1e-12)
	assert.InDelta(t, 0.018384570337, Refused(5, 10), 1e-12)
	assert.InDelta(t, 0.0097956394, Refused(12, 20), 1e-10)
	assert.Less(t, Refused(2.5, 7), 0.01)
	assert.Greater(t, Refused(2.5, 6), 0.01)
}
