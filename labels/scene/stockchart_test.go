package scene_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"lungwort/labels/scene"
)

func fortnight(start, fall float64) scene.StockData {
	d := scene.StockData{Now: now, Ready: int(start), Limit: 0.05}
	for i := range 14 {
		mid := start - fall*float64(i)
		wide := 1.5 * math.Sqrt(float64(i+1)*3)
		d.Days = append(d.Days, scene.StockDay{
			Day: now.AddDate(0, 0, i), Low: math.Floor(mid - wide), Mid: mid, High: math.Ceil(mid + wide), Short: min(1, float64(i)*fall/40),
		})
	}
	return d
}

func TestStockChart(t *testing.T) {
	for name, data := range map[string]scene.StockData{"stockchart": fortnight(14, 1.3), "stockchart-holds": fortnight(20, 0)} {
		s := scene.StockChart(data, 620, 240)
		look(t, name, s)
		golden(t, name, s)
		wantInside(t, name, s)
	}
}

// Where next to nothing is there the steps are whole things still, and their
// words stay inside.
func TestAStockChartOfNextToNothing(t *testing.T) {
	d := scene.StockData{Now: now, Limit: 0.05, Days: []scene.StockDay{{Day: now, Low: -0.3, Mid: 0, High: 0.2}}}
	s := scene.StockChart(d, 220, 200)
	wantInside(t, "next to nothing", s)
	for _, sh := range s.Shapes {
		if w, is := sh.(scene.Words); is {
			assert.NotContains(t, w.Text, ".5")
		}
	}
}

// Whatever the days say, nothing is drawn outside the picture.
func TestAnyStockChartStaysInside(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		d := scene.StockData{Now: now, Ready: rapid.IntRange(0, 5000).Draw(r, "ready"), Limit: 0.05}
		for i := range rapid.IntRange(0, 14).Draw(r, "days") {
			low := rapid.Float64Range(-3000, 3000).Draw(r, "low")
			high := low + rapid.Float64Range(0, 500).Draw(r, "wide")
			d.Days = append(d.Days, scene.StockDay{Day: now.Add(time.Duration(i) * 24 * time.Hour), Low: low, Mid: (low + high) / 2, High: high, Short: rapid.Float64Range(0, 1).Draw(r, "short")})
		}
		wantInside(t, "any", scene.StockChart(d, rapid.Float64Range(100, 900).Draw(r, "w"), rapid.Float64Range(100, 500).Draw(r, "h")))
	})
}
