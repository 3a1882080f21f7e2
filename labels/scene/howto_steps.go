package scene

import "math"

// The drawings that hold more than two things.

func (s *Scene) theKit() {
	s.machine(12, 30)
	s.cylinder(64, 16, 82)
	tube := s.face(126, 34, 18)
	s.curve(tube, Point{168, 70}, Point{118, 66}, 2.6, Gas)
	s.body(104, 74, 40, 22, 5, Panel)
	s.add(Words{X: 124, Y: 90, Size: 13, Bold: true, Align: Middle, Text: "%", Ink: Text})
}

// flowMeter is read at the middle of its ball.
func (s *Scene) flowMeter() {
	s.body(62, 8, 30, 94, 4, Ground)
	for i := range 6 {
		y := 92 - 16*float64(i)
		s.add(Line{92, y, 102, y, 2, Text, 0})
	}
	s.add(Line{50, 60, 104, 60, 2.5, Alarm, 0})
	s.add(Ring{X: 77, Y: 60, R: 9, Width: edge, Ink: Text, Fill: Faint})
	s.arrow(150, 60, 110, 60)
	s.add(Ring{X: 30, Y: 60, R: 13, Width: edge, Ink: Text, Fill: Panel}, Line{30, 60, 39, 52, 3, Text, 0})
	s.turn(30, 52, 22, true)
}

func (s *Scene) feelGas() {
	s.curve(Point{12, 100}, Point{20, 50}, Point{52, 52}, 4, Gas)
	s.body(46, 44, 22, 14, 6, Ground)
	s.add(Bar{X: 66, Y: 44, W: 12, H: 4, Ink: Gas}, Bar{X: 66, Y: 54, W: 12, H: 4, Ink: Gas})
	for i := range 3 {
		y := 38 + 13*float64(i)
		s.curve(Point{84, y}, Point{92, y - 5}, Point{100, y}, 2, Text)
		s.curve(Point{100, y}, Point{108, y + 5}, Point{114, y}, 2, Text)
	}
	s.hand(120, 18)
}

// hand adds a flat hand, palm to the left, 36 wide and 76 tall.
func (s *Scene) hand(x, y float64) {
	for i := range 4 {
		s.body(x+8*float64(i), y+4*math.Abs(float64(i)-1.5), 9, 44, 4, Ground)
	}
	s.body(x-2, y+36, 38, 40, 9, Ground)
	s.add(Bar{X: x + 1, Y: y + 32, W: 31, H: 10, Ink: Ground})
}

// changeOver moves the tube of a face from one source to the other.
func (s *Scene) changeOver(toMachine bool) {
	outlet := s.cylinder(10, 22, 78)
	s.machine(112, 36)
	s.face(82, 84, 17)
	tubes := [2]Ink{Rule, Gas}
	if !toMachine {
		tubes = [2]Ink{Gas, Rule}
	}
	s.curve(Point{65, 83}, Point{72, 46}, outlet, 3, tubes[0])
	s.curve(Point{99, 83}, Point{92, 12}, machineOutlet(112, 36), 3, tubes[1])
	if toMachine {
		s.arrow(58, 14, 128, 14)
	} else {
		s.arrow(128, 14, 58, 14)
	}
}

// valve shows the top of a cylinder; its handle turns left to open.
func (s *Scene) valve(open bool) {
	s.body(58, 76, 54, 32, 12, Gas)
	s.add(Bar{X: 78, Y: 52, W: 14, H: 26, Ink: Text})
	s.body(54, 44, 62, 12, 5, Panel)
	s.turn(85, 38, 44, open)
}

// gauge shows a needle at half, and where to ring up.
func (s *Scene) gauge(x, y, r float64) {
	s.add(Ring{X: x, Y: y, R: r, Width: 3, Ink: Text, Fill: Ground})
	on := func(share, r float64) Point {
		a := (-0.75 + 1.5*share) * math.Pi
		return Point{x + r*math.Sin(a), y - r*math.Cos(a)}
	}
	for i := range 40 {
		a, b := on(float64(i)/40, r-8), on(float64(i+1)/40, r-8)
		ink := Fine
		if i < 10 {
			ink = Alarm
		}
		s.add(Line{a.X, a.Y, b.X, b.Y, 7, ink, 0})
	}
	for i := range 5 {
		a, b := on(float64(i)/4, r-14), on(float64(i)/4, r-3)
		s.add(Line{a.X, a.Y, b.X, b.Y, 2.5, Text, 0})
	}
	tip := on(0.5, r-16)
	s.add(Line{x, y, tip.X, tip.Y, 3.5, Text, 0}, Ring{X: x, Y: y, R: 4, Ink: Text, Fill: Text})
	zero, full := on(0, r-24), on(1, r-24)
	s.add(Words{X: zero.X, Y: zero.Y + 4, Size: 12, Bold: true, Align: Middle, Text: "0", Ink: Text})
	s.add(Words{X: full.X, Y: full.Y + 4, Size: 12, Bold: true, Align: Middle, Text: "1", Ink: Text})
}

func (s *Scene) lineCheck() {
	tube := s.face(32, 34, 20)
	s.curve(tube, Point{70, 104}, Point{84, 74}, 3, Gas)
	s.curve(Point{84, 74}, Point{96, 44}, Point{145, 30}, 3, Gas)
	s.machine(112, 36)
	s.tickMark(56, 28)
	s.tickMark(76, 82)
	s.tickMark(118, 34)
}

func (s *Scene) fingerReading() {
	s.body(14, 56, 70, 22, 10, Ground)
	s.body(66, 34, 84, 58, 10, Panel)
	s.body(80, 44, 56, 34, 3, Ground)
	s.add(Words{X: 108, Y: 68, Size: 22, Bold: true, Align: Middle, Text: "%", Ink: Text})
}

func (s *Scene) keepAway(figure string) {
	s.cylinder(14, 16, 80)
	s.flame(148, 60)
	s.add(
		Line{62, 84, 138, 84, 2, Text, 0},
		Polygon{Points: []Point{{54, 84}, {64, 79}, {64, 89}}, Ink: Text}, Polygon{Points: []Point{{140, 84}, {130, 79}, {130, 89}}, Ink: Text},
		Words{X: 97, Y: 74, Size: 17, Bold: true, Align: Middle, Text: figure, Ink: Text},
	)
}

// pot is a pot of ointment, open, its lid beside it.
func (s *Scene) pot() {
	s.body(56, 46, 46, 38, 5, Panel)
	s.body(52, 38, 54, 10, 4, Ground)
	s.body(108, 74, 30, 9, 3, Ground)
	s.curve(Point{62, 38}, Point{80, 18}, Point{96, 38}, 5, Faint)
}

func (s *Scene) standing() {
	s.add(Bar{X: 24, Y: 8, W: 6, H: 94, Ink: Faint}, Bar{X: 24, Y: 96, W: 122, H: 6, Ink: Faint})
	s.cylinder(40, 14, 82)
	s.add(Bar{X: 30, Y: 52, W: 42, H: 6, Ink: Text})
	s.tickMark(56, 18)
	s.body(92, 78, 50, 18, 8, Gas)
	s.add(Line{90, 68, 146, 102, 5, Alarm, 0}, Line{146, 68, 90, 102, 5, Alarm, 0})
}

func (s *Scene) telephone() {
	s.body(62, 10, 46, 90, 8, Panel)
	s.body(68, 20, 34, 34, 2, Ground)
	for i := range 9 {
		s.add(Ring{X: 75 + 10*float64(i%3), Y: 64 + 10*float64(i/3), R: 3, Ink: Text, Fill: Text})
	}
	for i := range 3 {
		r := 10.0 + 9*float64(i)
		s.curve(Point{112 + r, 20}, Point{120 + 1.4*r, 36}, Point{112 + r, 52}, 2.4, Alarm)
	}
}
