package intake

import (
	"regexp"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"lungwort/delivery"
)

// named is what a cell for a person's name holds besides the name.
type named struct {
	family, given string
	sure          bool   // family and given name are told apart by what is written
	ward          string // the row lends to a ward, not to a person
	same          bool   // "same house: wife": somebody else in the home of the row above
	ditto         bool   // the person of the row above
	sameAs        string // the words
	test          bool
	deceased      bool
	note          string
	phones        []delivery.Phone
}

var (
	inParens    = regexp.MustCompile(`\(([^)]*)\)?`)
	aPhone      = regexp.MustCompile(`\+?\d[\d -]{5,}\d`)
	aWard       = regexp.MustCompile(`(?i)^(?:loan.*\bward\s+(\S.*)|(?:on |for |to )?ward\s+(\w*\d\w*))$`)
	sameMarks   = regexp.MustCompile(`(?i)^(?:\^|"$|''$|ditto\b|same\b(?:$| as| person| pt| patient| house| home| address| place))`)
	otherAtHome = regexp.MustCompile(`(?i)\b(?:house|home|address|wife|husband|partner|spouse|mother|father|son|daughter|brother|sister)\b`)
	testRow     = regexp.MustCompile(`(?i)^(?:test|dummy|sample|example)[ ,]+(?:patient|pt|person|row|entry|record)\b|^(?:patient|person)[ ,]+(?:test|dummy)\b`)
	wordsForEnd = regexp.MustCompile(`(?i)\b(?:deceased|died)\b\.?`)
)

// readName takes a name apart. What stands in brackets is a note, with any
// phone number in it.
func readName(text string) named {
	var n named
	for _, m := range inParens.FindAllStringSubmatch(text, -1) {
		n.aside(m[1])
	}
	text = strings.TrimSpace(inParens.ReplaceAllString(text, " "))
	if wordsForEnd.MatchString(text) {
		n.deceased = true
		text = wordsForEnd.ReplaceAllString(text, " ")
	}
	text = strings.Trim(strings.Join(strings.Fields(text), " "), " -–—,;:")
	switch {
	case testRow.MatchString(text):
		n.test = true
	case sameMarks.MatchString(text):
		n.sameAs = text
		n.same = otherAtHome.MatchString(text)
		n.ditto = !n.same
	case aWard.MatchString(text):
		m := aWard.FindStringSubmatch(text)
		n.ward = strings.TrimSpace(m[1] + m[2])
	default:
		n.split(text)
	}
	return n
}

// aside keeps what stood in brackets: a phone and whose it is, or a note.
func (n *named) aside(text string) {
	text = strings.TrimSpace(text)
	number := aPhone.FindString(text)
	if number == "" {
		n.note = joined(n.note, text)
		return
	}
	whose := strings.Trim(strings.Replace(text, number, "", 1), " :,-")
	n.phones = append(n.phones, delivery.Phone{Number: tidyPhone(number), Whose: whose})
}

func tidyPhone(number string) string {
	return strings.Join(strings.Fields(number), "-")
}

func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "; " + b
}

// split tells family and given name apart where the writing does: by a comma,
// or by an initial, which is the given name.
func (n *named) split(text string) {
	if family, given, found := strings.Cut(text, ","); found {
		n.family, n.given, n.sure = strings.TrimSpace(family), tidyInitial(strings.TrimSpace(given)), true
		return
	}
	words := strings.Fields(text)
	last := len(words) - 1
	switch {
	case last < 1:
		n.family, n.sure = text, true
	case initial(words[last]):
		n.family, n.given, n.sure = strings.Join(words[:last], " "), tidyInitial(words[last]), true
	case initial(words[0]):
		n.family, n.given, n.sure = strings.Join(words[1:], " "), tidyInitial(words[0]), true
	default:
		n.family, n.given = words[0], strings.Join(words[1:], " ")
	}
}

// initial reports whether a word is one letter, with a point or without.
func initial(word string) bool {
	return len([]rune(strings.Trim(word, "."))) == 1
}

// tidyInitial takes the point off a name that is an initial.
func tidyInitial(word string) string {
	if initial(word) {
		return strings.Trim(word, ".")
	}
	return word
}

// turned returns the name with the last word as the family name.
func (n named) turned() named {
	words := strings.Fields(n.family + " " + n.given)
	last := len(words) - 1
	n.family, n.given = words[last], strings.Join(words[:last], " ")
	return n
}

// shown returns the name for a question.
func (n named) shown() string {
	if n.sameAs != "" {
		return n.sameAs
	}
	return delivery.Person{Family: n.family, Given: n.given}.Name()
}

// key returns the name as it is compared: its words without accents, case and
// signs, in one order. "OKORO, T." and "Okoro T" have the same.
func (n named) key() string {
	words := plainWords(n.family + " " + n.given)
	slices.Sort(words)
	return strings.Join(words, " ")
}

// plainWords returns the words of a text without accents, case and signs.
func plainWords(text string) []string {
	return strings.Fields(strings.Map(func(r rune) rune {
		switch {
		case unicode.Is(unicode.Mn, r), r == '\'', r == '’', r == '.':
			return -1
		case unicode.IsLetter(r), unicode.IsDigit(r):
			return unicode.ToLower(r)
		}
		return ' '
	}, norm.NFKD.String(text)))
}

// better chooses between two writings of one name: the one that tells family
// and given name apart, then the one with the given name in full, then the
// one in upper and lower case.
func (n named) better(other named) named {
	switch {
	case n.sure != other.sure:
		if n.sure {
			return n.recased(other)
		}
		return other.recased(n)
	case initial(n.given) && len(other.given) > len(n.given):
		return other
	case shouted(n.family) && !shouted(other.family):
		return other
	}
	return n
}

// recased takes the case of another writing of the same words.
func (n named) recased(other named) named {
	for _, word := range strings.Fields(other.family + " " + other.given) {
		if strings.EqualFold(n.family, word) && shouted(n.family) {
			n.family = word
		}
		if strings.EqualFold(n.given, word) && shouted(n.given) {
			n.given = word
		}
	}
	return n
}

func shouted(s string) bool {
	return len([]rune(s)) > 2 && s == strings.ToUpper(s)
}

var betweenPhones = regexp.MustCompile(`\s*[,;/\n]\s*`)

// phones reads a cell of phone numbers, each with whose it is.
func phones(text string) []delivery.Phone {
	var all []delivery.Phone
	for _, part := range betweenPhones.Split(text, -1) {
		if part == "" || unknown(part) {
			continue
		}
		number := aPhone.FindString(part)
		if number == "" {
			all = append(all, delivery.Phone{Number: part})
			continue
		}
		whose := strings.Trim(strings.Replace(part, number, "", 1), " ():,-")
		all = append(all, delivery.Phone{Number: tidyPhone(number), Whose: whose})
	}
	return all
}
