package paper

import "strings"

// cut is put where text had to be shortened, so that nobody takes the rest
// for the whole.
const cut = "…"

// wrap breaks clean text into lines no wider than width. A word longer than a
// line is broken where it must. With limit above zero at most limit lines come
// back and the last shows that more was there.
func wrap(f face, text string, width MM, limit int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		joined := word
		if line != "" {
			joined = line + " " + word
		}
		if f.width(joined) <= width {
			line = joined
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		var full []string
		full, line = breakWord(f, word, width)
		lines = append(lines, full...)
		if limit > 0 && len(lines) > limit {
			break
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	if limit > 0 && len(lines) > limit {
		lines = lines[:limit]
		lines[limit-1] = fit(f, lines[limit-1]+cut, width)
	}
	return lines
}

// breakWord cuts a word that is too wide into full lines and a rest. A line
// holds at least one sign, however narrow the column.
func breakWord(f face, word string, width MM) (full []string, rest string) {
	start, used := 0, MM(0)
	for i, r := range word {
		w := f.width(string(r))
		if i > start && used+w > width {
			full = append(full, word[start:i])
			start, used = i, 0
		}
		used += w
	}
	return full, word[start:]
}

// fit shortens clean text to one line of the width, marking the cut.
func fit(f face, text string, width MM) string {
	if f.width(text) <= width {
		return text
	}
	room := width - f.width(cut)
	used := MM(0)
	for i, r := range text {
		w := f.width(string(r))
		if used+w > room {
			return strings.TrimRight(text[:i], " ") + cut
		}
		used += w
	}
	return text
}
