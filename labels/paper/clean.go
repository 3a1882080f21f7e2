package paper

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// unshownSign stands on paper for a sign that can't be printed.
const unshownSign = '\u25A1' // □

// clean returns text as it can be printed, and the runes that can't be: those
// become □, controls go, line ends and tabs become spaces, and letters and
// their marks are composed.
func clean(text string) (string, []rune) {
	if isPlain(text) {
		return text, nil
	}
	var (
		out     strings.Builder
		unshown []rune
		shown   = &metrics().shown
	)
	for _, r := range norm.NFC.String(strings.Map(uncontrolled, text)) {
		switch {
		case r >= planeEnd || r == utf8.RuneError || !shown[r]:
			out.WriteRune(unshownSign)
			unshown = append(unshown, r)
		default:
			out.WriteRune(r)
		}
	}
	return out.String(), unshown
}

// uncontrolled drops controls and direction overrides, which must not rearrange a
// page nor keep a letter from its mark; line ends and tabs become spaces.
func uncontrolled(r rune) rune {
	switch {
	case r == '\n' || r == '\t' || r == '\u2028' || r == '\u2029':
		return ' '
	case unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Cf, r):
		return -1
	}
	return r
}

// isPlain reports whether text is printable ASCII, which needs no cleaning.
func isPlain(text string) bool {
	for i := 0; i < len(text); i++ {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}
