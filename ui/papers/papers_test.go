package papers

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory/book"
	"lungwort/inventory/sheet"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func newModel(t *testing.T) (*uitest.Desk, *Model) {
	t.Helper()
	d := uitest.New(t)
	d.Dir = filepath.Join(t.TempDir(), "papers")
	d.Work.Dir = d.Dir
	m := NewModel(d.Work)
	m.Load()
	return d, m
}

func row(t *testing.T, m *Model, id string) Row {
	t.Helper()
	for _, r := range m.Rows {
		if r.ID == id {
			return r
		}
	}
	require.Fail(t, "no row", id)
	return Row{}
}

func TestRowsSayWhatThePapersHold(t *testing.T) {
	_, m := newModel(t)
	assert.Equal(t, "10 homes", row(t, m, "night-pack").Now)
	assert.Equal(t, "1 run, 3 stops", row(t, m, "run-sheet").Now)
	assert.Equal(t, "not made here yet", row(t, m, "night-pack").Last)
	assert.Equal(t, Copy, m.Rows[len(m.Rows)-1].ID)
}

func TestEachPaperIsMadeOpenedAndRemembered(t *testing.T) {
	d, m := newModel(t)
	for _, k := range kinds {
		m.Make(k.id)
		require.Empty(t, d.Refused, k.id)
		path := d.Shown[len(d.Shown)-1]
		if path == d.Dir { // several files of one kind
			files, err := filepath.Glob(filepath.Join(d.Dir, k.id+"-*"+k.ext))
			require.NoError(t, err)
			require.Greater(t, len(files), 1, k.id)
			path = files[0]
		}
		assert.True(t, strings.HasSuffix(path, "-2030-03-05-1620"+k.ext), path)
		assert.Equal(t, d.Dir, filepath.Dir(path), k.id)
		info, err := os.Stat(path)
		require.NoError(t, err, k.id)
		assert.Equal(t, os.FileMode(0o600), info.Mode().Perm(), "%s is for its owner alone", k.id)
		head, err := os.ReadFile(path)
		require.NoError(t, err)
		// PDF 32000-1, 7.5.2; a workbook is a zip (ECMA-376, part 2).
		assert.Equal(t, map[string]string{".pdf": "%PDF-", ".xlsx": "PK\x03\x04"}[k.ext], string(head[:len(map[string]string{".pdf": "%PDF-", ".xlsx": "PK\x03\x04"}[k.ext])]), k.id)
		assert.Equal(t, "today 16:20", row(t, m, k.id).Last, k.id)
		assert.Empty(t, m.Under)
	}
	info, err := os.Stat(d.Dir)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o700), info.Mode().Perm())
}

// File names are seen by everybody who looks over a shoulder.
func TestFileNamesNameNobody(t *testing.T) {
	d, m := newModel(t)
	for _, k := range kinds {
		m.Make(k.id)
	}
	files, err := os.ReadDir(d.Dir)
	require.NoError(t, err)
	for _, f := range files {
		for given := range d.Persons {
			p := d.Page(given).Person
			assert.NotContains(t, strings.ToLower(f.Name()), strings.ToLower(p.Given))
			assert.NotContains(t, strings.ToLower(f.Name()), strings.ToLower(p.Family))
		}
	}
}

func TestSheetsHoldTheirRows(t *testing.T) {
	d, m := newModel(t)
	m.Make("loans")
	tables, err := sheet.ReadFile(context.Background(), d.Shown[0])
	require.NoError(t, err)
	text := ""
	for _, r := range tables[0].Rows {
		for _, c := range r.Cells {
			text += c.Text + "\n"
		}
	}
	assert.Contains(t, text, "E-20101", "lent to Jory")
	assert.NotContains(t, text, "E-20112", "in the depot")
}

// Each sheet comes as text with commas too, papers stay what they are.
func TestSheetsComeAsCSVToo(t *testing.T) {
	d, m := newModel(t)
	m.SheetsAs(Commas)
	assert.Equal(t, "csv", row(t, m, "loans").Ends)
	assert.Equal(t, "pdf", row(t, m, "night-pack").Ends)
	for _, k := range kinds {
		if k.ext != Workbook {
			continue
		}
		m.Make(k.id)
		require.Empty(t, d.Refused, k.id)
		path := d.Shown[len(d.Shown)-1]
		assert.Equal(t, k.id+"-2030-03-05-1620.csv", filepath.Base(path))
		head, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.True(t, strings.HasPrefix(string(head), "\ufeff"), "%s begins with the mark of UTF-8", k.id)
		assert.Equal(t, "today 16:20", row(t, m, k.id).Last, k.id)
	}
	m.SheetsAs(Workbook)
	m.Make("loans")
	assert.Equal(t, ".xlsx", filepath.Ext(d.Shown[len(d.Shown)-1]))
}

func TestTheDayAfterTheDateIsShown(t *testing.T) {
	d, m := newModel(t)
	m.Make("night-pack")
	d.At(uitest.Now.AddDate(0, 0, 1))
	m.Load()
	assert.Equal(t, "Tue 16:20", row(t, m, "night-pack").Last)
	assert.Equal(t, "not made here yet", row(t, m, "items").Last)
}

func TestNoRunsAreRefusedWithTheNextStep(t *testing.T) {
	d := uitest.NewEmpty(t)
	m := NewModel(d.Work)
	m.Make("run-sheet")
	assert.Equal(t, "Plan the runs first.", d.Refusal().Next)
	assert.Empty(t, d.Shown)
}

func TestSeveralRunSheetsOpenTheFolder(t *testing.T) {
	d, m := newModel(t)
	home := d.Page("Selma")
	d.Act(delivery.PlanRuns{Runs: []delivery.RunPlan{{Planned: delivery.Planned{
		Vehicle: "van 2", Day: uitest.Now.Format(time.DateOnly), Departs: uitest.Now.Add(time.Hour), Back: uitest.Now.Add(2 * time.Hour),
		Stops: []delivery.PlannedStop{{
			Address: home.Care.Address, Persons: nil, Tasks: nil,
			Arrive: uitest.Now.Add(80 * time.Minute), Leave: uitest.Now.Add(95 * time.Minute),
		}},
	}}}})
	m.Make("run-sheet")
	require.Empty(t, d.Refused)
	assert.Equal(t, []string{d.Dir}, d.Shown)
	files, err := os.ReadDir(d.Dir)
	require.NoError(t, err)
	assert.Len(t, files, 2)
}

func TestAFolderThatCantBeMadeIsRefused(t *testing.T) {
	d, m := newModel(t)
	require.NoError(t, os.WriteFile(d.Dir, nil, 0o600))
	m.Make("night-pack")
	assert.Contains(t, d.Refusal().Says, "can't be made")
	assert.Empty(t, m.Under)
}

func TestCopyOfTheBook(t *testing.T) {
	d, m := newModel(t)
	require.Error(t, m.CopyBook("  "))
	require.NoError(t, m.CopyBook(m.CopyName()))
	path := filepath.Join(d.Dir, "book-2030-03-05-1620.lungwort")
	copied, err := book.OpenReadOnly(context.Background(), path, book.Options{Sets: store.Migrations()})
	require.NoError(t, err)
	defer copied.Close()
	watch, err := store.NewDesk(copied).Watch(context.Background(), uitest.Now)
	require.NoError(t, err)
	assert.Len(t, watch, 10)
	assert.Equal(t, "today 16:20", row(t, m, Copy).Last)

	require.NoError(t, m.CopyBook("book-2030-03-05-1620"))
	assert.NotEmpty(t, d.Refusal().Next, "a copy overwrites nothing")
}

func TestViewByKeys(t *testing.T) {
	d := uitest.New(t)
	d.Work.Dir = filepath.Join(t.TempDir(), "papers")
	v := New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Papers})
	uitest.Press(win, fyne.KeyDown, fyne.KeyReturn)
	require.Len(t, d.Shown, 1)
	assert.Contains(t, d.Shown[0], "run-sheet-r00001-")
	uitest.Shoot(t, win, "papers")

	uitest.Type(win, "cop")
	assert.Equal(t, Copy, v.rows.InHand())
	assert.True(t, v.panel.Visible())
	uitest.Press(win, fyne.KeyReturn)
	assert.Same(t, v.name, win.Canvas().Focused(), "Enter on the row asks where to")
	uitest.Shoot(t, win, "papers-copy")
	uitest.Press(win, fyne.KeyReturn)
	require.Empty(t, d.Refused)
	assert.FileExists(t, filepath.Join(d.Work.Dir, "book-2030-03-05-1620.lungwort"))
	assert.Same(t, v.Keyboard(), win.Canvas().Focused())
}
