package widgets_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"

	"lungwort/labels/scene"
	"lungwort/ui/widgets"
)

func TestDetailsLeaveOutWhatIsEmptyAndWrapWhatIsLong(t *testing.T) {
	d := widgets.NewDetails()
	open(t, d, 400, 200)
	d.SetDetails([]widgets.Detail{
		{Label: "phone", Text: "555-0124"},
		{Label: "note", Text: ""},
		{Label: "way in", Text: strings.Repeat("past the gate and ", 12), Ink: scene.Alarm, Bold: true},
	})
	short := d.MinSize().Height
	var shown []string
	for _, text := range texts(d) {
		shown = append(shown, text.Text)
	}
	assert.Contains(t, shown, "phone")
	assert.NotContains(t, shown, "note", "nothing known, nothing shown")
	assert.Greater(t, len(shown), 5, "the long text takes several lines")
	d.Resize(fyne.NewSize(900, 200))
	assert.Less(t, d.MinSize().Height, short, "wider, so fewer lines")
}
