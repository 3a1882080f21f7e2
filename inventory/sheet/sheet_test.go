package sheet_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"lungwort/inventory/sheet"
)

// Spreadsheet programs write long numbers as one digit, decimals, and an
// exponent with its sign. Serials with an E in them look otherwise (edge case
// 34 of the job): those stay what they are.
func TestShortened(t *testing.T) {
	for text, want := range map[string]bool{
		"9.01E+09": true, "9,01E+09": true, "1E+15": true, "-2.5E-07": true,
		"100E10": false, "0503E000": false, "123E4": false, "E-20117": false, "9010000417": false, "": false,
	} {
		assert.Equal(t, want, cell(text).Shortened(), text)
	}
}

func TestCellBeyondTheRowIsBlank(t *testing.T) {
	row := sheet.Row{Cells: cells("a", "b")}
	assert.Equal(t, "b", row.Cell(1).Text)
	assert.True(t, row.Cell(2).Blank())
	assert.True(t, row.Cell(-1).Blank())
}
