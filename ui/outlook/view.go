package outlook

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen: the kinds of things on top, below them the two weeks of
// the one in hand and what helps.
type View struct {
	model   *Model
	verdict *widget.Label
	rows    *widgets.Rows
	suppose *widgets.Choice
	chart   *widgets.Picture
	ways    *widgets.Rows
	lasting *widget.Label
	content fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{model: NewModel(w), lasting: widget.NewLabel("")}
	v.model.Changed, v.model.Chosen = v.draw, v.drawChosen
	v.verdict = widget.NewLabelWithStyle("", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	v.verdict.Truncation, v.lasting.Wrapping = fyne.TextTruncateEllipsis, fyne.TextWrapWord
	v.lists()
	v.suppose = widgets.NewChoice()
	v.suppose.OnChanged = v.model.SetSuppose
	v.chart = widgets.NewPicture(fyne.NewSize(300, 170), func(w, h float64) scene.Scene { return scene.StockChart(v.model.Chart(), w, h) })
	v.layout()
	return v
}

func (v *View) lists() {
	v.rows = widgets.NewLowRows([]widgets.Column{
		{Title: "what"},
		{Title: "ready", Width: 60, Right: true},
		{Title: "needed", Width: 70, Right: true},
		{Title: "not needed", Width: 92, Right: true},
		{Title: "coming", Width: 70, Right: true},
		{Title: "a week", Width: 70, Right: true},
		{Title: "runs short", Width: 92, Right: true},
		{Title: "worst day", Width: 110},
	}, "Nothing is in the book yet. Once things are lent and come back, this says whether there will be enough.")
	v.rows.OnHand = v.model.Choose
	v.rows.OnOpen = v.model.Open
	v.ways = widgets.NewRows([]widgets.Column{
		{Title: "what helps, the cheapest first"},
		{Title: "brings", Width: 60, Right: true},
		{Title: "from", Width: 110},
		{Title: "runs short", Width: 150},
	}, "Nothing has to be done for this.")
}

func (v *View) layout() {
	heading := widget.NewLabelWithStyle("Outlook", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = theme.SizeNameSubHeadingText
	top := container.NewVBox(
		container.NewBorder(nil, nil, heading, container.NewHBox(widget.NewLabel("suppose"), v.suppose)),
		v.verdict)
	foot := widget.NewLabel("Enter shows the items. Loans still open count as longer, never as ended. Needed: with a person who needs it, or set aside. Coming: collected, on the bench, at the plant.")
	below := container.NewBorder(v.chart, nil, nil, nil, container.NewGridWithColumns(2, v.ways, container.NewVScroll(v.lasting)))
	split := container.NewVSplit(v.rows, below)
	split.SetOffset(0.36)
	v.content = container.NewBorder(top, widgets.NewFoot(foot), nil, nil, split)
}

func (v *View) draw() {
	m := v.model
	rows := make([]widgets.Row, len(m.Rows))
	for i, r := range m.Rows {
		rows[i] = kindRow(r)
	}
	v.rows.SetRows(rows)
	v.rows.Take(m.What())
	v.drawChosen()
}

// drawChosen shows the kind in hand; the list of kinds is left alone, so that
// letters still being typed find on.
func (v *View) drawChosen() {
	m := v.model
	v.suppose.SetOptions(v.options()...)
	v.suppose.SetValue(m.Suppose)
	v.verdict.SetText(m.Verdict())
	v.ways.SetRows(wayRows(m.Ways()))
	v.lasting.SetText(strings.Join(m.Lasting(), "\n"))
	v.chart.Refresh()
}

func (v *View) options() []widgets.Option {
	options := []widgets.Option{{Value: Usual, Label: "as usual"}, {Value: Twice, Label: "twice the hand-overs"}, {Value: Strike, Label: "plants give nothing"}}
	if name := v.model.Model(); name != "" {
		options = append(options, widgets.Option{Value: Recall, Label: "recall of " + name})
	}
	return options
}

func kindRow(r Row) widgets.Row {
	short := widgets.Cell{Text: r.Short}
	if r.Alarm {
		short.Ink, short.Bold = scene.Alarm, true
	}
	return widgets.Row{ID: r.What, Find: r.What, Cells: []widgets.Cell{
		{Text: r.What, Bold: true}, {Text: r.Ready}, {Text: r.Needed}, {Text: r.Idle}, {Text: r.Coming}, {Text: r.Weekly}, short, {Text: r.Day},
	}}
}

func wayRows(ways []Way) []widgets.Row {
	rows := make([]widgets.Row, len(ways))
	for i, w := range ways {
		rows[i] = widgets.Row{ID: w.Name, Find: w.Name, Cells: []widgets.Cell{
			{Text: w.Name, Below: strings.Join(w.Do, "  ·  "), Bold: true}, {Text: w.Brings}, {Text: w.From}, {Text: w.Short},
		}}
	}
	return rows
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.rows.Keyboard() }

// Open reads the book anew.
func (v *View) Open(work.Target) { v.model.Load() }
