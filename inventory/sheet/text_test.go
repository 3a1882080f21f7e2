package sheet_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/encoding/unicode/utf32"

	"lungwort/inventory/refusal"
	"lungwort/inventory/sheet"
)

// read reads one table and shows it row by row: number, then the texts.
func read(t *testing.T, name, data string) (sheet.Table, string) {
	t.Helper()
	tables, err := sheet.Read(context.Background(), name, []byte(data))
	require.NoError(t, err, "%q", data)
	require.Len(t, tables, 1, "%q", data)
	return tables[0], shown(tables[0])
}

func shown(t sheet.Table) string {
	var b strings.Builder
	for _, r := range t.Rows {
		b.WriteString(columnless(r.Number, texts(r)))
	}
	return b.String()
}

func columnless(number int, texts []string) string {
	return string(rune('0'+number%10)) + ":" + strings.Join(texts, "|") + "\n"
}

func TestReadText(t *testing.T) {
	for _, test := range []struct{ name, data, want string }{
		{"commas", "a,b\n1,2\n", "1:a|b\n2:1|2\n"},
		{"no line end at the end", "a,b\n1,2", "1:a|b\n2:1|2\n"},
		{"Windows line ends", "a,b\r\n1,2\r\n", "1:a|b\n2:1|2\n"},
		{"lone carriage returns", "a,b\r1,2\r3,4\r", "1:a|b\n2:1|2\n3:3|4\n"},
		{"all line ends mixed", "a,b\r1,2\n3,4\r\n5,6", "1:a|b\n2:1|2\n3:3|4\n4:5|6\n"},
		{"semicolons with decimal commas", "a;b\n1,5;2\n2,5;3,5\n", "1:a|b\n2:1,5|2\n3:2,5|3,5\n"},
		{"tabs", "a\tb\n1, one\t2\n", "1:a|b\n2:1, one|2\n"},
		{"bars", "a|b\n1|2\n", "1:a|b\n2:1|2\n"},
		{"a line that names the separator", "sep=;\na;b,c\n1;2,3\n", "2:a|b,c\n3:1|2,3\n"},
		{"the same, quoted and with a mark", "\uFEFF\"sep=;\"\r\na;b\r\n", "2:a|b\n"},
		{"byte order mark before a quote", "\uFEFF\"a\",b\n1,2\n", "1:a|b\n2:1|2\n"},
		{"blank lines keep their numbers", "a,b\n\n\n1,2\n,,\n3,4\n", "1:a|b\n4:1|2\n6:3|4\n"},
		{"quoted comma and doubled quote", "a,b\n\"x, y\",\"say \"\"so\"\"\"\n", "1:a|b\n2:x, y|say \"so\"\n"},
		{"quoted line break", "a,b\n\"x\ny\",2\n3,4\n", "1:a|b\n2:x\ny|2\n3:3|4\n"},
		{"blank before a quote", "a,b\n1, \"x, y\"\n", "1:a|b\n2:1|x, y\n"},
		{"quote inside a text", "a,b\n5\" hose,2\n", "1:a|b\n2:5\" hose|2\n"},
		{"quote inside a quoted text", "a,b\n\"5\" hose\",2\n", "1:a|b\n2:5\" hose|2\n"},
		{"trailing blanks", "a ,b\n 1 ,2 \n", "1:a|b\n2:1|2\n"},
		{"no-break and thin spaces", "a,b\nAbara\u00a0Ines\u202f,\u20092\n", "1:a|b\n2:Abara Ines|2\n"},
		{"accent apart from its letter", "a,b\nJose\u0301,2\n", "1:a|b\n2:José|2\n"},
		{"invisible characters", "a,b\nCN\u200b00\u00ad417\ufeff,2\n", "1:a|b\n2:CN00417|2\n"},
		{"ragged rows", "a,b\n1\n1,2,3\n", "1:a|b\n2:1\n3:1|2|3\n"},
		{"one column", "a\n1\n", "1:a\n2:1\n"},
		{"guarded formulas", "a,b\n'=1+1,'+1 555-0142\n", "1:a|b\n2:=1+1|+1 555-0142\n"},
		{"an apostrophe that guards nothing", "a,b\n'tis,''\n", "1:a|b\n2:'tis|''\n"},
	} {
		_, got := read(t, "list.csv", test.data)
		assert.Equal(t, test.want, got, "%s: %q", test.name, test.data)
	}
}

func TestUnclosedQuoteSwallowsNothing(t *testing.T) {
	for _, data := range []string{
		"name,phone\n\"Abara,1\nOkoro,2\nQuist,3\n",
		"name,phone\n\"Abara,1\nOkoro,2\n\"Quist\",3\n",
		"name,phone\n\"Abara,1\nOkoro,2\nQuist,3" + strings.Repeat("\nRao,4", 200) + "\n\"Lopez\",5\n",
	} {
		table, got := read(t, "list.csv", data)
		assert.Contains(t, got, "2:\"Abara|1\n3:Okoro|2\n4:Quist|3\n", data)
		assert.Equal(t, []string{"A quotation mark is opened and never closed in row 2; it was read as part of the text."}, table.Notes)
	}
}

func TestReadEncodings(t *testing.T) {
	const list = "name,street\nJosé Muñoz,Calle Año 5\nBenoît Lefèvre,Rue de la Forêt 12\nIñés Gómez,Cañón\n"
	for _, test := range []struct {
		name    string
		charset encoding.Encoding
		note    string
	}{
		{"UTF-8", encoding.Nop, ""},
		{"UTF-8 with a mark", unicode.UTF8BOM, ""},
		{"UTF-16 little-endian with a mark", unicode.UTF16(unicode.LittleEndian, unicode.UseBOM), ""},
		{"UTF-16 big-endian with a mark", unicode.UTF16(unicode.BigEndian, unicode.UseBOM), ""},
		{"UTF-16 little-endian", unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM), ""},
		{"UTF-16 big-endian", unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM), ""},
		{"UTF-32 with a mark", utf32.UTF32(utf32.LittleEndian, utf32.UseBOM), ""},
		{"Windows-1252", charmap.Windows1252, "Windows-1252"},
		{"Mac Roman", charmap.Macintosh, "Mac Roman"},
	} {
		data, err := test.charset.NewEncoder().String(list)
		require.NoError(t, err)
		table, got := read(t, "list.csv", data)
		assert.Equal(t, "1:name|street\n2:José Muñoz|Calle Año 5\n3:Benoît Lefèvre|Rue de la Forêt 12\n4:Iñés Gómez|Cañón\n", got, test.name)
		if test.note == "" {
			assert.Empty(t, table.Notes, test.name)
		} else if assert.Len(t, table.Notes, 1, test.name) {
			assert.Contains(t, table.Notes[0], test.note, test.name)
		}
	}
}

func TestReadHTMLUnderTheOldName(t *testing.T) {
	tables, err := sheet.Read(context.Background(), "export.xls", []byte(`<html xmlns:x="urn:schemas-microsoft-com:office:excel">
<head><style>td { mso: "<td>" }</style><script>if (1<2) document.write("<tr><td>no")</script></head><body>
<!-- <table><tr><td>commented out</td></tr></table> -->
<table border=1><tr><th>Serial<th>Size</tr>
<tr></tr><tr><td></td></tr>
<tr><td>CN&nbsp;00417</td><td colspan="2">E &amp; D</td></tr>
<TR><TD>a<br>b</TD><TD>in <table><tr><td>inner</td></tr></table> ner</TD></TR></table>
<table><tr><td>second</td><td>table</td></tr></table></body></html>`))
	require.NoError(t, err)
	require.Len(t, tables, 2)
	assert.Equal(t, "1:Serial|Size\n3:CN 00417|E & D|E & D\n4:a\nb|in inner ner\n", shown(tables[0]))
	assert.True(t, tables[0].Rows[1].Cells[2].Merged)
	assert.Equal(t, "export, table 2", tables[1].Name)
	assert.Equal(t, "1:second|table\n", shown(tables[1]))
}

func TestReadTextUnderTheOldName(t *testing.T) {
	table, got := read(t, "export.xls", "Serial\tSize\nCN00417\tE\n")
	assert.Equal(t, "1:Serial|Size\n2:CN00417|E\n", got)
	assert.Equal(t, "export", table.Name)
	assert.Equal(t, "export.xls", table.File)
}

func TestRefusedFiles(t *testing.T) {
	oldWorkbook := "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + strings.Repeat("\x00", 600) + "W\x00o\x00r\x00k\x00b\x00o\x00o\x00k\x00"
	protected := "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + strings.Repeat("\x00", 600) + "E\x00n\x00c\x00r\x00y\x00p\x00t\x00e\x00d\x00P\x00a\x00c\x00k\x00a\x00g\x00e\x00"
	for _, test := range []struct {
		name, data string
		kind       refusal.Kind
		says, next string
	}{
		{"empty.csv", "", refusal.Invalid, "holds no rows", "save it again"},
		{"blank.csv", " \r\n,,,\n", refusal.Invalid, "holds no rows", "save it again"},
		{"old.xls", oldWorkbook, refusal.Foreign, "old Excel format", "Save As"},
		{"letter.doc", "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + strings.Repeat("\x00", 600), refusal.Foreign, "without a spreadsheet", "Save As"},
		{"secret.xlsx", protected, refusal.Unready, "protected with a password", "remove the password"},
		{"scan.pdf", "%PDF-1.7\n", refusal.Foreign, "a PDF", ".xlsx"},
		{"photo.csv", "\x89PNG\r\n\x1a\n", refusal.Foreign, "a picture", ".xlsx"},
		{"noise.csv", "a,b\x00\x01\x02\n", refusal.Foreign, "neither a spreadsheet nor text", ".csv"},
		{"list.xml", `<?xml version="1.0"?><Workbook xmlns="urn:schemas-microsoft-com:office:spreadsheet">`, refusal.Foreign, "XML spreadsheet format of 2003", "Save As"},
		{"page.mht", "MIME-Version: 1.0\n", refusal.Foreign, "web archive", "Save As"},
		{"cut.xlsx", "PK\x03\x04 and then nothing", refusal.Damaged, "is damaged", "repair"},
		{"page.xls", "<html><body>no table</body></html>", refusal.Invalid, "holds no rows", "save it again"},
	} {
		_, err := sheet.Read(context.Background(), test.name, []byte(test.data))
		var refused *refusal.Error
		require.ErrorAs(t, err, &refused, test.name)
		assert.Equal(t, test.kind, refused.Kind, test.name)
		assert.Contains(t, refused.Says, test.name)
		assert.Contains(t, refused.Says, test.says, test.name)
		assert.Contains(t, refused.Next, test.next, test.name)
	}
}

func TestHugeTextIsRefused(t *testing.T) {
	for name, data := range map[string]string{
		"bytes": strings.Repeat("x", 65<<20),
		"cells": strings.Repeat(strings.Repeat(",", 999)+"x\n", 4_100),
		"rows":  strings.Repeat("\n", 1_048_577) + "x",
	} {
		_, err := sheet.Read(context.Background(), "huge.csv", []byte(data))
		require.Error(t, err, name)
		assert.Contains(t, err.Error(), "too large", name)
	}
}

func TestLineOfSeparatorsOnlyEndsAtTheWidestSheet(t *testing.T) {
	table, _ := read(t, "wide.csv", strings.Repeat("x,", 20_000)+"\n1,2\n")
	assert.Len(t, table.Rows[0].Cells, 16_384)
	assert.Equal(t, []string{"1", "2"}, texts(table.Rows[1]))
}

func TestReadStopsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := sheet.Read(ctx, "list.csv", []byte("a,b\n1,2\n"))
	assert.ErrorIs(t, err, context.Canceled)
}
