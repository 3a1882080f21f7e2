package sheet

import (
	"context"
	"encoding/csv"
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"lungwort/inventory/refusal"
)

// FuzzFields compares the splitting of text that the standard library reads
// without complaint (RFC 4180) with the library's.
func FuzzFields(f *testing.F) {
	for _, seed := range []string{"a,b\n1,2\n", "\"a\",\"b\"\"c\"\n", "\"x\ny\",2\n\n3", ",\n,,", "\"\"\n", "a\r\nb\r\n", "\" x\""} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if strings.Contains(strings.ReplaceAll(text, "\r\n", "\n"), "\r") || strings.Count(text, "\n") > maxQuotedLines {
			return // lone returns, which the library mis-splits; limits it does not have
		}
		library := csv.NewReader(strings.NewReader(text))
		library.FieldsPerRecord = -1
		want, err := library.ReadAll()
		if err != nil {
			return
		}
		var got [][]string
		for f := (&fields{text: text, delimiter: ','}); ; {
			record, more := f.next()
			if !more {
				break
			}
			if len(record) == 1 && record[0] == "" && !strings.Contains(text, `""`) {
				continue // the library leaves blank lines out
			}
			for i := range record {
				record[i] = strings.ReplaceAll(record[i], "\r\n", "\n")
			}
			got = append(got, record)
		}
		if strings.Contains(text, `""`) {
			got, want = withoutBlank(got), withoutBlank(want)
		}
		require.Equal(t, want, got, "%q", text)
	})
}

// withoutBlank drops records of one empty field: they come from blank lines
// as well as from a line with an empty pair of quotation marks.
func withoutBlank(records [][]string) [][]string {
	var kept [][]string
	for _, r := range records {
		if len(r) != 1 || r[0] != "" {
			kept = append(kept, r)
		}
	}
	return kept
}

func FuzzReadCSV(f *testing.F) {
	for _, seed := range []string{"a,b\n1,2\n", "sep=;\na;b", "\xff\xfea\x00,\x00b\x00", "<table><tr><td>a", "<html><table><tr><td colspan=9>a<td>b</table>",
		"\"a\nb", "caf\xe9,b", "PK\x03\x04", "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "a\tb\rc\td", "'=1,\"'+2\"", "\xef\xbb\xbf\"a\""} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		tables, err := Read(context.Background(), "fuzz.csv", data)
		if err != nil {
			var refused *refusal.Error
			require.True(t, errors.As(err, &refused), "%v", err)
			require.NotEqual(t, refusal.Internal, refused.Kind)
			return
		}
		require.NotEmpty(t, tables)
		for _, table := range tables {
			last := 0
			require.NotEmpty(t, table.Rows)
			for _, r := range table.Rows {
				require.Greater(t, r.Number, last)
				last = r.Number
				require.False(t, r.Cells[len(r.Cells)-1].Blank())
				for _, c := range r.Cells {
					require.Equal(t, clean(c.Text), c.Text, "clean text stays as it is")
					require.True(t, utf8.ValidString(c.Text))
				}
			}
		}
	})
}
