package scene_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/labels/scene"
)

// Everything the chart marks stands in the table, in order of time.
func TestTheTableSaysWhatTheChartShows(t *testing.T) {
	d := cylinderHome()
	var said []string
	var last time.Time
	for _, r := range d.Rows() {
		assert.False(t, r.At.Before(last), "%s stands in its order", r.What)
		last = r.At
		if r.Ink != scene.Gas {
			said = append(said, r.What+": "+r.Litres)
		}
	}
	assert.Equal(t, []string{
		"read: 460 L", "told: 210 L", "read, cylinders came or went before: 1,340 L", "told: 1,130 L", "told: 905 L",
		"power out: ", "power back, as told: ", "read: 700 L", "now: ", "act by: ", "visit: swap, run 3: ", "visit: check-in: ",
	}, said)
	assert.Len(t, d.Rows(), len(said)+len(d.Forecast))

	bridge(&d)
	for _, r := range d.Rows() {
		if r.What == "act by" || r.What == "visit: concentrator" {
			assert.Equal(t, scene.Alarm, r.Ink, r.What)
		}
	}
}

func TestTheHintOpensTheTable(t *testing.T) {
	d := cylinderHome()
	d.Hint = "+ table"
	s := scene.GasChart(d, 600, 300)
	wantInside(t, "gas chart with a hint", s)
	assert.Equal(t, scene.HintKey, s.Spots[len(s.Spots)-1].Key, "after the readings")
}
