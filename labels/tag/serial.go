package tag

import (
	"regexp"
	"strings"
	"unicode"
)

// bare returns a scanned text as it is looked at: upper case, without spaces
// of any kind, dashes and slashes, full-width signs made plain.
func bare(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= '！' && r <= '～' { // full-width forms of ! to ~
			r -= '！' - '!'
		}
		switch {
		case r == '/' || unicode.IsSpace(r) || unicode.In(r, unicode.Pd, unicode.Mn, unicode.Cf, unicode.Cc, unicode.Z):
			return -1
		case r == '\u2212': // the minus sign
			return -1
		}
		return unicode.ToUpper(r)
	}, s)
}

// numberWithExponent is how a spreadsheet shows a serial it took for a large
// number. The sign or the decimal point gives it away: a serial like 100E10,
// still text, has neither and is whole.
var numberWithExponent = regexp.MustCompile(`^[0-9]+([.,][0-9]+E[+-]?|E[+-])[0-9]+$`)

// damaged reports whether a serial was destroyed by a spreadsheet that took it
// for a number, as 9.01E+09: its last digits are gone, and nothing may be
// matched with it.
func damaged(s string) bool {
	return numberWithExponent.MatchString(strings.ToUpper(strings.Join(strings.Fields(s), "")))
}
