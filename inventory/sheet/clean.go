package sheet

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// clean returns what a person sees of s: composed accents, every kind of
// space as a plain one, invisible characters gone, no space at the ends.
// Line breaks inside the text stay.
func clean(s string) string {
	if plain(s) {
		return strings.Trim(s, " ")
	}
	s = strings.ReplaceAll(s, "\r\n", "\n")
	s = strings.Map(visible, strings.ToValidUTF8(s, "\uFFFD"))
	return strings.TrimSpace(norm.NFC.String(s))
}

// plain reports whether s is printable ASCII, which needs no cleaning.
func plain(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

// invisible are soft hyphens, zero-width spaces, byte order marks, and the
// marks that turn the direction of writing: they make unequal twins of equal
// texts. Joiners stay, since words of some scripts need them.
const invisible = "\u00ad\u061c\u180e\u200b\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2060\u2066\u2067\u2068\u2069\ufeff"

func visible(r rune) rune {
	switch {
	case r == '\n' || r == '\r' || r == '\u2028' || r == '\u2029':
		return '\n'
	case unicode.IsSpace(r):
		return ' '
	case unicode.IsControl(r), strings.ContainsRune(invisible, r):
		return -1
	}
	return r
}
