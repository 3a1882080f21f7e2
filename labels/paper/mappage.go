package paper

import (
	"io"

	"lungwort/labels/scene"
)

// MapPage is the map on one page, lying, as it stands on the screen.
type MapPage struct {
	Head
	Says string // "150 homes, 12 do not hold"
	Map  scene.MapData
	// W and H are the size of the map on the screen, whose middle stays the
	// middle; zero: everything is shown.
	W, H float64
}

// Print writes the page.
func (m MapPage) Print(w io.Writer) (Result, error) {
	s, err := newSheet(m.Head, m.Format.turned(), "Map", "Map")
	if err != nil {
		return Result{}, err
	}
	s.newPage()
	s.say(strong, m.Says)
	s.y++
	const keyHeight MM = 6
	wide, high := float64(s.width())*pointsPerMM, float64(s.bottom()-s.y-keyHeight)*pointsPerMM
	d := m.Map
	if d.Sight.Scale > 0 && m.W > 0 && m.H > 0 {
		d.Sight.Scale *= min(wide/m.W, high/m.H)
	}
	s.picture(s.left(), s.y, scene.Map(d, wide, high))
	s.picture(s.left(), s.bottom()-keyHeight+1, scene.MapKey(wide, float64(keyHeight-1)*pointsPerMM))
	return s.finish(w)
}
