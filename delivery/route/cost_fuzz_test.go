package route

import (
	"math"
	"testing"
)

// FuzzSolutionCost: the cost in a solution file is a number above 0, or refused.
func FuzzSolutionCost(f *testing.F) {
	for _, text := range []string{"Route #1: 1 2\nCost 1637.7\n", "cost NaN", "Cost Inf", "Cost", ""} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if cost, err := solutionCost(text); err == nil && (!(cost > 0) || math.IsInf(cost, 0)) {
			t.Errorf("%q costs %v", text, cost)
		}
	})
}
