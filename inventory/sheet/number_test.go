package sheet_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/sheet"
)

func cell(text string) sheet.Cell { return sheet.Cell{Text: text, Raw: text} }

func TestParseNumber(t *testing.T) {
	for _, test := range []struct {
		text  string
		want  float64
		words string
	}{
		{"1204", 1204, ""},
		{"1204.5", 1204.5, ""},
		{"1 204", 1204, ""},
		{"18'099", 18099, ""},
		{"1,204.5", 1204.5, ""},
		{"1.204,5", 1204.5, ""},
		{"1,204,500", 1204500, ""},
		{"1.204.500", 1204500, ""},
		{"2,5", 2.5, ""},
		{"0,125", 0.125, ""},
		{".5", 0.5, ""},
		{"-10", -10, ""},
		{"2000psi", 2000, "psi"},
		{"140 bar", 140, "bar"},
		{"kPa 13800", 13800, "kPa"},
		{"2 LPM", 2, "LPM"},
		{"95%", 95, "%"},
	} {
		value, words, found, err := sheet.ParseNumber(cell(test.text))
		if assert.NoError(t, err, test.text) {
			assert.True(t, found, test.text)
			assert.Equal(t, test.want, value, test.text)
			assert.Equal(t, test.words, words, test.text)
		}
	}
}

func TestParseNumberDoubts(t *testing.T) {
	for text, candidates := range map[string][]string{
		"1,204":      {"1204", "1.204"},
		"2000, 1900": nil,
		"2-4":        nil,
		"1/4":        nil,
		"2,1 204":    nil,
		"?":          nil,
		"full":       nil,
		"O":          nil,
		"PRN":        nil,
		"9.01E+09":   nil,
		"9,01E+09":   nil,
		"100E10":     nil,
	} {
		_, _, found, err := sheet.ParseNumber(cell(text))
		var doubt *sheet.Doubt
		require.ErrorAs(t, err, &doubt, text)
		assert.False(t, found, text)
		assert.Equal(t, candidates, doubt.Candidates, text)
		assert.NotEmpty(t, doubt.Asks, text)
	}
}

func TestParseNumberKnowsBlankFromZero(t *testing.T) {
	_, _, found, err := sheet.ParseNumber(sheet.Cell{})
	require.NoError(t, err)
	assert.False(t, found)
	value, _, found, err := sheet.ParseNumber(cell("0"))
	require.NoError(t, err)
	assert.True(t, found)
	assert.Zero(t, value)
}

func TestParseNumberTakesWhatTheCellHoldsOverWhatItShows(t *testing.T) {
	value, _, _, err := sheet.ParseNumber(sheet.Cell{Text: "1,204", Raw: "1204.25"})
	require.NoError(t, err)
	assert.Equal(t, 1204.25, value)
}
