package sheet

import (
	"strings"
	"unicode/utf8"
)

// lineHeight is the height of a line of text, in points.
const lineHeight = 15

// linesIn counts the lines a text takes in a column so many characters wide.
// The height of a row has to be said: not every program that opens a sheet
// makes room for the text that wraps.
func linesIn(text string, width float64) int {
	room := max(int(width)-1, 1) // text stands away from the edge
	if len(text) <= room && !strings.Contains(text, "\n") {
		return 1
	}
	lines := 0
	for paragraph := range strings.SplitSeq(text, "\n") {
		lines++
		taken := 0
		for word := range strings.SplitSeq(paragraph, " ") {
			long := utf8.RuneCountInString(word)
			if taken > 0 && taken+1+long > room {
				lines, taken = lines+1, 0
			}
			if taken > 0 {
				taken++
			}
			taken += long
			if taken > room {
				lines, taken = lines+(taken-1)/room, (taken-1)%room+1
			}
		}
	}
	return lines
}
