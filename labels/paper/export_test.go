package paper

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
