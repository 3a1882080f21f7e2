package sheet

import "strings"

// A text that begins with one of these is taken for a formula by some
// spreadsheet program, the wide forms included.
const formulaSigns = "=+-@\t\r\n＝＋－＠"

// guarded returns text in a form that no spreadsheet program takes for a
// formula when it opens a csv file: with an apostrophe in front.
func guarded(text string) string {
	if looksLikeFormula(text) {
		return "'" + text
	}
	return text
}

// unguarded takes back what guarded did.
func unguarded(text string) string {
	if len(text) > 1 && text[0] == '\'' && looksLikeFormula(text[1:]) {
		return text[1:]
	}
	return text
}

func looksLikeFormula(text string) bool {
	text = strings.TrimLeft(text, "'")
	return text != "" && strings.ContainsAny(firstRune(text), formulaSigns)
}

func firstRune(s string) string {
	for i := range s {
		if i > 0 {
			return s[:i]
		}
	}
	return s
}
