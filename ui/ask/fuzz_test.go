package ask_test

import (
	"math"
	"testing"
	"time"

	"lungwort/ui/ask"
)

// FuzzReader: whatever stands in a field of a form, it is read or the field is
// named, and a number lies between its ends.
func FuzzReader(f *testing.F) {
	for _, text := range []string{"500", "35 bar", "1,4", "2-4", "1/8", "-10 C", "92 %", "2026-11-24T16:20:00-03:00", "NaN", "Inf", "", "4", "O", "PRN"} {
		f.Add(text)
	}
	now := time.Date(2030, 3, 5, 16, 0, 0, 0, time.UTC)
	f.Fuzz(func(t *testing.T, text string) {
		r := ask.Read(ask.Answers{"f": text})
		if g := r.Gauge("f"); g != nil && !(*g >= 0) {
			t.Errorf("%q is a gauge of %v", text, *g)
		}
		if flow := r.Flow("f"); flow != nil && !(*flow >= 0) {
			t.Errorf("%q is a flow of %v", text, *flow)
		}
		if c := r.Temperature("f"); c != nil && math.IsNaN(float64(*c)) {
			t.Errorf("%q is no temperature", text)
		}
		if n := r.Number("f", "%", 0, 100); n != nil && !(*n >= 0 && *n <= 100) {
			t.Errorf("%q is the number %v", text, *n)
		}
		if at := ask.Read(ask.Answers{"f": text}).Past("f", now); at.After(now) {
			t.Errorf("%q lies ahead: %v", text, at)
		}
	})
}
