package scene_test

import (
	"testing"

	"pgregory.net/rapid"

	"lungwort/labels/scene"
)

func TestMonthChart(t *testing.T) {
	d := scene.MonthData{Unit: "percent, 95 % band", Percent: true}
	for i, v := range []float64{62, 71, 0, 80, 88} {
		d.Months = append(d.Months, scene.MonthBar{
			Month: now.AddDate(0, i-4, 0), Value: v, Low: max(0, v-14), High: min(100, v+9), Cases: 30 * i, Known: i != 2, Few: i == 0,
		})
	}
	s := scene.MonthChart(d, 560, 180)
	look(t, "monthchart", s)
	golden(t, "monthchart", s)
	wantInside(t, "monthchart", s)
}

func TestAnyMonthChartStaysInside(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		d := scene.MonthData{Unit: "hours, half and tail"}
		for i := range rapid.IntRange(0, 30).Draw(r, "months") {
			low := rapid.Float64Range(0, 5000).Draw(r, "low")
			high := low + rapid.Float64Range(0, 5000).Draw(r, "wide")
			d.Months = append(d.Months, scene.MonthBar{Month: now.AddDate(0, i, 0), Low: low, Value: low, High: high, Cases: i, Known: rapid.Bool().Draw(r, "known")})
		}
		wantInside(t, "any", scene.MonthChart(d, rapid.Float64Range(100, 900).Draw(r, "w"), rapid.Float64Range(60, 400).Draw(r, "h")))
	})
}
