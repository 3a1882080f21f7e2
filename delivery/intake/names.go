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
	same          bool   // "same house": the person is named by another's row
	sameAs        string // the words
	test          bool
	deceased      bool
	note          string
	phones        []delivery.Phone
}

var (
	inParens    = regexp.MustCompile(`\(([^)]*)\)?`)
	aPhone      = regexp.MustCompile(`\+?\d[\d -]{5,}\d`)
	aWard       = regexp.MustCompile(`(?i)\bward\b\s*(\S.*)?$`)
	sameMarks   = regexp.MustCompile(`(?i)^\s*(?:\^|"|''|ditto\b|same\b)`)
	testRow     = regexp.MustCompile(`(?i)^(?:test|dummy|sample|example)[ ,]+(?:patient|pt|person|row|entry|record)\b|^(?:patient|person)[ ,]+(?:test|dummy)\b`)
	wordsForEnd = regexp.MustCompile(`(?i)\b(?:deceased|died|dead|rip)\b\.?`)
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
		n.same, n.sameAs = true, text
	case aWard.MatchString(text):
		n.ward = strings.TrimSpace(aWard.FindStringSubmatch(text)[1])
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
		n.family, n.given, n.sure = strings.TrimSpace(family), strings.TrimSpace(given), true
		return
	}
	words := strings.Fields(text)
	last := len(words) - 1
	switch {
	case last < 1:
		n.family, n.sure = text, true
	case initial(words[last]):
		n.family, n.given, n.sure = strings.Join(words[:last], " "), words[last], true
	case initial(words[0]):
		n.family, n.given, n.sure = strings.Join(words[1:], " "), words[0], true
	default:
		n.family, n.given = words[0], strings.Join(words[1:], " ")
	}
}

func initial(word string) bool {
	return len([]rune(strings.Trim(word, "."))) == 1
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
	if n.same {
		return n.sameAs
	}
	return delivery.Person{Family: n.family, Given: n.given}.Name()
}

// key returns the name as it is compared: its words without accents, case and
// signs, in one order. "OKORO, T." and "Okoro T" have the same.
func (n named) key() string {
	plain := strings.Map(func(r rune) rune {
		switch {
		case unicode.Is(unicode.Mn, r), r == '\'', r == '’', r == '.':
			return -1
		case unicode.IsLetter(r), unicode.IsDigit(r):
			return unicode.ToLower(r)
		}
		return ' '
	}, norm.NFKD.String(n.family+" "+n.given))
	words := strings.Fields(plain)
	slices.Sort(words)
	return strings.Join(words, " ")
}

// better chooses between two writings of one name: the one that tells family
// and given name apart, then the one in upper and lower case.
func (n named) better(other named) named {
	switch {
	case n.sure != other.sure:
		if n.sure {
			return n.recased(other)
		}
		return other.recased(n)
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

// phones reads a cell of phone numbers, each with whose it is.
func phones(text string) []delivery.Phone {
	var all []delivery.Phone
	for _, part := range regexp.MustCompile(`\s*[,;/\n]\s*`).Split(text, -1) {
		if part == "" || said.MatchString(part) {
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
