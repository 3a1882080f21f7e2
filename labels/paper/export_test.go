package paper

import (
	"io"
	"time"

	"lungwort/labels/scene"
)

// CodeSquare returns where the code of a label lies on its page, quiet zone
// included: corner and side in printer dots.
func CodeSquare(s Stock, place int, payload string, dpi DPI) (x, y, side float64, err error) {
	f, err := s.frame(payload, dpi)
	if err != nil {
		return 0, 0, 0, err
	}
	left, top := s.corner(place)
	dot := dpi.dot()
	return float64((left + f.x) / dot), float64((top + f.y) / dot), float64(f.code.side() / dot), nil
}

// Inks are the colours of print by the name of their role.
func Inks() map[scene.Ink][3]int {
	colours := map[scene.Ink][3]int{}
	for name, i := range inks {
		colours[name] = [3]int{i.r, i.g, i.b}
	}
	return colours
}

// PrintScene writes a page of w by h points with a scene at its top left.
func PrintScene(w io.Writer, s scene.Scene) error {
	page := Format{"scene", MM(mm(s.W)), MM(mm(s.H))}
	d := newDocument(page, pageDPI, "scene", time.Unix(0, 0))
	d.addPage()
	d.picture(0, 0, s)
	_, err := d.write(w)
	return err
}
