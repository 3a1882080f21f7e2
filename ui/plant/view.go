package plant

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/ask"
	"lungwort/ui/asker"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen of an exchange.
type View struct {
	work                *work.Work
	model               *Model
	sign                *widgets.Picture
	plant, depot        *widgets.Choice
	side, later         *widgets.Choice
	lot                 *widgets.Text
	actions             *widgets.Actions
	out, in, lines, not *widgets.Rows
	outHead, inHead     *widget.Label
	verdict, sources    *widget.Label
	kept                string // of what was scanned
	content             fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{work: w, model: NewModel(w), verdict: heading(""), sources: widget.NewLabel(""), outHead: heading("Out"), inHead: heading("In")}
	v.model.Changed, v.model.Ask = v.draw, func() { v.show(v.model.StrangerForm()) }
	v.sign = widgets.NewPicture(fyne.NewSize(300, scene.SignHeight), func(w, h float64) scene.Scene { return v.model.Sign.Draw(w, h) })
	v.inputs()
	v.actions = widgets.NewActions(
		widgets.Action{Key: '1', Label: "Scan out", Do: func() { v.scanning(Out) }},
		widgets.Action{Key: '2', Label: "Scan in", Do: func() { v.scanning(In) }},
		widgets.Action{Key: '3', Label: "Label and gauge", Do: v.read},
		widgets.Action{Key: '4', Label: "Counted only", Do: func() { v.show(v.model.CountForm()) }},
		widgets.Action{Key: '5', Label: "Take off", Danger: true, Do: v.takeOff},
		widgets.Action{Key: '6', Label: "Sign", Do: v.signIt},
		widgets.Action{Key: '8', Label: "Slip (Ctrl+P)", Do: v.Print},
	)
	side := []widgets.Column{{Title: "cylinder", Width: 130}, {Title: "what"}}
	v.out = widgets.NewRows(side, "Scan the empties that go onto the truck. A soiled one stays until the plant was told.")
	v.in = widgets.NewRows(side, "Change to \"come in\" and scan what the truck brings.")
	v.lines = widgets.NewLowRows([]widgets.Column{
		{Title: "owner"}, {Title: "size", Width: 60}, {Title: "there", Width: 52}, {Title: "out", Width: 44}, {Title: "in", Width: 44}, {Title: "due", Width: 44}, {Title: "stays", Width: 52},
	}, "Nothing is at the plant, nothing is scanned.")
	v.not = widgets.NewRows([]widgets.Column{{Title: "does not fit, and what to do"}}, "Everything fits.")
	for _, r := range []*widgets.Rows{v.out, v.in, v.lines, v.not} {
		r.OnRune = v.actions.Press
		r.OnDone = v.signIt
	}
	v.out.OnOpen, v.in.OnOpen = v.open, func(string) { v.read() }
	v.layout()
	return v
}

func heading(text string) *widget.Label {
	h := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	h.SizeName = theme.SizeNameSubHeadingText
	return h
}

func (v *View) inputs() {
	v.plant, v.depot = widgets.NewChoice(), widgets.NewChoice()
	v.plant.OnChanged = func(name string) { v.model.Set(func(m *Model) { m.Plant = name }) }
	v.depot.OnChanged = func(name string) { v.model.Set(func(m *Model) { m.Depot = name }) }
	v.side = widgets.NewChoice(widgets.Option{Value: string(Out), Label: "go out"}, widgets.Option{Value: string(In), Label: "come in"})
	v.side.OnChanged = func(value string) { v.scanning(Side(value)) }
	v.later = widgets.NewChoice(widgets.Option{Value: "now", Label: "full for empty"}, widgets.Option{Value: "later", Label: "back another day"})
	v.later.OnChanged = func(value string) { v.model.Set(func(m *Model) { m.Later = value == "later" }) }
	v.lot = widgets.NewText()
	v.lot.PlaceHolder = "lot of what comes in"
	v.lot.OnChanged = func(text string) { v.model.Lot = strings.TrimSpace(text) }
}

func (v *View) layout() {
	top := container.NewBorder(nil, nil, container.NewHBox(heading("Plant"), v.plant, widget.NewLabel("at"), v.depot), v.actions)
	scans := container.NewHBox(widget.NewLabel("they"), v.side, v.later)
	bar := container.NewBorder(nil, nil, scans, nil, v.lot)
	left := container.NewBorder(v.outHead, nil, nil, nil, v.out)
	middle := container.NewBorder(v.inHead, nil, nil, nil, v.in)
	right := container.NewBorder(v.verdict, nil, nil, nil, container.NewGridWithRows(2, v.lines, v.not))
	v.verdict.Wrapping = fyne.TextWrapWord
	v.sources.Wrapping = fyne.TextWrapWord
	lists := container.New(thirds{}, left, middle, right)
	v.content = container.NewBorder(container.NewVBox(top, v.sign, bar), widgets.NewFoot(v.sources), nil, nil, lists)
}

// thirds lays three lists side by side, the last twice as wide.
type thirds struct{}

func (thirds) MinSize(objects []fyne.CanvasObject) fyne.Size { return fyne.NewSize(600, 200) }

func (thirds) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	one, x := size.Width/4, float32(0)
	for i, width := range []float32{one, one, size.Width - 2*one} {
		objects[i].Move(fyne.NewPos(x, 0))
		objects[i].Resize(fyne.NewSize(width-8, size.Height))
		x += width
	}
}

// scanning says which way the next scans go.
func (v *View) scanning(side Side) {
	v.model.Set(func(m *Model) { m.Side = side })
	v.work.Field()
}

func (v *View) read() {
	if form, ok := v.model.ReadForm(v.in.InHand()); ok {
		v.show(form)
	}
}

func (v *View) takeOff() {
	if v.model.Side == Out {
		v.model.TakeOff(Out, v.out.InHand())
	} else {
		v.model.TakeOff(In, v.in.InHand())
	}
}

func (v *View) signIt() { v.show(v.model.SignForm()) }

func (v *View) open(id string) {
	if id != "" {
		v.model.Open(inventory.ItemID(id))
	}
}

func (v *View) show(form ask.Form) {
	if win := widgets.WindowOf(v.content); win != nil {
		asker.Show(win, form, v.work.Now().Location())
	}
}

func (v *View) draw() {
	m := v.model
	v.plant.SetOptions(options(m.Plants)...)
	v.plant.SetValue(m.Plant)
	v.depot.SetOptions(options(m.Depots)...)
	v.depot.SetValue(m.Depot)
	v.side.SetValue(string(m.Side))
	v.later.SetValue(map[bool]string{true: "later", false: "now"}[m.Later])
	if v.lot.Text != m.Lot {
		v.lot.SetText(m.Lot)
	}
	v.outHead.SetText(counted("Out", len(m.Out), m.OutMore))
	v.inHead.SetText(counted("In", len(m.In), m.InMore))
	v.out.SetRows(rows(m.Out))
	v.in.SetRows(rows(m.In))
	v.drawSlip(m.Slip)
	v.sources.SetText(sources(m.Sources))
	v.keep()
	v.sign.Refresh()
	v.content.Refresh()
}

func options(names []string) []widgets.Option {
	list := make([]widgets.Option, len(names))
	for i, n := range names {
		list[i] = widgets.Option{Value: n, Label: n}
	}
	return list
}

func counted(word string, scanned int, more []inventory.Counted) string {
	n := 0
	for _, c := range more {
		n += c.Count
	}
	if n > 0 {
		return fmt.Sprintf("%s  %d and %d by count", word, scanned, n)
	}
	return fmt.Sprintf("%s  %d", word, scanned)
}

func rows(list []Row) []widgets.Row {
	out := make([]widgets.Row, len(list))
	for i, r := range list {
		out[i] = widgets.Row{ID: r.Key, Find: r.Label, Cells: []widgets.Cell{{Text: r.Label, Bold: true}, {Text: r.What, Below: r.Below}}}
		if r.Alarm {
			out[i].Cells[0].Ink = scene.Caution
		}
	}
	return out
}

func (v *View) drawSlip(slip delivery.ExchangeSlip) {
	v.verdict.SetText(upper(slip.Says()))
	lines := make([]widgets.Row, len(slip.Lines))
	for i, l := range slip.Lines {
		owner := l.Owner
		if owner == "" {
			owner = "own"
		}
		lines[i] = widgets.Row{ID: owner + string(l.Size), Cells: []widgets.Cell{{Text: owner}, {Text: string(l.Size)}}}
		for _, n := range []int{l.Before, l.Out, l.In, l.Due, l.Left} {
			lines[i].Cells = append(lines[i].Cells, widgets.Cell{Text: fmt.Sprint(n)})
		}
		if l.Owner != "" && l.Short() != 0 {
			lines[i].Cells[5].Ink, lines[i].Cells[5].Bold = scene.Alarm, true
		}
	}
	v.lines.SetRows(lines)
	not := make([]widgets.Row, len(slip.Exceptions))
	for i, e := range slip.Exceptions {
		not[i] = widgets.Row{ID: fmt.Sprint(i), Cells: []widgets.Cell{{Text: upper(e.Says), Below: e.Next, Bold: true}}}
	}
	v.not.SetRows(not)
}

func upper(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// sources says which plant's fills come low.
func sources(list []delivery.FillSource) string {
	var parts []string
	for _, s := range list {
		if !s.StandsOut() {
			continue
		}
		of := s.Plant
		if s.Lot != "" {
			of += ", lot " + s.Lot
		}
		parts = append(parts, fmt.Sprintf("%s: %d of %d fills read in 90 days were under full. Stop shipping from it until it is asked?", of, s.Low, s.Read))
	}
	if len(parts) == 0 {
		return "No plant's fills keep reading low in the last 90 days. A fill called full and read under 90 % counts as low."
	}
	return strings.Join(parts, "  ")
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.out.Keyboard() }

// Open shows the exchange as far as it was scanned, and what a scanned slip says.
// Else the keyboard goes to the field on top: the next thing is a scan.
func (v *View) Open(t work.Target) {
	v.model.Load()
	if t.Text != "" {
		v.model.ShowSlip(t.Text)
		return
	}
	v.work.Field()
}

// Print prints the slip of the exchange shown, or of the last one signed.
func (v *View) Print() { v.model.PrintSlip(v.model.Shown) }

// Scan takes the next cylinder.
func (v *View) Scan(text string) bool { return v.model.Scan(text) }
