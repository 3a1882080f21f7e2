package sheet

import "fmt"

// Doubt says that a cell has no single reading. It is an error, and a
// question to the person who knows the sheet.
type Doubt struct {
	Text       string   // the cell as shown
	Asks       string   // the question, in a sentence
	Candidates []string // the readings it may have; none when only the person can tell
}

// Error returns the text and the question.
func (d *Doubt) Error() string { return fmt.Sprintf("%q: %s", d.Text, d.Asks) }
