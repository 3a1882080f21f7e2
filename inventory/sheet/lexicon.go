package sheet

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// lexicon is a vocabulary, ready to be looked up.
type lexicon struct {
	keys  map[string][]string // folded synonym to keys
	units map[string][]unit   // key to the units its heading may have
	first map[string]string   // key to its first synonym, for messages
	longs []string            // folded synonyms long enough to be misspelt
}

type unit struct {
	tokens  []string
	written string
}

// meaning is what one heading says.
type meaning struct {
	keys []string
	unit string
}

func newLexicon(vocabulary []Heading) *lexicon {
	l := &lexicon{keys: map[string][]string{}, units: map[string][]unit{}, first: map[string]string{}}
	for _, h := range vocabulary {
		l.first[h.Key] = h.Key
		for i, synonym := range append([]string{h.Key}, h.Synonyms...) {
			if i == 1 {
				l.first[h.Key] = synonym
			}
			folded := strings.Join(tokens(synonym), "")
			if folded != "" && !slices.Contains(l.keys[folded], h.Key) {
				l.keys[folded] = append(l.keys[folded], h.Key)
			}
		}
		for _, u := range h.Units {
			l.units[h.Key] = append(l.units[h.Key], unit{tokens(u), u})
		}
	}
	for folded := range l.keys {
		if len(folded) >= shortestMisspelt {
			l.longs = append(l.longs, folded)
		}
	}
	slices.Sort(l.longs)
	return l
}

// score counts the keys a row's cells name, a required one twice, and the
// cells that show anything.
func (l *lexicon) score(r, group Row, required []string) (score, shown int) {
	seen := map[string]bool{}
	for i, c := range r.Cells {
		if c.Blank() || c.Serial {
			continue
		}
		shown++
		for _, key := range l.meaning(c.Text, group.Cell(i).Text).keys {
			if seen[key] {
				continue
			}
			seen[key] = true
			if score++; slices.Contains(required, key) {
				score++
			}
		}
	}
	if len(seen) < 2 && shown > 1 {
		return 0, shown
	}
	return score, shown
}

// meaning looks a heading up, first together with the group heading above.
func (l *lexicon) meaning(text, group string) meaning {
	own := tokens(text)
	if above := tokens(group); len(above) > 0 && text != group {
		for _, together := range [][]string{slices.Concat(above, own), slices.Concat(own, above)} {
			if m := l.lookUp(together); len(m.keys) > 0 {
				return m
			}
		}
	}
	return l.lookUp(own)
}

// lookUp returns the keys of a heading, with a unit at its end or without.
// The longest unit that fits counts: "Flow L/min" is in L/min, not in min.
func (l *lexicon) lookUp(words []string) meaning {
	if keys := l.keys[strings.Join(words, "")]; len(keys) > 0 {
		m := meaning{keys: keys}
		if len(keys) == 1 {
			m.unit = longestUnit(words, l.units[keys[0]]).written
		}
		return m
	}
	var m meaning
	for key, units := range l.units {
		u := longestUnit(words, units)
		rest := words[:len(words)-len(u.tokens)]
		if len(rest) > 1 && rest[len(rest)-1] == "in" {
			rest = rest[:len(rest)-1]
		}
		if len(u.tokens) > 0 && slices.Contains(l.keys[strings.Join(rest, "")], key) {
			m.keys, m.unit = append(m.keys, key), u.written
		}
	}
	slices.Sort(m.keys)
	return m
}

func longestUnit(words []string, units []unit) unit {
	var longest unit
	for _, u := range units {
		if len(u.tokens) > len(longest.tokens) && endsWith(words, u.tokens) {
			longest = u
		}
	}
	return longest
}

func endsWith(words, tail []string) bool {
	return len(tail) > 0 && len(words) >= len(tail) && slices.Equal(words[len(words)-len(tail):], tail)
}

// spelled are words and signs that say the same in a heading.
var spelled = map[string]string{
	"#": "no", "number": "no", "num": "no", "nbr": "no", "nr": "no",
	"%": "percent", "pct": "percent", "&": "and",
}

// tokens splits a heading into lower-case words without accents. Punctuation
// separates; the signs for number, percent and "and" are words.
func tokens(heading string) []string {
	var all []string
	var word strings.Builder
	end := func() {
		if word.Len() > 0 {
			all = append(all, spelling(word.String()))
			word.Reset()
		}
	}
	for _, r := range strings.ToLower(norm.NFKD.String(heading)) {
		switch {
		case unicode.Is(unicode.Mn, r):
		case unicode.IsLetter(r), unicode.IsDigit(r):
			word.WriteString(letter(r))
		default:
			end()
			if sign, known := spelled[string(r)]; known {
				all = append(all, sign)
			}
		}
	}
	end()
	return all
}

func spelling(word string) string {
	if same, known := spelled[word]; known {
		return same
	}
	return word
}

// letter writes the letters that have no accent to take off.
func letter(r rune) string {
	switch r {
	case 'ß':
		return "ss"
	case 'ł':
		return "l"
	case 'đ', 'ð':
		return "d"
	case 'ø':
		return "o"
	case 'æ':
		return "ae"
	case 'œ':
		return "oe"
	}
	return string(r)
}
