package outline_test

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/outline"
	"lungwort/inventory/refusal"
)

func read(t testing.TB, text string) outline.Outline {
	t.Helper()
	o, err := outline.Read(strings.NewReader(text))
	require.NoError(t, err)
	return o
}

// The geometries are the examples of RFC 7946, appendix A.
func TestKindsOfGeometry(t *testing.T) {
	one := func(kind, coordinates string) string {
		return fmt.Sprintf(`{"type":"Feature","properties":{"name":"Kelp Bay"},"geometry":{"type":%q,"coordinates":%s}}`, kind, coordinates)
	}
	ring := `[[100.0,0.0],[101.0,0.0],[101.0,1.0],[100.0,1.0],[100.0,0.0]]`
	hole := `[[100.8,0.8],[100.8,0.2],[100.2,0.2],[100.2,0.8],[100.8,0.8]]`
	for _, c := range []struct {
		text                               string
		land, water, roads, towns, ferries int
	}{
		{one("Point", `[100.0, 0.0]`), 0, 0, 0, 1, 0},
		{one("MultiPoint", `[[100.0, 0.0],[101.0, 1.0, 22]]`), 0, 0, 0, 2, 0},
		{one("LineString", `[[100.0, 0.0],[101.0, 1.0]]`), 0, 0, 1, 0, 0},
		{one("MultiLineString", `[[[100.0,0.0],[101.0,1.0]],[[102.0,2.0],[103.0,3.0]]]`), 0, 0, 2, 0, 0},
		{one("Polygon", `[`+ring+`,`+hole+`]`), 1, 1, 0, 0, 0},
		{one("MultiPolygon", `[[`+ring+`],[`+ring+`,`+hole+`]]`), 2, 1, 0, 0, 0},
		{`{"type":"GeometryCollection","geometries":[{"type":"LineString","coordinates":[[101.0,0.0],[102.0,1.0]]}]}`, 0, 0, 1, 0, 0},
		{`{"type":"FeatureCollection","features":[{"type":"Feature","properties":null,"geometry":null},` + one("LineString", `[[1,2],[3,4]]`) + `]}`, 0, 0, 1, 0, 0},
		{`{"type":"Feature","properties":{"natural":"water"},"geometry":{"type":"Polygon","coordinates":[` + ring + `]}}`, 0, 1, 0, 0, 0},
		{`{"type":"Feature","properties":{"route":"ferry"},"geometry":{"type":"LineString","coordinates":[[1,2],[3,4]]}}`, 0, 0, 0, 0, 1},
	} {
		o := read(t, c.text)
		assert.Equal(t, []int{c.land, c.water, c.roads, c.towns, c.ferries},
			[]int{len(o.Land), len(o.Water), len(o.Roads), len(o.Towns), len(o.Ferries)}, c.text)
	}
	o := read(t, one("Polygon", `[`+ring+`]`))
	assert.Len(t, o.Land[0], 4, "a ring is kept without its end")
	assert.Equal(t, outline.Position{Lat: 1, Lon: 101}, o.Land[0][2], "longitude comes first in the file")
}

func TestWhatIsRefused(t *testing.T) {
	deep := strings.Repeat(`{"type":"GeometryCollection","geometries":[`, 40) + strings.Repeat(`]}`, 40)
	for text, says := range map[string]string{
		`<kml/>`:                       "no JSON",
		``:                             "no JSON",
		`{"type":"Topology"}`:          "TopoJSON",
		`{"type":"Sphere"}`:            "no kind",
		`{"type":"FeatureCollection"}`: "holds no polygon",
		`{"type":"LineString","coordinates":[[500000,4100000],[500100,4100000]]}`:                                      "no longitude and latitude",
		`{"type":"LineString","coordinates":[[1],[2]]}`:                                                                "fewer than two",
		`{"type":"LineString","coordinates":[1,2]}`:                                                                    "another form",
		`{"type":"LineString","crs":{"properties":{"name":"urn:ogc:def:crs:EPSG::3857"}},"coordinates":[[1,2],[3,4]]}`: "not in degrees",
		deep: "too deep",
		`{"type":"LineString","coordinates":[` + strings.Repeat("[1,2],", outline.MostPositions+1) + `[1,2]]}`: "more than",
		strings.Repeat(" ", outline.MostBytes+1): "more than",
	} {
		_, err := outline.Read(strings.NewReader(text))
		var no *refusal.Error
		require.ErrorAs(t, err, &no, "%.60s", text)
		assert.Contains(t, no.Says, says)
		assert.NotEmpty(t, no.Next)
	}
}

func TestThinKeepsTheShape(t *testing.T) {
	var o outline.Outline
	var ring []outline.Position
	for i := range 20_000 {
		a := 2 * math.Pi * float64(i) / 20_000
		ring = append(ring, outline.Position{Lat: 36.5 + 0.1*math.Sin(a), Lon: -40.5 + 0.1*math.Cos(a)})
	}
	o.Land = [][]outline.Position{ring}
	thin, metres := o.Thin(500)
	assert.LessOrEqual(t, thin.Size(), 500)
	assert.Less(t, metres, 60.0)
	for _, p := range thin.Land[0] {
		assert.InDelta(t, 0.1, math.Hypot(p.Lat-36.5, p.Lon+40.5), 1e-9, "every position kept is one of the file")
	}
	same, metres := o.Thin(20_000)
	assert.Equal(t, o, same)
	assert.Zero(t, metres)
}

func TestDry(t *testing.T) {
	box := func(r float64) []outline.Position {
		return []outline.Position{{Lat: -r, Lon: -r}, {Lat: -r, Lon: r}, {Lat: r, Lon: r}, {Lat: r, Lon: -r}}
	}
	o := outline.Outline{Land: [][]outline.Position{box(2)}, Water: [][]outline.Position{box(1)}}
	assert.True(t, o.Dry(outline.Position{Lat: 1.5}))
	assert.False(t, o.Dry(outline.Position{}), "in the lake")
	assert.False(t, o.Dry(outline.Position{Lat: 3}))
	assert.True(t, outline.Outline{}.Dry(outline.Position{Lat: 3}), "without a coast everything is land")
}

// FuzzRead: whatever a file holds, it is read or refused, and what was read
// survives being kept.
func FuzzRead(f *testing.F) {
	f.Add(`{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"name":"x"},"geometry":{"type":"Point","coordinates":[1,2]}}]}`)
	f.Add(`{"type":"MultiPolygon","coordinates":[[[[1,2],[3,4],[5,6],[1,2]]]]}`)
	f.Add(`{"type":"GeometryCollection","geometries":[{"type":"LineString","coordinates":[[1,2],[3,4,5]]}]}`)
	f.Add(`{"type":"Feature","geometry":{"type":"Polygon","coordinates":[[]]}}`)
	f.Fuzz(func(t *testing.T, text string) {
		o, err := outline.Read(strings.NewReader(text))
		if err != nil {
			var no *refusal.Error
			require.ErrorAs(t, err, &no)
			return
		}
		body, err := json.Marshal(o)
		require.NoError(t, err)
		var kept outline.Outline
		require.NoError(t, json.Unmarshal(body, &kept))
		assert.Equal(t, o.Size(), kept.Size())
		thin, _ := o.Thin(8)
		assert.LessOrEqual(t, thin.Size(), max(8, o.Size()))
	})
}
