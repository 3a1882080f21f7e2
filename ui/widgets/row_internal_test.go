package widgets

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestSpansGiveThePictureRoomOnASmallScreen(t *testing.T) {
	columns := []Column{{Kind: VerdictColumn, Width: 96}, {Width: 260}, {Kind: PictureColumn}, {Width: 240}}
	for _, tc := range []struct{ width, home, picture float64 }{
		{1210, 260, 548},   // the window at 1366 less the side bar: nothing shrinks
		{760, 196.56, 220}, // the picture lacks 122 of its 220: texts give 122 of their 500
		{500, 156, 38},     // the texts are at six tenths and give no more
	} {
		got := spans(columns, tc.width, 1)
		assert.Equal(t, 96.0, got[0].w, "a verdict is never cut")
		assert.InDelta(t, tc.home, got[1].w, 1e-9, "home at %v", tc.width)
		assert.InDelta(t, tc.picture, got[2].w, 1e-9, "picture at %v", tc.width)
	}
}

// Columns lie side by side in their order, and as long as the text columns can
// still shrink the last one ends at the margin.
func TestSpansFillTheRow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		columns := []Column{
			{Kind: VerdictColumn, Width: 96}, {Kind: PictureColumn},
			{Width: float32(rapid.IntRange(50, 400).Draw(t, "a"))}, {Width: float32(rapid.IntRange(50, 400).Draw(t, "b"))},
		}
		width := float64(rapid.IntRange(900, 2000).Draw(t, "width"))
		got, x := spans(columns, width, 1), rowMargin
		for i, at := range got {
			if at.x != x && at.x-x > 1e-9 {
				t.Fatalf("column %d starts at %v, want %v", i, at.x, x)
			}
			x += at.w + columnGap
		}
		if end := x - columnGap + rowMargin; end-width > 1e-6 || width-end > 1e-6 {
			t.Fatalf("the row ends at %v of %v", end, width)
		}
	})
}
