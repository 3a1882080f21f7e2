package paper_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/paper"
	"lungwort/labels/scene"
)

// Every measure stands with its figure, its definition, its months and its
// parts.
func TestMeasurePagesSayWhatEachCounts(t *testing.T) {
	months := scene.MonthData{Unit: "hours, half and tail"}
	for m := range 12 {
		months.Months = append(months.Months, scene.MonthBar{
			Month: time.Date(2026, time.Month(m+1), 1, 0, 0, 0, 0, time.UTC), Value: 5, Low: 5, High: 9, Cases: 4 + m, Known: true, Few: m < 6,
		})
	}
	sheet := paper.MeasurePages{Head: head("QIM001")}
	for range 18 {
		sheet.Measures = append(sheet.Measures, paper.MeasureBlock{
			Name: "Turnaround", Says: "half within 4.0 days, 9 of 10 within 9.5 days, 2 of 8 open", Few: true,
			Definition: "Taken back until ready to lend again; what still waits counts as longer.",
			Parts:      []string{"oximeter: half within 20 h", "concentrator: half within 4.5 days"}, Months: months,
		})
	}
	pdf, result := mustPrint(t, sheet)
	require.Greater(t, result.Pages, 1)
	words := said(t, pdf)
	for _, want := range []string{"What the programme is judged by", "2 of 8 open (few cases)", "what still waits counts as longer", "Dec ’26", "oximeter: half within 20 h", "page 1 of"} {
		assert.Contains(t, words, want)
	}
	assert.Equal(t, []string{"QIM001"}, scanned(t, pages(t, pdf, 200)[0]))
}
