package window

import (
	"context"
	"errors"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	"lungwort/ui/look"
	"lungwort/ui/runner"
	"lungwort/ui/uitest"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// standstill is an engine whose work is done at once and whose clock stands.
type standstill struct{ runner.Inline }

func (standstill) EveryMinute(func(time.Time)) {}
func (standstill) Shutdown()                   {}

// Alongside hears nothing.
func (standstill) Alongside(func(context.Context) error) {}

// launch starts the program in a test window on the book of a path.
func launch(t *testing.T, path string) *program {
	t.Helper()
	p := prepare(t, path)
	p.begin(context.Background())
	return p
}

// prepare is launch before the book is opened.
func prepare(t *testing.T, path string) *program {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(look.New(look.Light))
	win := test.NewTempWindow(t, nil)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(1366, 740))
	p := &program{
		app: app, window: win, path: path, run: standstill{},
		setting: Setting{By: "desk", Private: t.TempDir(), Now: func() time.Time { return uitest.Now }},
	}
	p.setting.Demo = func(ctx context.Context, path string) error {
		b, err := book.Create(ctx, path, p.options())
		if err != nil {
			return err
		}
		return b.Close()
	}
	t.Cleanup(func() {
		p.end()
		assert.NoError(t, p.failed)
	})
	return p
}

// press presses the button of a name.
func press(t *testing.T, win fyne.Window, name string) {
	t.Helper()
	for _, o := range within(win.Content()) {
		if b, ok := o.(*widgets.Button); ok && b.Text == name {
			b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			return
		}
	}
	require.Fail(t, "no button", name)
}

// words are all the labels in sight.
func words(win fyne.Window) string {
	var all []string
	for _, o := range within(win.Content()) {
		if l, ok := o.(*widget.Label); ok && l.Visible() {
			all = append(all, l.Text)
		}
	}
	return strings.Join(all, "\n")
}

// within returns everything an object is made of.
func within(o fyne.CanvasObject) []fyne.CanvasObject {
	all := []fyne.CanvasObject{o}
	switch o := o.(type) {
	case *fyne.Container:
		for _, child := range o.Objects {
			all = append(all, within(child)...)
		}
	case *container.Scroll:
		all = append(all, within(o.Content)...)
	case fyne.Widget:
		for _, child := range test.WidgetRenderer(o).Objects() {
			all = append(all, within(child)...)
		}
	}
	return all
}

func TestStartMakesABookAndOpensTheSettings(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.lungwort")
	p := launch(t, path)
	require.Nil(t, p.frame)
	assert.Contains(t, words(p.window), "There is no book yet")
	uitest.Shoot(t, p.window, "start")
	press(t, p.window, "New programme")
	require.NotNil(t, p.frame)
	assert.FileExists(t, path)
	assert.Equal(t, work.Settings, p.frame.here.Room, "a new programme is set up first")
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
}

func TestStartMakesTheDemo(t *testing.T) {
	p := launch(t, filepath.Join(t.TempDir(), "book.lungwort"))
	press(t, p.window, "Demo: the Quillet Isles")
	require.NotNil(t, p.frame)
	assert.Equal(t, work.Needs, p.frame.here.Room)
}

func TestStartTellsWhyThereIsNoDemo(t *testing.T) {
	p := launch(t, filepath.Join(t.TempDir(), "book.lungwort"))
	p.setting.Demo = func(context.Context, string) error {
		return refusal.New(refusal.ReadOnly, "The folder can't be written.", "Choose another with --book.")
	}
	press(t, p.window, "Demo: the Quillet Isles")
	assert.Nil(t, p.frame)
	assert.Contains(t, words(p.window), "The folder can't be written. Choose another with --book.")
	press(t, p.window, "New programme")
	assert.NotNil(t, p.frame, "after a refusal the other ways stay open")
}

func TestStartRestoresACopy(t *testing.T) {
	dir := t.TempDir()
	first := launch(t, filepath.Join(dir, "book.lungwort"))
	press(t, first.window, "New programme")
	copied := filepath.Join(dir, "copy.lungwort")
	require.NoError(t, first.book.Backup(context.Background(), copied))

	p := launch(t, filepath.Join(dir, "restored.lungwort"))
	p.pickFile = func(_ fyne.Window, picked func(string)) { picked(filepath.Join(dir, "nothing.lungwort")) }
	press(t, p.window, "Restore a copy")
	assert.Nil(t, p.frame)
	assert.Contains(t, words(p.window), "nothing.lungwort")
	p.pickFile = func(_ fyne.Window, picked func(string)) { picked(copied) }
	press(t, p.window, "Restore a copy")
	assert.NotNil(t, p.frame)
}

func TestABookThatCantBeOpenedIsSaidAndTriedAgain(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.lungwort")
	require.NoError(t, os.WriteFile(path, []byte("no book at all"), 0o600))
	p := launch(t, path)
	assert.Nil(t, p.frame)
	assert.Contains(t, words(p.window), "The book can't be opened")
	uitest.Shoot(t, p.window, "stuck")
	require.NoError(t, os.Remove(path))
	press(t, p.window, "Try again")
	assert.Contains(t, words(p.window), "There is no book yet")
}

func TestMenuHoldsEveryKey(t *testing.T) {
	p := launch(t, filepath.Join(t.TempDir(), "book.lungwort"))
	press(t, p.window, "New programme")
	items := map[string]*fyne.MenuItem{}
	for _, menu := range p.menu().Items {
		for _, item := range menu.Items {
			if item.Shortcut != nil {
				require.NotContains(t, items, item.Shortcut.ShortcutName(), "two lines with one key")
				items[item.Shortcut.ShortcutName()] = item
			}
		}
	}
	for _, name := range []string{"Control+1", "Control+9", "Control+F", "Alt+Left", "Control+R", "Control+P"} {
		assert.Contains(t, items, "CustomDesktop:"+name)
	}
	assert.Contains(t, items, (&fyne.ShortcutUndo{}).ShortcutName(), "the toolkit's own name for Ctrl+Z")
	p.frame.rooms[work.Homes] = &stub{entry: widget.NewEntry()}
	items["CustomDesktop:Control+3"].Action()
	assert.Equal(t, work.Homes, p.frame.here.Room)
}

func TestF1ListsTheKeysAndQuestionsHoldTheMenu(t *testing.T) {
	p := launch(t, filepath.Join(t.TempDir(), "book.lungwort"))
	press(t, p.window, "Demo: the Quillet Isles")
	uitest.Press(p.window, fyne.KeyF1)
	require.NotNil(t, p.window.Canvas().Overlays().Top())
	uitest.Shoot(t, p.window, "keys")
	called := false
	p.item("", nil, func() { called = true }).Action()
	assert.False(t, called, "the menu is held while something is open over the window")
	uitest.Press(p.window, fyne.KeyEscape)
	assert.Nil(t, p.window.Canvas().Overlays().Top())
	p.item("", nil, func() { called = true }).Action()
	assert.True(t, called)
}

func TestAFileNobodyShowsIsTold(t *testing.T) {
	p := launch(t, filepath.Join(t.TempDir(), "book.lungwort"))
	press(t, p.window, "Demo: the Quillet Isles")
	p.app = blind{p.app}
	p.showFile(filepath.Join("papers", "night-pack.pdf"))
	assert.Equal(t, "No viewer opened night-pack.pdf.", p.frame.notice.Text())
}

// blind is a desktop without viewers.
type blind struct{ fyne.App }

func (blind) OpenURL(*url.URL) error { return errors.New("no viewer") }
