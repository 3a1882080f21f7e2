package gazetteer

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"io"
	"maps"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var isles = Gazetteer{Places: []Place{
	{Name: "Kelp Street 22", Town: "Ness", Area: "Little", Lat: 1, Lon: 2},
	{Name: "Kelp Street", Town: "Ness", Lat: 1.1, Lon: 2},
	{Name: "Kelp Street", Town: "Saltpan", Lat: 3, Lon: 4},
	{Name: "Ness", Lat: 1.2, Lon: 2.1},
	{Name: "Saltpan", Lat: 3.1, Lon: 4.1, Postcode: "QI7 2AB"},
	{Name: "Quai Sainte-Barbe", Town: "Saltpan", Lat: 3.2, Lon: 4.2},
	{Name: "12 Harbor Ave.", Town: "Ness", Lat: 1.3, Lon: 2.2},
}}

func TestFind(t *testing.T) {
	for name, c := range map[string]struct {
		street, town, postcode string
		how                    How
		lats                   []float64
	}{
		"the house":            {"Kelp street 22", "ness", "", ByAddress, []float64{1}},
		"another number":       {"Kelp Street 7", "Ness", "", ByStreet, []float64{1.1}},
		"number first, short":  {"12 harbor avenue", "Ness", "", ByAddress, []float64{1.3}},
		"two towns":            {"Kelp Street 9", "", "", ByStreet, []float64{1.1, 3}},
		"accents and hyphens":  {"quai sainte barbe", "Saltpan", "", ByStreet, []float64{3.2}},
		"the town alone":       {"Nowhere Lane 1", "Ness", "", ByTown, []float64{1.2}},
		"a listed postcode":    {"Nowhere Lane 1", "Elsewhere", "qi7 2ab", ByPostcode, []float64{3.1}},
		"a street of the town": {"Kelp Street", "Elsewhere", "", "", nil},
		"nothing":              {"Nowhere Lane 1", "Elsewhere", "", "", nil},
		"no US code here":      {"Nowhere Lane 1", "Elsewhere", "90210", "", nil},
		"empty":                {"", "", "", "", nil},
	} {
		var lats []float64
		for _, m := range isles.Find(c.street, c.town, c.postcode) {
			lats = append(lats, m.Lat)
			assert.Equal(t, c.how, m.How, name)
		}
		assert.Equal(t, c.lats, lats, name)
	}
}

// TestPostcodes: each lies within 5 km of a landmark known to stand in it or
// beside it, whose position is from memory; and what is no postcode.
func TestPostcodes(t *testing.T) {
	const metres = 111_195.0 // in a degree
	for code, at := range map[string][2]float64{
		"10001": {40.7506, -73.9935},  // Pennsylvania Station, New York
		"90210": {34.0736, -118.4004}, // city hall of Beverly Hills
		"20500": {38.8977, -77.0365},  // White House: a code of its own
		"99501": {61.2181, -149.9003}, // Anchorage
		"96813": {21.3069, -157.8583}, // Honolulu
	} {
		place, ok := US(code + "-0123")
		if code == "20500" {
			assert.False(t, ok, "one building is no tabulation area")
			continue
		}
		require.True(t, ok, code)
		north := (place.Lat - at[0]) * metres
		east := (place.Lon - at[1]) * metres * math.Cos(at[0]*math.Pi/180)
		assert.Less(t, math.Hypot(north, east), 5000.0, code)
	}
	for _, no := range []string{"", "9021", "00000", "902100", "90210-12", "9O210"} {
		_, ok := US(no)
		assert.False(t, ok, no)
	}
	found := Gazetteer{US: true}.Find("1 Elm St", "Beverly Hills", "90210")
	require.Len(t, found, 1)
	assert.True(t, found[0].Usual)
	assert.Equal(t, "94607", AtEnd("Oakland, CA 94607"))
	assert.Equal(t, "94607-1234", AtEnd("Oakland CA 94607-1234"))
	assert.Empty(t, AtEnd("Kelp Street 22"))
	assert.Empty(t, AtEnd("Route 1234567"))
}

// TestPackedPostcodes: all are there, in the country, and pack to what is
// embedded.
func TestPackedPostcodes(t *testing.T) {
	all := centroids()
	assert.Len(t, all, 33_791)
	for code, at := range all {
		require.True(t, at.lat > -15e4 && at.lat < 72e4, code)
		require.True(t, at.lon < -60e4 && at.lon > -180e4 || at.lon > 130e4, code)
	}
	body, err := gzip.NewReader(bytes.NewReader(packed))
	require.NoError(t, err)
	plain, err := io.ReadAll(body)
	require.NoError(t, err)
	assert.Equal(t, plain, pack(all))
}

// pack writes centroids as they are embedded.
func pack(all map[int]centroid) (plain []byte) {
	var before int
	var last centroid
	for _, code := range slices.Sorted(maps.Keys(all)) {
		at := all[code]
		plain = binary.AppendUvarint(plain, uint64(code-before))
		plain = binary.AppendVarint(plain, int64(at.lat-last.lat))
		plain = binary.AppendVarint(plain, int64(at.lon-last.lon))
		before, last = code, at
	}
	return plain
}

// FuzzUnpack: what is broken is read as far as it goes.
func FuzzUnpack(f *testing.F) {
	f.Add([]byte{1, 2, 3})
	f.Add([]byte{0xff, 0xff})
	f.Fuzz(func(t *testing.T, plain []byte) { unpack(plain) })
}

// TestFoundPlacesAreListed: whatever is asked, every match is a listed place,
// and all were found the same way.
func TestFoundPlacesAreListed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.SampledFrom([]string{"Kelp Street 22", "kelp street", "Ness", "Saltpan", "12 Harbor Ave", "", "22", "QI7 2AB"})
		found := isles.Find(word.Draw(t, "street"), word.Draw(t, "town"), word.Draw(t, "postcode"))
		for _, m := range found {
			if !slices.Contains(isles.Places, m.Place) || m.How != found[0].How || math.IsNaN(m.Lat) {
				t.Fatalf("%v", found)
			}
		}
	})
}
