// Package refusal is how the program says no: a kind the program can act on,
// a sentence for the person, the next step, and a cause for the log.
package refusal

import (
	"errors"
	"fmt"
	"strings"
)

// Kind tells the program what sort of refusal it met.
type Kind string

// The kinds of refusal.
const (
	Invalid     Kind = "invalid"     // the input can't be understood or contradicts itself
	Ask         Kind = "ask"         // the input has more than one reading; the person must choose
	NotFound    Kind = "not found"   // nothing goes by that name
	Conflict    Kind = "conflict"    // the book already says otherwise
	Unready     Kind = "unready"     // the thing exists but can't be used now
	ReadOnly    Kind = "read-only"   // the file or book can't be written
	Busy        Kind = "busy"        // somebody else holds it
	Newer       Kind = "newer"       // made by a newer version of the program
	Foreign     Kind = "foreign"     // not one of ours
	Damaged     Kind = "damaged"     // ours, but broken
	Unreachable Kind = "unreachable" // the server that holds it doesn't answer
	Locked      Kind = "locked"      // wants a name and a password that fit
	Forbidden   Kind = "forbidden"   // not the work of whoever is signed in
	Internal    Kind = "internal"    // a fault of the program
)

// Error is one refusal.
type Error struct {
	Kind  Kind
	Says  string // one sentence that names the thing
	Next  string // one sentence with the next step; may be empty
	Cause error  // for the log, never for the person
}

// New returns a refusal without a cause.
func New(kind Kind, says, next string) *Error {
	return &Error{Kind: kind, Says: says, Next: next}
}

// Because returns a copy of e that carries the cause for the log.
func (e *Error) Because(cause error) *Error {
	c := *e
	c.Cause = cause
	return &c
}

// Error returns the sentence and the next step, as a person reads them.
func (e *Error) Error() string {
	if e.Next == "" {
		return e.Says
	}
	return strings.TrimSpace(fmt.Sprintf("%s %s", e.Says, e.Next))
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Cause }

// KindOf returns the kind of the first refusal in err's chain, or Internal
// when there is none.
func KindOf(err error) Kind {
	var e *Error
	if errors.As(err, &e) {
		return e.Kind
	}
	return Internal
}

// For returns what a person is told about err: a refusal's own words, or one
// neutral sentence for anything else.
func For(err error) string {
	var e *Error
	if errors.As(err, &e) {
		return e.Error()
	}
	return "Something went wrong inside the program. Nothing was written; the log has the detail."
}
