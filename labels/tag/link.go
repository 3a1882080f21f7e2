package tag

import (
	"errors"
	"fmt"
	"net/url"
	"slices"
	"strings"
)

func isLink(text string) bool {
	lower := strings.ToLower(text)
	return strings.HasPrefix(lower, "http://") || strings.HasPrefix(lower, "https://")
}

// linkKeys are the identifiers a Digital Link may lead with that name things
// we lend.
var linkKeys = []string{"01", "8003", "8004"}

// readLink reads a GS1 Digital Link: pairs of identifier and value in the path,
// dates and the rest in the query. Any host may serve one, so the host says
// nothing.
func readLink(text string) (Reading, error) {
	u, err := url.Parse(text)
	if err != nil {
		return Reading{}, errors.New("This link can't be read. Scan again or type the serial.")
	}
	var segments []string
	for _, s := range strings.Split(strings.Trim(u.EscapedPath(), "/"), "/") {
		plain, err := url.PathUnescape(s)
		if err != nil {
			return Reading{}, errors.New("This link can't be read. Scan again or type the serial.")
		}
		segments = append(segments, plain)
	}
	start := slices.IndexFunc(segments, func(s string) bool { return slices.Contains(linkKeys, s) })
	if start < 0 || (len(segments)-start)%2 != 0 {
		return Reading{}, errors.New("This is a link, but no GS1 Digital Link that names an item. Scan the tag or the serial.")
	}
	var elements []element
	for i := start; i < len(segments); i += 2 {
		e := element{segments[i], segments[i+1]}
		if e.ai == "01" {
			e.value = gtin14(e.value) // links may carry the shorter forms
		}
		elements = append(elements, e)
	}
	more, err := linkQuery(u.RawQuery)
	if err != nil {
		return Reading{}, err
	}
	return fromElements(Link, append(elements, more...))
}

// linkQuery returns the elements in the query, in their order; keys that are
// no identifiers belong to the host and are passed over.
func linkQuery(raw string) ([]element, error) {
	var elements []element
	for _, pair := range strings.FieldsFunc(raw, func(r rune) bool { return r == '&' || r == ';' }) {
		key, value, _ := strings.Cut(pair, "=")
		if len(key) < 2 || !allDigits(key) || identifierLength(key[:2]) != len(key) {
			continue
		}
		plain, err := url.PathUnescape(value)
		if err != nil {
			return nil, fmt.Errorf("(%s) in this link can't be read. Scan again.", key)
		}
		elements = append(elements, element{key, plain})
	}
	return elements, nil
}
