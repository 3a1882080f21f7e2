package intake

import (
	"runtime"
	"runtime/debug"
)

// Garbage that is let grow beside what a long list holds, in percent of it: when
// it is judged, which holds the most, and when it is written. It takes some
// seconds longer than with the usual hundred.
const (
	Judging = 20
	Writing = 50
)

// Sparing keeps the memory of a long list down until the function it returns is
// called.
func Sparing(garbage int) (enough func()) {
	before := debug.SetGCPercent(garbage)
	runtime.GC() // what is held from here on is what counts
	return func() { debug.SetGCPercent(before) }
}
