package gas

import (
	"errors"
	"strconv"
	"strings"
	"unicode"
)

// numeral is a number as somebody wrote it. A lone comma or point before
// exactly three digits leaves it open: "1,900" is nineteen hundred to one
// reader and not quite two to another.
type numeral struct {
	written string
	decimal float64 // with the lone separator as decimal mark
	grouped float64 // with the lone separator between thousands
	mark    byte    // the lone separator of an open numeral, else 0
}

func (n numeral) open() bool { return n.mark != 0 }

// english is the reading in which a comma groups thousands and a point marks
// decimals.
func (n numeral) english() float64 {
	if n.mark == ',' {
		return n.grouped
	}
	return n.decimal
}

var errNotANumber = errors.New("not a number")

// tidy lowers a text, and gives each sort of space, minus and apostrophe its
// plain form.
func tidy(text string) string {
	plain := strings.Map(func(r rune) rune {
		switch {
		case r == '−' || r == '–' || r == '—':
			return '-'
		case r == '’':
			return '\''
		case r == '⁄':
			return '/'
		case unicode.IsSpace(r):
			return ' '
		}
		return unicode.ToLower(r)
	}, text)
	return strings.Join(strings.Fields(plain), " ")
}

// splitNumeral parts a tidy text into its leading number and what follows it,
// usually a unit. A space belongs to the number while digits follow it.
func splitNumeral(text string) (number, unit string) {
	end := 0
	for i := 0; i < len(text); i++ {
		c := text[i]
		switch {
		case isDigit(c):
			end = i + 1
			continue
		case i == 0 && (c == '-' || c == '+'), strings.IndexByte("., '", c) >= 0:
			continue
		}
		break
	}
	return text[:end], strings.TrimSpace(text[end:])
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// readNumeral reads a number in any of the usual ways of writing it: 1900,
// 1,900, 1 900, 1'900, 1.204,5, 0,5, -10.
func readNumeral(text string) (numeral, error) {
	n := numeral{written: text}
	body := strings.TrimLeft(text, "+-")
	if len(text)-len(body) > 1 || body == "" || len(body) > 24 {
		return n, errNotANumber
	}
	body, ok := joinThousands(body, ' ')
	if ok {
		body, ok = joinThousands(body, '\'')
	}
	if !ok {
		return n, errNotANumber
	}
	decimal, mark, err := pointed(body)
	if err != nil {
		return n, err
	}
	n.mark = mark
	if n.decimal, err = strconv.ParseFloat(decimal, 64); err != nil {
		return n, errNotANumber
	}
	n.grouped = n.decimal
	if n.open() {
		n.grouped = n.decimal * 1000
	}
	if strings.HasPrefix(text, "-") {
		n.decimal, n.grouped = -n.decimal, -n.grouped
	}
	return n, nil
}

// pointed rewrites the separators of body so that only a decimal point stays,
// and returns the mark of a numeral that is open.
func pointed(body string) (decimal string, mark byte, err error) {
	comma, point := strings.LastIndexByte(body, ','), strings.LastIndexByte(body, '.')
	group, dot := byte(','), byte('.')
	if comma > point {
		group, dot = '.', ','
	}
	separators := strings.Count(body, ",") + strings.Count(body, ".")
	lone := max(comma, point)
	switch {
	case separators > 1 && strings.Count(body, string(dot)) > 1: // 1,234,567
		group, dot = dot, 0
	case separators == 1 && len(body)-lone == 4 && 0 < lone && lone < 4 && body[0] != '0':
		mark = dot
	}
	whole, fraction := body, ""
	if dot != 0 {
		if i := strings.LastIndexByte(body, dot); i >= 0 {
			whole, fraction = body[:i], "."+body[i+1:]
		}
	}
	whole, ok := joinThousands(whole, group)
	if !ok || strings.ContainsAny(whole, ".,") {
		return "", 0, errNotANumber
	}
	return whole + fraction, mark, nil
}

// joinThousands takes the separators out of a number grouped by threes, and
// reports false when the groups are not threes. Decimals may follow the last
// group.
func joinThousands(s string, separator byte) (string, bool) {
	groups := strings.Split(s, string(separator))
	if len(groups) == 1 {
		return s, true
	}
	if n := len(groups[0]); n < 1 || n > 3 {
		return s, false
	}
	for _, g := range groups[1:] {
		digits := strings.IndexFunc(g, func(r rune) bool { return r < '0' || r > '9' })
		if digits < 0 {
			digits = len(g)
		}
		if digits != 3 {
			return s, false
		}
	}
	return strings.Join(groups, ""), true
}

var vulgarFractions = strings.NewReplacer("½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8")

// splitFraction parts a tidy text that starts with a fraction, "1/8 l/min" or
// "1 1/2 lpm", into its value and what follows it.
func splitFraction(text string) (value float64, unit string, ok bool) {
	text = strings.TrimSpace(vulgarFractions.Replace(text))
	top, rest := leadingDigits(text)
	whole := "0"
	if next, isMixed := strings.CutPrefix(rest, " "); isMixed {
		whole = top
		top, rest = leadingDigits(next)
	}
	rest, slashed := strings.CutPrefix(rest, "/")
	bottom, unit := leadingDigits(rest)
	if !slashed || top == "" || whole == "" || bottom == "" {
		return 0, "", false
	}
	w, _ := strconv.ParseFloat(whole, 64)
	t, _ := strconv.ParseFloat(top, 64)
	b, _ := strconv.ParseFloat(bottom, 64)
	if b == 0 || t >= b || t == 0 {
		return 0, "", false
	}
	return w + t/b, strings.TrimSpace(unit), true
}

// leadingDigits parts up to four digits from the start of s; more than that
// is no part of a fraction.
func leadingDigits(s string) (digits, rest string) {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	if n > 4 {
		return "", s
	}
	return s[:n], s[n:]
}
