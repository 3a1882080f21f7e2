package takein

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/intake"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// stock is an item list: two clear rows, one size nobody knows, one gauge that
// can't be.
const stock = `Serial,Kind,Size,Gauge (psi),Read at,Depot,Status
E-30001,cylinder,US-E,1900,2030-03-01,harbour,ready
CN00999,concentrator,,,,harbour,ready
Q-30002,cylinder,,1800,2030-03-01,harbour,ready
E-30003,cylinder,US-E,many,2030-03-01,harbour,ready
`

const people = `Record number,Name,Street,Phone
Q-9001,"Wold, Perrin",Fold Lane 3,555-0188
`

func file(t *testing.T, dir, name, text string) string {
	t.Helper()
	path := filepath.Join(dir, name)
	require.NoError(t, os.MkdirAll(dir, 0o700))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

func newModel(t *testing.T) (*uitest.Desk, *Model) {
	t.Helper()
	d := uitest.New(t)
	d.Work.Dir = filepath.Join(t.TempDir(), "papers")
	return d, NewModel(d.Work)
}

// The bar moves while a file is read, while it is understood and while it is
// written, and only the bar is drawn anew.
func TestTheBarMoves(t *testing.T) {
	d, m := newModel(t)
	var list strings.Builder
	list.WriteString("Serial,Kind,Size,Depot,Status\n")
	for i := range 3000 {
		fmt.Fprintf(&list, "E-%06d,cylinder,US-E,harbour,ready\n", 500_000+i)
	}
	var told []float64
	m.Moved = func() { told = append(told, m.Share) }
	m.Add(file(t, t.TempDir(), "stock.csv", list.String()))
	require.Empty(t, d.Refused)
	require.Greater(t, len(told), 10)
	assert.True(t, slices.IsSorted(told))
	assert.Less(t, told[0], 0.5, "the file while it is read")
	assert.Greater(t, told[len(told)-1], 0.5, "and while it is understood")
	told = nil
	disk := 0
	m.Moved = func() {
		told = append(told, m.Share)
		if m.ToDisk {
			disk++
		}
	}
	m.TakeIn()
	require.Empty(t, d.Refused)
	require.Greater(t, len(told), 10)
	assert.True(t, slices.IsSorted(told))
	assert.Positive(t, disk, "while the disk is written a light runs")
	assert.False(t, m.ToDisk)
}

// Stopped while the book goes on the disk, it is in and said to be.
func TestWhatIsWrittenIsNeverCalledStopped(t *testing.T) {
	d, m := newModel(t)
	before := facts(t, d)
	m.Add(file(t, t.TempDir(), "stock.csv", stock))
	m.Moved = func() {
		if m.ToDisk {
			m.Stop()
		}
	}
	m.TakeIn()
	require.Empty(t, d.Refused)
	assert.Greater(t, facts(t, d), before)
	assert.Contains(t, m.Done, "Taken in: 2 rows")
}

func TestNothingIsWrittenBeforeItIsSaid(t *testing.T) {
	d, m := newModel(t)
	before := facts(t, d)
	m.Add(file(t, t.TempDir(), "stock.csv", stock))
	require.Empty(t, d.Refused)
	assert.Equal(t, 4, m.Reading.Rows)
	assert.Equal(t, 2, m.Reading.Taken)
	assert.Equal(t, Questions, m.Section, "what needs an answer comes first")
	assert.Equal(t, "Of 4 rows, 2 rows are clear, 1 waits for 1 answer, 1 refused.", m.Summary())
	assert.Contains(t, m.Adds(), "They add 2 things, 0 persons and ")
	assert.Len(t, m.Reading.Columns, 7)
	assert.Equal(t, before, facts(t, d))
}

func facts(t *testing.T, d *uitest.Desk) int {
	t.Helper()
	all, err := d.Desk.Facts(context.Background(), items.About{})
	require.NoError(t, err)
	return len(all)
}

func TestTakeInWritesTheClearRowsAndTheRestWaits(t *testing.T) {
	d, m := newModel(t)
	m.Add(file(t, t.TempDir(), "stock.csv", stock))
	m.TakeIn()
	require.Empty(t, d.Refused)
	assert.NotEmpty(t, d.Thing("E-30001").ID)
	assert.Equal(t, "Taken in: 2 rows, with 2 new things, 0 new persons and "+strings.SplitAfter(m.Done, "and ")[1], m.Done)
	assert.Equal(t, []string{m.Done + " 1 row waits for an answer, 1 row is refused."}, d.Said)
	assert.Equal(t, 1, d.Changes)
	assert.Contains(t, m.Adds(), "They add nothing")
	assert.False(t, m.Ready(), "the same rows go in once")
	n := facts(t, d)
	m.TakeIn()
	assert.Equal(t, n, facts(t, d))
	d.Clean()
}

func TestAnAnswerServesItsRows(t *testing.T) {
	d, m := newModel(t)
	m.Add(file(t, t.TempDir(), "stock.csv", stock))
	asks := m.Asked()
	require.Len(t, asks, 1)
	assert.Equal(t, "4", asks[0].Rows)
	assert.Empty(t, asks[0].Answer)
	m.Answer(asks[0].Key, "US-D")
	assert.Equal(t, 3, m.Reading.Taken)
	assert.Empty(t, m.Reading.Questions)
	answered := m.Asked()
	require.Len(t, answered, 1)
	assert.Equal(t, "US-D", answered[0].Answer)
	m.Answer(asks[0].Key, "US-E") // changed one's mind
	assert.Equal(t, "US-E", m.Asked()[0].Answer)
	m.TakeIn()
	assert.Equal(t, "US-E", string(d.Thing("Q-30002").Spec.Size))
}

func TestListsThatBelongTogetherAreReadTogether(t *testing.T) {
	d, m := newModel(t)
	dir := t.TempDir()
	m.Add(file(t, dir, "stock.csv", stock))
	m.Add(file(t, dir, "people.csv", people))
	m.Add(filepath.Join(dir, "people.csv")) // once is enough
	require.Empty(t, d.Refused)
	assert.Len(t, m.Files, 2)
	assert.Equal(t, 1, m.Reading.Added.Persons)
	m.StartOver()
	assert.Nil(t, m.Reading)
	assert.Empty(t, m.Files)
}

func TestAFileThatIsNoListLeavesTheReadingAsItWas(t *testing.T) {
	d, m := newModel(t)
	dir := t.TempDir()
	m.Add(file(t, dir, "stock.csv", stock))
	m.Add(filepath.Join(dir, "nothing.csv"))
	assert.Contains(t, d.Refusal().Says, "nothing.csv")
	m.Add(file(t, dir, "poem.csv", "roses,red\nviolets,blue\n"))
	assert.Equal(t, 4, m.Reading.Rows)
	assert.Empty(t, m.Under)
}

func TestAListThatIsMendedIsReadAnew(t *testing.T) {
	d, m := newModel(t)
	dir := t.TempDir()
	m.Add(file(t, dir, "stock.csv", stock))
	file(t, dir, "stock.csv", strings.Replace(stock, "many", "1700", 1))
	m.Again()
	require.Empty(t, d.Refused)
	assert.Empty(t, m.Reading.Refused)
}

// What was not taken goes into a copy of the list with the reason beside each
// row; mended there, it comes in like any other list.
func TestRowsNotTakenGoToACopyOfTheirSheet(t *testing.T) {
	d, m := newModel(t)
	m.Add(file(t, t.TempDir(), "stock.csv", stock))
	m.WriteLeft()
	require.Empty(t, d.Refused)
	require.Len(t, d.Shown, 1)
	assert.Equal(t, "stock not taken in "+m.work.Now().Format("2006-01-02 1504")+".xlsx", filepath.Base(d.Shown[0]))
	tables, err := sheet.ReadFile(context.Background(), d.Shown[0])
	require.NoError(t, err)
	rows := tables[0].Rows
	require.Len(t, rows, 3, "headings, one that waits, one that is refused")
	assert.Equal(t, "Serial", rows[0].Cells[1].Text)
	assert.Contains(t, rows[1].Cells[0].Text, "Row 4: waits for an answer.")
	assert.Equal(t, "Q-30002", rows[1].Cells[1].Text)
	assert.Equal(t, "Row 5: "+m.Reading.Refused[0].Why, rows[2].Cells[0].Text)

	m.StartOver()
	m.Add(d.Shown[0])
	assert.Equal(t, 2, m.Reading.Rows, "it is a list of its own")
	assert.Len(t, m.Reading.Questions, 1)
	assert.Len(t, m.Reading.Refused, 1)
}

// halted is a runner whose work is stopped before it begins.
type halted struct{}

func (halted) Go(_ string, do func(context.Context) error, done func(error)) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	done(do(ctx))
}
func (halted) Show(do func()) { do() }
func (halted) Stop(string)    {}

func TestStoppedTakesNothingIn(t *testing.T) {
	d, m := newModel(t)
	m.Add(file(t, t.TempDir(), "stock.csv", stock))
	before := facts(t, d)
	d.Work.Run = halted{}
	m.TakeIn()
	assert.Equal(t, []string{"Stopped; nothing of it is written."}, d.Said)
	assert.Equal(t, before, facts(t, d))
	assert.Empty(t, m.Under)
}

func TestCompletion(t *testing.T) {
	dir := t.TempDir()
	file(t, filepath.Join(dir, "Stock"), "old.csv", "")
	for _, name := range []string{"stock.csv", "STAFF.xlsx", "picture.png", ".hidden.csv"} {
		file(t, dir, name, "")
	}
	names := func(typed string) (all []string) {
		for _, m := range complete(typed) {
			all = append(all, m.Name)
		}
		return all
	}
	sep := string(filepath.Separator)
	assert.Equal(t, []string{"STAFF.xlsx", "stock.csv", "Stock"}, names(dir+sep), "lists first, then folders; nothing hidden")
	assert.Equal(t, []string{"stock.csv", "Stock"}, names(dir+sep+"sto"))
	assert.Equal(t, []string{"old.csv"}, names(`"`+dir+sep+"Stock"+sep+`"`), "quotes of a pasted path")
	assert.Empty(t, names(""))
	assert.Empty(t, names(dir+sep+"no"+sep+"such"))
	home, err := os.UserHomeDir()
	require.NoError(t, err)
	assert.Equal(t, home+sep+"x", expand("~"+sep+"x"))
}

func TestViewByKeys(t *testing.T) {
	d := uitest.New(t)
	v := New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Intake})
	dir := t.TempDir()
	file(t, dir, "stock.csv", stock)
	file(t, dir, "people.csv", people)
	uitest.Type(win, dir+string(filepath.Separator))
	uitest.Shoot(t, win, "takein-files")
	uitest.Type(win, "st")
	uitest.Press(win, fyne.KeyReturn) // the only list that begins so
	require.NotNil(t, v.model.Reading)
	assert.Equal(t, v.questions.list.Keyboard(), win.Canvas().Focused(), "the keyboard is where something is asked")

	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "7")
	assert.Empty(t, v.model.Reading.Questions)
	assert.Equal(t, 3, v.model.Reading.Taken)
	uitest.Type(win, "1")
	assert.Equal(t, fyne.Focusable(v.choosing.path), win.Canvas().Focused(), "another list is named")
	uitest.Type(win, filepath.Join(dir, "people.csv"))
	uitest.Press(win, fyne.KeyReturn)
	assert.Equal(t, 5, v.model.Reading.Rows)
	uitest.Type(win, "9")
	require.Empty(t, d.Refused)
	assert.NotEmpty(t, d.Thing("Q-30002").ID)
	assert.Contains(t, v.adds.Text, "Taken in: 4 rows")
	uitest.Shoot(t, win, "takein-done")
}

func TestADialogMayNameTheFile(t *testing.T) {
	d := uitest.New(t)
	v := New(d.Work)
	uitest.Show(t, v)
	path := file(t, t.TempDir(), "stock.csv", stock)
	v.choosing.pickFile = func(_ fyne.Window, picked func(string)) { picked(path) }
	v.choosing.pick()
	assert.NotNil(t, v.model.Reading)
}

// The list as a programme really keeps it, with everything wrong with it.
func TestLookOfAMessyLedger(t *testing.T) {
	d := uitest.New(t)
	v := New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Intake, Text: filepath.Join("..", "..", "delivery", "intake", "testdata", "ledger_as_it_is.csv")})
	require.NotNil(t, v.model.Reading)
	uitest.Shoot(t, win, "takein-questions")
	for _, s := range []Section{Refused, Findings, Columns, Notices} {
		v.sections.OnChanged(string(s))
		assert.Equal(t, v.model.Sections()[s], v.rows.Len(), s)
		uitest.Shoot(t, win, "takein-"+strings.ReplaceAll(string(s), " ", "-"))
	}
	free := func(a Asked) bool { return a.Free && len(a.Choices) == 0 }
	for _, a := range v.model.Asked() {
		if free(a) {
			v.sections.OnChanged(string(Questions))
			v.questions.list.Take(a.Key)
			v.questions.enter()
			assert.Equal(t, fyne.Focusable(v.questions.free), win.Canvas().Focused(), "any text answers %s", a.Asks)
			uitest.Type(win, "Wold, Perrin")
			uitest.Press(win, fyne.KeyReturn)
			assert.Equal(t, intake.Answers{a.Key: "Wold, Perrin"}, v.model.answers)
			next, ok := v.questions.hand()
			require.True(t, ok)
			assert.Empty(t, next.Answer, "the next open question is in hand")
		}
	}
}
