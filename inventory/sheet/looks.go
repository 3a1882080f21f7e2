package sheet

import "github.com/xuri/excelize/v2"

// looks are the styles of one workbook given out.
type looks struct {
	title, asOf           int
	heading, headingRight int // over text, over numbers
	kinds                 [6]int
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
	// Text stands away from the number that ends beside it.
	const apart = 1
	top := &excelize.Alignment{Vertical: "top", WrapText: true, Horizontal: "left", Indent: apart}
	l.title = style(excelize.Style{Font: &excelize.Font{Bold: true, Size: 14}})
	l.asOf = style(excelize.Style{Font: &excelize.Font{Italic: true}})
	heading := func(side string, indent int) int {
		return style(excelize.Style{
			Font:      &excelize.Font{Bold: true},
			Alignment: &excelize.Alignment{Vertical: "bottom", WrapText: true, Horizontal: side, Indent: indent},
			Border:    []excelize.Border{{Type: "bottom", Style: 2, Color: "000000"}},
		})
	}
	l.heading, l.headingRight = heading("left", apart), heading("right", 0)
	l.kinds[Text] = style(excelize.Style{NumFmt: 49, Alignment: top})
	l.kinds[Number] = style(excelize.Style{Alignment: &excelize.Alignment{Vertical: "top"}})
	l.kinds[Whole] = style(pattern("0"))
	l.kinds[Day] = style(pattern("yyyy-mm-dd"))
	l.kinds[Time] = style(pattern("yyyy-mm-dd hh:mm"))
	l.kinds[Duration] = style(pattern("[h]:mm"))
	return l, err
}
