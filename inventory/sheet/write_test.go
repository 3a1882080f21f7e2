package sheet_test

import (
	"archive/zip"
	"context"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"golang.org/x/text/unicode/norm"
	"pgregory.net/rapid"

	"lungwort/inventory/refusal"
	"lungwort/inventory/sheet"
)

// watchList is a sheet with a value of every kind, and with what is unknown.
func watchList() sheet.Out {
	at := time.Date(2025, 3, 14, 16, 5, 0, 0, time.FixedZone("", -5*3600))
	return sheet.Out{
		Name: "Watch list", Title: "Watch list, Great Quillet", AsOf: at,
		Columns: []sheet.Column{
			{Heading: "Serial"},
			{Heading: "Flow (L/min)", Kind: sheet.Number},
			{Heading: "Gauge (psi)", Kind: sheet.Whole},
			{Heading: "Lent on", Kind: sheet.Day},
			{Heading: "Act by", Kind: sheet.Time, Note: "The earliest time at which the chance of being without oxygen reaches the limit."},
			{Heading: "Cover", Kind: sheet.Duration},
			{Heading: "Notes", Width: 40},
		},
		Rows: [][]any{
			{"0048213", 0.125, 1800, at, at.Add(90 * time.Minute), 27*time.Hour + 5*time.Minute, "=cmd|'/c calc'!A1"},
			{"100E10", nil, "unknown", nil, time.Time{}, nil, "says \"no\", twice\nand leaves"},
			{"3A-1", -2.5, int64(-10), at, at, -time.Hour, "+1 555-0142"},
		},
		Notes: []string{"Times are local."},
	}
}

func TestWriteCSV(t *testing.T) {
	path := filepath.Join(t.TempDir(), "watch.csv")
	require.NoError(t, sheet.Write(path, []sheet.Out{watchList()}))
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	golden, err := os.ReadFile(filepath.Join("testdata", "watch_list.csv"))
	require.NoError(t, err)
	assert.Equal(t, string(golden), string(data))
}

// A rounded nothing has no sign in any format.
func TestNothingHasNoSign(t *testing.T) {
	for _, name := range []string{"left.xlsx", "left.csv"} {
		path := filepath.Join(t.TempDir(), name)
		require.NoError(t, sheet.Write(path, []sheet.Out{{
			Name: "Left", Columns: []sheet.Column{{Heading: "Left", Kind: sheet.Number}}, Rows: [][]any{{math.Copysign(0, -1)}},
		}}))
		tables, err := sheet.ReadFile(t.Context(), path)
		require.NoError(t, err)
		assert.Equal(t, "0", tables[0].Rows[1].Cell(0).Text, name)
	}
}

func TestWriteWorkbookReadsBack(t *testing.T) {
	path := filepath.Join(t.TempDir(), "watch.xlsx")
	require.NoError(t, sheet.Write(path, []sheet.Out{watchList()}))
	tables, err := sheet.ReadFile(context.Background(), path)
	require.NoError(t, err)
	require.Len(t, tables, 2)
	assert.Equal(t, strings.Join([]string{
		"1:Watch list, Great Quillet",
		"2:Facts as of Fri 2025-03-14 16:05 -05:00",
		"3:Serial|Flow (L/min)|Gauge (psi)|Lent on|Act by|Cover|Notes",
		"4:0048213|0.125|1800|2025-03-14|2025-03-14 17:35|27:05|=cmd|'/c calc'!A1",
		"5:100E10||unknown||||says \"no\", twice\nand leaves",
		"6:3A-1|-2.5|-10|2025-03-14|2025-03-14 16:05|-1:00|+1 555-0142",
		""}, "\n"), shown(tables[0]))
	assert.True(t, tables[0].Rows[3].Cells[3].Serial)
	assert.Equal(t, "45730", tables[0].Rows[3].Cells[3].Raw, "a real date, not a text")
	assert.Equal(t, "About", tables[1].Name)
	assert.Equal(t, "1:Sheet|Column|What it says\n2:Watch list||Times are local.\n3:Watch list|Act by|The earliest time at which the chance of being without oxygen reaches the limit.\n", shown(tables[1]))
	assert.Empty(t, tables[0].Notes)

	m, err := sheet.Map(tables[0], []sheet.Heading{{Key: "serial"}, {Key: "flow", Units: []string{"L/min"}}, {Key: "gauge", Units: []string{"psi", "bar"}}}, []string{"serial"})
	require.NoError(t, err)
	assert.Equal(t, 3, m.Row)
	assert.Equal(t, map[string]string{"flow": "L/min", "gauge": "psi"}, m.Units)
}

// The library's own reader serves as a second opinion on what was written.
func TestWorkbookLayout(t *testing.T) {
	path := filepath.Join(t.TempDir(), "watch.xlsx")
	require.NoError(t, sheet.Write(path, []sheet.Out{watchList()}))
	f, err := excelize.OpenFile(path)
	require.NoError(t, err)
	defer f.Close()

	panes, err := f.GetPanes("Watch list")
	require.NoError(t, err)
	assert.True(t, panes.Freeze)
	assert.Equal(t, 3, panes.YSplit)
	names := map[string]string{}
	for _, n := range f.GetDefinedName() {
		names[n.Name+" in "+n.Scope] = n.RefersTo
	}
	assert.Equal(t, "'Watch list'!$3:$3", names["_xlnm.Print_Titles in Watch list"])
	assert.Equal(t, "'Watch list'!$A$3:$G$6", names["_xlnm._FilterDatabase in Watch list"])
	layout, err := f.GetPageLayout("Watch list")
	require.NoError(t, err)
	assert.Equal(t, "landscape", *layout.Orientation)
	assert.Equal(t, 1, *layout.FitToWidth)
	assert.Equal(t, 0, *layout.FitToHeight)
	properties, err := f.GetSheetProps("Watch list")
	require.NoError(t, err)
	assert.True(t, *properties.FitToPage)
	width, err := f.GetColWidth("Watch list", "G")
	require.NoError(t, err)
	assert.Equal(t, 40.0, width)
}

func TestWorkbookCells(t *testing.T) {
	path := filepath.Join(t.TempDir(), "watch.xlsx")
	require.NoError(t, sheet.Write(path, []sheet.Out{watchList()}))
	f, err := excelize.OpenFile(path)
	require.NoError(t, err)
	defer f.Close()
	for cell, pattern := range map[string]string{"D4": "yyyy-mm-dd", "E4": "yyyy-mm-dd hh:mm", "F4": "[h]:mm"} {
		id, err := f.GetCellStyle("Watch list", cell)
		require.NoError(t, err)
		style, err := f.GetStyle(id)
		require.NoError(t, err)
		require.NotNil(t, style.CustomNumFmt, cell)
		assert.Equal(t, pattern, *style.CustomNumFmt, cell)
	}
	for _, cell := range []string{"A4", "A5", "G4", "G6", "C5"} {
		formula, err := f.GetCellFormula("Watch list", cell)
		require.NoError(t, err)
		assert.Empty(t, formula, cell)
		kind, err := f.GetCellType("Watch list", cell)
		require.NoError(t, err)
		assert.Equal(t, excelize.CellTypeInlineString, kind, cell)
		id, err := f.GetCellStyle("Watch list", cell)
		require.NoError(t, err)
		style, err := f.GetStyle(id)
		require.NoError(t, err)
		assert.Equal(t, 49, style.NumFmt, "%s keeps its zeros when somebody edits it", cell)
	}
	id, err := f.GetCellStyle("Watch list", "A3")
	require.NoError(t, err)
	heading, err := f.GetStyle(id)
	require.NoError(t, err)
	assert.True(t, heading.Font.Bold)
}

func TestSameSheetsGiveTheSameBytes(t *testing.T) {
	second := watchList()
	second.Name = "Loans"
	for _, name := range []string{"a.xlsx", "a.csv"} {
		sheets := []sheet.Out{watchList(), second}[:map[string]int{"a.xlsx": 2, "a.csv": 1}[name]]
		path := filepath.Join(t.TempDir(), name)
		require.NoError(t, sheet.Write(path, sheets))
		first, err := os.ReadFile(path)
		require.NoError(t, err)
		for range 5 {
			require.NoError(t, sheet.Write(path, sheets))
			again, err := os.ReadFile(path)
			require.NoError(t, err)
			require.Equal(t, first, again, name)
		}
	}
}

// A cell shows text without the control characters XML forbids, without
// invisible ones, composed and trimmed; nothing else may change on the way.
func TestTextSurvivesTheRoundTrip(t *testing.T) {
	dir := t.TempDir()
	letters := rapid.OneOf(rapid.StringMatching(`[=+\-@'"_x0-9A-Fa-f,;|\t\r\n ]{0,12}`), rapid.String(), rapid.SampledFrom([]string{
		"=1+1", "'=1+1", "''=1", "＝1", "_x0041_", "_x005F_", "_x005F_x0041_", "sep=;", "\"", "0048213", "9.01E+09", "\tx", "-", "a\u0301", "TRUE"}))
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.SliceOfN(letters, 1, 5).Draw(t, "texts")
		values := []any{"first"}
		columns := []sheet.Column{{Heading: "First"}}
		for _, text := range want {
			values, columns = append(values, text), append(columns, sheet.Column{Heading: "Text"})
		}
		for _, name := range []string{"out.xlsx", "out.csv"} {
			path := filepath.Join(dir, name)
			require.NoError(t, sheet.Write(path, []sheet.Out{{Name: "Texts", Columns: columns, Rows: [][]any{values}}}))
			tables, err := sheet.ReadFile(context.Background(), path)
			require.NoError(t, err)
			require.Len(t, tables[0].Rows, 2)
			for i, text := range want {
				if got := tables[0].Rows[1].Cell(i + 1).Text; seen(got) != seen(text) {
					t.Fatalf("%s: got %q, want %q", name, got, text)
				}
			}
		}
	})
}

// seen is a second, slower statement of what a person sees of a text: its
// letters, composed, with the spaces between them.
func seen(text string) string {
	return strings.Join(strings.Fields(norm.NFC.String(strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' && r != '\n' && r != '\v' && r != '\f' && r != '\r' || r == '\u007f' || r >= '\u0080' && r <= '\u009f' && r != '\u0085' {
			return -1
		}
		if strings.ContainsRune("\u00ad\u061c\u180e\u200b\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2060\u2066\u2067\u2068\u2069\ufeff\ufffe\uffff", r) {
			return -1
		}
		return r
	}, text))), " ")
}

func TestWriteRefusals(t *testing.T) {
	dir := t.TempDir()
	put := func(name, content string, mode os.FileMode) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(content), mode))
		return path
	}
	protected := put("protected.csv", "keep me", 0o444)
	open := put("open.xlsx", "keep me", 0o644)
	put("~$open.xlsx", "", 0o644)
	alsoOpen := put("also.csv", "keep me", 0o644)
	put(".~lock.also.csv#", "", 0o644)
	require.NoError(t, os.Mkdir(filepath.Join(dir, "folder.csv"), 0o755))
	for _, test := range []struct {
		path       string
		kind       refusal.Kind
		says, next string
	}{
		{protected, refusal.ReadOnly, "write-protected", `"protected (2).csv"`},
		{open, refusal.Busy, "open in a spreadsheet program", `"open (2).xlsx"`},
		{alsoOpen, refusal.Busy, "open in a spreadsheet program", "Close it there"},
		{filepath.Join(dir, "folder.csv"), refusal.Invalid, "is a folder", "inside it"},
		{filepath.Join(dir, "none", "a.csv"), refusal.NotFound, "no folder", "a folder that exists"},
		{filepath.Join(dir, "a.pdf"), refusal.Invalid, "no ending this program writes", ".xlsx"},
	} {
		err := sheet.Write(test.path, []sheet.Out{watchList()})
		var refused *refusal.Error
		require.ErrorAs(t, err, &refused, test.path)
		assert.Equal(t, test.kind, refused.Kind, test.path)
		assert.Contains(t, refused.Says, test.says)
		assert.Contains(t, refused.Next, test.next)
	}
	for _, path := range []string{protected, open, alsoOpen} {
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, "keep me", string(data), path)
	}
	left, err := filepath.Glob(filepath.Join(dir, ".lungwort-*"))
	require.NoError(t, err)
	assert.Empty(t, left)
}

func TestWriteReplacesAnOldFileWhole(t *testing.T) {
	path := filepath.Join(t.TempDir(), "watch.csv")
	require.NoError(t, os.WriteFile(path, []byte(strings.Repeat("old", 10_000)), 0o644))
	require.NoError(t, sheet.Write(path, []sheet.Out{watchList()}))
	_, err := sheet.ReadFile(context.Background(), path)
	require.NoError(t, err)
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.NotContains(t, string(data), "old")
}

func TestWrongUseIsAnErrorAndNoFile(t *testing.T) {
	dir := t.TempDir()
	column := func(kind sheet.Kind) []sheet.Column { return []sheet.Column{{Heading: "One", Kind: kind}} }
	for name, sheets := range map[string][]sheet.Out{
		"no sheet":            nil,
		"number as text":      {{Name: "A", Columns: column(sheet.Text), Rows: [][]any{{1.5}}}},
		"fraction as whole":   {{Name: "A", Columns: column(sheet.Whole), Rows: [][]any{{1.5}}}},
		"duration as day":     {{Name: "A", Columns: column(sheet.Day), Rows: [][]any{{time.Hour}}}},
		"unknown type":        {{Name: "A", Columns: column(sheet.Text), Rows: [][]any{{struct{}{}}}}},
		"more than columns":   {{Name: "A", Columns: column(sheet.Text), Rows: [][]any{{"a", "b"}}}},
		"two of the same":     {{Name: "A"}, {Name: "a"}},
		"nameless":            {{Name: "a", Columns: column(sheet.Text)}, {Name: ""}},
		"nothing but quotes":  {{Name: "b"}, {Name: "''"}},
		"About is the notes'": {{Name: "About", Notes: []string{"note"}}},
	} {
		for _, file := range []string{"a.xlsx", "a.csv"} {
			if file == "a.csv" && len(sheets) == 1 && len(sheets[0].Rows) == 0 {
				continue // names do not matter to a text table
			}
			err := sheet.Write(filepath.Join(dir, file), sheets)
			assert.Error(t, err, "%s in %s", name, file)
		}
	}
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, left)
}

func TestSheetNamesAreMadeFit(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.xlsx")
	out := []sheet.Out{{Name: "Loans 1/2: [open]?", Columns: []sheet.Column{{Heading: "A"}}},
		{Name: "A name that is longer than a sheet's name can be", Columns: []sheet.Column{{Heading: "A"}}},
		{Name: "Ann's list", Columns: []sheet.Column{{Heading: "A"}}}}
	require.NoError(t, sheet.Write(path, out))
	assert.Equal(t, "Loans 1/2: [open]?", out[0].Name, "the caller's sheets stay as they are")
	tables, err := sheet.ReadFile(context.Background(), path)
	require.NoError(t, err)
	require.Len(t, tables, 3)
	assert.Equal(t, "Loans 1-2- -open--", tables[0].Name)
	assert.Equal(t, "A name that is longer than a sh", tables[1].Name)
	assert.Equal(t, "Ann's list", tables[2].Name)
}

func TestLongTextIsCutWithAMark(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.xlsx")
	require.NoError(t, sheet.Write(path, []sheet.Out{{Name: "A", Columns: []sheet.Column{{Heading: "A"}}, Rows: [][]any{{strings.Repeat("𝒙é", 20_000)}}}}))
	tables, err := sheet.ReadFile(context.Background(), path)
	require.NoError(t, err)
	text := tables[0].Rows[1].Cells[0].Text
	assert.True(t, strings.HasSuffix(text, "… (cut)"))
	assert.Greater(t, len([]rune(text)), 21_000)
}

func TestReadFileRefusals(t *testing.T) {
	dir := t.TempDir()
	for path, says := range map[string]string{
		filepath.Join(dir, "none.csv"): `There is no file "none.csv".`,
		dir:                            "is a folder",
		os.DevNull:                     "not an ordinary file",
	} {
		_, err := sheet.ReadFile(context.Background(), path)
		require.Error(t, err, path)
		assert.Contains(t, err.Error(), says)
		assert.NotEqual(t, refusal.Internal, refusal.KindOf(err), path)
	}
	huge := filepath.Join(dir, "huge.csv")
	require.NoError(t, os.WriteFile(huge, []byte("a"), 0o600))
	require.NoError(t, os.Truncate(huge, 5<<30))
	_, err := sheet.ReadFile(context.Background(), huge)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "too large")
}

// The format wants the parts of a sheet, and the columns among them, in this
// order (ECMA-376, part 1, 18.3.1.99); a strict program repairs it otherwise.
func TestPartsOfASheetAreInOrder(t *testing.T) {
	path := filepath.Join(t.TempDir(), "watch.xlsx")
	require.NoError(t, sheet.Write(path, []sheet.Out{watchList()}))
	archive, err := zip.OpenReader(path)
	require.NoError(t, err)
	defer archive.Close()
	part, err := archive.Open("xl/worksheets/sheet1.xml")
	require.NoError(t, err)
	content, err := io.ReadAll(part)
	require.NoError(t, err)
	at := 0
	for _, element := range []string{"<sheetPr", "<pageSetUpPr", "<sheetViews>", `<pane `, "<cols>", `<col min="1"`, `<col min="2"`, `<col min="7"`, "<sheetData>", "<autoFilter", "<pageSetup", "<headerFooter>"} {
		next := strings.Index(string(content[at:]), element)
		require.GreaterOrEqual(t, next, 0, "%s after position %d", element, at)
		at += next
	}
}
