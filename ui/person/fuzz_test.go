package person

import "testing"

// FuzzCoordinates: a place is on the earth, or refused.
func FuzzCoordinates(f *testing.F) {
	for _, text := range []string{"36.5210, -40.5020", "36 31.26 N, 40 30.12 W", "", "91, 0", "NaN, NaN"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if lat, lon, err := coordinates(text); err == nil && !(lat >= -90 && lat <= 90 && lon >= -180 && lon <= 180) {
			t.Errorf("%q is no place: %v, %v", text, lat, lon)
		}
	})
}
