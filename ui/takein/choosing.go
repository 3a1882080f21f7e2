package takein

import (
	"path/filepath"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/scene"
	"lungwort/ui/asker"
	"lungwort/ui/widgets"
)

// choosing is the part of the screen where files are named.
type choosing struct {
	model   *Model
	path    *pathField
	matches *widgets.Rows
	files   *widget.Label
	earlier *widgets.Rows
	content fyne.CanvasObject
	// paste returns what the clipboard holds.
	paste func() string
	// pickFile lets the person choose a file in a dialog.
	pickFile func(fyne.Window, func(path string))
}

const lead = "Name an item list and a person list: a spreadsheet or a text table, as your programme keeps it, or cells copied from one. " +
	"What was understood is shown first; nothing is written before you say so. Files that belong together are read together."

func newChoosing(m *Model) *choosing {
	c := &choosing{model: m, files: widget.NewLabel(""), pickFile: pickFile, paste: clipboard}
	c.matches = widgets.NewLowRows([]widgets.Column{{}, {Width: 80, Right: true}}, "Type where the file is, letter by letter, or paste its path.")
	c.matches.OnOpen = c.open
	c.matches.OnLeave = func() { c.focus(c.path) }
	c.path = newPathField()
	c.path.OnChanged = m.Type
	c.path.OnSubmitted = func(string) { c.submit() }
	c.path.pasted = func() bool { return m.Paste(c.paste()) }
	c.path.down = func() {
		if len(m.Matches) == 0 {
			c.focus(c.earlier.Keyboard())
			return
		}
		c.focus(c.matches.Keyboard())
	}
	c.files.TextStyle.Bold = true
	words := widget.NewLabel(lead)
	words.Wrapping = fyne.TextWrapWord
	buttons := container.NewHBox(widgets.NewButton("Choose a file …", c.pick), widgets.NewButton("Paste a table", c.pasteTable))
	top := container.NewVBox(words, c.files, container.NewBorder(nil, nil, nil, buttons, c.path))
	c.earlier = widgets.NewLowRows([]widgets.Column{{Title: "taken in before", Width: 150}, {Width: 140}, {}, {Width: 110, Right: true}}, "No list was taken in yet.")
	c.earlier.OnOpen = c.takeBack
	c.earlier.OnLeave = func() { c.focus(c.path) }
	c.content = container.NewBorder(top, nil, nil, nil, container.New(stacked{}, c.matches, c.earlier))
	return c
}

// stacked gives the earlier lists the lower third.
type stacked struct{}

func (stacked) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(300, objects[0].MinSize().Height+objects[1].MinSize().Height)
}

func (stacked) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	upper := size.Height * 2 / 3
	objects[0].Resize(fyne.NewSize(size.Width, upper-8))
	objects[1].Move(fyne.NewPos(0, upper))
	objects[1].Resize(fyne.NewSize(size.Width, size.Height-upper))
}

// pasteTable reads the table in the clipboard.
func (c *choosing) pasteTable() {
	if !c.model.Paste(c.paste()) {
		c.model.work.Refuse(refusal.New(refusal.Invalid, "The clipboard holds no table.",
			"Mark the cells in the spreadsheet, their headings with them, copy, and paste here."))
	}
}

func clipboard() string { return fyne.CurrentApp().Clipboard().Content() }

// takeBack asks why, and takes a list back.
func (c *choosing) takeBack(id string) {
	n, err := strconv.ParseInt(id, 10, 64)
	w := widgets.WindowOf(c.content)
	if err != nil || w == nil {
		return
	}
	if form, ok := c.model.TakeBack(inventory.FactID(n)); ok {
		asker.Show(w, form, c.model.work.Now().Location())
	}
}

func (c *choosing) drawEarlier() {
	rows := make([]widgets.Row, len(c.model.Earlier))
	now := c.model.work.Now()
	for i, l := range c.model.Earlier {
		ink, back := scene.Ink(""), "take back"
		if l.Back {
			ink, back = scene.Faint, "taken back"
		}
		rows[i] = widgets.Row{ID: strconv.FormatInt(int64(l.Fact), 10), Cells: []widgets.Cell{
			{Text: delivery.Clock(l.At.In(now.Location()), now), Ink: ink}, {Text: l.By, Ink: ink},
			{Text: strings.TrimPrefix(l.Says, "list taken in: "), Ink: ink}, {Text: back, Ink: scene.Faint},
		}}
	}
	c.earlier.SetRows(rows)
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
	c.drawEarlier()
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

	down   func()
	pasted func() bool // takes a table from the clipboard, if there is one
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

// TypedShortcut takes a table that is pasted; a path goes into the field.
func (p *pathField) TypedShortcut(s fyne.Shortcut) {
	if _, paste := s.(*fyne.ShortcutPaste); paste && p.pasted() {
		return
	}
	p.Text.TypedShortcut(s)
}

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
