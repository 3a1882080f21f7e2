package sheet

import (
	"archive/zip"
	"bytes"
	"fmt"
	"slices"
	"sort"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"lungwort/inventory/refusal"
)

// looks are the styles of one workbook given out.
type looks struct {
	title, asOf, heading int
	kinds                [6]int
}

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

func newLooks(f *excelize.File) (looks, error) {
	var l looks
	var err error
	style := func(s excelize.Style) int {
		id, failed := f.NewStyle(&s)
		if failed != nil {
			err = failed
		}
		return id
	}
	pattern := func(code string) excelize.Style {
		return excelize.Style{CustomNumFmt: &code, Alignment: &excelize.Alignment{Vertical: "top"}}
	}
	top := &excelize.Alignment{Vertical: "top", WrapText: true}
	l.title = style(excelize.Style{Font: &excelize.Font{Bold: true, Size: 14}})
	l.asOf = style(excelize.Style{Font: &excelize.Font{Italic: true}})
	l.heading = style(excelize.Style{
		Font:      &excelize.Font{Bold: true},
		Alignment: &excelize.Alignment{Vertical: "bottom", WrapText: true},
		Border:    []excelize.Border{{Type: "bottom", Style: 2, Color: "000000"}},
	})
	l.kinds[Text] = style(excelize.Style{NumFmt: 49, Alignment: top})
	l.kinds[Number] = style(excelize.Style{Alignment: &excelize.Alignment{Vertical: "top"}})
	l.kinds[Whole] = style(pattern("0"))
	l.kinds[Day] = style(pattern("yyyy-mm-dd"))
	l.kinds[Time] = style(pattern("yyyy-mm-dd hh:mm"))
	l.kinds[Duration] = style(pattern("[h]:mm"))
	return l, err
}

// encode writes one sheet. What the sheet as a whole looks like has to be
// set before its rows are streamed.
func (o Out) encode(f *excelize.File, look looks) error {
	if len(o.Rows)+len(o.preamble())+1 > maxRows {
		return o.tooLong()
	}
	headingRow := len(o.preamble()) + 1
	if err := o.setUp(f, headingRow); err != nil {
		return err
	}
	w, err := f.NewStreamWriter(o.Name)
	if err != nil {
		return err
	}
	if err := w.SetPanes(&excelize.Panes{Freeze: true, YSplit: headingRow, TopLeftCell: fmt.Sprintf("A%d", headingRow+1), ActivePane: "bottomLeft",
		Selection: []excelize.Selection{{SQRef: fmt.Sprintf("A%d", headingRow+1), ActiveCell: fmt.Sprintf("A%d", headingRow+1), Pane: "bottomLeft"}}}); err != nil {
		return err
	}
	for i, c := range o.Columns {
		if err := w.SetColWidth(i+1, i+1, c.width()); err != nil {
			return err
		}
	}
	if err := o.streamHead(w, look); err != nil {
		return err
	}
	if err := o.streamRows(w, look, headingRow+1); err != nil {
		return err
	}
	return w.Flush()
}

// setUp prepares filter and printing: landscape, one page wide, headings and
// page numbers on every page.
func (o Out) setUp(f *excelize.File, headingRow int) error {
	landscape, wide, tall, fit := "landscape", 1, 0, true
	if err := f.SetPageLayout(o.Name, &excelize.PageLayoutOptions{Orientation: &landscape, FitToWidth: &wide, FitToHeight: &tall}); err != nil {
		return err
	}
	if err := f.SetSheetProps(o.Name, &excelize.SheetPropsOptions{FitToPage: &fit}); err != nil {
		return err
	}
	if err := f.SetHeaderFooter(o.Name, &excelize.HeaderFooterOptions{OddFooter: "&L&A&R&P / &N"}); err != nil {
		return err
	}
	quoted := "'" + strings.ReplaceAll(o.Name, "'", "''") + "'"
	if err := f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: fmt.Sprintf("%s!$%d:$%d", quoted, headingRow, headingRow), Scope: o.Name}); err != nil {
		return err
	}
	if len(o.Columns) == 0 {
		return nil
	}
	last, err := excelize.CoordinatesToCellName(len(o.Columns), headingRow+len(o.Rows))
	if err != nil {
		return err
	}
	return f.AutoFilter(o.Name, fmt.Sprintf("A%d:%s", headingRow, last), nil)
}

func (o Out) streamHead(w *excelize.StreamWriter, look looks) error {
	lines := o.preamble()
	for i, line := range lines {
		style := look.asOf
		if i == 0 && o.Title != "" {
			style = look.title
		}
		if err := w.SetRow(fmt.Sprintf("A%d", i+1), []any{excelize.Cell{StyleID: style, Value: storable(line)}}); err != nil {
			return err
		}
	}
	headings := make([]any, len(o.Columns))
	for i, c := range o.Columns {
		headings[i] = excelize.Cell{StyleID: look.heading, Value: storable(c.Heading)}
	}
	return w.SetRow(fmt.Sprintf("A%d", len(lines)+1), headings)
}

func (o Out) streamRows(w *excelize.StreamWriter, look looks, from int) error {
	cells := make([]any, len(o.Columns))
	for i, row := range o.Rows {
		if len(row) > len(o.Columns) {
			return o.tooWide(i)
		}
		clear(cells)
		for j, value := range row {
			stored, fits := numberOf(o.Columns[j].Kind, value)
			if !fits {
				return o.mismatch(i, j, value)
			}
			style := look.kinds[o.Columns[j].Kind]
			if text, isText := stored.(string); isText {
				stored, style = storable(text), look.kinds[Text]
			}
			if stored != nil {
				cells[j] = excelize.Cell{StyleID: style, Value: stored}
			}
		}
		if err := w.SetRow(fmt.Sprintf("A%d", from+i), cells); err != nil {
			return err
		}
	}
	return nil
}

func (c Column) width() float64 {
	if c.Width > 0 {
		return min(c.Width, 255)
	}
	narrowest := [...]float64{Text: 12, Number: 9, Whole: 9, Day: 12, Time: 18, Duration: 9}[c.Kind]
	return min(max(narrowest, float64(utf8.RuneCountInString(c.Heading))+4), 40)
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

// longestText is the most characters a cell of the format holds.
const longestText = 32_767

// storable returns text the format can hold: control characters that its XML
// forbids are left out, and what is longer than a cell ends in a mark.
func storable(text string) string {
	text = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' && r != '\n' && r != '\r' || r == '\uFFFE' || r == '\uFFFF' {
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD"))
	if len(text) <= longestText {
		return text
	}
	const cut = " … (cut)"
	units := 0
	for i, r := range text {
		if units += utf16Length(r); units > longestText-len(cut) {
			return text[:i] + cut
		}
	}
	return text
}

func utf16Length(r rune) int {
	if r > 0xFFFF {
		return 2
	}
	return 1
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
