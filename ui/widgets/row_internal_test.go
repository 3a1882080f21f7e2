package widgets

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"lungwort/labels/scene"
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

func TestLongTextTakesBothLinesOfATallRow(t *testing.T) {
	columns := []Column{{Width: 100}}
	z := sizes{text: 13, small: 11, sub: 15, scale: 1}
	row := Row{Cells: []Cell{{Text: "visit 17:50 is after act-by 16:37: move it"}}}
	texts := func(h float64) (list []string) {
		for _, shape := range rowScene(columns, row, 130, h, z).Shapes {
			list = append(list, shape.(scene.Words).Text)
		}
		return list
	}
	tall := texts(tallRow)
	assert.Len(t, tall, 2)
	assert.Equal(t, "visit 17:50 is", tall[0])
	assert.True(t, strings.HasPrefix(tall[1], "after act") && strings.HasSuffix(tall[1], "…"), tall[1])
	assert.Len(t, texts(lowRow), 1, "a low row has one line")
}
