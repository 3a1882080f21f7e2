package sheet

import (
	"encoding/xml"
	"fmt"
	"strings"

	"lungwort/inventory/refusal"
)

// workbook is what all sheets of one file share.
type workbook struct {
	*parts
	date1904 bool
	texts    []sharedText
	formats  *formats
	budget   cellBudget
}

// The parts of the xlsx format (ECMA-376, part 1, section 18.2) that are read.
type (
	xmlWorkbook struct {
		Properties struct {
			Date1904 string `xml:"date1904,attr"`
		} `xml:"workbookPr"`
		Sheets []xmlSheet `xml:"sheets>sheet"`
	}
	xmlSheet struct {
		Name  string     `xml:"name,attr"`
		State string     `xml:"state,attr"`
		Attrs []xml.Attr `xml:",any,attr"`
	}
	xmlRelations struct {
		Relations []struct {
			ID     string `xml:"Id,attr"`
			Type   string `xml:"Type,attr"`
			Target string `xml:"Target,attr"`
		} `xml:"Relationship"`
	}
)

func readWorkbook(p *parts) ([]Table, error) {
	name := p.file
	var err error
	var description xmlWorkbook
	var relations xmlRelations
	if err := p.decode("xl/workbook.xml", &description); err != nil {
		return nil, err
	}
	if err := p.decode("xl/_rels/workbook.xml.rels", &relations); err != nil {
		return nil, err
	}
	w := &workbook{parts: p, date1904: isTrue(description.Properties.Date1904), budget: cellBudget{file: name}}
	if w.texts, err = readStrings(p); err != nil {
		return nil, err
	}
	if w.formats, err = readFormats(p); err != nil {
		return nil, err
	}
	defer w.formats.close()
	var tables []Table
	for _, s := range description.Sheets {
		part, ok := relations.worksheet(s.relation())
		if !ok {
			continue // a chart or dialog sheet holds no cells
		}
		t, err := w.table(s, part)
		if err != nil {
			return nil, err
		}
		tables = append(tables, t)
	}
	if len(tables) == 0 {
		return nil, refusal.New(refusal.Damaged, fmt.Sprintf("%q holds no sheet with cells.", name),
			"Open it in the spreadsheet program, check that the list is there, and save it again.")
	}
	return tables, nil
}

func (w *workbook) table(s xmlSheet, part string) (Table, error) {
	t := Table{Name: s.Name, File: w.file, Date1904: w.date1904, Hidden: s.State == "hidden" || s.State == "veryHidden"}
	if t.Hidden {
		t.Notes = append(t.Notes, fmt.Sprintf("Sheet %q is hidden in the workbook; it was read all the same.", s.Name))
	}
	if w.byName["xl/vbaproject.bin"] != nil {
		t.Notes = append(t.Notes, "The workbook has macros; they were ignored.")
	}
	r, err := w.open(part)
	if err != nil {
		return t, err
	}
	if r == nil {
		return t, damaged(w.file, fmt.Errorf("part %s is missing", part))
	}
	defer r.Close()
	ws := &worksheet{workbook: w, table: &t}
	if err := ws.read(r); err != nil {
		return t, err
	}
	ws.report()
	return t, nil
}

func (s xmlSheet) relation() string {
	for _, a := range s.Attrs {
		if a.Name.Local == "id" {
			return a.Value
		}
	}
	return ""
}

func (r xmlRelations) worksheet(id string) (part string, ok bool) {
	for _, relation := range r.Relations {
		if relation.ID == id && strings.HasSuffix(relation.Type, "/worksheet") {
			return partPath(relation.Target), true
		}
	}
	return "", false
}

func isTrue(attribute string) bool { return attribute == "1" || attribute == "true" }
