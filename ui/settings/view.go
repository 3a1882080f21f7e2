package settings

import (
	"fmt"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/ask"
	"lungwort/ui/asker"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen of settings: the pages at the left, the open page at the
// right.
type View struct {
	work    *work.Work
	model   *Model
	pages   *widgets.Rows
	entries *widgets.Rows
	about   *widget.Label
	state   *widget.Label
	actions *widgets.Actions
	shown   []Page // as the list of pages shows them
	content fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{work: w, model: NewModel(w), about: widget.NewLabel(""), state: widget.NewLabel(""), actions: widgets.NewActions()}
	v.model.Changed = v.draw
	v.pages = widgets.NewLowRows([]widgets.Column{{Width: 132}, {Width: 84, Right: true}}, "")
	v.pages.OnHand = func(id string) {
		if page, err := strconv.Atoi(id); err == nil {
			v.model.Go(page)
		}
	}
	v.pages.OnOpen = func(string) { v.focus(v.entries) }
	v.pages.OnRune = v.actions.Press
	v.pages.OnEscape = v.discard
	v.entries = widgets.NewRows(columns(true), "There is none yet.")
	v.entries.OnOpen = v.change
	v.entries.OnHand = func(string) { v.drawActions() }
	v.entries.OnLeave = func() { v.focus(v.pages) }
	v.entries.OnEscape = func() { v.focus(v.pages) }
	v.entries.OnRune = v.actions.Press
	v.content = v.layout()
	return v
}

// columns are those of a page; only values have defaults.
func columns(values bool) []widgets.Column {
	if !values {
		return []widgets.Column{{Width: 250}, {}}
	}
	return []widgets.Column{
		{Title: "setting", Width: 250}, {Title: "in the programme"}, {Title: "default, and where it comes from", Width: 430},
	}
}

func (v *View) layout() fyne.CanvasObject {
	heading := widget.NewLabelWithStyle("Settings", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = theme.SizeNameSubHeadingText
	v.about.Truncation = fyne.TextTruncateEllipsis
	v.state.TextStyle.Bold = true
	top := container.NewBorder(nil, nil, heading, v.state, v.about)
	side := container.New(fixedWidth(254), v.pages)
	return container.NewBorder(top, widgets.NewFoot(container.NewPadded(v.actions)), side, nil, v.entries)
}

func (v *View) focus(rows *widgets.Rows) {
	if w := widgets.WindowOf(v.content); w != nil {
		w.Canvas().Focus(rows.Keyboard())
	}
}

// change asks what an entry is to be.
func (v *View) change(id string) {
	if form, ok := v.model.Form(id); ok {
		v.show(form)
	}
}

func (v *View) add(thing string) {
	if form, ok := v.model.NewRow(thing); ok {
		v.show(form)
	}
}

func (v *View) show(form ask.Form) {
	if w := widgets.WindowOf(v.content); w != nil {
		asker.Show(w, form, v.work.Now().Location())
	}
}

// discard asks before it drops changes.
func (v *View) discard() {
	n := v.model.Changes()
	w := widgets.WindowOf(v.content)
	if n == 0 || w == nil {
		return
	}
	widgets.Warn(w, "Discard "+changes(n)+"?", "What is in force stays as it is.", "Discard", v.model.Discard)
}

func changes(n int) string {
	if n == 1 {
		return "1 change"
	}
	return fmt.Sprintf("%d changes", n)
}

func (v *View) draw() {
	v.drawPages()
	v.about.SetText(v.model.About())
	v.entries.SetColumns(columns(v.model.Valued()))
	v.entries.SetRows(v.rows())
	v.state.SetText("")
	if n := v.model.Changes(); n > 0 {
		v.state.Importance = widget.WarningImportance
		v.state.SetText(changes(n) + " not in force yet")
	}
	v.drawActions()
}

// drawPages leaves the list of pages alone while it reads the same, so that
// typing can go on finding in it.
func (v *View) drawPages() {
	pages := v.model.Pages()
	if slices.Equal(pages, v.shown) {
		return
	}
	v.shown = pages
	rows := make([]widgets.Row, len(pages))
	for i, p := range pages {
		count := widgets.Cell{}
		if p.Changed > 0 {
			count = widgets.Cell{Text: fmt.Sprintf("%d changed", p.Changed), Ink: scene.Caution, Bold: true}
		}
		rows[i] = widgets.Row{ID: strconv.Itoa(i), Cells: []widgets.Cell{{Text: p.Name}, count}}
	}
	v.pages.SetRows(rows)
	v.pages.Take(strconv.Itoa(v.model.Here))
}

func (v *View) rows() []widgets.Row {
	entries := v.model.Entries()
	rows := make([]widgets.Row, len(entries))
	for i, e := range entries {
		says := widgets.Cell{Text: e.Says, Bold: e.Own}
		if e.Changed {
			says.Ink, says.Bold = scene.Caution, true
			if e.Before != "" {
				says.Below = "in force: " + e.Before
			}
		}
		if e.Says == "" {
			says = widgets.Cell{Text: "not set", Ink: scene.Faint, Below: says.Below}
		}
		name := widgets.Cell{Text: e.Name}
		if e.Own {
			name.Below = "differs from the default"
		}
		rows[i] = widgets.Row{ID: e.ID, Find: e.Name, Cells: []widgets.Cell{
			name, says, {Text: e.Default, Below: e.Source, Ink: scene.Faint},
		}}
	}
	return rows
}

// drawActions shows what can be done with the page and the row in hand.
func (v *View) drawActions() {
	hand := v.entries.InHand()
	changed := v.model.Changes() > 0
	actions := []widgets.Action{{Key: '1', Label: "Change", Off: hand == "", Do: func() { v.change(v.entries.InHand()) }}}
	for i, thing := range v.model.Adds() {
		actions = append(actions, widgets.Action{Key: rune('2' + i), Label: "Add a " + thing, Do: func() { v.add(thing) }})
	}
	actions = append(actions,
		widgets.Action{Key: '7', Label: "Remove", Off: !v.model.Removable(hand), Danger: true, Do: func() { v.model.Remove(v.entries.InHand()) }},
		widgets.Action{Key: '8', Label: "Discard changes", Off: !changed, Danger: true, Do: v.discard},
		widgets.Action{Key: '9', Label: "Put in force", Off: !changed, Do: v.model.Save})
	v.actions.SetActions(actions...)
}

// fixedWidth gives its content the height there is, and a width of its own.
type fixedWidth float32

func (f fixedWidth) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(float32(f), objects[0].MinSize().Height)
}

func (f fixedWidth) Layout(objects []fyne.CanvasObject, size fyne.Size) { objects[0].Resize(size) }

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable { return v.pages.Keyboard() }

// Open shows the settings in force, and changes not yet in force.
func (v *View) Open(work.Target) { v.model.Load() }
