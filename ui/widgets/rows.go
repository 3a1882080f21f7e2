package widgets

import (
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
)

// Rows is a list of rows in fixed columns, made for the keyboard. One row is
// always in hand: arrows, Home, End and the page keys move it, letters find it,
// Enter or a double click opens it. The row in hand stays in hand by its ID
// when the rows are set anew. Only the rows in sight are drawn.
type Rows struct {
	widget.BaseWidget

	// OnOpen is called when a row is opened.
	OnOpen func(id string)
	// OnHand is called when another row has come to hand; id is empty when no
	// rows are left.
	OnHand func(id string)
	// OnLeave is called on Up at the first row and on Esc, for a field above
	// the list to take the keyboard back.
	OnLeave func()
	// OnEscape is called on Esc in the place of OnLeave, where it is set.
	OnEscape func()
	// OnDone is called on Ctrl+Enter: what the screen is for.
	OnDone func()
	// OnRune is offered each letter before it finds a row, and reports whether
	// it took it.
	OnRune func(rune) bool

	columns []Column
	height  float32
	clicks  bool

	rows  []Row
	hand  int
	typed string

	list  *rowList
	head  *Picture
	empty *widget.Label
	frame *fyne.Container
}

var _ fyne.Widget = (*Rows)(nil)

// Heights of rows in points at the ordinary text size.
const (
	lowRow  = 28
	tallRow = 46
	headRow = 24
)

// NewRows returns an empty list. Its rows are tall, for two lines or a picture.
// empty is what it says while it has no rows: what to do first.
func NewRows(columns []Column, empty string) *Rows { return newRows(columns, empty, tallRow, false) }

// NewLowRows returns an empty list with rows of one line.
func NewLowRows(columns []Column, empty string) *Rows { return newRows(columns, empty, lowRow, false) }

func newRows(columns []Column, empty string, height float32, clicks bool) *Rows {
	r := &Rows{columns: columns, height: height, clicks: clicks, hand: -1}
	r.ExtendBaseWidget(r)
	r.head = NewPicture(fyne.NewSize(0, 0), func(w, h float64) scene.Scene {
		return headScene(r.columns, r.typed, w, h, themeSizes())
	})
	r.empty = widget.NewLabel(empty)
	r.empty.Wrapping = fyne.TextWrapWord
	r.list = newRowList(r)
	r.frame = container.New(&headed{r}, r.head, container.NewStack(r.list, container.NewVBox(r.empty)))
	return r
}

// SetRows shows rows. The row in hand stays in hand if it is still there, else
// the one that took its place.
func (r *Rows) SetRows(rows []Row) {
	before, wasLen := r.InHand(), len(r.rows)
	r.rows = rows
	r.hand = r.place(before)
	r.typed = ""
	if r.empty.Hidden = len(rows) > 0; len(rows) == 0 != (wasLen == 0) {
		r.frame.Refresh()
	}
	r.repaint()
	if now := r.InHand(); now != before && r.OnHand != nil {
		r.OnHand(now)
	}
}

// place finds the row of an ID, or the one nearest to where it was.
func (r *Rows) place(id string) int {
	if i := r.index(id); i >= 0 {
		return i
	}
	return min(max(r.hand, 0), len(r.rows)-1)
}

func (r *Rows) index(id string) int {
	for i := range r.rows {
		if r.rows[i].ID == id {
			return i
		}
	}
	return -1
}

// SetEmpty changes what the list says while it has no rows.
func (r *Rows) SetEmpty(text string) { r.empty.SetText(text) }

// SetColumns changes the columns, for another time axis over the ribbons.
func (r *Rows) SetColumns(columns []Column) {
	r.columns = columns
	r.Refresh()
}

// Len is the number of rows.
func (r *Rows) Len() int { return len(r.rows) }

// InHand is the ID of the row in hand, empty when there are no rows.
func (r *Rows) InHand() string {
	if r.hand < 0 || r.hand >= len(r.rows) {
		return ""
	}
	return r.rows[r.hand].ID
}

// Take brings a row to hand and in sight. It reports whether the row is there.
func (r *Rows) Take(id string) bool {
	i := r.index(id)
	if i < 0 {
		return false
	}
	r.take(i)
	return true
}

func (r *Rows) take(i int) {
	if len(r.rows) == 0 {
		return
	}
	before := r.hand
	r.hand = min(max(i, 0), len(r.rows)-1)
	r.list.ScrollTo(r.hand)
	if r.hand != before && r.OnHand != nil {
		r.OnHand(r.InHand())
	}
}

// Open opens the row in hand.
func (r *Rows) Open() {
	if id := r.InHand(); id != "" && r.OnOpen != nil {
		r.OnOpen(id)
	}
}

// Keyboard is what to focus so that the keys reach the list.
func (r *Rows) Keyboard() fyne.Focusable { return r.list }

// repaint draws everything once, and keeps the row in hand in sight while the
// person works in the list.
func (r *Rows) repaint() {
	r.head.Refresh()
	if r.list.focused && r.hand >= 0 {
		r.list.ScrollTo(r.hand)
		return
	}
	r.list.Refresh()
}

// find brings the next row to hand that has a word starting with what was
// typed. A letter that leads nowhere is offered to OnRune, or starts a new
// word.
func (r *Rows) find(letter rune) {
	offered := func() bool { return r.OnRune != nil && r.OnRune(letter) }
	if r.typed == "" && offered() || r.findWord(r.typed+string(letter)) {
		return
	}
	before := r.typed
	r.setTyped("")
	if before != "" && !offered() {
		r.findWord(string(letter))
	}
}

func (r *Rows) findWord(typed string) bool {
	i := r.match(strings.ToLower(typed))
	if i < 0 {
		return false
	}
	r.setTyped(typed)
	r.take(i)
	return true
}

func (r *Rows) setTyped(typed string) {
	if r.typed != typed {
		r.typed = typed
		r.head.Refresh()
	}
}

// match looks from the row in hand onwards, and past the end from the top.
// A single letter looks past the row in hand, so that it can be repeated.
func (r *Rows) match(typed string) int {
	from := max(r.hand, 0)
	if len([]rune(typed)) == 1 {
		from++
	}
	for n := range r.rows {
		i := (from + n) % len(r.rows)
		if hasWord(strings.ToLower(r.findText(r.rows[i])), typed) {
			return i
		}
	}
	return -1
}

func (r *Rows) findText(row Row) string {
	if row.Find != "" {
		return row.Find
	}
	var texts []string
	for i, cell := range row.Cells {
		if i < len(r.columns) && r.columns[i].Kind == TextColumn {
			texts = append(texts, cell.Text)
		}
	}
	return strings.Join(texts, " ")
}

// hasWord reports whether typed stands in text at the start of a word.
func hasWord(text, typed string) bool {
	start := true
	for i, letter := range text {
		if start && strings.HasPrefix(text[i:], typed) {
			return true
		}
		start = !unicode.IsLetter(letter) && !unicode.IsDigit(letter)
	}
	return false
}

// CreateRenderer is called by the toolkit.
func (r *Rows) CreateRenderer() fyne.WidgetRenderer {
	r.ExtendBaseWidget(r)
	return widget.NewSimpleRenderer(r.frame)
}

// Refresh redraws the rows, also in a new theme.
func (r *Rows) Refresh() {
	r.head.Refresh()
	r.list.Refresh()
	r.BaseWidget.Refresh()
}

func (r *Rows) headHeight() float32 {
	for _, c := range r.columns {
		if len(r.rows) > 0 && (c.Title != "" || c.Head != nil) {
			return headRow * float32(themeSizes().scale)
		}
	}
	return 0
}

// headed lays the head over the rows.
type headed struct{ rows *Rows }

func (l *headed) MinSize([]fyne.CanvasObject) fyne.Size {
	width := float32(2 * rowMargin)
	for _, c := range l.rows.columns {
		width += c.Width + columnGap
	}
	return fyne.NewSize(width, l.rows.headHeight()+2*l.rows.height)
}

func (l *headed) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	head := l.rows.headHeight()
	objects[0].Resize(fyne.NewSize(size.Width, head))
	objects[1].Move(fyne.NewPos(0, head))
	objects[1].Resize(fyne.NewSize(size.Width, size.Height-head))
}
