package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

func TestTimelineShowsCorrectedFactsAsSuch(t *testing.T) {
	gauge := func(psi float64) *inventory.Observed { return &inventory.Observed{Gauge: new(gas.PSI(psi))} }
	list := delivery.Timeline([]inventory.Fact{
		{ID: 1, Happened: told, Statement: gauge(140)},
		{ID: 2, Happened: told.Add(time.Hour), Statement: &inventory.Benched{}},
		{ID: 3, Happened: told, By: "desk", Corrects: 1, Statement: &inventory.Retracted{Why: "a zero was lost"}},
		{ID: 4, Happened: told.Add(time.Minute), Statement: gauge(900)},
		{ID: 5, Happened: told.Add(time.Minute), Corrects: 4, Statement: gauge(1900)},
	})
	require.Len(t, list, 4)
	var got []string
	for _, e := range list {
		got = append(got, e.Words+" | "+e.Corrected)
	}
	assert.Equal(t, []string{
		"put on the bench | ",
		"gauge 1,900 psi | ",
		"gauge 900 psi | corrected by fact 5: gauge 1,900 psi",
		"gauge 140 psi | taken back by desk: a zero was lost",
	}, got)
}
