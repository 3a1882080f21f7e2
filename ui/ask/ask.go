// Package ask is a small form over a page as plain data: what is asked, what
// was answered, what is wrong with an answer. It knows nothing of windows, so
// that a screen's model can offer its forms and an ordinary test can answer
// them; package asker shows them.
package ask

import (
	"fmt"
	"maps"
	"strings"
	"time"
)

// Kind is how an answer is given.
type Kind int

// The kinds of answers.
const (
	Line   Kind = iota // one line of text
	Notes              // several lines
	Gauge              // a pressure with its unit
	Flow               // litres a minute
	Number             // a bare number, its unit beside
	Moment             // date and time
	Pick               // one of a few options
	Secret             // one line that is not shown
)

// Option is one thing a Pick offers.
type Option struct{ Value, Label string }

// YesNo are the options of a question that needs an answer.
func YesNo() []Option { return []Option{{"yes", "yes"}, {"no", "no"}} }

// Field is one thing that is asked.
type Field struct {
	Key     string // by which its answer goes
	Label   string
	Hint    string
	Kind    Kind
	Unit    string // of a Number
	Options []Option
	Value   string // answered beforehand; of a Moment in RFC 3339
}

// Form is what is asked for one act.
type Form struct {
	Title  string
	Button string
	Before string // what to know first
	Danger bool   // the act takes something away
	Fields []Field
	// Live says what the answers so far mean, and whether it is an alarm; may
	// be nil.
	Live func(Answers) (says string, alarm bool)
	// Submit does the act; it calls closed once: with nil when the act is done,
	// else with the refusal, and the form stays open. What it returns is wrong
	// with single answers; then nothing was done.
	Submit func(a Answers, closed func(error)) Wrong
}

// Answers are the answers as they were written, by key.
type Answers map[string]string

// Text returns an answer without blanks around it.
func (a Answers) Text(key string) string { return strings.TrimSpace(a[key]) }

// Is reports whether a Pick was answered by a value.
func (a Answers) Is(key, value string) bool { return a.Text(key) == value }

// Wrong is what is wrong with answers, by key.
type Wrong map[string]error

// Answered returns the answers a form has before anybody writes in it.
func (f Form) Answered() Answers {
	a := make(Answers, len(f.Fields))
	for _, field := range f.Fields {
		a[field.Key] = field.Value
	}
	return a
}

// With returns the answers with more beside or in place of them.
func (a Answers) With(more Answers) Answers {
	all := maps.Clone(a)
	maps.Copy(all, more)
	return all
}

// When is the field for when something happened, filled in with now: what is
// keyed in later takes its place in time.
func When(now time.Time) Field {
	return Field{Key: "when", Label: "When", Kind: Moment, Value: now.Format(time.RFC3339), Hint: "change it for what happened earlier"}
}

// late returns the refusal of a time that lies ahead.
func late(t, now time.Time) error {
	if t.After(now) {
		return fmt.Errorf("%s lies ahead: write when it happened", t.Format("Mon 2 Jan 15:04"))
	}
	return nil
}
