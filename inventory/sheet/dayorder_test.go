package sheet_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"lungwort/inventory/sheet"
)

func cells(texts ...string) []sheet.Cell {
	all := make([]sheet.Cell, len(texts))
	for i, text := range texts {
		all[i] = cell(text)
	}
	return all
}

func TestJudgeDayOrder(t *testing.T) {
	for _, test := range []struct {
		name        string
		dates       []sheet.Cell
		want        sheet.DayOrder
		contradicts bool
	}{
		{"one day past twelve proves it", cells("3/4/25", "17/3/25"), sheet.DayFirst, false},
		{"the other way", cells("3/4/25", "3/17/25", "2025-04-01"), sheet.MonthFirst, false},
		{"without a year too", cells("3/13", "3/4/25"), sheet.MonthFirst, false},
		{"with times", cells("3/4/25 8:00", "3/17/25 9:30"), sheet.MonthFirst, false},
		{"both", cells("3/17/25", "17/3/25", "3/4/25"), sheet.OrderUnknown, true},
		{"none", cells("3/4/25", "5/6/25"), sheet.OrderUnknown, false},
		{"nothing to decide", cells("2025-03-04", "4/4/25", "", "Fri", "45678"), sheet.OrderUnknown, false},
		{"points are not proven by slashes", cells("3/14/25", "04.03.2025"), sheet.OrderUnknown, false},
		{"points with a proof of their own", cells("3/14/25", "03.14.2025", "04.03.2025"), sheet.MonthFirst, false},
		// edge case 33 of the job: one column, five ways
		{"five ways in a column", cells("45678", "03/04/2025", "4.3.25", "Fri", ""), sheet.OrderUnknown, false},
	} {
		order, evidence := sheet.JudgeDayOrder(slices.Values(test.dates))
		assert.Equal(t, test.want, order, test.name)
		assert.Equal(t, test.contradicts, evidence.Contradicts(), test.name)
	}
}

// A spreadsheet set to month first that opens a day-first list turns 3/4/25
// into 4 March and leaves 17/3/25 as text.
func TestTurnedDatesAreNoticed(t *testing.T) {
	turned := append(cells("17/3/25", "25/3/25"),
		sheet.Cell{Text: "2025-03-04", Raw: "45720", Serial: true}, sheet.Cell{Text: "2025-05-06", Raw: "45783", Serial: true})
	order, evidence := sheet.JudgeDayOrder(slices.Values(turned))
	assert.Equal(t, sheet.DayFirst, order)
	assert.True(t, evidence.Turned)
	assert.Contains(t, evidence.String(), "turned day and month round")

	sound := append(turned, sheet.Cell{Text: "2025-03-20", Raw: "45736", Serial: true})
	_, evidence = sheet.JudgeDayOrder(slices.Values(sound))
	assert.False(t, evidence.Turned)
}

func TestEvidenceNamesExamples(t *testing.T) {
	_, evidence := sheet.JudgeDayOrder(slices.Values(cells("3/14/25", "17/3/25", "3/4/25")))
	assert.Equal(t, "Of the dates, 1 can only have the day first (17/3/25); 1 can only have the month first (3/14/25); 1 can be read both ways (3/4/25).", evidence.String())
	_, evidence = sheet.JudgeDayOrder(slices.Values([]sheet.Cell{}))
	assert.Equal(t, "No date needs to know which number is the month.", evidence.String())
}
