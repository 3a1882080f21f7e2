package depletion

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// published is a row of testdata/special_functions.csv, which names the
// source of each value.
type published struct {
	quantity string
	x        [4]float64
	value    float64
	text     string
}

func readPublished(t *testing.T) []published {
	t.Helper()
	file, err := os.Open("testdata/special_functions.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)

	var all []published
	for _, row := range rows[1:] {
		p := published{quantity: row[0], text: row[0] + " " + row[1] + " " + row[2] + " " + row[3] + " " + row[4]}
		for i, cell := range row[1:5] {
			if cell != "" {
				p.x[i], err = strconv.ParseFloat(cell, 64)
				require.NoError(t, err, row)
			}
		}
		p.value, err = strconv.ParseFloat(row[5], 64)
		require.NoError(t, err, row)
		all = append(all, p)
	}
	return all
}

// The tabulated values are those of ASA147 and of the NAG library's example
// results; the others were computed with mpmath 1.2.1. See the file.
func TestPublishedValues(t *testing.T) {
	seen := map[string]int{}
	for _, p := range readPublished(t) {
		seen[p.quantity]++
		x := p.x
		switch p.quantity {
		case "P(a;x)":
			assert.InEpsilon(t, p.value, gammaBelow(x[0], x[1]), 1e-12, p.text)
		case "I_x(a;b)":
			assert.InEpsilon(t, p.value, newIncompleteBeta(x[2], x[0]).at(x[1]), 1e-9, p.text)
		case "gamma process F(t) c u y t":
			assert.InEpsilon(t, p.value, 1-gammaBelow(x[0]*x[3], x[2]*x[1]), 1e-9, p.text)
			assert.InEpsilon(t, p.value, known(x[2], x[0], x[1]).emptied(x[3]), 1e-3, p.text)
		case "gamma process median c u y":
			assert.InEpsilon(t, p.value, known(x[2], x[0], x[1]).until(0.5), 1e-4, p.text)
		case "predictive P(X<=x) v a b x":
			c := alone(course{gas: x[3], steady: x[0], shape: x[1], scale: x[2]})
			assert.InEpsilon(t, 1-p.value, c.emptied(1), 1e-9, p.text)
		case "predictive quantile v a b q":
			c := alone(course{gas: p.value, steady: x[0], shape: x[1], scale: x[2]})
			assert.InEpsilon(t, 1-x[3], c.emptied(1), 1e-9, p.text)
			assert.InEpsilon(t, 1, c.until(1-x[3]), 1e-4, p.text)
		default:
			t.Errorf("no check for %s", p.text)
		}
	}
	assert.Len(t, seen, 6, "kinds of published values: %v", seen)
}

// Closed forms: I_x(a, 1) = x^a, I_x(1, b) = 1 − (1−x)^b, the symmetry
// I_x(a, b) = 1 − I_{1−x}(b, a), and the arcsine law for a = b = 1/2.
func TestClosedForms(t *testing.T) {
	for _, x := range []float64{1e-6, 0.01, 0.2, 0.5, 0.77, 0.99, 1 - 1e-9} {
		for _, a := range []float64{0.3, 1, 2.5, 40, 900} {
			assert.InDelta(t, math.Pow(x, a), newIncompleteBeta(x, a).at(1), 1e-9, "x %g a %g", x, a)
			assert.InDelta(t, -math.Expm1(a*math.Log1p(-x)), newIncompleteBeta(x, 1).at(a), 1e-9, "x %g b %g", x, a)
			assert.InDelta(t, 1, newIncompleteBeta(x, a).at(7.5)+newIncompleteBeta(1-x, 7.5).at(a), 1e-9, "x %g a %g", x, a)
		}
		assert.InDelta(t, 2/math.Pi*math.Asin(math.Sqrt(x)), newIncompleteBeta(x, 0.5).at(0.5), 1e-9, "x %g", x)
	}
}
