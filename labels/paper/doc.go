// Package paper prints: label sheets, run sheets, night packs and receipts, as
// PDF. A paper is a plain value that its caller fills with texts, times and
// numbers; Print writes it. The package knows nothing of runs, orders or the
// book, and a paper with the same content is the same file to the byte.
//
// Every paper but a label sheet starts with the emergency number and ends each
// page with when it was printed, how old its facts are, and its page number.
package paper

// MM is a length on paper in millimetres.
type MM float64

const (
	pointsPerInch = 72.0
	mmPerInch     = 25.4 // by definition
	pointsPerMM   = pointsPerInch / mmPerInch
)

// Result is what came of printing.
type Result struct {
	Pages   int
	Unshown []rune // signs printed as □ because no font of ours shows them, in order of first meeting
}
