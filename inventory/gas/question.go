package gas

import (
	"fmt"
	"strings"
	"time"
)

// Candidate is one thing an unclear text can mean. Only the field that fits
// the question is set.
type Candidate struct {
	Says        string // in words, as "500 psi"
	Pressure    Pressure
	Flow        Flow
	Temperature Celsius
	Hours       time.Duration
	Litres      Litres
	Mass        Kilograms
	Size        SizeCode
}

// Question is the answer to a text that can be read in more than one way, or
// in none: somebody has to say what was meant. It is an error, so that a
// caller who cannot ask refuses.
type Question struct {
	Text       string // what was written
	Asks       string // what has to be known, as "in which unit?"
	Candidates []Candidate
	Careful    int // the candidate that errs on the safe side; -1 when there is none
}

// noneCareful marks a question none of whose candidates is a safe assumption.
const noneCareful = -1

// Error says what is unclear and what to write instead.
func (q *Question) Error() string {
	if len(q.Candidates) == 0 {
		return fmt.Sprintf("%q: %s", q.Text, q.Asks)
	}
	says := make([]string, len(q.Candidates))
	for i, c := range q.Candidates {
		says[i] = c.Says
	}
	return fmt.Sprintf("%q: %s Write it as %s", q.Text, q.Asks, strings.Join(says, " or "))
}

// ask returns a question without candidates; asks ends with the next step.
func ask(text, asks string) *Question {
	return &Question{Text: text, Asks: asks, Careful: noneCareful}
}
