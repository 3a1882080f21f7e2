package takein

import (
	"fmt"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the screen that takes lists in: first the files, then the reading.
type View struct {
	model     *Model
	choosing  *choosing
	questions *questions
	more      bool // another file is being named

	title    *widget.Label
	summary  *widget.Label
	adds     *widget.Label
	sections *widgets.Choice
	rows     *widgets.Rows
	reading  *fyne.Container
	progress *widgets.Progress
	actions  *widgets.Actions
	under    string // what the progress line is about
	content  fyne.CanvasObject
}

// New returns the screen.
func New(w *work.Work) *View {
	v := &View{
		model: NewModel(w), title: widget.NewLabel(""), summary: widget.NewLabel(""), adds: widget.NewLabel(""),
		sections: widgets.NewChoice(), progress: widgets.NewProgress(), actions: widgets.NewActions(),
	}
	v.model.Changed, v.model.Moved = v.draw, v.drawProgress
	v.choosing = newChoosing(v.model)
	v.choosing.matches.OnRune = v.actions.Press
	v.choosing.earlier.OnRune = v.actions.Press
	v.questions = newQuestions(v.model)
	v.questions.list.OnRune = v.actions.Press
	v.questions.list.OnLeave = v.toSections
	v.rows = widgets.NewRows(nil, "There is none.")
	v.rows.OnRune = v.actions.Press
	v.rows.OnLeave = v.toSections
	v.sections.OnChanged = func(value string) {
		v.model.Section = Section(value)
		v.draw()
	}
	v.summary.TextStyle.Bold = true
	v.content = v.layout()
	v.draw()
	return v
}

func (v *View) layout() fyne.CanvasObject {
	heading := widget.NewLabelWithStyle("Take in", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = theme.SizeNameSubHeadingText
	v.title.Truncation = fyne.TextTruncateEllipsis
	top := container.NewBorder(nil, nil, heading, nil, v.title)
	head := container.NewVBox(widgets.NewPanel(container.NewVBox(v.summary, v.adds)), v.sections)
	v.reading = container.NewBorder(head, nil, nil, nil, container.NewStack(v.rows, v.questions.content))
	bottom := container.NewVBox(v.progress, widgets.NewFoot(container.NewPadded(v.actions)))
	return container.NewBorder(top, bottom, nil, nil, container.NewStack(v.choosing.content, v.reading))
}

func (v *View) toSections() { v.focus(v.sections) }

func (v *View) focus(to fyne.Focusable) {
	if w := widgets.WindowOf(v.content); w != nil {
		w.Canvas().Focus(to)
	}
}

func (v *View) draw() {
	if v.model.Under != "" { // the other file is named
		v.more = false
	}
	read := v.model.Reading != nil && !v.more
	v.choosing.content.(*fyne.Container).Hidden = read
	v.reading.Hidden = !read
	v.choosing.draw()
	v.title.SetText(names(v.model.Files))
	if read {
		v.drawReading()
	}
	v.drawProgress()
	v.drawActions()
	v.content.Refresh()
	v.follow(read)
}

// follow brings the keyboard to what has just come in sight.
func (v *View) follow(read bool) {
	w := widgets.WindowOf(v.content)
	if w == nil || !read || v.model.Under != "" {
		return
	}
	switch w.Canvas().Focused() {
	case fyne.Focusable(v.choosing.path), v.choosing.matches.Keyboard(), nil:
		w.Canvas().Focus(v.body())
	}
}

// body is the list of the section in sight.
func (v *View) body() fyne.Focusable {
	if v.model.Section == Questions {
		return v.questions.list.Keyboard()
	}
	return v.rows.Keyboard()
}

func (v *View) drawReading() {
	v.summary.SetText(v.model.Summary())
	adds := v.model.Adds()
	if v.model.Done != "" {
		adds = v.model.Done + v.model.rest()
	}
	v.adds.SetText(adds)
	counts := v.model.Sections()
	var options []widgets.Option
	for _, s := range []Section{Questions, Refused, Changes, Findings, Columns, Notices} {
		options = append(options, widgets.Option{Value: string(s), Label: fmt.Sprintf("%s %d", s, counts[s])})
	}
	v.sections.SetOptions(options...)
	v.sections.SetValue(string(v.model.Section))
	asking := v.model.Section == Questions
	v.rows.Hidden = asking
	v.questions.content.(*fyne.Container).Hidden = !asking
	if asking {
		v.questions.draw()
		return
	}
	columns, rows := v.section()
	v.rows.SetColumns(columns)
	v.rows.SetRows(rows)
}

// section are the rows of a section that is only to be read.
func (v *View) section() ([]widgets.Column, []widgets.Row) {
	r := v.model.Reading
	var rows []widgets.Row
	add := func(cells ...widgets.Cell) {
		rows = append(rows, widgets.Row{ID: strconv.Itoa(len(rows)), Cells: cells})
	}
	switch v.model.Section {
	case Refused:
		for _, no := range r.Refused {
			add(widgets.Cell{Text: strconv.Itoa(no.Row), Bold: true}, widgets.Cell{Text: no.Why})
		}
		return []widgets.Column{{Title: "row", Width: 50, Right: true}, {Title: "why it can't go in"}}, rows
	case Columns:
		for _, c := range r.Columns {
			ink := scene.Ink("")
			if c.Means == "not used" {
				ink = scene.Faint
			}
			add(widgets.Cell{Text: c.Heading, Below: c.List, Bold: true}, widgets.Cell{Text: c.Means, Ink: ink})
		}
		return []widgets.Column{{Title: "column", Width: 320}, {Title: "was taken for"}}, rows
	case Changes:
		for _, c := range r.Changes {
			add(widgets.Cell{Text: c})
		}
	case Findings:
		for _, f := range r.Findings {
			add(widgets.Cell{Text: f})
		}
	case Notices:
		for _, n := range r.Notices {
			add(widgets.Cell{Text: n})
		}
	}
	return []widgets.Column{{}}, rows
}

func (v *View) drawProgress() {
	switch {
	case v.model.Under == "":
		v.progress.Done()
	case v.under == "":
		v.progress.Start(v.model.Under, v.model.Stop)
	case v.model.ToDisk:
		v.progress.Finish("Putting it on the disk, and reading the list anew …")
	default:
		v.progress.SetText(v.model.Under)
		v.progress.SetShare(v.model.Share)
	}
	v.under = v.model.Under
}

func (v *View) drawActions() {
	r, busy := v.model.Reading, v.model.Under != ""
	switch {
	case r == nil:
		v.actions.SetActions()
		return
	case v.more:
		v.actions.SetActions(widgets.Action{Key: '0', Label: "Back to the reading", Do: v.another})
		return
	}
	v.actions.SetActions(
		widgets.Action{Key: '1', Label: "Another list beside it", Off: busy, Do: v.another},
		widgets.Action{Key: '2', Label: "Other lists", Off: busy, Do: v.startOver},
		widgets.Action{Key: '3', Label: "Read the files anew", Off: busy, Do: v.model.Again},
		widgets.Action{Key: '4', Label: "Rows not taken to a sheet", Off: v.model.Left() == 0, Do: v.model.WriteLeft},
		widgets.Action{Key: '9', Label: "Take in " + count(r.Taken, "row", "rows"), Off: !v.model.Ready(), Do: v.model.TakeIn},
	)
}

// another names one more file, or goes back from that.
func (v *View) another() {
	v.more = !v.more
	v.draw()
	v.focus(v.Keyboard())
}

func (v *View) startOver() {
	v.model.StartOver()
	v.focus(v.Keyboard())
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable {
	if v.model.Reading == nil || v.more {
		return v.choosing.path
	}
	return v.body()
}

// Open shows the reading under way; a path that is named is read.
func (v *View) Open(t work.Target) {
	if t.Text != "" {
		v.model.Add(t.Text)
	}
	v.model.LookBack()
	v.draw()
}
