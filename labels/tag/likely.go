package tag

import (
	"slices"
	"strings"
)

// looksLikeTag splits a normalised text that is meant as one of our tags into
// body and check character: the letters LW and nearly only digits.
func looksLikeTag(s string) (body string, check byte, ok bool) {
	const shortest, longest = bodyDigits - 1, 11 // one digit lost, one doubled
	if !strings.HasPrefix(s, prefix) || len(s) < len(prefix)+shortest+1 || len(s) > len(prefix)+longest+1 {
		return "", 0, false
	}
	body, check = s[len(prefix):len(s)-1], s[len(s)-1]
	if strings.IndexByte(alphabet, check) < 0 || !allDigits(asDigits.Replace(body)) {
		return "", 0, false
	}
	digits := 0
	for i := range len(body) {
		if body[i] >= '0' && body[i] <= '9' {
			digits++
		}
	}
	return body, check, digits >= 2
}

// asDigits reads the letters that are taken for digits; asLetters the reverse.
var (
	asDigits  = strings.NewReplacer("O", "0", "Q", "0", "D", "0", "I", "1", "L", "1", "Z", "2", "S", "5", "G", "6", "B", "8")
	asLetters = map[byte]string{'Y': "Z", '0': "OQD", '1': "IL", '2': "Z", '5': "S", '6': "G", '8': "B", 'O': "0QD", 'Q': "0O", 'D': "0O", 'I': "1L", 'L': "1I", 'Z': "2Y", 'S': "5", 'G': "6", 'B': "8"}
)

// likely returns the tags that one slip turns into the given body and check
// character, the likeliest slip first: a look-alike sign, two neighbours
// swapped, the check character alone, one wrong digit, one doubled, one lost.
func likely(body string, check byte) []Tag {
	digits := asDigits.Replace(body)
	l := &slips{check: check}
	l.tryAs(digits, check)
	for _, c := range []byte(asLetters[check]) {
		l.tryAs(digits, c)
	}
	for i := 0; i+1 < len(digits); i++ {
		l.try(digits[:i] + digits[i+1:i+2] + digits[i:i+1] + digits[i+2:])
	}
	l.tryAs(digits, checkMod37(prefix+digits))
	l.oneDigit(digits)
	return l.tags
}

type slips struct {
	check byte
	tags  []Tag
}

func (l *slips) oneDigit(digits string) {
	for i := range len(digits) {
		for d := '0'; d <= '9'; d++ {
			l.try(digits[:i] + string(d) + digits[i+1:])
		}
	}
	for i := range len(digits) {
		l.try(digits[:i] + digits[i+1:])
	}
	for i := range len(digits) + 1 {
		for d := '0'; d <= '9'; d++ {
			l.try(digits[:i] + string(d) + digits[i:])
		}
	}
}

func (l *slips) try(digits string) { l.tryAs(digits, l.check) }

func (l *slips) tryAs(digits string, check byte) {
	t := Tag(prefix + digits + string(check))
	if _, ok := t.Number(); ok && !slices.Contains(l.tags, t) {
		l.tags = append(l.tags, t)
	}
}
