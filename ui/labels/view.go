package labels

import (
	"fmt"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen of labels: the items, the paper, the sheet as it prints.
type View struct {
	model   *Model
	filter  *widgets.Filter
	scope   *widgets.Choice
	kind    *widgets.Choice
	age     *widgets.Choice
	rows    *widgets.Rows
	setting *setting
	one     *widgets.Picture
	sheet   *widgets.Picture
	says    *widget.Label
	title   *widget.Label
	about   *widget.Label // the sheet
	actions *widgets.Actions
	page    int
	content fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{model: NewModel(w), says: widget.NewLabel(""), title: widget.NewLabel(""), about: caption(widget.NewLabel("")), actions: widgets.NewActions()}
	v.model.Changed = v.draw
	v.rows = widgets.NewRows([]widgets.Column{{Width: 16}, {}}, "No item is like that. Type less, or take items in first.")
	v.rows.OnOpen = v.model.Toggle
	v.rows.OnHand = func(string) { v.one.Refresh() }
	v.rows.OnRune = v.rune
	v.filter = widgets.NewFilter("Part of a serial, model, size, place or state", v.rows)
	v.filter.OnText = func(string) { v.narrow() }
	v.scope = choice(func(string) { v.narrow() }, string(Every), widgets.Option{Value: string(Every), Label: "all"},
		widgets.Option{Value: string(Bare), Label: "never printed"}, widgets.Option{Value: string(Out), Label: "going out"}, widgets.Option{Value: string(Chosen), Label: "chosen"})
	v.kind = choice(func(string) { v.narrow() }, "", kindOptions()...)
	v.age = choice(v.narrowAge, "0", ageOptions()...)
	v.setting = newSetting(v.model)
	v.one = widgets.NewPicture(fyne.NewSize(300, 150), func(w, h float64) scene.Scene { return v.model.One(v.rows.InHand(), w, h) })
	v.sheet = widgets.NewPicture(fyne.NewSize(330, 300), v.drawSheet)
	v.content = v.layout()
	return v
}

func choice(changed func(string), value string, options ...widgets.Option) *widgets.Choice {
	c := widgets.NewChoice(options...)
	c.SetValue(value)
	c.OnChanged = changed
	return c
}

func kindOptions() []widgets.Option {
	options := []widgets.Option{{Value: "", Label: "any"}}
	for _, k := range inventory.Kinds() {
		options = append(options, widgets.Option{Value: string(k), Label: k.Short()})
	}
	return options
}

func ageOptions() []widgets.Option {
	words := map[int]string{0: "any age", 1: "new today", 7: "new in 7 days", 30: "in 30 days"}
	options := make([]widgets.Option, len(Ages))
	for i, days := range Ages {
		options[i] = widgets.Option{Value: strconv.Itoa(days), Label: words[days]}
	}
	return options
}

func (v *View) narrowAge(days string) {
	if n, err := strconv.Atoi(days); err == nil {
		v.model.NewWithin(n)
	}
}

func (v *View) layout() fyne.CanvasObject {
	heading := widget.NewLabelWithStyle("Labels", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = theme.SizeNameSubHeadingText
	v.says.TextStyle.Bold = true
	top := container.NewBorder(nil, nil, container.NewHBox(heading, v.title), v.says)
	choose := container.NewBorder(container.NewVBox(v.filter, v.scope, v.kind, v.age), nil, nil, nil, v.rows)
	middle := container.NewBorder(v.setting.form, nil, nil, nil, container.NewBorder(caption(widget.NewLabel("The label of the row in hand")), nil, nil, nil, v.one))
	sheet := container.NewBorder(v.about, nil, nil, nil, v.sheet)
	body := container.New(thirds{}, choose, middle, sheet)
	return container.NewBorder(top, widgets.NewFoot(container.NewPadded(v.actions)), nil, nil, body)
}

func caption(l *widget.Label) *widget.Label {
	l.SizeName, l.Importance = theme.SizeNameCaptionText, widget.LowImportance
	return l
}

// thirds gives the list what the paper and the sheet leave.
type thirds struct{}

const (
	middleWidth = 340
	sheetWidth  = 250
)

func (thirds) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(300+middleWidth+sheetWidth, max(objects[0].MinSize().Height, objects[1].MinSize().Height, objects[2].MinSize().Height))
}

func (thirds) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	list := size.Width - middleWidth - sheetWidth - 24
	x := float32(0)
	for i, w := range []float32{list, middleWidth, sheetWidth} {
		objects[i].Move(fyne.NewPos(x, 0))
		objects[i].Resize(fyne.NewSize(w, size.Height))
		x += w + 12
	}
}

// rune chooses by Space; digits are the actions'.
func (v *View) rune(r rune) bool {
	if r == ' ' {
		v.model.Toggle(v.rows.InHand())
		return true
	}
	return v.actions.Press(r)
}

func (v *View) narrow() {
	v.model.Narrow(Scope(v.scope.Value()), inventory.Kind(v.kind.Value()), v.filter.Text.Text)
}

// drawSheet draws the sheet, or says how one comes to be.
func (v *View) drawSheet(w, h float64) scene.Scene {
	if v.model.Count() > 0 {
		return v.model.Page(v.page, w, h)
	}
	return scene.Scene{W: w, H: h, Shapes: []scene.Shape{
		scene.Frame{X: 0.5, Y: 0.5, W: w - 1, H: h - 1, Width: 1, Ink: scene.Rule, Dash: 4},
		scene.Words{X: w / 2, Y: h / 2, Size: 13, Align: scene.Middle, Ink: scene.Faint, Text: "Choose items, or scan them:"},
		scene.Words{X: w / 2, Y: h/2 + 18, Size: 13, Align: scene.Middle, Ink: scene.Faint, Text: "the sheet appears here."},
	}}
}

func (v *View) draw() {
	rows := make([]widgets.Row, len(v.model.Rows))
	for i, r := range v.model.Rows {
		mark := widgets.Cell{}
		if r.Chosen {
			mark = widgets.Cell{Text: "+", Bold: true, Ink: scene.Fine}
		}
		below := r.What + " · " + r.State
		if !r.Printed {
			below += " · no label yet"
		}
		rows[i] = widgets.Row{ID: r.ID, Find: r.Label, Cells: []widgets.Cell{
			mark, {Text: r.Label, Below: below, Bold: r.Chosen},
		}}
	}
	v.rows.SetRows(rows)
	v.title.SetText(fmt.Sprintf("%d shown of %d · %d chosen", len(rows), v.model.Total, v.model.Count()))
	v.setting.draw()
	v.drawSays()
	v.drawActions()
	v.one.Refresh()
	v.sheet.Refresh()
}

func (v *View) drawSays() {
	says, err := v.model.Says()
	v.says.Importance = widget.MediumImportance
	if err != nil {
		v.says.Importance, says = widget.DangerImportance, err.Error()
	}
	v.says.SetText(says)
}

func (v *View) drawActions() {
	pages := v.model.Sheet().Pages()
	v.page = min(v.page, max(pages-1, 0))
	v.about.SetText("")
	if pages > 0 {
		v.about.SetText(fmt.Sprintf("Page %d of %d as it prints; what is crossed out is used up", v.page+1, pages))
	}
	none := v.model.Count() == 0
	v.actions.SetActions(
		widgets.Action{Key: '1', Label: "Choose or leave out", Off: v.rows.Len() == 0, Do: func() { v.model.Toggle(v.rows.InHand()) }},
		widgets.Action{Key: '2', Label: "Choose all shown", Off: v.rows.Len() == 0, Do: v.model.ChooseShown},
		widgets.Action{Key: '3', Label: "Choose none", Off: none, Do: v.model.Clear},
		widgets.Action{Key: '4', Label: "Next page", Off: pages < 2, Do: v.turn},
		widgets.Action{Key: '5', Label: "Test page", Do: v.model.PrintTest},
		widgets.Action{Key: '9', Label: "Print (Ctrl+P)", Off: none, Do: v.model.Print},
	)
}

// turn shows the next sheet, after the last one the first.
func (v *View) turn() {
	v.page = (v.page + 1) % max(v.model.Sheet().Pages(), 1)
	v.drawActions()
	v.sheet.Refresh()
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.filter }

// Open shows the items as they stand now; one that is named is chosen, and the
// name of a scope shows that scope.
func (v *View) Open(t work.Target) {
	if t.Text == string(Bare) {
		v.scope.SetValue(t.Text)
		v.narrow()
	}
	v.model.Load()
	v.model.LoadPrinters()
	if t.Item != "" {
		v.model.Scan(string(t.Item))
	}
}

// Scan chooses what is scanned.
func (v *View) Scan(text string) bool { return v.model.Scan(text) }

// Print prints what is chosen.
func (v *View) Print() { v.model.Print() }
