package widgets_test

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/scene"
	"lungwort/ui/look"
	"lungwort/ui/widgets"
)

// numbered are n rows r0, r1, … named "Home 0", "Home 1", …
func numbered(n int) []widgets.Row {
	rows := make([]widgets.Row, n)
	for i := range rows {
		rows[i] = widgets.Row{ID: fmt.Sprint("r", i), Cells: []widgets.Cell{{Text: fmt.Sprint("Home ", i)}}}
	}
	return rows
}

// desk is a list in a window, with what it told the screen.
type desk struct {
	*widgets.Rows
	win    fyne.Window
	opened []string
	hands  []string
	left   int
}

func newDesk(t *testing.T, rows []widgets.Row) *desk {
	d := &desk{Rows: widgets.NewRows([]widgets.Column{{Title: "Home"}}, "Nothing yet.")}
	d.OnOpen = func(id string) { d.opened = append(d.opened, id) }
	d.OnHand = func(id string) { d.hands = append(d.hands, id) }
	d.OnLeave = func() { d.left++ }
	d.win = open(t, d.Rows, 600, 424)
	d.SetRows(rows)
	d.win.Canvas().Focus(d.Keyboard())
	return d
}

func (d *desk) press(keys ...fyne.KeyName) {
	for _, k := range keys {
		d.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
	}
}

func TestRowsMoveByKeys(t *testing.T) {
	// The list is 400 points high under its head, a row and its gap 50: eight
	// rows are in sight, and a page moves by seven.
	for _, tc := range []struct {
		name string
		keys []fyne.KeyName
		want string
	}{
		{"first row at the start", nil, "r0"},
		{"down", []fyne.KeyName{fyne.KeyDown, fyne.KeyDown}, "r2"},
		{"down and up", []fyne.KeyName{fyne.KeyDown, fyne.KeyDown, fyne.KeyUp}, "r1"},
		{"end", []fyne.KeyName{fyne.KeyEnd}, "r99"},
		{"down at the end stays", []fyne.KeyName{fyne.KeyEnd, fyne.KeyDown}, "r99"},
		{"end and home", []fyne.KeyName{fyne.KeyEnd, fyne.KeyHome}, "r0"},
		{"page down", []fyne.KeyName{fyne.KeyPageDown}, "r7"},
		{"page down twice and up", []fyne.KeyName{fyne.KeyPageDown, fyne.KeyPageDown, fyne.KeyPageUp}, "r7"},
		{"page up at the top", []fyne.KeyName{fyne.KeyDown, fyne.KeyPageUp}, "r0"},
		{"other keys do nothing", []fyne.KeyName{fyne.KeyF5, fyne.KeyLeft}, "r0"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			d := newDesk(t, numbered(100))
			d.press(tc.keys...)
			assert.Equal(t, tc.want, d.InHand())
			assert.Equal(t, tc.want, d.hands[len(d.hands)-1], "OnHand")
		})
	}
}

func TestRowsOpen(t *testing.T) {
	d := newDesk(t, numbered(5))
	d.press(fyne.KeyDown, fyne.KeyReturn, fyne.KeyDown, fyne.KeyEnter)
	assert.Equal(t, []string{"r1", "r2"}, d.opened)
}

func TestRowsLeave(t *testing.T) {
	d := newDesk(t, numbered(5))
	d.press(fyne.KeyUp)
	assert.Equal(t, 1, d.left, "Up on the first row")
	d.press(fyne.KeyDown, fyne.KeyUp)
	assert.Equal(t, 1, d.left, "Up on the second row")
	d.press(fyne.KeyEscape)
	assert.Equal(t, 2, d.left, "Esc")
}

func TestRowsFindByTyping(t *testing.T) {
	rows := []widgets.Row{
		{ID: "ines", Cells: []widgets.Cell{{Text: "Ines A., Gull Row 14"}}},
		{ID: "odd", Cells: []widgets.Cell{{Text: "Odd F., Harbour Lane 9"}}},
		{ID: "jory", Cells: []widgets.Cell{{Text: "Jory V., Kelp Street 22"}}},
		{ID: "anwen", Cells: []widgets.Cell{{Text: "Anwen Ó., Mill Croft 7"}}, Find: "anwen mill 555-0107"},
	}
	for _, tc := range []struct{ typed, want string }{
		{"j", "jory"},
		{"K", "jory"},
		{"har", "odd"},
		{"h", "odd"},
		{"2", "jory"},
		{"555", "anwen"},
		{"a", "anwen"},
		{"aa", "ines"},  // the same letter again goes on, past the end to the top
		{"kx", "jory"},  // x leads nowhere: the row in hand stays
		{"zodd", "odd"}, // z leads nowhere, then a new word starts
	} {
		d := newDesk(t, rows)
		for _, letter := range tc.typed {
			d.win.Canvas().Focused().TypedRune(letter)
		}
		assert.Equal(t, tc.want, d.InHand(), "typed %q", tc.typed)
	}
}

func TestRowsKeepTheRowInHand(t *testing.T) {
	d := newDesk(t, numbered(10))
	require.True(t, d.Take("r4"))
	assert.False(t, d.Take("gone"))

	turned := numbered(10)
	turned[0], turned[4] = turned[4], turned[0]
	d.hands = nil
	d.SetRows(turned)
	assert.Equal(t, "r4", d.InHand(), "moved to the top")
	assert.Empty(t, d.hands, "no other row came to hand")

	d.SetRows(numbered(10)[5:])
	assert.Equal(t, "r5", d.InHand(), "the row is gone: its neighbour takes its place")
	d.SetRows(nil)
	assert.Equal(t, "", d.InHand())
	assert.Equal(t, []string{"r5", ""}, d.hands)
	d.press(fyne.KeyDown, fyne.KeyReturn, fyne.KeyEnd)
	assert.Empty(t, d.opened, "nothing to open")
}

func TestRowsByPointer(t *testing.T) {
	d := newDesk(t, numbered(10))
	d.win.Canvas().Unfocus()
	test.TapCanvas(d.win.Canvas(), fyne.NewPos(50, 24+2*50+10))
	assert.Equal(t, "r2", d.InHand())
	assert.Same(t, d.Keyboard(), d.win.Canvas().Focused(), "a click brings the keyboard")
	assert.Empty(t, d.opened, "a single click does not open")
	below := func(o fyne.CanvasObject) bool {
		return fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y > 24+3*50-5
	}
	test.DoubleTap(find(d.Rows, below, fyne.DoubleTappable(nil)))
	assert.Equal(t, []string{"r3"}, d.opened)
}

// find walks what an object shows for the first T that fits.
func find[T any](root fyne.CanvasObject, fits func(fyne.CanvasObject) bool, _ T) T {
	var zero T
	if !root.Visible() {
		return zero
	}
	if t, ok := root.(T); ok && fits(root) {
		return t
	}
	var inside []fyne.CanvasObject
	switch o := root.(type) {
	case *fyne.Container:
		inside = o.Objects
	case fyne.Widget:
		inside = test.WidgetRenderer(o).Objects()
	}
	for _, o := range inside {
		if t := find(o, fits, zero); any(t) != any(zero) {
			return t
		}
	}
	return zero
}

func TestRowsDrawOnlyWhatIsInSight(t *testing.T) {
	drawn := map[string]int{}
	rows := numbered(10_000)
	for i := range rows {
		rows[i].Cells = append(rows[i].Cells, widgets.Cell{Draw: func(w, h float64) scene.Scene {
			drawn[rows[i].ID]++
			return scene.Scene{W: w, H: h}
		}})
	}
	r := widgets.NewRows([]widgets.Column{{Title: "Home"}, {Kind: widgets.PictureColumn, Width: 200}}, "")
	win := open(t, r, 600, 424)
	r.SetRows(rows)
	assert.LessOrEqual(t, len(drawn), 10)
	win.Canvas().Focus(r.Keyboard())
	win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	assert.LessOrEqual(t, len(drawn), 20)
	assert.Positive(t, drawn["r9999"], "the last row is in sight")
}

func TestRowsMarkup(t *testing.T) {
	d := newDesk(t, numbered(2))
	test.AssertRendersToMarkup(t, "rows.xml", d.win.Canvas())
	d.SetRows(nil)
	test.AssertRendersToMarkup(t, "rows-empty.xml", d.win.Canvas())
}

func BenchmarkRowsKey(b *testing.B) {
	test.NewTempApp(b).Settings().SetTheme(look.New(look.Light))
	r := watchRows()
	var rows []widgets.Row
	for i := range 10_000 {
		row := afternoon()[i%6]
		row.ID = fmt.Sprint(i)
		rows = append(rows, row)
	}
	win := test.NewTempWindow(b, r)
	win.Resize(fyne.NewSize(1220, 640))
	r.SetRows(rows)
	win.Canvas().Focus(r.Keyboard())
	for b.Loop() {
		win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	}
}

// A digit behind letters finds "van 2"; where it finds nothing, it is a key of
// the page again.
func TestLettersThatFindNothingAreOffered(t *testing.T) {
	var offered []rune
	rows := widgets.NewLowRows([]widgets.Column{{}}, "")
	rows.OnRune = func(r rune) bool {
		offered = append(offered, r)
		return r >= '0' && r <= '9'
	}
	win := open(t, rows, 300, 200)
	rows.SetRows([]widgets.Row{{ID: "a", Cells: []widgets.Cell{{Text: "harbour"}}}, {ID: "b", Cells: []widgets.Cell{{Text: "ness"}}}})
	win.Canvas().Focus(rows.Keyboard())
	for _, r := range "ne2h" {
		win.Canvas().Focused().TypedRune(r)
	}
	assert.Equal(t, "n2h", string(offered))
	assert.Equal(t, "a", rows.InHand())
}
