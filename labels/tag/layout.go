package tag

import "strings"

// layout is a keyboard as the desktop takes it while the scanner types for
// another: what comes out, turned back into what was scanned. The tables are
// read off the keyboards of the Windows layouts "French" and "German" against
// "US" (from memory).
type layout struct {
	name string
	back map[rune]rune
	// typed reports whether a text can only have come through this layout.
	typed func(string) bool
}

// digitRow are the signs of the French digit row without Shift, from 1 to 0.
const digitRow = `&é"'(-è_çà`

var (
	french = layout{"French", pairs(
		digitRow, "1234567890", ")", "-", ":", ".", "!", "/", "M", ":", "m", ";", "?", "M", ",", "m",
		"AQZWaqzw", "QAWZqawz",
	), frenchTyped}
	german = layout{"German", pairs("YZyz", "ZYzy", "ß", "-", "-", "/", "Ö", ":", "_", "?", "?", "_", "/", "&", "´", "="), germanTyped}
)

// pairs makes a table of texts that stand for each other sign by sign.
func pairs(texts ...string) map[rune]rune {
	table := map[rune]rune{}
	for i := 0; i < len(texts); i += 2 {
		to := []rune(texts[i+1])
		for n, r := range []rune(texts[i]) {
			table[r] = to[n]
		}
	}
	return table
}

// frenchTyped: no digit, but several signs of the digit row and hardly anything
// else. A name or a street has letters, spaces, and at most a sign or two.
func frenchTyped(text string) bool {
	signs, others := 0, 0
	for _, r := range text {
		switch {
		case r >= '0' && r <= '9', r == ' ':
			return false
		case strings.ContainsRune(digitRow, r):
			signs++
		default:
			others++
		}
	}
	return signs >= 3 && signs >= others/2
}

// germanTyped: the only signs that can't be meant as typed are those of a link
// and the one that stands for the dash.
func germanTyped(text string) bool {
	lower := strings.ToLower(text)
	return strings.HasPrefix(lower, "httpsö--") || strings.HasPrefix(lower, "httpö--") ||
		strings.Contains(text, "ß") && strings.ContainsAny(text, "0123456789") && !strings.Contains(text, " ")
}

// ungarbled returns a scan that came through another keyboard layout as it was
// meant, with the name of the layout; an empty name for any other text.
func ungarbled(text string) (meant, name string) {
	for _, l := range []layout{french, german} {
		if l.typed(text) {
			return strings.Map(func(r rune) rune {
				if to, ok := l.back[r]; ok {
					return to
				}
				return r
			}, text), l.name
		}
	}
	return text, ""
}
