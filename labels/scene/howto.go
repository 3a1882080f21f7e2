package scene

// HowTo is one drawing of what a household does with its oxygen, and of what
// it never does.
type HowTo string

// The drawings, in the order in which a household meets them.
const (
	TheKit     HowTo = "kit"     // everything that was lent
	PlugIn     HowTo = "plug"    // the machine's plug goes into the wall
	SwitchOn   HowTo = "on"      // the switch is pressed; a clock runs
	SetFlow    HowTo = "flow"    // the ball of the flow meter is brought to its mark
	FeelGas    HowTo = "feel"    // gas blows from the prongs onto the hand
	ToMachine  HowTo = "over"    // the tube goes from the cylinder to the machine
	ToCylinder HowTo = "back"    // the tube goes from the machine to the cylinder
	OpenValve  HowTo = "open"    // the valve turns to the left
	ShutValve  HowTo = "shut"    // the valve turns to the right
	ReadGauge  HowTo = "gauge"   // the needle between empty and full
	CheckLine  HowTo = "line"    // the tube from the nose to the source, joint by joint
	Finger     HowTo = "finger"  // the oximeter on a finger
	PowerOut   HowTo = "power"   // the plug is in and nothing runs
	NoSmoking  HowTo = "smoke"   // a cigarette, struck out
	KeepAway   HowTo = "flame"   // a flame at a distance from a cylinder
	NoGrease   HowTo = "grease"  // a pot of ointment, struck out
	Upright    HowTo = "upright" // a cylinder held to the wall
	RingUp     HowTo = "ring"    // a telephone
)

// HowTos lists every drawing.
var HowTos = []HowTo{
	TheKit, PlugIn, SwitchOn, SetFlow, FeelGas, ToMachine, ToCylinder, OpenValve, ShutValve, ReadGauge,
	CheckLine, Finger, PowerOut, NoSmoking, KeepAway, NoGrease, Upright, RingUp,
}

// The size of every drawing in points.
const (
	HowToWide = 170.0
	HowToTall = 110.0
)

// Draw draws it. A drawing that holds a figure, the minutes of the clock or the
// distance of the flame, takes it as words.
func (h HowTo) Draw(figure string) Scene {
	s := &Scene{W: HowToWide, H: HowToTall}
	s.add(Bar{W: s.W, H: s.H, Ink: Ground}, Frame{X: 0.75, Y: 0.75, W: s.W - 1.5, H: s.H - 1.5, Round: 4, Width: 1.5, Ink: Faint})
	switch h {
	case TheKit:
		s.theKit()
	case PlugIn:
		s.machine(14, 24)
		s.socket(132, 50)
		s.curve(Point{58, 86}, Point{88, 104}, Point{112, 62}, 2.5, Text)
		s.plug(100, 62)
		s.arrow(96, 40, 124, 40)
	case SwitchOn:
		s.machine(14, 24)
		s.arrow(86, 48, 56, 48)
		s.clock(124, 46, 26)
		s.add(Words{X: 124, Y: 98, Size: 20, Bold: true, Align: Middle, Text: figure, Ink: Text})
	case SetFlow:
		s.flowMeter()
	case FeelGas:
		s.feelGas()
	case ToMachine, ToCylinder:
		s.changeOver(h == ToMachine)
	case OpenValve, ShutValve:
		s.valve(h == OpenValve)
	case ReadGauge:
		s.gauge(85, 56, 44)
	case CheckLine:
		s.lineCheck()
	case Finger:
		s.fingerReading()
	case PowerOut:
		s.machine(22, 24)
		s.socket(132, 50)
		s.curve(Point{66, 86}, Point{96, 104}, Point{126, 62}, 2.5, Text)
		s.plug(118, 62)
		s.bolt(96, 12)
		s.strike(100, 34, 26)
	case NoSmoking:
		s.cigarette(85, 60, 1)
		s.strike(85, 55, 46)
	case KeepAway:
		s.keepAway(figure)
	case NoGrease:
		s.pot()
		s.strike(85, 55, 46)
	case Upright:
		s.standing()
	case RingUp:
		s.telephone()
	}
	return *s
}

// NoSmokingSign is the mark of the sign at the door, size points square.
func NoSmokingSign(size float64) Scene {
	s := &Scene{W: size, H: size}
	half := size / 2
	s.cigarette(half, half*1.04, size/110)
	s.strike(half, half, half*0.86)
	return *s
}
