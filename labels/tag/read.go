package tag

import (
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// Kind says what sort of code was scanned or typed.
type Kind string

// The kinds of reading.
const (
	OurTag  Kind = "tag"     // one of our tags: Tag
	Serial  Kind = "serial"  // a bare maker's serial: Serial
	GS1     Kind = "gs1"     // a GS1 element string: GTIN, Serial, Lot, Made, Expires, GRAI, GIAI
	Link    Kind = "link"    // a GS1 Digital Link, with the same fields
	Paper   Kind = "paper"   // the code on one of our papers: PaperKind, PaperID
	Unknown Kind = "unknown" // none of these; Read says why in its error
)

// Reading is what one scan or one typed line says.
type Reading struct {
	Kind Kind
	Tag  Tag

	Serial        string // as written; compare by inventory.SerialKey
	GTIN          string // fourteen digits
	Lot           string
	Made, Expires time.Time // calendar days, at midnight UTC
	GRAI, GIAI    string

	PaperKind, PaperID string

	Says   string // the reading in words
	Ask    string // what a person should check against the label; empty when nothing
	Likely []Tag  // after a failed check character: what may have been meant, likeliest first
	Raw    string // the text as it came
}

const longest = 1024 // signs; the largest GS1 symbols hold far less

// Read takes what a scanner sent or a person typed and says what it is: our
// tag, a code on our papers, a GS1 element string (with or without separators,
// or in parentheses), a GS1 Digital Link, or else a maker's serial. Whether
// anything goes by that name is for the book to say. The error is a sentence
// for the person; the reading then has the kind Unknown.
func Read(scanned string) (Reading, error) {
	r, err := read(scanned)
	r.Raw = scanned
	if err != nil {
		r.Kind = Unknown
	}
	return r, err
}

func read(scanned string) (Reading, error) {
	text := withoutEndings(scanned)
	meant, layout := ungarbled(text)
	r, err := readPlain(meant)
	if layout == "" || err != nil {
		return r, err
	}
	if r.Kind == Serial { // nothing in a bare serial proves the reading right
		r.Ask = fmt.Sprintf("This came through a %s keyboard. Is it %s? Compare it with the label, and set the scanner to this keyboard.", layout, r.Serial)
	}
	return r, nil
}

// readPlain reads what came through the right keyboard.
func readPlain(whole string) (Reading, error) {
	text, symbology := withoutSymbology(whole)
	switch {
	case text == "":
		return Reading{}, errors.New("Nothing was scanned. Scan again or type the number under the code.")
	case len(text) > longest:
		return Reading{}, fmt.Errorf("This code holds %d signs, more than any label of equipment. Scan the label's own code.", len(text))
	case isLink(text):
		return readLink(text)
	case symbology == "]E0" || symbology == "]E4": // EAN/UPC and EAN-8 hold a GTIN and nothing else
		return fromElements(GS1, []element{{"01", gtin14(text)}})
	case gs1Symbologies[symbology] || strings.Contains(text, separator):
		return readElements(text)
	case inParentheses.MatchString(text):
		return readParentheses(text)
	case strings.HasPrefix(strings.ToUpper(text), paperPrefix):
		return readPaper(text)
	}
	if body, check, ok := looksLikeTag(bare(text)); ok {
		return readTag(text, body, check)
	}
	if looksLikeElements(text) {
		if r, err := readElements(text); err == nil {
			return r, nil
		}
	}
	return readSerial(text)
}

// withoutEndings takes off what scanners and pasted cells add at either end.
// A separator is kept in front, where it stands for the sign of a GS1 code.
func withoutEndings(s string) string {
	ending := func(r rune) bool { return unicode.IsSpace(r) || unicode.In(r, unicode.Cc, unicode.Cf) }
	return strings.TrimLeftFunc(strings.TrimRightFunc(s, ending), func(r rune) bool {
		return ending(r) && string(r) != separator
	})
}

// gs1Symbologies are the symbology identifiers (ISO/IEC 15424) of GS1-128,
// GS1 DataMatrix, GS1 QR Code, GS1 DataBar and GS1 DotCode.
var gs1Symbologies = map[string]bool{"]C1": true, "]d2": true, "]Q3": true, "]e0": true, "]J1": true}

// withoutSymbology splits off a symbology identifier such as ]C1.
func withoutSymbology(s string) (text, symbology string) {
	const length = 3
	if len(s) < length || s[0] != ']' || !unicode.IsLetter(rune(s[1])) {
		return s, ""
	}
	return s[length:], s[:length]
}

func readTag(text, body string, check byte) (Reading, error) {
	t := Tag(prefix + body + string(check))
	if _, ok := t.Number(); ok {
		return Reading{Kind: OurTag, Tag: t, Says: "tag " + t.Printed()}, nil
	}
	// A maker's serial may happen to look like a tag, so it stays at hand.
	r := Reading{Serial: text, Likely: likely(body, check)}
	if len(r.Likely) == 0 {
		return r, fmt.Errorf("%s looks like one of our tags, but its check character does not fit. Scan it again, or type the serial instead.", text)
	}
	return r, fmt.Errorf("%s looks like one of our tags, but its check character does not fit. Scan it again; it may be %s.", text, printedList(r.Likely))
}

// printedList names the first few tags.
func printedList(tags []Tag) string {
	const few = 3
	var names []string
	for _, t := range tags[:min(few, len(tags))] {
		names = append(names, t.Printed())
	}
	return strings.Join(names, " or ")
}

func readSerial(text string) (Reading, error) {
	if damaged(text) {
		return Reading{}, fmt.Errorf("%s is a serial that a spreadsheet turned into a rounded number; its last digits are gone. Read the serial from the item itself.", text)
	}
	if bare(text) == "" || !utf8.ValidString(text) || strings.ContainsFunc(text, unicode.IsControl) {
		return Reading{}, fmt.Errorf("%q can't be read as a tag, a serial or a GS1 code. Scan again or type the number under the code.", text)
	}
	r := Reading{Kind: Serial, Serial: text, Says: "serial " + text}
	if n := len(text); (n == 8 || n == 12 || n == 13 || n == 14) && checked10(text) {
		r.GTIN = gtin14(text)
		r.Ask = "This may also be the number of the product (GTIN) that every piece of it carries, not the serial of this one."
	}
	return r, nil
}
