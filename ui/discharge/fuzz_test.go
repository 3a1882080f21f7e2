package discharge

import (
	"testing"
	"time"
)

// FuzzFields: whatever is typed into the form is read or refused, never a panic,
// and what is read can be.
func FuzzFields(f *testing.F) {
	for _, text := range []string{"555-0120, daughter 555-0177", "36.5210, -40.5020", "36 31.26 N, 40 30.12 W", "2030-04-02", "24", "15 h", "25 min", "NaN", "1e9", "", ";", "-1"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		phones, err := readPhones(text)
		for _, p := range phones {
			if err == nil && p.Number == "" {
				t.Errorf("%q gives a phone without a number", text)
			}
		}
		if lat, lon, err := readSpot(text); err == nil && !(lat >= -90 && lat <= 90 && lon >= -180 && lon <= 180) {
			t.Errorf("%q is no place: %v, %v", text, lat, lon)
		}
		if day, err := readDay(text, time.UTC); err == nil && day.Hour() != 0 {
			t.Errorf("%q is no day: %v", text, day)
		}
		if h, err := readHours(text); err == nil && !(h > 0 && h <= 24) {
			t.Errorf("%q is read as %v h a day", text, h)
		}
		if d, err := readMinutes(text); err == nil && d != nil && (*d < 0 || *d > 24*time.Hour) {
			t.Errorf("%q is read as %v", text, *d)
		}
	})
}
