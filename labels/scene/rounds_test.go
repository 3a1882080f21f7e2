package scene_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"lungwort/labels/scene"
)

// threeVans is a morning: van 1 out with a stop under way, van 2 with a late
// one and one picked up, van 3 with nothing to do.
func threeVans() scene.RoundsData {
	return scene.RoundsData{
		Now: now, From: in(-1), To: in(9),
		Lanes: []scene.Lane{
			{Name: "van 1", Below: "Esk · 38 km", Leaves: in(-0.5), Back: in(4), Ends: in(8), Rests: []scene.Rest{{From: in(1.7), Until: in(2.3)}}, Blocks: []scene.Block{
				{Key: "0", Label: "1", From: in(-0.1), To: in(0.3), Fixed: true, Load: 0.9},
				{Key: "1", Label: "2", From: in(1), To: in(1.6), ActBy: in(2.5), Load: 0.6, Locked: true},
				{Key: "2", Label: "3", From: in(2.4), To: in(3), Opens: in(2), Shuts: in(5), InHand: true, Load: 0.2},
			}},
			{Name: "van 2", Below: "Wick · 61 km", Leaves: in(0.2), Back: in(8.5), Ends: in(8), Wrong: true, Blocks: []scene.Block{
				{Key: "3", Label: "1", From: in(1.5), To: in(1.7), ActBy: in(1.1), Late: true, Load: 1.2},
				{Key: "4", Label: "2", From: in(4), To: in(5), ActBy: in(6), Carried: true, Load: 0.4},
			}},
			{Name: "van 3, next trip of the afternoon", Below: "nothing to do", Ends: in(8)},
		},
	}
}

func TestRounds(t *testing.T) {
	for _, c := range []struct {
		name string
		w, h float64
	}{{"rounds", 840, scene.RoundsHeight(3)}, {"rounds-narrow", 480, 140}} {
		s := scene.Rounds(threeVans(), c.w, c.h)
		look(t, c.name, s)
		golden(t, c.name, s)
		wantInside(t, c.name, s)
	}
	assert.Empty(t, scene.Rounds(threeVans(), 80, 300).Shapes, "no room")
	assert.Empty(t, scene.Rounds(scene.RoundsData{}, 800, 300).Shapes, "no day")
}

// Every stop can be pointed at, and what is pointed at lies on its lane.
func TestRoundsLeadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := threeVans()
		w, h := rapid.Float64Range(300, 1300).Draw(t, "w"), rapid.Float64Range(130, 400).Draw(t, "h")
		for i := range d.Lanes {
			for k := range d.Lanes[i].Blocks {
				b := &d.Lanes[i].Blocks[k]
				b.From = in(rapid.Float64Range(-3, 12).Draw(t, "from"))
				b.To = b.From.Add(in(0.4).Sub(in(0)))
			}
		}
		s := scene.Rounds(d, w, h)
		wantInside(t, "rounds", s)
		for _, spot := range s.Spots {
			lane, at, ok := d.LaneAt(spot.X, spot.Y, w, h)
			if !assert.True(t, ok, fmt.Sprint(spot)) {
				return
			}
			assert.False(t, at.Before(d.From) || at.After(d.To))
			found := false
			for _, b := range d.Lanes[lane].Blocks {
				found = found || b.Key == spot.Key
			}
			assert.True(t, found, "%v on lane %d", spot, lane)
		}
	})
}
