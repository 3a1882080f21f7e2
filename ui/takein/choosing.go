package takein

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/widgets"
)

// choosing is the part of the screen where files are named.
type choosing struct {
	model   *Model
	path    *pathField
	matches *widgets.Rows
	files   *widget.Label
	content fyne.CanvasObject
	// pickFile lets the person choose a file in a dialog.
	pickFile func(fyne.Window, func(path string))
}

const lead = "Name an item list and a person list: a spreadsheet or a text table, as your programme keeps it. " +
	"What was understood is shown first; nothing is written before you say so. Files that belong together are read together."

func newChoosing(m *Model) *choosing {
	c := &choosing{model: m, files: widget.NewLabel(""), pickFile: pickFile}
	c.matches = widgets.NewLowRows([]widgets.Column{{}, {Width: 80, Right: true}}, "Type where the file is, letter by letter, or paste its path.")
	c.matches.OnOpen = c.open
	c.matches.OnLeave = func() { c.focus(c.path) }
	c.path = newPathField()
	c.path.OnChanged = m.Type
	c.path.OnSubmitted = func(string) { c.submit() }
	c.path.down = func() { c.focus(c.matches.Keyboard()) }
	c.files.TextStyle.Bold = true
	words := widget.NewLabel(lead)
	words.Wrapping = fyne.TextWrapWord
	pick := widgets.NewButton("Choose a file …", c.pick)
	top := container.NewVBox(words, c.files, container.NewBorder(nil, nil, nil, pick, c.path))
	c.content = container.NewBorder(top, nil, nil, nil, c.matches)
	return c
}

func (c *choosing) focus(to fyne.Focusable) {
	if w := widgets.WindowOf(c.content); w != nil {
		w.Canvas().Focus(to)
	}
}

// submit takes the file that is named in full, or goes on to what it may be.
func (c *choosing) submit() {
	typed := expand(c.path.Text.Text)
	if len(c.model.Matches) == 0 && typed != "" {
		c.model.Add(typed)
		return
	}
	for _, m := range c.model.Matches {
		if m.Path == typed || len(c.model.Matches) == 1 {
			c.open(m.Path)
			return
		}
	}
	c.focus(c.matches.Keyboard())
}

// open goes into a folder, or reads a file.
func (c *choosing) open(path string) {
	if strings.HasSuffix(path, string(filepath.Separator)) {
		c.path.SetText(path)
		c.path.CursorColumn = len([]rune(path))
		c.focus(c.path)
		return
	}
	c.path.SetText("")
	c.model.Add(path)
}

func (c *choosing) pick() {
	if w := widgets.WindowOf(c.content); w != nil {
		c.pickFile(w, c.model.Add)
	}
}

func (c *choosing) draw() {
	rows := make([]widgets.Row, len(c.model.Matches))
	for i, m := range c.model.Matches {
		kind := strings.TrimPrefix(filepath.Ext(m.Name), ".")
		if m.Folder {
			kind = "folder"
		}
		rows[i] = widgets.Row{ID: m.Path, Cells: []widgets.Cell{{Text: m.Name, Bold: !m.Folder}, {Text: kind, Ink: scene.Faint}}}
	}
	c.matches.SetRows(rows)
	c.files.Hidden = len(c.model.Files) == 0
	c.files.SetText("Read together with " + names(c.model.Files) + ":")
}

// names are the files without their folders.
func names(files []string) string {
	list := make([]string, len(files))
	for i, f := range files {
		list[i] = filepath.Base(f)
	}
	return strings.Join(list, " and ")
}

// pathField is a text whose Down goes on to the list below it.
type pathField struct {
	widgets.Text

	down func()
}

func newPathField() *pathField {
	p := &pathField{}
	p.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	p.PlaceHolder = "/home/… or ~/… or C:\\…"
	p.ExtendBaseWidget(p)
	return p
}

// FocusGained leaves the path as it is: one goes on typing at its end.
func (p *pathField) FocusGained() { p.Entry.FocusGained() }

// TypedKey goes on to the list.
func (p *pathField) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyDown:
		p.down()
	case fyne.KeyEscape:
		p.SetText("")
	default:
		p.Text.TypedKey(e)
	}
}

// pickFile asks for a file in the toolkit's own dialog.
func pickFile(w fyne.Window, picked func(path string)) {
	d := dialog.NewFileOpen(func(file fyne.URIReadCloser, err error) {
		if err != nil || file == nil {
			return
		}
		path := file.URI().Path()
		_ = file.Close() // only its path is needed
		picked(path)
	}, w)
	d.Resize(fyne.NewSize(w.Canvas().Size().Width*0.8, w.Canvas().Size().Height*0.8))
	d.Show()
}
