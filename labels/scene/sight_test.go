package scene_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/labels/scene"
)

// A position keeps its place through any push and zoom, and what lies under
// the pointer stays there.
func TestSightKeepsWhatLiesUnderThePointer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := func(name string) scene.Position {
			return scene.Position{Lat: rapid.Float64Range(-70, 70).Draw(t, name), Lon: rapid.Float64Range(-170, 170).Draw(t, name+" lon")}
		}
		mid := at("mid")
		s, seen := scene.Fit([]scene.Position{mid, {Lat: mid.Lat + 0.2, Lon: mid.Lon + 0.3}}, 900, 600)
		require.True(t, seen)
		here := scene.Point{X: rapid.Float64Range(0, 900).Draw(t, "x"), Y: rapid.Float64Range(0, 600).Draw(t, "y")}
		under := s.Position(here, 900, 600)

		z := s.Zoomed(rapid.Float64Range(0.5, 8).Draw(t, "times"), here, 900, 600).Point(under, 900, 600)
		assert.InDelta(t, here.X, z.X, 0.01)
		assert.InDelta(t, here.Y, z.Y, 0.01)

		dx, dy := rapid.Float64Range(-200, 200).Draw(t, "dx"), rapid.Float64Range(-200, 200).Draw(t, "dy")
		m := s.Moved(dx, dy).Point(under, 900, 600)
		assert.InDelta(t, here.X+dx, m.X, 0.01)
		assert.InDelta(t, here.Y+dy, m.Y, 0.01)
	})
}

// A degree of latitude is 111.195 km on a sphere of the earth's mean radius
// (IUGG): the scale bar is drawn by it.
func TestSightMeasuresTrue(t *testing.T) {
	s, _ := scene.Fit([]scene.Position{{Lat: 36.4, Lon: -40.6}, {Lat: 36.7, Lon: -40.2}}, 900, 600)
	south := s.Point(scene.Position{Lat: s.Mid.Lat - 0.05, Lon: s.Mid.Lon}, 900, 600)
	north := s.Point(scene.Position{Lat: s.Mid.Lat + 0.05, Lon: s.Mid.Lon}, 900, 600)
	assert.InEpsilon(t, 11.1195*s.PerKm(), south.Y-north.Y, 1e-4)
}

// However far in, out or off, a map draws only what lies on it.
func TestMapStaysInside(t *testing.T) {
	whole, seen := scene.Fit(quiet().Everything(), 640, 440)
	require.True(t, seen)
	rapid.Check(t, func(t *rapid.T) {
		d := quiet()
		at := scene.Point{X: rapid.Float64Range(0, 640).Draw(t, "x"), Y: rapid.Float64Range(0, 440).Draw(t, "y")}
		d.Sight = whole.Zoomed(math.Exp(rapid.Float64Range(-4, 7).Draw(t, "zoom")), at, 640, 440).
			Moved(rapid.Float64Range(-900, 900).Draw(t, "dx"), rapid.Float64Range(-900, 900).Draw(t, "dy"))
		d.Roads = append(d.Coast, d.Routes[1].Stops)
		d.Water = d.Coast[1:]
		d.Area = []scene.Position{{Lat: 43.9, Lon: -38.2}, {Lat: 44.1, Lon: -38}, {Lat: 43.9, Lon: -37.8}}
		d.Pin = &d.Homes[0].At
		d.Homes[1].InHand, d.Homes[2].Chosen, d.Homes[3].Rough = true, true, true
		wantInside(t, "a part", scene.Map(d, 640, 440))
	})
}

func TestMapNamesTheUrgentFirst(t *testing.T) {
	var d scene.MapData
	for i := range 200 {
		verdict := scene.Holds
		if i == 0 {
			verdict = scene.Dry
		}
		p := scene.Position{Lat: 36.5 + float64(i%20)*0.002, Lon: -40.5 + float64(i/20)*0.002}
		d.Homes = append(d.Homes, scene.MapHome{At: p, Name: fmt.Sprint("Home ", i), Verdict: verdict, Key: fmt.Sprint(i)})
	}
	var names []string
	for _, sh := range scene.Map(d, 500, 500).Shapes {
		if w, is := sh.(scene.Words); is {
			names = append(names, w.Text)
		}
	}
	assert.Contains(t, names, "Home 0")
	assert.Less(t, len(names), 80, "no clutter")
}

func TestMapKey(t *testing.T) {
	s := scene.MapKey(900, 18)
	look(t, "map-key", s)
	wantInside(t, "key of the map", s)
}

// BenchmarkMap draws 500 homes with a detailed coast as the map is pushed; a
// frame has 16 ms.
func BenchmarkMap(b *testing.B) {
	var d scene.MapData
	ring := make([]scene.Position, 20_000)
	for i := range ring {
		a := 2 * math.Pi * float64(i) / float64(len(ring))
		r := 0.2 + 0.01*math.Sin(40*a)
		ring[i] = scene.Position{Lat: 36.5 + r*math.Sin(a), Lon: -40.5 + r*1.2*math.Cos(a)}
	}
	d.Coast = [][]scene.Position{ring}
	for i := range 500 {
		a := float64(i) * 2.4
		r := 0.18 * math.Sqrt(float64(i)/500)
		verdict := []string{scene.Holds, scene.Tight, scene.Unknown, scene.Short, scene.Dry}[i%5]
		d.Homes = append(d.Homes, scene.MapHome{At: scene.Position{Lat: 36.5 + r*math.Sin(a), Lon: -40.5 + r*math.Cos(a)}, Name: "Gull Row 14", Verdict: verdict})
	}
	d.Sight, _ = scene.Fit(d.Everything(), 1100, 620)
	for b.Loop() {
		d.Sight = d.Sight.Moved(0.5, 0.1)
		scene.Map(d, 1100, 620)
	}
}
