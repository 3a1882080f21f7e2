package takein

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/intake"
	"lungwort/ui/ask"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// Cells copied in a spreadsheet program come as lines of cells with tabs.
const cells = "Serial\tKind\tSize\tGauge (psi)\tRead at\tDepot\tStatus\nE-30009\tcylinder\tUS-E\t2000\t2030-03-05 10:00\tharbour\tready\n"

func TestCellsArePasted(t *testing.T) {
	d, m := newModel(t)
	assert.False(t, m.Paste("/home/somebody/list.csv"), "a path is no table")
	require.True(t, m.Paste(cells))
	require.Empty(t, d.Refused)
	assert.Equal(t, []string{"pasted table"}, m.Files)
	assert.Equal(t, 1, m.Reading.Taken)
	m.Again()
	assert.Equal(t, 1, m.Reading.Taken, "what was pasted is kept")
	require.True(t, m.Paste(cells))
	assert.Equal(t, []string{"pasted table", "pasted table 2"}, m.Files)
	m.StartOver()
	require.True(t, m.Paste(cells))
	m.TakeIn()
	assert.NotEmpty(t, d.Thing("E-30009").ID)
}

// An answer is kept at once, before anything is taken in: whoever opens the
// list next finds it, with who gave it, and may think better of it.
func TestAnswersAreKept(t *testing.T) {
	d, m := newModel(t)
	path := file(t, t.TempDir(), "stock.csv", stock)
	m.Add(path)
	key := m.Asked()[0].Key
	m.Answer(key, "US-D")
	require.Empty(t, d.Refused)

	later := NewModel(d.Work)
	later.Add(path)
	require.Empty(t, later.Reading.Questions)
	kept := later.Asked()
	require.Len(t, kept, 1)
	assert.Equal(t, "US-D", kept[0].Answer)
	assert.Contains(t, kept[0].Before, "answered on ")
	assert.Contains(t, kept[0].Before, " by "+d.Work.By)
	later.Answer(key, "US-E")
	again := NewModel(d.Work)
	again.Add(path)
	assert.Equal(t, "US-E", again.Asked()[0].Answer)
	again.TakeIn()
	assert.Equal(t, "US-E", string(d.Thing("Q-30002").Spec.Size))
}

func TestAListIsTakenBackFromTheScreen(t *testing.T) {
	d, m := newModel(t)
	m.Add(file(t, t.TempDir(), "stock.csv", stock))
	m.TakeIn()
	m.StartOver()
	require.NotEmpty(t, m.Earlier)
	form, ok := m.TakeBack(m.Earlier[0].Fact)
	require.True(t, ok)
	assert.NotEmpty(t, form.Submit(ask.Answers{}, nil), "the reason is needed")
	var refused error
	assert.Empty(t, form.Submit(ask.Answers{"why": "the wrong file"}, func(err error) { refused = err }))
	require.NoError(t, refused)
	assert.True(t, m.Earlier[0].Back)
	_, ok = m.TakeBack(m.Earlier[0].Fact)
	assert.False(t, ok, "once is enough")
	d.Clean()
}

func TestLookOfEarlierListsAndKeptAnswers(t *testing.T) {
	d := uitest.New(t)
	v := New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Intake})
	path := file(t, t.TempDir(), "stock.csv", stock)
	v.model.Add(path)
	v.model.Answer(v.model.Asked()[0].Key, "US-E")
	v.model.TakeIn()
	v.startOver()
	uitest.Press(win, fyne.KeyDown)
	assert.Equal(t, v.choosing.earlier.Keyboard(), win.Canvas().Focused(), "without a path typed, down leads to the lists before")
	uitest.Shoot(t, win, "takein-earlier")

	v.choosing.paste = func() string { return cells }
	win.Canvas().Focus(v.choosing.path)
	v.choosing.path.TypedShortcut(&fyne.ShortcutPaste{Clipboard: fyne.CurrentApp().Clipboard()})
	require.NotNil(t, v.model.Reading)
	assert.Equal(t, "pasted table", v.title.Text)
	v.startOver()
	v.choosing.paste = func() string { return "" }
	v.choosing.pasteTable()
	assert.Contains(t, d.Refusal().Says, "no table")

	v.model.Add(file(t, t.TempDir(), "stock.csv", stock+"Q-30003,cylinder,,1900,2030-03-05 10:00,harbour,ready\n"))
	v.sections.OnChanged(string(Questions))
	uitest.Shoot(t, win, "takein-answered")
	assert.Empty(t, v.model.answers)
	assert.Equal(t, intake.Answers{}, v.model.answers)
}
