package window

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/book"
	"lungwort/ui/uitest"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// crashesIn names the folder in which this program, started anew, types half a
// form and meets a fault.
const crashesIn = "LUNGWORT_TEST_CRASHES_IN"

// distinct is a name nobody else in the tests has.
const distinct = "Zephyrine Quillfeather"

// meetFault opens the window on the book of a folder, types and panics with what it
// knows of a person. It never returns.
func meetFault(dir string) {
	app := test.NewApp()
	win := test.NewWindow(nil)
	win.Resize(fyne.NewSize(1366, 740))
	p := &program{
		app: app, window: win, path: filepath.Join(dir, "b.lungwort"), run: standstill{},
		setting: Setting{By: "desk", Private: filepath.Join(dir, "own"), Now: func() time.Time { return uitest.Now }},
	}
	p.begin(context.Background())
	p.runs(func() {
		p.frame.Open(work.Target{Room: work.Discharge})
		_, inputs := p.frame.rooms[work.Discharge].(typing).Typing()
		win.Canvas().Focus(inputs["family"])
		uitest.Type(win, distinct)
		press := widgets.NewButton("", func() { panic("no address for " + distinct + ", 555-0199") })
		press.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	})
	fmt.Fprintln(os.Stderr, p.failed)
	os.Exit(3) // without closing anything
}

// A fault ends the program with a message and a report under one reference;
// the report and everything else that was written in the open names nobody,
// and the half-typed form is offered when the program is started again.
func TestAFaultLosesNoTyping(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "b.lungwort")
	b, err := book.Create(context.Background(), path, (&program{setting: Setting{Now: func() time.Time { return uitest.Now }}}).options())
	require.NoError(t, err)
	require.NoError(t, b.Close())
	broken := exec.Command(os.Args[0])
	broken.Env = append(os.Environ(), crashesIn+"="+dir)
	out, err := broken.CombinedOutput()
	var ended *exec.ExitError
	require.ErrorAs(t, err, &ended, string(out))
	require.Equal(t, 3, ended.ExitCode(), string(out))
	assert.Contains(t, string(out), "The program met a fault of its own, reference 0305-1620-")
	assert.NotContains(t, string(out), "Quillfeather")

	reports, err := filepath.Glob(filepath.Join(dir, "own", "crash-*.txt"))
	require.NoError(t, err)
	require.Len(t, reports, 1)
	report, err := os.ReadFile(reports[0])
	require.NoError(t, err)
	assert.Contains(t, string(report), "fault_test.go", "where it was")
	assert.Equal(t, []string{"half-typed"}, naming(t, dir, "Quillfeather", "555-0199"), "only what is half typed names anybody")

	p := launchAt(t, path, filepath.Join(dir, "own"), "desk")
	assert.Contains(t, words(p.window), "met a fault of its own and ended, reference 0305-1620-")
	assert.Contains(t, words(p.window), "Half typed Tue 16:20, on Discharge")
	p.frame.Undo() // the key of the offer
	require.Equal(t, work.Discharge, p.frame.here.Room)
	p.frame.Undo()
	_, inputs := p.frame.rooms[work.Discharge].(typing).Typing()
	assert.Equal(t, distinct, inputs["family"].(*widgets.Text).Text)
	p.end()

	other := launchAt(t, path, filepath.Join(dir, "own"), "somebody else")
	assert.NotContains(t, words(other.window), "Half typed", "each their own")
}

// naming lists the files below a folder that hold a text: what each begins
// with, up to the last dash.
func naming(t *testing.T, dir string, texts ...string) (list []string) {
	t.Helper()
	require.NoError(t, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		held, err := os.ReadFile(path)
		for _, text := range texts {
			if strings.Contains(string(held), text) || strings.Contains(path, text) {
				name := filepath.Base(path)
				list = append(list, name[:max(0, strings.LastIndex(name, "-"))])
				break
			}
		}
		return err
	}))
	return list
}

func launchAt(t *testing.T, path, private, by string) *program {
	t.Helper()
	p := prepare(t, path)
	p.setting.Private, p.setting.By = private, by
	p.begin(context.Background())
	return p
}

// A small form that is open when the program dies is filled in when it is
// opened again; done with or left, nothing of it is kept.
func TestASmallFormIsKeptWhileItIsOpen(t *testing.T) {
	p := launch(t, filepath.Join(t.TempDir(), "b.lungwort"))
	press(t, p.window, "New programme")
	require.NotNil(t, p.frame)
	p.askServer(context.Background())
	uitest.Type(p.window, "sea.example")
	own := p.frame.drafts.keeper.Of("desk")
	require.Len(t, own, 1)
	assert.Equal(t, "A book on a server", own[0].Title)
	assert.Equal(t, map[string]string{"Server": "sea.example"}, own[0].Texts)
	uitest.Press(p.window, fyne.KeyTab)
	uitest.Press(p.window, fyne.KeyEscape)
	assert.Empty(t, p.frame.drafts.keeper.Of("desk"))

	own[0].By = "desk"
	require.NoError(t, p.frame.drafts.keeper.Keep(own[0]))
	p.askServer(context.Background())
	var text string
	for _, o := range within(p.window.Canvas().Overlays().Top()) {
		if in, is := o.(*widgets.Text); is && text == "" {
			text = in.Text
		}
	}
	assert.Equal(t, "sea.example", text)
}

// A passphrase is never kept.
func TestSecretsAreNotKept(t *testing.T) {
	in := widgets.NewText()
	in.Password = true
	in.TypedRune('x')
	assert.Empty(t, widgets.Written(map[string]widgets.Input{"passphrase": in}))
}
