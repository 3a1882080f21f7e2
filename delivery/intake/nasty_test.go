package intake_test

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"pgregory.net/rapid"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/delivery/intake/messy"
	"lungwort/inventory/sheet"
)

// ten is a clean ledger of ten rows and five persons.
func ten() [][]string {
	rows := [][]string{messy.Headings}
	for n := range 10 {
		rows = append(rows, messy.Clean(n))
	}
	return rows
}

func joined(rows [][]string, comma, end string) string {
	var b strings.Builder
	for _, row := range rows {
		for i, cell := range row {
			if i > 0 {
				b.WriteString(comma)
			}
			if strings.ContainsAny(cell, comma+"\"\n\r") {
				cell = `"` + strings.ReplaceAll(cell, `"`, `""`) + `"`
			}
			b.WriteString(cell)
		}
		b.WriteString(end)
	}
	return b.String()
}

func encoded(t *testing.T, rows [][]string, encode func(string) (string, error)) []byte {
	t.Helper()
	text, err := encode(joined(rows, ",", "\r\n"))
	require.NoError(t, err)
	return []byte(text)
}

// workbook is the ledger in a workbook, with more done to it.
func workbook(t *testing.T, rows [][]string, more func(f *excelize.File)) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	for i, row := range rows {
		for j, cell := range row {
			name, err := excelize.CoordinatesToCellName(j+1, i+1)
			require.NoError(t, err)
			require.NoError(t, f.SetCellStr("Sheet1", name, cell))
		}
	}
	more(f)
	b, err := f.WriteToBuffer()
	require.NoError(t, err)
	return b.Bytes()
}

func with(rows [][]string, more ...[]string) [][]string { return append(rows, more...) }

// nastyFiles are files that hold the same ten rows, each with one thing about
// the file that goes wrong in practice. However it is written, the ten rows
// are the ten rows.
func nastyFiles(t *testing.T) map[string][]byte {
	csv := func(rows [][]string) []byte { return []byte(joined(rows, ",", "\n")) }
	date := excelize.Style{NumFmt: 14}
	return map[string][]byte{
		"plain.csv":         csv(ten()),
		"semicolons.csv":    []byte(joined(ten(), ";", "\r\n")),
		"tabs.tsv":          []byte(joined(ten(), "\t", "\n")),
		"bars.txt":          []byte(joined(ten(), "|", "\n")),
		"declared.csv":      []byte("sep=;\r\n" + joined(ten(), ";", "\r\n")),
		"returns alone.csv": []byte(joined(ten(), ",", "\r")),
		"mark in front.csv": []byte("\uFEFF" + joined(ten(), ",", "\n")),
		"UTF-16.csv":        encoded(t, ten(), unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().String),
		"UTF-16 big.csv":    encoded(t, ten(), unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewEncoder().String),
		"Windows.csv":       encoded(t, with(ten(), []string{"", "", "", "", "", "", "", "", "", "", "", "", "bei Mädchen läuten"}), charmap.Windows1252.NewEncoder().String),
		"title above.csv":   append([]byte("Equipment out 2025\n\nkept by the depot,,555-0100\n"), csv(ten())...),
		"blank rows.csv":    []byte(strings.ReplaceAll(joined(ten(), ",", "\n"), "\n", "\n,,,\n\n")),
		"printed.csv":       csv(with(ten()[:6], append([][]string{messy.Headings}, ten()[6:]...)...)),
		"total below.csv":   csv(with(ten(), []string{"TOTAL", "10"})),
		"notes below.csv":   csv(with(ten(), []string{}, []string{"* call before you come"})),
		"commas behind.csv": []byte(strings.ReplaceAll(joined(ten(), ",", "\n"), "\n", ",,,,,\n")),
		"old name.xls":      []byte(joined(ten(), "\t", "\r\n")),
		"page.xls":          page(ten()),
		"blanks.csv":        csv(changed(ten(), func(s string) string { return "  " + s + "\u00a0 " })),
		"zero width.csv":    csv(changed(ten(), func(s string) string { return "\u200b" + s + "\ufeff" })),
		"apostrophes.csv":   csv(changed(ten(), func(s string) string { return strings.Replace(s, "'", "’", 1) })),
		"plain.xlsx":        workbook(t, ten(), func(*excelize.File) {}),
		"colours.xlsx": workbook(t, ten(), func(f *excelize.File) {
			style(t, f, "A4:C6", excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FF0000"}}})
		}),
		"struck.xlsx":        workbook(t, ten(), func(f *excelize.File) { style(t, f, "B5:B5", excelize.Style{Font: &excelize.Font{Strike: true}}) }),
		"hidden rows.xlsx":   workbook(t, ten(), func(f *excelize.File) { require.NoError(t, f.SetRowVisible("Sheet1", 4, false)) }),
		"hidden column.xlsx": workbook(t, ten(), func(f *excelize.File) { require.NoError(t, f.SetColVisible("Sheet1", "E", false)) }),
		"filtered.xlsx":      workbook(t, ten(), func(f *excelize.File) { require.NoError(t, f.AutoFilter("Sheet1", "A1:M11", nil)) }),
		"second sheet.xlsx": workbook(t, ten(), func(f *excelize.File) {
			_, err := f.NewSheet("Rota")
			require.NoError(t, err)
			require.NoError(t, f.SetCellStr("Rota", "A1", "Who"))
			require.NoError(t, f.SetCellStr("Rota", "B1", "When"))
			require.NoError(t, f.SetCellStr("Rota", "A2", "Ben"))
		}),
		"merged.xlsx": workbook(t, ten(), func(f *excelize.File) { // one person's name over both rows
			require.NoError(t, f.SetCellStr("Sheet1", "B3", ""))
			require.NoError(t, f.MergeCell("Sheet1", "B2", "B3"))
		}),
		"days as numbers.xlsx": workbook(t, ten(), func(f *excelize.File) { numbered(t, f, 0, date) }),
		"days from 1904.xlsx": workbook(t, ten(), func(f *excelize.File) {
			yes := true
			require.NoError(t, f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &yes}))
			numbered(t, f, 1462, date)
		}),
		"two heads.xlsx": workbook(t, with([][]string{{"", "", "", "", "Concentrator", "Tank"}}, append([][]string{grouped()}, ten()[1:]...)...), func(*excelize.File) {}),
		"errors.xlsx": workbook(t, ten(), func(f *excelize.File) {
			require.NoError(t, f.SetCellFormula("Sheet1", "P3", "=1/0"))
		}),
	}
}

// grouped are the headings whose group stands in a row above.
func grouped() []string {
	headings := append([]string{}, messy.Headings...)
	headings[messy.Machine], headings[messy.Tank] = "number", "number"
	return headings
}

func changed(rows [][]string, to func(string) string) [][]string {
	for _, row := range rows[1:] {
		for i, cell := range row {
			if cell != "" {
				row[i] = to(cell)
			}
		}
	}
	return rows
}

func page(rows [][]string) []byte {
	var b bytes.Buffer
	b.WriteString("<html><style>td{color:red}</style><body><table>")
	for _, row := range rows {
		b.WriteString("<tr><td>" + strings.Join(row, "</td><td>") + "</td></tr>")
	}
	b.WriteString("</table></body></html>")
	return b.Bytes()
}

func style(t *testing.T, f *excelize.File, area string, s excelize.Style) {
	t.Helper()
	id, err := f.NewStyle(&s)
	require.NoError(t, err)
	from, to, _ := strings.Cut(area, ":")
	require.NoError(t, f.SetCellStyle("Sheet1", from, to, id))
}

// numbered writes the days of the ledger as a spreadsheet's numbers. 45658 is
// 1 January 2025 in the calendar from 1900.
func numbered(t *testing.T, f *excelize.File, earlier int, as excelize.Style) {
	t.Helper()
	for n := range 10 {
		cell := fmt.Sprintf("A%d", n+2)
		require.NoError(t, f.SetCellInt("Sheet1", cell, int64(45658+n-earlier)))
		style(t, f, cell+":"+cell, as)
	}
}

func TestNastyFilesHoldTheSameRows(t *testing.T) {
	files := nastyFiles(t)
	require.GreaterOrEqual(t, len(files), 30)
	answers := intake.Answers{"size:E": "US-E"}
	for name, data := range files {
		t.Run(name, func(t *testing.T) {
			tables, err := sheet.Read(context.Background(), name, data)
			require.NoError(t, err)
			r := newDesk(t).read(answers, tables...)
			dump(r)
			assert.Equal(t, 10, r.Taken, "questions %v, refused %v", r.Questions, r.Refused)
			assert.Empty(t, r.Questions)
			assert.Empty(t, r.Refused)
			assert.Equal(t, intake.Added{Things: 20, Persons: 5, Facts: r.Added.Facts}, r.Added)
		})
	}
}

// What only a person can tell is said of each file that has it.
func TestNastyFilesSayWhatCantBeSeen(t *testing.T) {
	files := nastyFiles(t)
	for name, says := range map[string]string{
		"colours.xlsx": "coloured", "struck.xlsx": "struck through", "hidden rows.xlsx": "Hidden", "second sheet.xlsx": "neither an item list nor a person list",
		"Windows.csv": "does not say how its letters are stored", "total below.csv": "row of totals",
	} {
		tables, err := sheet.Read(context.Background(), name, files[name])
		require.NoError(t, err, name)
		r := newDesk(t).read(nil, tables...)
		assert.True(t, finds(r.Notices, says), "%s: %v", name, r.Notices)
	}
}

// Each thing that is wrong with rows, alone: no row is lost, nothing is taken
// of a row that is asked about or refused, and a second time adds nothing.
func TestEachWrongAlone(t *testing.T) {
	require.GreaterOrEqual(t, len(messy.All), 30)
	for _, wrong := range messy.All {
		t.Run(wrong.What, func(t *testing.T) {
			rows := ten()
			random := rand.New(rand.NewPCG(1, 1))
			for n := 3; n < 7; n++ {
				wrong.Spoil(rows[n], random)
			}
			list := table(t, "ledger.csv", joined(rows, ",", "\n"))
			d := newDesk(t)
			r := d.take(nil, list)
			assert.LessOrEqual(t, len(r.Questions), 4, "%v", r.Questions)
			for range 4 {
				answers := anyAnswers(r)
				r = d.take(answers, list)
			}
			d.audit()
			before := d.facts()
			again := d.take(nil, list)
			assert.Equal(t, before, d.facts())
			assert.Empty(t, again.Questions, "asked only once")
		})
	}
}

// Any mixture of what is wrong, through the whole of the intake.
func TestAnyMixtureOfWrongs(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		rows := ten()
		random := rand.New(rand.NewPCG(rapid.Uint64().Draw(rt, "seed"), 1))
		for n := 1; n < len(rows); n++ {
			for range rapid.IntRange(0, 3).Draw(rt, "wrongs") {
				messy.All[rapid.IntRange(0, len(messy.All)-1).Draw(rt, "wrong")].Spoil(rows[n], random)
			}
		}
		tables, err := readText("ledger.csv", joined(rows, ",", "\n"))
		require.NoError(rt, err)
		var answers intake.Answers
		for range 5 {
			r, err := readAlone(tables[0], delivery.NewProgramme(), answers)
			require.NoError(rt, err)
			require.Equal(rt, r.Rows, r.Taken+r.Waiting+len(r.Refused)+r.LeftOut)
			for _, q := range r.Questions {
				require.NotContains(rt, answers, q.Key, "asked only once: %s", q.Asks)
			}
			left := 0
			for _, out := range r.Left() {
				left += len(out.Rows)
			}
			require.Equal(rt, r.Rows-r.Taken, left, "what is not taken is in the copy")
			if answers == nil {
				answers = intake.Answers{}
			}
			for key, answer := range anyAnswers(r) {
				answers[key] = answer
			}
		}
	})
}

// Many questions of one sort are put together into one, which can be taken
// apart again.
func TestQuestionsAlikeArePutTogether(t *testing.T) {
	rows := ten()
	for n := 1; n <= 10; n += 2 { // five machines stand in two writings
		rows[n+1][messy.Machine] = strings.Replace(rows[n][messy.Machine], "0", "O", 1)
	}
	list := table(t, "ledger.csv", joined(rows, ",", "\n"))
	sizes := intake.Answers{"size:E": "US-E"}
	r := newDesk(t).read(sizes, list)
	require.Len(t, r.Questions, 1)
	assert.Equal(t, "all:serial", r.Questions[0].Key)
	assert.Contains(t, r.Questions[0].Asks, "5 groups of serials")
	sizes["all:serial"] = "with digits where the others have digits"
	d := newDesk(t)
	r = d.take(sizes, list)
	assert.Empty(t, r.Questions)
	assert.Equal(t, 15, r.Added.Things, "five machines, ten cylinders")
	sizes["all:serial"] = "one by one"
	assert.Equal(t, 5, asked(newDesk(t).read(sizes, list), "serial:"))
	assert.Empty(t, d.read(nil, list).Questions, "the answer for all is kept like any other")
}
