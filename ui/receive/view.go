package receive

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

// View is the screen on which new things are scanned in: what comes in at the
// left, every scan at the right, the newest on top.
type View struct {
	model                 *Model
	kind                  *widgets.Choice
	size                  *widgets.Text
	contents, full, water *widgets.Text // what they are marked with
	marks                 *fyne.Container
	rated                 *widgets.Text
	name                  *widgets.Text
	owner                 *widgets.Text
	depot                 *widgets.Choice
	inSize                *widgets.Field
	inRated               *widgets.Field
	count                 *widget.Label
	open                  *widget.Label
	rows                  *widgets.Rows
	actions               *widgets.Actions
	form                  *fyne.Container
	drawing               bool
	content               fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{model: NewModel(w), count: widget.NewLabel(""), open: widget.NewLabel(""), actions: widgets.NewActions()}
	v.model.Changed = v.draw
	v.count.TextStyle.Bold, v.count.SizeName = true, theme.SizeNameHeadingText
	v.open.Importance, v.open.TextStyle.Bold = widget.WarningImportance, true
	v.rows = widgets.NewRows([]widgets.Column{{Title: "", Width: 44, Right: true}, {Title: "serial", Width: 160}, {Title: "what", Width: 190}, {Title: "outcome"}},
		"Say what comes in, then scan, scan, scan. A maker's own code says it by itself.")
	v.rows.OnHand = func(string) { v.drawActions() }
	v.rows.OnRune = v.actions.Press
	v.rows.OnOpen = v.goTo
	v.inputs(w)
	v.layout()
	return v
}

func (v *View) inputs(w *work.Work) {
	m := v.model
	v.kind = widgets.NewChoice(kinds()...)
	v.kind.OnChanged = func(value string) { m.SetKind(inventory.Kind(value)) }
	v.depot = widgets.NewChoice()
	v.depot.OnChanged = func(name string) { m.Depot = name }
	v.size, v.rated, v.name, v.owner = widgets.NewText(), widgets.NewText(), widgets.NewText(), widgets.NewText()
	v.contents, v.full, v.water = widgets.NewText(), widgets.NewText(), widgets.NewText()
	v.contents.OnChanged = v.typed(func(text string) { m.Contents = text })
	v.full.OnChanged = v.typed(func(text string) { m.Full = text })
	v.water.OnChanged = v.typed(func(text string) { m.Water = text })
	v.size.OnChanged = v.typed(func(text string) { m.Size = text })
	v.rated.OnChanged = v.typed(func(text string) { m.Rated = text })
	v.name.OnChanged = v.typed(func(text string) { m.Coming.Model = text })
	v.owner.OnChanged = v.typed(func(text string) { m.Coming.Owner = text })
	widgets.Link(w.Field, w.Field, v.kind, v.size, v.contents, v.full, v.water, v.rated, v.name, v.owner, v.depot) // then the scanner
}

func kinds() []widgets.Option {
	var options []widgets.Option
	for _, k := range inventory.Kinds() {
		options = append(options, widgets.Option{Value: string(k), Label: k.Short()})
	}
	return options
}

func (v *View) typed(set func(string)) func(string) {
	return func(text string) {
		if !v.drawing {
			set(text)
		}
	}
}

const labelRoom = 70

func (v *View) layout() {
	heading := widget.NewLabelWithStyle("Receive", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = theme.SizeNameSubHeadingText
	v.inSize = widgets.NewField("Size", v.size, "as US-E, or the letter alone").Narrow(labelRoom)
	v.inRated = widgets.NewField("Gives", v.rated, "at most, as 5 L/min").Narrow(labelRoom)
	v.marks = container.NewVBox(
		widgets.NewField("Holds", v.contents, "as 660 L, where their label differs from the size").Narrow(labelRoom),
		widgets.NewField("Full at", v.full, "as 1900 psi, stamped on the shoulder").Narrow(labelRoom),
		widgets.NewField("Water", v.water, "as 4.6 L, stamped on the shoulder").Narrow(labelRoom))
	v.form = container.NewVBox(heading, v.kind, v.inSize, v.marks, v.inRated,
		widgets.NewField("Model", v.name, "as on the plate").Narrow(labelRoom),
		widgets.NewField("Owner", v.owner, "blank: the programme").Narrow(labelRoom),
		widgets.NewField("Into", v.depot, "new things wait in quarantine until cleared").Narrow(labelRoom))
	top := container.NewBorder(nil, nil, v.count, v.open)
	right := container.NewBorder(top, nil, nil, nil, v.rows)
	body := widgets.NewBeside(container.NewPadded(v.form), 560, container.NewPadded(right))
	v.content = container.NewBorder(nil, widgets.NewFoot(container.NewPadded(v.actions)), nil, nil, body)
}

func (v *View) draw() {
	m := v.model
	v.drawing = true
	v.kind.SetValue(string(m.Coming.Kind))
	put(v.size, m.Size)
	put(v.rated, m.Rated)
	put(v.contents, m.Contents)
	put(v.full, m.Full)
	put(v.water, m.Water)
	put(v.name, m.Coming.Model)
	put(v.owner, m.Coming.Owner)
	depots := make([]widgets.Option, len(m.Depots))
	for i, d := range m.Depots {
		depots[i] = widgets.Option{Value: d, Label: d}
	}
	v.depot.SetOptions(depots...)
	v.depot.SetValue(m.Depot)
	v.drawing = false
	v.inSize.Hidden = m.Coming.Kind != inventory.Cylinder
	v.marks.Hidden = v.inSize.Hidden
	v.inRated.Hidden = m.Coming.Kind != inventory.Concentrator
	v.form.Refresh()
	v.count.SetText(fmt.Sprintf("%d received", m.Count()))
	v.open.SetText("")
	if n := m.Open(); n > 0 {
		v.open.SetText(fmt.Sprintf("%d to look at", n))
	}
	v.drawRows()
	v.drawActions()
}

func put(t *widgets.Text, text string) {
	if t.Entry.Text != text {
		t.SetText(text)
	}
}

func (v *View) drawRows() {
	n := v.model.Count()
	rows := make([]widgets.Row, len(v.model.Entries))
	for i, e := range v.model.Entries {
		number, outcome := widgets.Cell{}, widgets.Cell{Text: string(e.Outcome), Below: e.Why}
		switch e.Outcome {
		case Taken:
			number.Text, outcome.Ink = strconv.Itoa(n), scene.Fine
			n--
		case Asked:
			outcome.Ink, outcome.Bold = scene.Caution, true
		case Not:
			outcome.Ink, outcome.Bold = scene.Alarm, true
		}
		rows[i] = widgets.Row{ID: strconv.Itoa(len(rows) - i), Find: e.Name, Cells: []widgets.Cell{number, {Text: e.Name, Bold: true}, {Text: e.What}, outcome}}
	}
	v.rows.SetRows(rows)
}

// inHand is the scan of the row in hand.
func (v *View) inHand() (Entry, bool) {
	n, err := strconv.Atoi(v.rows.InHand())
	at := len(v.model.Entries) - n
	if err != nil || at < 0 || at >= len(v.model.Entries) {
		return Entry{}, false
	}
	return v.model.Entries[at], true
}

func (v *View) goTo(string) {
	if e, ok := v.inHand(); ok && e.Item != "" {
		v.model.work.Open(work.Target{Room: work.Item, Item: e.Item})
	}
}

func (v *View) drawActions() {
	m := v.model
	e, ok := v.inHand()
	v.actions.SetActions(
		widgets.Action{Key: '1', Label: "Take it", Off: !ok || e.Outcome != Asked, Do: func() { m.Take(e.Text) }},
		widgets.Action{Key: '2', Label: "Leave it", Off: !ok || e.Outcome == Taken, Do: func() { m.Leave(e.Text) }},
		widgets.Action{Key: '3', Label: "Undo the last", Off: m.Count() == 0, Danger: true, Do: m.UndoLast},
		widgets.Action{Key: '4', Label: "Labels for what has none", Do: m.Labels},
		widgets.Action{Key: '9', Label: "Next pallet", Off: len(m.Entries) == 0, Do: m.Next},
	)
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.kind }

// Open shows what was scanned so far. Once it is said what comes in, the
// keyboard goes to the field on top: the next thing is a scan.
func (v *View) Open(work.Target) {
	v.model.Load()
	if v.model.Coming.Kind != "" {
		v.model.work.Field()
	}
}

// Scan takes a scan in its turn.
func (v *View) Scan(text string) bool { return v.model.Scan(text) }
