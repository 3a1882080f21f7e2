package intake

import "testing"

// FuzzReadMark: a mark of ours is read whole, anything else is none.
func FuzzReadMark(f *testing.F) {
	for _, text := range []string{"", "item", "item i1", "person p1 a b c", "item i1 a b c d e f g h"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if m, ok := readMark(text); ok && len(m.cells) != len(itemFields) && len(m.cells) != len(personFields) {
			t.Errorf("%q is taken for a mark of %d cells", text, len(m.cells))
		}
	})
}
