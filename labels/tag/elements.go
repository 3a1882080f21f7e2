package tag

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// separator is FNC1 as scanners send it: the group separator, ASCII 29.
const separator = "\x1d"

// element is one application identifier with its value.
type element struct{ ai, value string }

// fixedLength gives the length of the value after the application identifiers
// that need no separator, by their first two digits: GS1 General
// Specifications, figure "Element strings with predefined length using GS1
// application identifiers" (from memory; the lengths of 01, 11 and 17 are
// checked against published strings). For the four-digit 31 to 36 and the
// three-digit 41 it counts from the end of the identifier.
var fixedLength = map[string]int{
	"00": 18, "01": 14, "02": 14, "03": 14, "04": 16,
	"11": 6, "12": 6, "13": 6, "14": 6, "15": 6, "16": 6, "17": 6, "18": 6, "19": 6,
	"20": 2, "31": 6, "32": 6, "33": 6, "34": 6, "35": 6, "36": 6, "41": 13,
}

// identifierLength returns how many digits the application identifier has that
// begins with the two given digits, and 0 when GS1 assigns none (from memory,
// as fixedLength).
func identifierLength(two string) int {
	switch two {
	case "00", "01", "02", "03", "04", "10", "11", "12", "13", "14", "15", "16", "17", "18", "19", "20", "21", "22",
		"30", "37", "90", "91", "92", "93", "94", "95", "96", "97", "98", "99":
		return 2
	case "23", "24", "25", "40", "41", "42", "71":
		return 3
	case "31", "32", "33", "34", "35", "36", "39", "43", "70", "72", "80", "81", "82":
		return 4
	default:
		return 0
	}
}

// longestValue bounds the values we use: GS1 General Specifications, 10, 21
// and 22 take 20 signs, 8003 30 and 8004 30. All others take at most 90.
var longestValue = map[string]int{"10": 20, "21": 20, "22": 20, "8003": 30, "8004": 30}

// readElements reads a GS1 message as a scanner sends it.
func readElements(text string) (Reading, error) {
	var elements []element
	rest := strings.TrimPrefix(text, separator)
	for rest != "" {
		e, after, err := nextElement(rest)
		if err != nil {
			return Reading{}, err
		}
		elements = append(elements, e)
		rest = after
	}
	r, err := fromElements(GS1, elements)
	if err == nil && !strings.Contains(strings.TrimPrefix(text, separator), separator) {
		r.Ask = swallowed(elements)
	}
	return r, err
}

func nextElement(rest string) (e element, after string, err error) {
	n := 0
	if len(rest) >= 2 {
		n = identifierLength(rest[:2])
	}
	if n == 0 || len(rest) < n || !allDigits(rest[:n]) {
		return e, "", fmt.Errorf("The GS1 code does not go on with an identifier GS1 knows at %q. Scan again, or type the serial.", rest)
	}
	e.ai, rest = rest[:n], rest[n:]
	length, fixed := fixedLength[e.ai[:2]]
	if fixed {
		if len(rest) < length {
			return e, "", fmt.Errorf("The GS1 code breaks off in (%s): %d signs of %d. Scan again.", e.ai, len(rest), length)
		}
		e.value, after = rest[:length], strings.TrimPrefix(rest[length:], separator)
		return e, after, nil
	}
	e.value, after, _ = strings.Cut(rest, separator)
	return e, after, nil
}

// dateInTail is a date element at the end of a value of open length.
var dateInTail = regexp.MustCompile(`.(11|13|15|17)[0-9]{2}(0[1-9]|1[0-2])([0-2][0-9]|3[01])$`)

// swallowed returns what to ask when a message came without any separator and
// its last value may hold one more element: keyboard scanners often drop the
// separator, and then nothing but the label can tell.
func swallowed(elements []element) string {
	last := elements[len(elements)-1]
	if _, fixed := fixedLength[last.ai[:2]]; fixed {
		return ""
	}
	holds := func(ai string) bool {
		at := strings.Index(last.value[1:], ai) // at least one sign is the value's own
		given := slices.ContainsFunc(elements, func(e element) bool { return e.ai == ai })
		return !given && at >= 0 && 1+at+len(ai) < len(last.value)
	}
	if !holds("10") && !holds("21") && !dateInTail.MatchString(last.value) {
		return ""
	}
	return fmt.Sprintf("The scanner may have dropped a separator inside %q. Compare it with the label.", last.value)
}

var (
	inParentheses = regexp.MustCompile(`^\([0-9]{2,4}\)`)
	oneIdentifier = regexp.MustCompile(`\(([0-9]{2,4})\)`)
)

// readParentheses reads the form printed under a GS1 code, with every
// identifier in parentheses. A value may itself hold parentheses; only what
// GS1 assigns as an identifier begins a new element.
func readParentheses(text string) (Reading, error) {
	var elements []element
	from := 0
	for _, at := range oneIdentifier.FindAllStringSubmatchIndex(text, -1) {
		ai := text[at[2]:at[3]]
		if identifierLength(ai[:2]) != len(ai) {
			continue
		}
		if n := len(elements); n > 0 {
			elements[n-1].value = strings.TrimSpace(text[from:at[0]])
		}
		elements = append(elements, element{ai: ai})
		from = at[1]
	}
	if len(elements) == 0 {
		return Reading{}, fmt.Errorf("%s begins like a GS1 code, but GS1 has no such identifier. Compare it with the label.", text)
	}
	elements[len(elements)-1].value = strings.TrimSpace(text[from:])
	return fromElements(GS1, elements)
}

// looksLikeElements reports whether a text without any GS1 sign can only be
// meant as an element string: a checked GTIN or GRAI leads it.
func looksLikeElements(text string) bool {
	const gtin, grai = 2 + 14, 4 + 14
	switch {
	case strings.HasPrefix(text, "01") && len(text) >= gtin:
		return checked10(text[2:gtin])
	case strings.HasPrefix(text, "80030") && len(text) >= grai:
		return checked10(text[5:grai])
	default:
		return false
	}
}

// fromElements fills a reading. Elements we have no use for are passed over.
func fromElements(kind Kind, elements []element) (Reading, error) {
	r := Reading{Kind: kind}
	seen := map[string]string{}
	for _, e := range elements {
		if before, ok := seen[e.ai]; ok && before != e.value {
			return r, fmt.Errorf("The code says two things for (%s): %s and %s. Scan one label at a time.", e.ai, before, e.value)
		}
		seen[e.ai] = e.value
		if err := r.take(e); err != nil {
			return r, err
		}
	}
	r.Says = r.inWords()
	if r.Says == "" {
		return r, errors.New("This GS1 code names no product, lot, serial or asset. Scan the label on the item itself.")
	}
	return r, nil
}
