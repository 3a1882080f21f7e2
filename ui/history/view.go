package history

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/widgets"
)

// View is the timeline with the fact in hand told in full below it.
type View struct {
	Rows    *widgets.Rows
	rows    []Row
	foot    *widget.Label
	content fyne.CanvasObject
}

// NewView returns an empty timeline.
func NewView() *View {
	v := &View{foot: widget.NewLabel("")}
	v.foot.Wrapping, v.foot.SizeName = fyne.TextWrapWord, theme.SizeNameCaptionText
	v.Rows = widgets.NewLowRows([]widgets.Column{
		{Title: "when", Width: 120},
		{Title: "what"},
		{Title: "by", Width: 96},
	}, "Nothing has been recorded yet.")
	v.Rows.OnHand = v.tell
	v.content = container.NewBorder(nil, v.foot, nil, nil, v.Rows)
	return v
}

// Content returns what the page shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// SetRows shows facts. A corrected fact is faint and says so.
func (v *View) SetRows(rows []Row) {
	v.rows = rows
	lines := make([]widgets.Row, len(rows))
	for i, r := range rows {
		what := widgets.Cell{Text: r.Words}
		if r.Corrected {
			what.Text, what.Ink = "corrected: "+r.Words, scene.Faint
		}
		lines[i] = widgets.Row{ID: r.ID, Find: r.Words, Cells: []widgets.Cell{{Text: r.When}, what, {Text: r.By, Ink: scene.Faint}}}
	}
	v.Rows.SetRows(lines)
	v.tell(v.Rows.InHand())
}

// InHand returns the fact in hand.
func (v *View) InHand() (Row, bool) {
	for _, r := range v.rows {
		if r.ID == v.Rows.InHand() {
			return r, true
		}
	}
	return Row{}, false
}

// tell writes out the fact in hand.
func (v *View) tell(string) {
	r, ok := v.InHand()
	if !ok {
		v.foot.SetText("")
		return
	}
	v.foot.SetText(r.Words + " · " + r.Age + " · " + r.Detail)
}
