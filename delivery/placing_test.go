package delivery_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
)

// A minute of arc is a sixtieth of a degree, a second a sixtieth of a minute
// (ISO 6709).
func TestReadPoint(t *testing.T) {
	for text, want := range map[string]delivery.Point{
		"36.512, -40.521":            {Lat: 36.512, Lon: -40.521},
		"36.512 N, 40.521 W":         {Lat: 36.512, Lon: -40.521},
		"36° 30.72' N, 40° 31.26' W": {Lat: 36.512, Lon: -40.521},
		"n36 30 43.2, w40 31 15.6":   {Lat: 36.512, Lon: -40.521},
		"36°30′43.2″S, 40°31′15.6″E": {Lat: -36.512, Lon: 40.521},
		"-0° 30', -0° 15'":           {Lat: -0.5, Lon: -0.25},
	} {
		p, err := delivery.ReadPoint(text)
		require.NoError(t, err, text)
		assert.InDelta(t, want.Lat, p.Lat, 1e-9, text)
		assert.InDelta(t, want.Lon, p.Lon, 1e-9, text)
	}
	for _, text := range []string{"", "36.5", "36,512, -40,521", "91, 0", "0, 181", "40 E, 36 N", "36 61, 40 0", "-36 S, 40 E", "36.5 30, 40", "N36N, 40", "NaN, 1"} {
		_, err := delivery.ReadPoint(text)
		assert.Error(t, err, "%q", text)
	}
}

func FuzzReadPoint(f *testing.F) {
	f.Add("36° 30.72' N, 40° 31.26' W")
	f.Add("36.512, -40.521")
	f.Fuzz(func(t *testing.T, text string) {
		if p, err := delivery.ReadPoint(text); err == nil {
			assert.True(t, p.Lat >= -90 && p.Lat <= 90 && p.Lon >= -180 && p.Lon <= 180, "%q", text)
		}
	})
}
