package sheet_test

import (
	"archive/zip"
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/refusal"
	"lungwort/inventory/sheet"
)

// odsHead declares the styles the tests use. The element names are those of
// OASIS OpenDocument 1.3, part 3.
const odsHead = `<?xml version="1.0" encoding="UTF-8"?>
<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0">
<office:automatic-styles>
<style:style style:name="hidden" style:family="table"><style:table-properties table:display="false"/></style:style>
<style:style style:name="red" style:family="table-cell"><style:table-cell-properties fo:background-color="#ff0000"/></style:style>
<style:style style:name="gone" style:family="table-cell"><style:text-properties style:text-line-through-style="solid"/></style:style>
</office:automatic-styles><office:body><office:spreadsheet>`

const odsTail = `</office:spreadsheet></office:body></office:document-content>`

func ods(t testing.TB, content string, more ...string) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, part := range append([]string{"mimetype", "content.xml"}, more...) {
		f, err := w.Create(part)
		require.NoError(t, err)
		body := map[string]string{
			"mimetype":              "application/vnd.oasis.opendocument.spreadsheet",
			"content.xml":           odsHead + content + odsTail,
			"META-INF/manifest.xml": `<manifest><file-entry><encryption-data/></file-entry></manifest>`,
		}[part]
		_, err = f.Write([]byte(body))
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return b.Bytes()
}

func readODS(t *testing.T, content string) []sheet.Table {
	t.Helper()
	tables, err := sheet.Read(context.Background(), "list.ods", ods(t, content))
	require.NoError(t, err)
	return tables
}

func TestOpenDocumentCells(t *testing.T) {
	tables := readODS(t, `<table:tracked-changes><table:cell-content-deletion><table:table-cell><text:p>old</text:p></table:table-cell></table:cell-content-deletion></table:tracked-changes>
<table:table table:name="Loans">
<table:table-row table:number-rows-repeated="3"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>
<table:table-row><table:table-cell office:value-type="string"><office:annotation><text:p>a comment</text:p></office:annotation><text:p>Serial</text:p></table:table-cell><table:table-cell office:value-type="string"><text:p>Out</text:p></table:table-cell></table:table-row>
<table:table-row><table:table-cell office:value-type="string"><text:p>CN<text:s text:c="2"/>417</text:p><text:p>two</text:p></table:table-cell>
<table:table-cell office:value-type="date" office:date-value="2025-03-14"><text:p>14/03/25</text:p></table:table-cell>
<table:table-cell office:value-type="date" office:date-value="2025-03-14T16:20:00"><text:p>14/03/25 16:20</text:p></table:table-cell>
<table:table-cell office:value-type="float" office:value="417"><text:p>00417</text:p></table:table-cell>
<table:table-cell office:value-type="float" office:value="9010000417"><text:p>9.01E+09</text:p></table:table-cell>
<table:table-cell office:value-type="float" office:value="9010000000"><text:p>9.01E+09</text:p></table:table-cell>
<table:table-cell office:value-type="percentage" office:value="0.94"><text:p>94%</text:p></table:table-cell>
<table:table-cell office:value-type="boolean" office:boolean-value="true"><text:p>TRUE</text:p></table:table-cell>
<table:table-cell table:number-columns-repeated="2" office:value-type="string"><text:p>x</text:p></table:table-cell></table:table-row>
<table:table-row table:number-rows-repeated="1048500"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>
</table:table>`)
	require.Len(t, tables, 1)
	assert.Equal(t, "Loans", tables[0].Name)
	rows := tables[0].Rows
	require.Len(t, rows, 2)
	assert.Equal(t, 4, rows[0].Number)
	assert.Equal(t, "Serial", rows[0].Cells[0].Text)
	var shown []string
	for _, c := range rows[1].Cells {
		shown = append(shown, c.Text)
	}
	assert.Equal(t, []string{"CN  417\ntwo", "2025-03-14", "2025-03-14 16:20", "00417", "9010000417", "9.01E+09", "94%", "TRUE", "x", "x"}, shown)
	assert.True(t, rows[1].Cells[1].Serial, "a date is known to be one")
	when, err := sheet.ParseDay(rows[1].Cells[2], sheet.OrderUnknown, false)
	require.NoError(t, err)
	assert.Equal(t, "2025-03-14 16:20", when.String())
	share, words, _, err := sheet.ParseNumber(rows[1].Cells[6])
	require.NoError(t, err)
	assert.Equal(t, 94.0, share)
	assert.Equal(t, "%", words)
}

func TestOpenDocumentFindings(t *testing.T) {
	tables := readODS(t, `<table:table table:name="Old" table:style-name="hidden">
<table:table-row><table:table-cell table:number-columns-spanned="2" table:number-rows-spanned="2" office:value-type="string"><text:p>same house</text:p></table:table-cell><table:covered-table-cell/><table:table-cell office:value-type="string"><text:p>a</text:p></table:table-cell></table:table-row>
<table:table-row table:visibility="collapse"><table:covered-table-cell table:number-columns-repeated="2"/><table:table-cell table:style-name="red" office:value-type="string"><text:p>b</text:p></table:table-cell></table:table-row>
<table:table-row><table:table-cell table:style-name="gone" office:value-type="string"><text:p>c</text:p></table:table-cell><table:table-cell table:formula="of:=1/0" office:value-type="string" calcext:value-type="error"><text:p>#DIV/0!</text:p></table:table-cell></table:table-row>
</table:table>`)
	require.Len(t, tables, 1)
	assert.True(t, tables[0].Hidden)
	assert.Equal(t, "same house", tables[0].Rows[1].Cells[0].Text, "merged cells are spread")
	notes := strings.Join(tables[0].Notes, " ")
	for _, said := range []string{"hidden in the workbook", "coloured in row 2", "struck through in row 3", "Hidden: row 2", "ended in an error in row 3"} {
		assert.Contains(t, notes, said)
	}
}

func TestOpenDocumentRefusals(t *testing.T) {
	read := func(data []byte) error {
		_, err := sheet.Read(context.Background(), "list.ods", data)
		return err
	}
	assert.ErrorContains(t, read(ods(t, "", "META-INF/manifest.xml")), "password")
	assert.ErrorContains(t, read(ods(t, `<table:table table:name="a"/>`)), "holds no rows")
	assert.Equal(t, refusal.Damaged, refusal.KindOf(read(ods(t, "<table:table><table:table-row><!-- and no end"))))
	many := `<table:table><table:table-row table:number-rows-repeated="1048576"><table:table-cell table:number-columns-repeated="16384" office:value-type="string"><text:p>x</text:p></table:table-cell></table:table-row></table:table>`
	assert.ErrorContains(t, read(ods(t, many)), "too large", "a few bytes that stand for billions of cells")
	_, err := sheet.Read(context.Background(), "list.fods", []byte(`<?xml version="1.0"?><office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"/>`))
	assert.ErrorContains(t, err, "flat OpenDocument")
}

func FuzzOpenDocument(f *testing.F) {
	f.Add(`<table:table table:name="a"><table:table-row><table:table-cell office:value-type="float" office:value="1"><text:p>1</text:p></table:table-cell></table:table-row></table:table>`)
	f.Add(`<table:table><table:table-row table:number-rows-repeated="99"><table:table-cell table:number-columns-spanned="9" office:value-type="date" office:date-value="2025-02-30"/></table:table-row>`)
	f.Fuzz(func(t *testing.T, content string) {
		tables, err := sheet.Read(context.Background(), "list.ods", ods(t, content))
		if err != nil {
			require.NotEqual(t, refusal.Internal, refusal.KindOf(err), "%v", err)
			return
		}
		for _, table := range tables {
			last := 0
			for _, row := range table.Rows {
				require.Greater(t, row.Number, last)
				last = row.Number
			}
		}
	})
}
