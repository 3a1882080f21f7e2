package quillet

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/outline"
)

// TestIslesAreDry: every home, depot, ward and plant of the isles stands on
// land of the outline, and so does every bend of a road.
func TestIslesAreDry(t *testing.T) {
	s := At(time.Date(2026, time.November, 24, 16, 20, 0, 0, isles))
	o, err := s.Outline()
	require.NoError(t, err)
	require.NotEmpty(t, o.Land)
	for _, name := range []string{"people.csv", "ward.csv"} {
		body, err := files.ReadFile(name)
		require.NoError(t, err)
		rows, err := csv.NewReader(bytes.NewReader(body)).ReadAll()
		require.NoError(t, err)
		column := map[string]int{}
		for i, title := range rows[0] {
			column[title] = i
		}
		for _, row := range rows[1:] {
			lat, err1 := strconv.ParseFloat(row[column["Latitude"]], 64)
			lon, err2 := strconv.ParseFloat(row[column["Longitude"]], 64)
			if err1 != nil || err2 != nil {
				continue // a row that has to be asked about
			}
			assert.True(t, o.Dry(outline.Position{Lat: lat, Lon: lon}), "%s stands in the sea", row[column["Street"]])
		}
	}
	p, err := s.Places()
	require.NoError(t, err)
	for _, sites := range [][]delivery.Site{p.Depots, p.Wards, p.Plants, {p.Hospital}} {
		for _, site := range sites {
			assert.True(t, o.Dry(outline.Position{Lat: site.Point.Lat, Lon: site.Point.Lon}), "%s stands in the sea", site.Title)
		}
	}
	for _, road := range o.Roads {
		for _, at := range road {
			assert.True(t, o.Dry(at), "a road runs through water at %v", at)
		}
	}
}
