// Package tag says what a label says: our own tags, the GS1 codes of makers and
// fillers, bare serials, and the codes on our papers.
//
// A tag holds a running number and nothing else: no person, no place, no state.
// What the number stands for is in the book, and the book alone.
package tag

import (
	"fmt"
	"strconv"
)

// Tag is our own label's payload: the letters LW, at least five digits, and the
// check character of ISO/IEC 7064 MOD 37,36 over both, as LW00417K. The body is
// digits only, so that a letter O or I typed into it is seen to be a slip.
type Tag string

const (
	prefix     = "LW"
	bodyDigits = 5
)

// Mint returns the tag that carries the number. The same number always gives
// the same tag.
func Mint(number uint32) Tag {
	body := prefix + fmt.Sprintf("%0*d", bodyDigits, number)
	return Tag(body + string(checkMod37(body)))
}

// Number returns the number a tag carries, and false for a text that is no tag
// exactly as Mint writes it.
func (t Tag) Number() (uint32, bool) {
	s := string(t)
	if len(s) < len(prefix)+bodyDigits+1 {
		return 0, false
	}
	number, err := strconv.ParseUint(s[len(prefix):len(s)-1], 10, 32)
	if err != nil || Mint(uint32(number)) != t {
		return 0, false
	}
	return uint32(number), true
}

// Payload returns the tag as the code on the label holds it: upper-case letters
// and digits, which keeps a QR code in its compact alphanumeric mode.
func (t Tag) Payload() string { return string(t) }

// Printed returns the tag as a person reads it aloud, as LW-00417-K.
func (t Tag) Printed() string {
	s := string(t)
	if len(s) < len(prefix)+2 {
		return s
	}
	return s[:len(prefix)] + "-" + s[len(prefix):len(s)-1] + "-" + s[len(s)-1:]
}
