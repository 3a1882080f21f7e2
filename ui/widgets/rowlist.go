package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/look"
)

// rowList is the toolkit's list with the keys of Rows. It never selects: which
// row is in hand is Rows' to know, and each row paints itself.
type rowList struct {
	widget.List

	rows    *Rows
	focused bool
}

var (
	_ fyne.Focusable    = (*rowList)(nil)
	_ fyne.Shortcutable = (*rowList)(nil)
)

func newRowList(r *Rows) *rowList {
	l := &rowList{rows: r}
	l.Length = func() int { return len(r.rows) }
	l.CreateItem = func() fyne.CanvasObject { return newRowView(r) }
	l.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {
		if view, ok := o.(interface{ show(int) }); ok && i < len(r.rows) {
			view.show(i)
		}
	}
	l.ExtendBaseWidget(l)
	return l
}

// FocusGained marks the row in hand as the one the keys move. The embedded
// list is not told: it would mark a row of its own.
func (l *rowList) FocusGained() {
	l.focused = true
	l.rows.repaint()
}

// FocusLost leaves the row in hand with a quieter mark.
func (l *rowList) FocusLost() {
	l.focused = false
	l.rows.setTyped("")
	l.Refresh()
}

// TypedRune finds a row by its words.
func (l *rowList) TypedRune(letter rune) { l.rows.find(letter) }

// TypedShortcut takes Ctrl+Enter.
func (l *rowList) TypedShortcut(s fyne.Shortcut) { formKeys{submit: l.rows.OnDone}.handleShortcut(s) }

// TypedKey moves, opens and leaves.
func (l *rowList) TypedKey(e *fyne.KeyEvent) {
	Used()
	r := l.rows
	to := r.hand
	switch e.Name {
	case fyne.KeyDown:
		to++
	case fyne.KeyUp:
		if to <= 0 {
			l.leave()
			return
		}
		to--
	case fyne.KeyPageDown:
		to += l.page()
	case fyne.KeyPageUp:
		to -= l.page()
	case fyne.KeyHome:
		to = 0
	case fyne.KeyEnd:
		to = len(r.rows) - 1
	case fyne.KeyReturn, fyne.KeyEnter:
		r.Open()
		return
	case fyne.KeyEscape:
		if r.typed == "" {
			l.escape()
		}
		r.setTyped("")
		return
	case fyne.KeyBackspace:
		if typed := []rune(r.typed); len(typed) > 0 {
			r.setTyped(string(typed[:len(typed)-1]))
		}
		return
	default:
		toWindow(e)
		return
	}
	r.setTyped("")
	r.take(to)
}

func (l *rowList) escape() {
	if l.rows.OnEscape != nil {
		l.rows.OnEscape()
		return
	}
	l.leave()
}

func (l *rowList) leave() {
	if l.rows.OnLeave != nil {
		l.rows.OnLeave()
	}
}

// page is how many whole rows are in sight, less one to keep one's place by.
func (l *rowList) page() int {
	step := l.rows.height*float32(themeSizes().scale) + l.Theme().Size(theme.SizeNamePadding)
	return max(1, int(l.Size().Height/step)-1)
}

// rowView shows one row and takes the pointer.
type rowView struct {
	widget.BaseWidget

	rows   *Rows
	id     string
	row    Row
	ground *canvas.Rectangle
	edge   *canvas.Rectangle
	cells  *Picture
}

// openingRow is a rowView that a double click opens. It is a type of its own
// since the toolkit delays every click on what can be double clicked.
type openingRow struct{ rowView }

var (
	_ fyne.Tappable       = (*rowView)(nil)
	_ desktop.Mouseable   = (*rowView)(nil)
	_ fyne.DoubleTappable = (*openingRow)(nil)
)

func newRowView(r *Rows) fyne.CanvasObject {
	if r.clicks {
		v := &rowView{}
		v.fill(r)
		v.ExtendBaseWidget(v)
		return v
	}
	v := &openingRow{}
	v.fill(r)
	v.ExtendBaseWidget(v)
	return v
}

func (v *rowView) fill(r *Rows) {
	v.rows = r
	v.ground = canvas.NewRectangle(nil)
	v.ground.CornerRadius = 4
	v.edge = canvas.NewRectangle(nil)
	v.cells = NewPicture(fyne.NewSize(0, 0), func(w, h float64) scene.Scene {
		return rowScene(r.columns, v.row, w, h, themeSizes())
	})
}

func (v *rowView) show(i int) {
	v.row = v.rows.rows[i]
	v.id = v.row.ID
	inHand := i == v.rows.hand
	v.ground.Hidden = !inHand
	v.edge.Hidden = !inHand || !v.rows.list.focused
	v.ground.FillColor = colour(look.Ink(look.InHand), v)
	v.edge.FillColor = colour(theme.ColorNamePrimary, v)
	v.ground.Refresh()
	v.edge.Refresh()
	v.cells.Refresh()
}

// MouseDown brings the row to hand at once.
func (v *rowView) MouseDown(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary {
		v.takeHand()
	}
}

// MouseUp does nothing.
func (v *rowView) MouseUp(*desktop.MouseEvent) {}

// Tapped brings the row to hand, and opens it in a list that opens on a click.
func (v *rowView) Tapped(*fyne.PointEvent) {
	v.takeHand()
	if v.rows.clicks {
		v.rows.Open()
	}
}

// DoubleTapped opens the row.
func (v *openingRow) DoubleTapped(*fyne.PointEvent) {
	v.takeHand()
	v.rows.Open()
}

func (v *rowView) takeHand() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(v.rows.list); c != nil {
		c.Focus(v.rows.list)
	}
	v.rows.Take(v.id)
}

// CreateRenderer is called by the toolkit.
func (v *rowView) CreateRenderer() fyne.WidgetRenderer { return &rowRenderer{v} }

type rowRenderer struct{ view *rowView }

func (r *rowRenderer) Destroy() {}
func (r *rowRenderer) Refresh() { r.view.cells.Refresh() }

func (r *rowRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.view.ground, r.view.edge, r.view.cells}
}

func (r *rowRenderer) MinSize() fyne.Size {
	return fyne.NewSize(0, r.view.rows.height*float32(themeSizes().scale))
}

func (r *rowRenderer) Layout(size fyne.Size) {
	r.view.ground.Resize(size)
	r.view.edge.Resize(fyne.NewSize(4, size.Height))
	r.view.cells.Resize(size)
}
