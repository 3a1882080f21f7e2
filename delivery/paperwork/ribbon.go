// Package paperwork fills the pages of labels/paper, the pictures of
// labels/scene and the sheets of inventory/sheet from what the book says of
// persons, runs and items. It decides nothing: what a page says was decided
// before.
package paperwork

import (
	"time"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/labels/scene"
)

// Ribbon returns the picture of a home's clock for a row of the watch list.
func Ribbon(w delivery.Watch, now time.Time, horizon time.Duration) scene.RibbonData {
	f := w.Forecast
	r := scene.RibbonData{
		Now: now, Horizon: horizon,
		Low: f.Low, Mid: f.Mid, High: f.High,
		Hollow:   w.Home.Source == depletion.OnConcentrator,
		CoverLow: f.CoverLow, CoverMid: f.CoverMid, CoverHigh: f.CoverHigh,
		ActBy:   f.ActBy,
		Unknown: w.Verdict == depletion.Unknown,
	}
	if !w.Visit.IsZero() {
		r.Visits = []time.Time{w.Visit}
	}
	for _, cut := range w.Cuts {
		r.Outages = append(r.Outages, scene.Span{From: cut.From, To: cut.Until})
	}
	return r
}
