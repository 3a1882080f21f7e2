package sheet

import (
	"archive/zip"
	"bytes"
	"fmt"
	"slices"
	"sort"
	"strings"

	"github.com/xuri/excelize/v2"

	"lungwort/inventory/refusal"
)

func encodeWorkbook(sheets []Out) ([]byte, error) {
	sheets, err := named(slices.Concat(sheets, about(sheets)))
	if err != nil {
		return nil, err
	}
	f := excelize.NewFile()
	defer f.Close()
	look, err := newLooks(f)
	if err != nil {
		return nil, unencoded(err)
	}
	for i, o := range sheets {
		if i == 0 {
			err = f.SetSheetName("Sheet1", o.Name)
		} else {
			_, err = f.NewSheet(o.Name)
		}
		if err == nil {
			err = o.encode(f, look)
		}
		if err != nil {
			return nil, unencoded(err)
		}
	}
	if err := f.SetDocProps(&excelize.DocProperties{Creator: "Lungwort", Created: "2000-01-01T00:00:00Z", Modified: "2000-01-01T00:00:00Z"}); err != nil {
		return nil, unencoded(err)
	}
	packed, err := f.WriteToBuffer()
	if err != nil {
		return nil, unencoded(err)
	}
	return inOrder(packed.Bytes())
}

// about gathers the notes of all sheets on one of their own, where they are
// in nobody's way when the table is sorted or filtered.
func about(sheets []Out) []Out {
	o := Out{Name: aboutSheet, Columns: []Column{{Heading: "Sheet", Width: 20}, {Heading: "Column", Width: 24}, {Heading: "What it says", Width: 90}}}
	for _, s := range sheets {
		for _, note := range s.Notes {
			o.Rows = append(o.Rows, []any{s.Name, nil, note})
		}
		for _, c := range s.Columns {
			if c.Note != "" {
				o.Rows = append(o.Rows, []any{s.Name, c.Heading, c.Note})
			}
		}
	}
	if len(o.Rows) == 0 {
		return nil
	}
	return []Out{o}
}

// named gives every sheet a name the format allows, and none to two of them.
func named(sheets []Out) ([]Out, error) {
	const longest = 31
	taken := map[string]bool{}
	for i := range sheets {
		name := strings.Trim(strings.Map(func(r rune) rune {
			if strings.ContainsRune(`:\/?*[]`, r) || r < ' ' {
				return '-'
			}
			return r
		}, sheets[i].Name), "' ")
		if letters := []rune(name); len(letters) > longest {
			name = string(letters[:longest])
		}
		if name == "" || taken[strings.ToLower(name)] {
			return nil, refusal.New(refusal.Internal, fmt.Sprintf("Sheet %d could not be named.", i+1), "")
		}
		taken[strings.ToLower(name)], sheets[i].Name = true, name
	}
	return sheets, nil
}

// inOrder packs the parts anew in the order of their names and without times,
// so that the same sheets give the same bytes.
func inOrder(packed []byte) ([]byte, error) {
	archive, err := zip.NewReader(bytes.NewReader(packed), int64(len(packed)))
	if err != nil {
		return nil, unencoded(err)
	}
	files := archive.File
	sort.Slice(files, func(i, j int) bool { return files[i].Name < files[j].Name })
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, f := range files {
		if err := w.Copy(f); err != nil {
			return nil, unencoded(err)
		}
	}
	if err := w.Close(); err != nil {
		return nil, unencoded(err)
	}
	return b.Bytes(), nil
}

func unencoded(err error) error {
	if refusal.KindOf(err) != refusal.Internal {
		return err
	}
	return refusal.New(refusal.Internal, "The spreadsheet could not be put together.", "").Because(err)
}
