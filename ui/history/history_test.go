package history_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/history"
	"lungwort/ui/uitest"
)

// fact happened so many hours before now and was recorded at once.
func fact(id inventory.FactID, hours float64, s inventory.Statement) inventory.Fact {
	at := uitest.Now.Add(-time.Duration(hours * float64(time.Hour)))
	return inventory.Fact{ID: id, Happened: at, Recorded: at.UTC(), By: "Esk", Source: inventory.Paper, Item: "e", Statement: s}
}

func TestRowsSayWhenWhatByWhomAndRecordedWhen(t *testing.T) {
	late := fact(3, 50, &inventory.Observed{Gauge: new(gas.PSI(900))})
	late.Recorded = uitest.Now.Add(-time.Hour).UTC()
	rows := history.Rows([]inventory.Fact{
		fact(1, 80, &inventory.Enrolled{Spec: inventory.Spec{Kind: inventory.Oximeter}}),
		fact(2, 1, &delivery.Called{}),
		late,
	}, uitest.Now, func(f inventory.Fact) string {
		if f.ID == 3 {
			return "E-1"
		}
		return ""
	})
	require.Len(t, rows, 3)
	assert.Equal(t, history.Row{
		ID: "2", When: "15:20", Age: "1 h ago", Words: "called, no answer", By: "Esk", Detail: "fact 2 by Esk, paper", Fact: rows[0].Fact,
	}, rows[0])
	assert.Equal(t, "E-1: gauge 900 psi", rows[1].Words)
	assert.Equal(t, "fact 3 by Esk, paper, recorded 15:20", rows[1].Detail, "recorded in the clock of the wall")
	assert.True(t, rows[1].MayGo())
	assert.False(t, rows[2].MayGo(), "the page rests on it")
}

func TestViewTellsTheFactInHandInFull(t *testing.T) {
	d := uitest.NewEmpty(t)
	v := history.NewView()
	win := uitest.Show(t, screen{v})
	_ = d
	v.SetRows(history.Rows([]inventory.Fact{
		fact(1, 5, &inventory.Benched{}), fact(2, 3, &inventory.Tested{Passed: true}),
	}, uitest.Now, func(inventory.Fact) string { return "" }))
	row, ok := v.InHand()
	require.True(t, ok)
	assert.Equal(t, "passed its test", row.Words)
	v.Rows.Take("1")
	row, _ = v.InHand()
	assert.Equal(t, "put on the bench", row.Words)
	uitest.Shoot(t, win, "history")
	v.SetRows(nil)
	_, ok = v.InHand()
	assert.False(t, ok)
}
