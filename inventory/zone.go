package inventory

// Zone is a part of a depot. What is dirty, in test, held back and clean stands
// apart, so that nothing untested is lent by mistake.
type Zone string

// The zones of a depot. The empty zone is all of it.
const (
	DirtyBay   Zone = "dirty bay"
	TestBench  Zone = "bench"
	HoldShelf  Zone = "hold shelf"
	CleanShelf Zone = "clean shelf"
)

// Zones returns the zones of a depot in the order things pass them.
func Zones() []Zone { return []Zone{DirtyBay, TestBench, HoldShelf, CleanShelf} }

// Zone returns where things of the state stand in a depot.
func (s State) Zone() Zone {
	switch s {
	case Dirty:
		return DirtyBay
	case OnBench:
		return TestBench
	case InQuarantine, NotOurs:
		return HoldShelf
	case Ready, Held:
		return CleanShelf
	}
	return ""
}

// InWords says where a thing in the zone is: "in the dirty bay", "on the bench".
func (z Zone) InWords() string {
	if z == DirtyBay {
		return "in the " + string(z)
	}
	return "on the " + string(z)
}
