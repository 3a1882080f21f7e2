package depletion

import "fmt"

// longTubing is the length in metres from which tubing is worth a look. An older
// guideline gives 15 m on a cylinder and 6 m on a concentrator (Aguiar et al.,
// Respir Care 2015;60:179, background). Measured, the flow held at 30 m up to
// 5 L/min there; in another study of 2006 a cylinder at 2 L/min lost more than
// a fifth beyond 100 ft. So it is a note and blocks nothing: the gas leaves the
// cylinder no faster, but less of it may arrive.
const longTubing = 15.0

// TubingNote says what to mind with so many metres of tubing; empty: nothing.
func TubingNote(metres float64) string {
	if metres <= longTubing {
		return ""
	}
	return fmt.Sprintf("%g m of tubing: on a cylinder less may arrive; check the flow at the cannula end", metres)
}
