package tag

import (
	"fmt"
	"strings"
)

// The forms in which a label carries a number of the programme's own under its
// GS1 company prefix.
const (
	AsElements = "elements" // "(8003)…": the form printed under GS1 codes
	AsLink     = "link"     // a GS1 Digital Link
)

// resolver answers every GS1 Digital Link. In capitals a QR code stays in its
// compact alphanumeric mode; scheme and host are the same in either case.
const resolver = "HTTPS://ID.GS1.ORG/"

// assetType is the number of the one type of returnable asset we number:
// cylinders.
const assetType = 1

// graiType is how many digits of a GRAI name the company and the type: a zero,
// twelve digits and the check digit (GS1 General Specifications, AI 8003).
const graiType = 14

// CheckCompany refuses what is no GS1 company prefix: four to twelve digits.
func CheckCompany(prefix string) error {
	if len(prefix) < 4 || len(prefix) > 12 || !allDigits(prefix) {
		return fmt.Errorf("“%s” is no GS1 company prefix: it is four to twelve digits", prefix)
	}
	return nil
}

// Returnable returns the GRAI (8003) of a cylinder: company and type with their
// check digit, and our tag as its serial.
func (t Tag) Returnable(company string) string {
	type12 := company
	if room := 12 - len(company); room > 0 {
		type12 += fmt.Sprintf("%0*d", room, assetType)
	}
	return "0" + type12 + string(checkMod10(type12)) + t.Payload()
}

// Individual returns the GIAI (8004) of a device: company, then our tag.
func (t Tag) Individual(company string) string { return company + t.Payload() }

// Carried returns what a code says for the value of an identifier, in one of
// the two forms.
func Carried(form, ai, value string) string {
	if form == AsLink {
		return resolver + ai + "/" + value
	}
	return "(" + ai + ")" + value
}

// Ours returns the tag within a GRAI or a GIAI of the programme's own company
// prefix, and false when the reading holds none.
func (r Reading) Ours(company string) (Tag, bool) {
	if CheckCompany(company) != nil {
		return "", false
	}
	var t Tag
	switch {
	case strings.HasPrefix(r.GIAI, company):
		t = Tag(r.GIAI[len(company):])
	case len(r.GRAI) > graiType && strings.HasPrefix(r.GRAI[1:], company):
		t = Tag(r.GRAI[graiType:])
	}
	_, ok := t.Number()
	return t, ok
}

// Asset is what names one piece in a GRAI or a GIAI of anybody: the serial of
// the first, the whole of the second; empty when there is neither.
func (r Reading) Asset() string {
	if len(r.GRAI) > graiType {
		return r.GRAI[graiType:]
	}
	return r.GIAI
}
