package sheet

import (
	"fmt"

	"github.com/xuri/excelize/v2"
)

// The limits within which a pattern is rendered; a spreadsheet program keeps
// to the first itself.
const (
	longestPattern = 255
	mostPatterns   = 500
)

// scratch is a workbook in memory whose cells A1, A2 … have one pattern each.
// A number put there comes back as the spreadsheet library shows it.
type scratch struct {
	file *excelize.File
	cell map[string]string // of a pattern
}

// rendered shows the number by the pattern. A pattern comes from somebody
// else's file, so that a panic over it is an error like any other.
func (s *scratch) rendered(code, value string) (text string, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("pattern %q: %v", code, r)
		}
	}()
	const sheet = "Sheet1"
	if s.file == nil {
		s.file, s.cell = excelize.NewFile(), map[string]string{}
	}
	cell, known := s.cell[code]
	if !known {
		if len(code) > longestPattern || len(s.cell) >= mostPatterns {
			return "", fmt.Errorf("pattern %.40q is beyond the limits", code)
		}
		style, err := s.file.NewStyle(&excelize.Style{CustomNumFmt: &code})
		if err != nil {
			return "", err
		}
		cell = fmt.Sprintf("A%d", len(s.cell)+1)
		if err := s.file.SetCellStyle(sheet, cell, cell, style); err != nil {
			return "", err
		}
		s.cell[code] = cell
	}
	if err := s.file.SetCellDefault(sheet, cell, value); err != nil {
		return "", err
	}
	return s.file.GetCellValue(sheet, cell)
}

func (s *scratch) close() {
	if s.file != nil {
		s.file.Close()
	}
}
