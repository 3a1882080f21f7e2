package widgets_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/ui/widgets"
)

// texts are the words an object shows, top to bottom as drawn.
func texts(root fyne.CanvasObject) []*canvas.Text {
	if !root.Visible() {
		return nil
	}
	var inside []fyne.CanvasObject
	switch o := root.(type) {
	case *canvas.Text:
		return []*canvas.Text{o}
	case *fyne.Container:
		inside = o.Objects
	case fyne.Widget:
		inside = test.WidgetRenderer(o).Objects()
	}
	var out []*canvas.Text
	for _, o := range inside {
		out = append(out, texts(o)...)
	}
	return out
}

func said(root fyne.CanvasObject) string {
	var words []string
	for _, text := range texts(root) {
		words = append(words, text.Text)
	}
	return strings.Join(words, "|")
}

func TestAnswerCardSaysEverythingInOrder(t *testing.T) {
	c := widgets.NewAnswerCard(shortAnswer())
	open(t, container.NewVBox(c), 700, 500)
	want := []string{
		"short: gas ends 17 min before the van",
		"Plan on", "21 min", "21 to 43", "Help", "38 min", "van 2",
		"Do", "1", "Emergency number, then the clinician on call", "2", "Send van 2", "3", "Ask Slip House",
		"Assumed", "valve open since the reading", "Facts", "gauge told by phone 02:10", "does not advise on flow",
	}
	got, from := said(c), 0
	for _, words := range want {
		i := strings.Index(got[from:], words)
		require.GreaterOrEqual(t, i, 0, "%q does not follow in %q", words, got)
		from += i
	}
}

func TestAnswerCardEmphasisesTheFirstStepOnly(t *testing.T) {
	c := widgets.NewAnswerCard(shortAnswer())
	open(t, container.NewVBox(c), 700, 500)
	for _, text := range texts(c) {
		switch {
		case strings.HasPrefix(text.Text, "Emergency"):
			assert.True(t, text.TextStyle.Bold, text.Text)
		case strings.HasPrefix(text.Text, "Send"), strings.HasPrefix(text.Text, "Ask"):
			assert.False(t, text.TextStyle.Bold, text.Text)
		}
	}
}

func TestAnswerCardGrowsWhereItIsNarrow(t *testing.T) {
	wide, narrow := widgets.NewAnswerCard(shortAnswer()), widgets.NewAnswerCard(shortAnswer())
	open(t, container.NewVBox(wide), 900, 500)
	open(t, container.NewVBox(narrow), 390, 500)
	assert.Greater(t, narrow.MinSize().Height, wide.MinSize().Height)
	for _, text := range texts(narrow) {
		right := text.Position().X + text.Size().Width
		assert.LessOrEqual(t, right, float32(391), "%q runs out of the card", text.Text)
	}
}

func TestAnswerCardShowsAnotherAnswer(t *testing.T) {
	c := widgets.NewAnswerCard(shortAnswer())
	open(t, container.NewVBox(c), 700, 500)
	c.SetData(widgets.AnswerData{Verdict: "unknown", Title: "unknown: ask for a reading"})
	assert.Equal(t, "unknown: ask for a reading", said(c), "parts that are empty leave no label behind")
	assert.Equal(t, "unknown", c.Data().Verdict)
}
