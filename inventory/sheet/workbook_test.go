package sheet_test

import (
	"archive/zip"
	"bytes"
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"lungwort/inventory/refusal"
	"lungwort/inventory/sheet"
)

// workbook returns the bytes of a workbook that fill has written.
func workbook(t *testing.T, fill func(f *excelize.File)) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	fill(f)
	b, err := f.WriteToBuffer()
	require.NoError(t, err)
	return b.Bytes()
}

func readBook(t *testing.T, data []byte) []sheet.Table {
	t.Helper()
	tables, err := sheet.Read(context.Background(), "list.xlsx", data)
	require.NoError(t, err)
	return tables
}

func set(t *testing.T, f *excelize.File, cell string, value any, pattern string) {
	t.Helper()
	require.NoError(t, f.SetCellValue("Sheet1", cell, value))
	if pattern == "" {
		return
	}
	style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &pattern})
	require.NoError(t, err)
	require.NoError(t, f.SetCellStyle("Sheet1", cell, cell, style))
}

func TestNumbersInWorkbooks(t *testing.T) {
	for _, test := range []struct {
		value   any
		pattern string
		want    sheet.Cell
	}{
		{4609, "00000", sheet.Cell{Text: "04609", Raw: "4609"}},
		{9010000417, "", sheet.Cell{Text: "9010000417", Raw: "9010000417"}},
		{9010000417, "0.00E+00", sheet.Cell{Text: "9010000417", Raw: "9010000417"}},
		{9010000000, "0.00E+00", sheet.Cell{Text: "9.01E+09", Raw: "9010000000"}},
		{1e12, "0.00E+00", sheet.Cell{Text: "1.00E+12", Raw: "1000000000000"}},
		{2, "0.00E+00", sheet.Cell{Text: "2", Raw: "2"}},
		{1204.5, "", sheet.Cell{Text: "1204.5", Raw: "1204.5"}},
		{0.30000000000000004, "", sheet.Cell{Text: "0.3", Raw: "0.300000000000000"}},
		{1204, "#,##0", sheet.Cell{Text: "1,204", Raw: "1204"}},
		{0.5, "0%", sheet.Cell{Text: "50%", Raw: "0.5"}},
		{5550142, "000-0000", sheet.Cell{Text: "555-0142", Raw: "5550142"}},
		{2000, `0 "psi"`, sheet.Cell{Text: "2000 psi", Raw: "2000"}},
		{2000, `[Red]0" days in May"`, sheet.Cell{Text: "2000 days in May", Raw: "2000"}},
		{45720, "m/d/yy", sheet.Cell{Text: "2025-03-04", Raw: "45720", Serial: true}},
		{45720, "mmm-yy", sheet.Cell{Text: "2025-03-04", Raw: "45720", Serial: true}},
		{45720, `[$-409]dddd\, mmmm d\, yyyy`, sheet.Cell{Text: "2025-03-04", Raw: "45720", Serial: true}},
		{45720.5, "yyyy-mm-dd hh:mm", sheet.Cell{Text: "2025-03-04 12:00", Raw: "45720.5", Serial: true}},
		{45720, "yyyy-mm-dd hh:mm", sheet.Cell{Text: "2025-03-04 00:00", Raw: "45720", Serial: true}},
		{45720.25, "m/d/yy", sheet.Cell{Text: "2025-03-04 06:00", Raw: "45720.25", Serial: true}},
		{0.0694444444444444, "h:mm AM/PM", sheet.Cell{Text: "01:40", Raw: "0.0694444444444444"}},
		{1.5, "[h]:mm", sheet.Cell{Text: "36:00", Raw: "1.5"}},
		{true, "", sheet.Cell{Text: "TRUE", Raw: "1"}},
		{"0048213", "", sheet.Cell{Text: "0048213", Raw: "0048213"}},
		{"100E10", "", sheet.Cell{Text: "100E10", Raw: "100E10"}},
		{" Jose\u0301\u00a0 ", "", sheet.Cell{Text: "José", Raw: " Jose\u0301\u00a0 "}},
		{"two\r\nlines", "", sheet.Cell{Text: "two\nlines", Raw: "two\r\nlines"}},
		{"=1+1", "", sheet.Cell{Text: "=1+1", Raw: "=1+1"}},
	} {
		tables := readBook(t, workbook(t, func(f *excelize.File) { set(t, f, "A1", test.value, test.pattern) }))
		got := tables[0].Rows[0].Cells[0]
		if strings.Contains(test.want.Raw, "\r") {
			got.Raw, test.want.Raw = "", "" // XML itself makes a line feed of it
		}
		assert.Equal(t, test.want, got, "%v as %q", test.value, test.pattern)
	}
}

func TestWorkbookOf1904(t *testing.T) {
	yes := true
	tables := readBook(t, workbook(t, func(f *excelize.File) {
		require.NoError(t, f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &yes}))
		set(t, f, "A1", 44258, "yyyy-mm-dd")
	}))
	assert.True(t, tables[0].Date1904)
	got := tables[0].Rows[0].Cells[0]
	assert.Equal(t, sheet.Cell{Text: "2025-03-04", Raw: "44258", Serial: true}, got)
	when, err := sheet.ParseDay(got, sheet.OrderUnknown, tables[0].Date1904)
	require.NoError(t, err)
	assert.Equal(t, "2025-03-04", when.String())
}

func TestMergedCellsAreSpread(t *testing.T) {
	tables := readBook(t, workbook(t, func(f *excelize.File) {
		for cell, value := range map[string]string{"A1": "Equipment out", "A2": "Name", "B2": "House", "C2": "Serial",
			"A3": "Okoro T", "B3": "Pier 4", "C3": "E-1", "A4": "Okoro U", "C4": "E-2", "C5": "E-3"} {
			set(t, f, cell, value, "")
		}
		require.NoError(t, f.MergeCell("Sheet1", "A1", "XFD1"))
		require.NoError(t, f.MergeCell("Sheet1", "B3", "B4"))
	}))
	assert.Equal(t, "1:Equipment out|Equipment out|Equipment out\n2:Name|House|Serial\n3:Okoro T|Pier 4|E-1\n4:Okoro U|Pier 4|E-2\n5:||E-3\n", shown(tables[0]))
	assert.True(t, tables[0].Rows[3].Cells[1].Merged)
	assert.False(t, tables[0].Rows[2].Cells[1].Merged, "the value stands where it was written")
}

func TestWhatCellsCannotSayIsNoted(t *testing.T) {
	tables := readBook(t, workbook(t, func(f *excelize.File) {
		for row, name := range []string{"Name", "Abara", "Okoro", "Quist", "Rao"} {
			set(t, f, fmt.Sprintf("A%d", row+1), name, "")
		}
		red, err := f.NewStyle(&excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FF0000"}}})
		require.NoError(t, err)
		gone, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Strike: true}})
		require.NoError(t, err)
		require.NoError(t, f.SetCellStyle("Sheet1", "A2", "A3", red))
		require.NoError(t, f.SetCellStyle("Sheet1", "A4", "A4", gone))
		require.NoError(t, f.SetRowVisible("Sheet1", 5, false))
		require.NoError(t, f.SetCellFormula("Sheet1", "B2", "A2&A3"))
		_, err = f.NewSheet("archive")
		require.NoError(t, err)
		require.NoError(t, f.SetCellValue("archive", "A1", "old"))
		require.NoError(t, f.SetSheetVisible("archive", false))
		_, err = f.NewSheet("blank")
		require.NoError(t, err)
	}))
	require.Len(t, tables, 2, "the blank sheet is left out")
	assert.Equal(t, []string{
		"Cells are coloured in rows 2 and 3. A colour can't be read: write what it means in a column of its own.",
		"Text is struck through in row 4. It was read like any other: write what it means in a column of its own.",
		"Hidden: row 5. They were read all the same.",
		"A formula has no stored result in row 2; its cell counts as blank. Open the file in the spreadsheet program and save it again.",
	}, tables[0].Notes)
	assert.True(t, tables[1].Hidden)
	assert.Equal(t, []string{`Sheet "archive" is hidden in the workbook; it was read all the same.`}, tables[1].Notes)
}

// repacked returns the workbook with parts replaced, added, or (nil) left out.
func repacked(t *testing.T, data []byte, parts map[string][]byte) []byte {
	t.Helper()
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, f := range archive.File {
		if _, replaced := parts[f.Name]; !replaced {
			require.NoError(t, w.Copy(f))
		}
	}
	for name, content := range parts {
		if content == nil {
			continue
		}
		part, err := w.Create(name)
		require.NoError(t, err)
		_, err = part.Write(content)
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return b.Bytes()
}

const firstSheet = "xl/worksheets/sheet1.xml"

func oneCell(t *testing.T) []byte {
	return workbook(t, func(f *excelize.File) { set(t, f, "A1", "Serial", "") })
}

func TestMacrosAreIgnoredAndSaid(t *testing.T) {
	tables := readBook(t, repacked(t, oneCell(t), map[string][]byte{"xl/vbaProject.bin": []byte("macros")}))
	assert.Equal(t, []string{"The workbook has macros; they were ignored."}, tables[0].Notes)
}

func TestWorkbooksOfOtherPrograms(t *testing.T) {
	for name, part := range map[string]string{
		"prefixed names":      `<x:worksheet xmlns:x="urn:x"><x:sheetData><x:row><x:c t="inlineStr"><x:is><x:t>Serial</x:t></x:is></x:c></x:row></x:sheetData></x:worksheet>`,
		"no references":       `<worksheet><sheetData><row><c t="str"><v>Serial</v></c></row></sheetData></worksheet>`,
		"rich text and ruby":  `<worksheet><sheetData><row r="1"><c r="A1" t="inlineStr"><is><r><t>Ser</t></r><r><t>ial</t></r><rPh><t>no</t></rPh></is></c></row></sheetData></worksheet>`,
		"an unknown style":    `<worksheet><sheetData><row r="1"><c r="A1" s="99" t="str"><v>Serial</v></c></row></sheetData></worksheet>`,
		"self-closed cells":   `<worksheet><sheetData><row r="1"><c r="A1" t="str"><v>Serial</v></c><c r="B1" s="0"/><c r="C1"><v/></c></row><row r="2"/></sheetData></worksheet>`,
		"escaped invisibles":  `<worksheet><sheetData><row r="1"><c r="A1" t="str"><v>Ser_x200B_ial_x000D_</v></c></row></sheetData></worksheet>`,
		"a doctype":           `<!DOCTYPE x [<!ENTITY a "b">]><worksheet><sheetData><row r="1"><c r="A1" t="str"><v>Serial</v></c></row></sheetData></worksheet>`,
		"an ISO date as text": `<worksheet><sheetData><row r="1"><c r="A1" t="d"><v>Serial</v></c></row></sheetData></worksheet>`,
	} {
		tables := readBook(t, repacked(t, oneCell(t), map[string][]byte{firstSheet: []byte(part)}))
		assert.Equal(t, "1:Serial\n", shown(tables[0]), name)
	}
}

func TestDamagedWorkbooks(t *testing.T) {
	whole := oneCell(t)
	cell := func(attributes, value string) []byte {
		return []byte(`<worksheet><sheetData><row r="1"><c ` + attributes + `><v>` + value + `</v></c></row></sheetData></worksheet>`)
	}
	for name, parts := range map[string]map[string][]byte{
		"cut off part":         {firstSheet: []byte(`<worksheet><sheetData><row r="1"><c r="A1" t="str"><v>Se`)},
		"no end of the sheet":  {firstSheet: []byte(`<worksheet><sheetData><row r="1"></row></sheetData>`)},
		"missing sheet":        {firstSheet: nil},
		"missing text":         {firstSheet: cell(`r="A1" t="s"`, "4000")},
		"negative text":        {firstSheet: cell(`r="A1" t="s"`, "-1")},
		"a cell without place": {firstSheet: cell(`r="1A"`, "1")},
		"a cell far out":       {firstSheet: cell(`r="ZZZZ1"`, "1")},
		"a row far down":       {firstSheet: []byte(`<worksheet><sheetData><row r="9999999"></row></sheetData></worksheet>`)},
		"rows out of order":    {firstSheet: []byte(`<worksheet><sheetData><row r="3"></row><row r="2"></row></sheetData></worksheet>`)},
		"backward merge":       {firstSheet: []byte(`<worksheet><sheetData/><mergeCells><mergeCell ref="B2:A1"/></mergeCells></worksheet>`)},
		"foreign letters":      {firstSheet: []byte("<?xml version=\"1.0\" encoding=\"EBCDIC\"?><worksheet></worksheet>")},
		"no XML at all":        {"xl/workbook.xml": []byte("nothing")},
		"no workbook":          {"xl/workbook.xml": nil},
	} {
		_, err := sheet.Read(context.Background(), "list.xlsx", repacked(t, whole, parts))
		assert.Equal(t, refusal.Damaged, refusal.KindOf(err), "%s: %v", name, err)
		assert.Contains(t, fmt.Sprint(err), `"list.xlsx"`, name)
	}
	for cut := 30; cut < len(whole); cut += 97 {
		_, err := sheet.Read(context.Background(), "list.xlsx", whole[:cut])
		assert.Equal(t, refusal.Damaged, refusal.KindOf(err), "cut at %d", cut)
	}
}

func TestLyingFiles(t *testing.T) {
	packed := func(names ...string) []byte {
		parts := map[string][]byte{}
		for _, name := range names {
			parts[name] = []byte("<x/>")
		}
		var b bytes.Buffer
		require.NoError(t, zip.NewWriter(&b).Close())
		return repacked(t, b.Bytes(), parts)
	}
	for says, data := range map[string][]byte{
		"a text document": packed("[Content_Types].xml", "word/document.xml"),
		"a presentation":  packed("[Content_Types].xml", "ppt/presentation.xml"),
		"binary workbook": packed("[Content_Types].xml", "xl/workbook.bin"),
		"OpenDocument":    packed("mimetype", "content.xml"),
		"Numbers file":    packed("Index/Document.iwa"),
		"a packed file":   packed("photos/1.jpg"),
	} {
		_, err := sheet.Read(context.Background(), "list.xlsx", data)
		assert.Equal(t, refusal.Foreign, refusal.KindOf(err), says)
		assert.Contains(t, err.Error(), says)
	}
}

func TestPasswordIsNamed(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	var b bytes.Buffer
	require.NoError(t, f.Write(&b, excelize.Options{Password: "secret"}))
	_, err := sheet.Read(context.Background(), "list.xlsx", b.Bytes())
	assert.Equal(t, refusal.Unready, refusal.KindOf(err))
	assert.Contains(t, err.Error(), "password")
}

// A bomb declares its size and is refused at once; one that lies about it
// runs into the limit while it is unpacked.
func TestPackedBombsAreRefused(t *testing.T) {
	start := time.Now()
	bomb := repacked(t, oneCell(t), map[string][]byte{firstSheet: bytes.Repeat([]byte(" "), 80<<20)})
	_, err := sheet.Read(context.Background(), "list.xlsx", bomb)
	assert.Equal(t, refusal.Invalid, refusal.KindOf(err))
	assert.Contains(t, err.Error(), "made to harm")
	assert.Less(t, time.Since(start), time.Minute)
}

func TestWideMergesAndFarCellsStayBounded(t *testing.T) {
	var rows strings.Builder
	for r := 1; r <= 300; r++ {
		fmt.Fprintf(&rows, `<row r="%d"><c r="XFD%d"><v>1</v></c></row>`, r, r)
	}
	_, err := sheet.Read(context.Background(), "list.xlsx", repacked(t, oneCell(t), map[string][]byte{
		firstSheet: []byte(`<worksheet><sheetData>` + rows.String() + `</sheetData></worksheet>`)}))
	assert.Equal(t, refusal.Invalid, refusal.KindOf(err))
	assert.Contains(t, err.Error(), "too large")

	var merges strings.Builder
	for range 2000 {
		merges.WriteString(`<mergeCell ref="A1:XFD1048576"/>`)
	}
	tables := readBook(t, repacked(t, oneCell(t), map[string][]byte{
		firstSheet: []byte(`<worksheet><sheetData><row r="1"><c r="A1"><v>1</v></c></row><row r="9"><c r="A9"><v>2</v></c></row></sheetData><mergeCells>` + merges.String() + `</mergeCells></worksheet>`)}))
	assert.Equal(t, "1:1\n9:2\n", shown(tables[0]))
}

func TestReadingAWorkbookStopsWithItsContext(t *testing.T) {
	data := workbook(t, func(f *excelize.File) {
		w, err := f.NewStreamWriter("Sheet1")
		require.NoError(t, err)
		for r := 1; r <= 20_000; r++ {
			require.NoError(t, w.SetRow(fmt.Sprintf("A%d", r), []any{"Abara", r, "Pier"}))
		}
		require.NoError(t, w.Flush())
	})
	ctx := &stoppedAfter{Context: context.Background(), left: 50}
	_, err := sheet.Read(ctx, "list.xlsx", data)
	assert.ErrorIs(t, err, context.Canceled)
}

// stoppedAfter is a context that is cancelled once it has been asked a number
// of times.
type stoppedAfter struct {
	context.Context
	left int
}

func (s *stoppedAfter) Err() error {
	if s.left--; s.left < 0 {
		return context.Canceled
	}
	return nil
}

// FuzzWorksheet puts any bytes in the place of a sheet and of its styles.
func FuzzWorksheet(f *testing.F) {
	var t testing.T
	whole := oneCell(&t)
	f.Add([]byte(`<worksheet><sheetData><row r="1"><c r="A1" s="1"><v>45720.5</v></c></row></sheetData><mergeCells><mergeCell ref="A1:C3"/></mergeCells></worksheet>`),
		[]byte(`<styleSheet><numFmts><numFmt numFmtId="164" formatCode="[h]:mm;@"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="164"/></cellXfs></styleSheet>`))
	f.Add([]byte(`<worksheet><sheetData><row><c t="inlineStr"><is><t>x_x000D_</t></is></c><c t="e"><v>#REF!</v></c></row></sheetData></worksheet>`),
		[]byte(`<styleSheet><cellXfs><xf numFmtId="14" fillId="2"/></cellXfs></styleSheet>`))
	f.Fuzz(func(t *testing.T, part, styles []byte) {
		tables, err := sheet.Read(context.Background(), "list.xlsx", repacked(t, whole, map[string][]byte{firstSheet: part, "xl/styles.xml": styles}))
		if err != nil {
			require.NotEqual(t, refusal.Internal, refusal.KindOf(err), "%v", err)
			return
		}
		require.NotEmpty(t, tables[0].Rows)
	})
}
