package labels

import "testing"

// FuzzWhole: a count is a whole number up to its most, or refused.
func FuzzWhole(f *testing.F) {
	for _, text := range []string{"3", "", "-1", "1e3", "99999999999999999999", " 7 "} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if n, err := whole(text, 500); err == nil && (n < 0 || n > 500) {
			t.Errorf("%q is read as %d", text, n)
		}
	})
}
