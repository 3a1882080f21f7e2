package paper_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/labels/paper"
	"lungwort/labels/scene"
)

func TestGasSheetHasPictureAndTable(t *testing.T) {
	dry := func(h int) time.Time { return at(18+h, 0) }
	pdf, result := mustPrint(t, paper.GasSheet{
		Head: head(""), Name: "Achterberg, Ines", Verdict: scene.Tight, Says: "gas until 20:00 at the least",
		Do: []string{"Bring 1 E before 20:00"},
		Chart: scene.ChartData{
			From: at(12, 0), Now: at(17, 0), To: at(26, 0), Full: 680, Reserve: 64, ActBy: dry(2),
			Readings: []scene.ChartReading{{At: at(13, 0), Litres: 640, Key: "1"}, {At: at(16, 30), Litres: 300, Told: true, Key: "2"}},
			Forecast: []scene.ChartForecast{{At: at(16, 30), Low: 300, Mid: 300, High: 300}, {At: dry(2), Mid: 80, High: 120}, {At: dry(5)}},
			Visits:   []scene.ChartVisit{{At: dry(1), Says: "van 1"}},
		},
	})
	assert.Equal(t, 1, result.Pages)
	side := text(t, pdf)
	for _, says := range []string{"Achterberg, Ines", "tight: gas until", "Bring 1 E", "640 L", "told", "0, 80, 120 L", "act by", "visit: van 1", "Emergency"} {
		assert.Contains(t, side, says)
	}
}
