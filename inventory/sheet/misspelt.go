package sheet

import "slices"

// shortestMisspelt is the length from which a heading one letter off a known
// one is offered as a misspelling of it.
const shortestMisspelt = 5

// nearly returns the keys whose synonyms are one slip of the finger away.
func (l *lexicon) nearly(text string) []string {
	word := ""
	for _, token := range tokens(text) {
		word += token
	}
	if len(word) < shortestMisspelt {
		return nil
	}
	var keys []string
	for _, known := range l.longs {
		if !oneSlip([]rune(word), []rune(known)) {
			continue
		}
		for _, key := range l.keys[known] {
			if !slices.Contains(keys, key) {
				keys = append(keys, key)
			}
		}
	}
	slices.Sort(keys)
	return keys
}

// oneSlip reports whether a and b differ by one letter added, left out,
// changed, or swapped with its neighbour.
func oneSlip(a, b []rune) bool {
	for len(a) > 0 && len(b) > 0 && a[0] == b[0] {
		a, b = a[1:], b[1:]
	}
	for len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	switch {
	case len(a) <= 1 && len(b) <= 1:
		return true
	case len(a) == 2 && len(b) == 2:
		return a[0] == b[1] && a[1] == b[0]
	}
	return false
}
