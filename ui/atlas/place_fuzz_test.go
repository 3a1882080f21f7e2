package atlas

import (
	"testing"

	"lungwort/delivery"
	"lungwort/delivery/gazetteer"
)

// FuzzWritten: what is written for a place is a point on the earth, the number
// of one that may be meant, or refused.
func FuzzWritten(f *testing.F) {
	for _, text := range []string{"2", "0", "-1", "36.5, -40.5", "36° 30.72' N, 40° 31.26' W", "99999999999999999999", ""} {
		f.Add(text)
	}
	choice := delivery.PlaceChoice{Matches: []gazetteer.Match{
		{Place: gazetteer.Place{Name: "Gull Row", Lat: 36.61, Lon: -40.31}}, {Place: gazetteer.Place{Name: "Gull Row", Lat: 36.51, Lon: -40.52}},
	}}
	f.Fuzz(func(t *testing.T, text string) {
		at, by, err := written(text, choice)
		if err == nil && (by == "" || !(at.Lat >= -90 && at.Lat <= 90 && at.Lon >= -180 && at.Lon <= 180)) {
			t.Fatalf("%q gives %v by %q", text, at, by)
		}
	})
}
