package widgets

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
)

// A long notice runs on below its line: the window gets no wider, and every word
// is there.
func TestALongNoticeMakesNothingWider(t *testing.T) {
	n := NewNotice()
	win := test.NewTempWindow(t, n)
	win.Resize(fyne.NewSize(600, 200))
	n.Say("The stop is closed.")
	short := n.MinSize()
	n.Resize(fyne.NewSize(600, short.Height))
	n.Say(strings.Repeat("Plan on 36 min of gas: neighbour, other address. ", 5))
	n.Resize(fyne.NewSize(600, short.Height))
	assert.LessOrEqual(t, n.MinSize().Width, float32(600))
	assert.Greater(t, n.MinSize().Height, 1.5*short.Height, "it takes more than a line")
	n.Say("The stop is closed.")
	assert.InDelta(t, short.Height, n.MinSize().Height, 1)
}
