package sheet

import (
	"math"
	"testing"
)

// FuzzParseNumber: a cell is one number, none, or asked about.
func FuzzParseNumber(f *testing.F) {
	for _, seed := range []string{"1 204,5", "9.01E+09", "45 %", "1,234", "2-4", "", "####", "१२", "500 psi"} {
		f.Add(seed, seed)
	}
	f.Add("9.01E+09", "9010000417")
	f.Fuzz(func(t *testing.T, text, raw string) {
		value, _, found, err := ParseNumber(Cell{Text: text, Raw: raw})
		if err == nil && found && (math.IsNaN(value) || math.IsInf(value, 0)) {
			t.Errorf("%q (%q) is read as %v", text, raw, value)
		}
	})
}
