package sheet

import (
	"strings"
	"unicode"
)

// longestText is the most characters a cell of the xlsx format holds, counted
// in UTF-16 units.
const longestText = 32_767

// storable returns text without the control characters that XML forbids and
// that make a csv file look like no text at all.
func storable(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n' || r == '\r':
			return r
		case unicode.IsSpace(r) && unicode.IsControl(r):
			return ' '
		case unicode.IsControl(r) || r == '\uFFFE' || r == '\uFFFF':
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD"))
}

// fitting ends a text that is longer than a cell with a mark.
func fitting(text string) string {
	if len(text) <= longestText {
		return text
	}
	const mark = " … (cut)"
	units := 0
	for i, r := range text {
		if units += utf16Length(r); units > longestText-len(mark) {
			return text[:i] + mark
		}
	}
	return text
}

func utf16Length(r rune) int {
	if r > 0xFFFF {
		return 2
	}
	return 1
}
