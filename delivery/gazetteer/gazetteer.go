// Package gazetteer finds where an address lies by what it is called: among the
// places a programme has listed, else by the centroid of its US postcode. What
// it finds is only about right. Several places of one name are all given back:
// choosing among them is a person's business. Pure.
package gazetteer

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Place is one line of a programme's place file: a house, a street, a village.
// Degrees are north and east.
type Place struct {
	Name     string  `json:"name"`
	Town     string  `json:"town,omitempty"`
	Postcode string  `json:"postcode,omitempty"`
	Area     string  `json:"area,omitempty"`
	Lat      float64 `json:"lat"`
	Lon      float64 `json:"lon"`
}

// Where returns name and town in one line.
func (p Place) Where() string {
	if p.Town == "" || p.Town == p.Name {
		return p.Name
	}
	return p.Name + ", " + p.Town
}

// How says by what an address was found.
type How string

// The ways an address is found, the closest first.
const (
	ByAddress  How = "address"  // street and number are listed
	ByStreet   How = "street"   // the street is
	ByTown     How = "town"     // the town is
	ByPostcode How = "postcode" // a listed postcode, or the centroid of a US one
)

// Match is a place an address may lie at.
type Match struct {
	Place
	How   How
	Usual bool // not of the programme's own list
}

// Gazetteer is what addresses are looked up in.
type Gazetteer struct {
	Places []Place
	US     bool // five digits are a US postcode
}

// Find returns where an address may lie, by the closest way that finds it at
// all; none when nothing does.
func (g Gazetteer) Find(street, town, postcode string) []Match {
	house, road, in := words(street), words(withoutNumber(street)), words(town)
	fits := func(p Place) bool { return p.Town == "" || in == "" || words(p.Town) == in }
	for _, way := range []struct {
		how How
		is  func(Place) bool
	}{
		{ByAddress, func(p Place) bool { return house != "" && words(p.Name) == house && house != road && fits(p) }},
		{ByStreet, func(p Place) bool { return road != "" && words(p.Name) == road && fits(p) }},
		{ByTown, func(p Place) bool { return in != "" && words(p.Name) == in && (p.Town == "" || words(p.Town) == in) }},
		{ByPostcode, func(p Place) bool { return postcode != "" && words(p.Postcode) == words(postcode) }},
	} {
		if found := g.matches(way.how, way.is); len(found) > 0 {
			return found
		}
	}
	if at, ok := US(postcode); ok && g.US {
		return []Match{{Place: at, How: ByPostcode, Usual: true}}
	}
	return nil
}

// matches returns the places that are meant, each spot once.
func (g Gazetteer) matches(how How, is func(Place) bool) []Match {
	var found []Match
	for _, p := range g.Places {
		same := func(m Match) bool { return m.Lat == p.Lat && m.Lon == p.Lon }
		if is(p) && !slices.ContainsFunc(found, same) {
			found = append(found, Match{Place: p, How: how})
		}
	}
	return found
}

// shortened are words of streets that are often shortened (US Postal Service,
// Publication 28, appendix C1; a few of them).
var shortened = map[string]string{
	"st": "street", "str": "street", "ave": "avenue", "av": "avenue", "rd": "road", "ln": "lane", "dr": "drive",
	"ct": "court", "blvd": "boulevard", "pl": "place", "sq": "square", "ter": "terrace", "hwy": "highway", "pkwy": "parkway",
}

// words folds case, accents, punctuation and usual short forms.
func words(text string) string {
	fields := strings.Fields(strings.Map(func(r rune) rune {
		switch {
		case unicode.Is(unicode.Mn, r), r == '\'', r == '’', r == '.':
			return -1
		case unicode.IsLetter(r), unicode.IsDigit(r):
			return unicode.ToLower(r)
		}
		return ' '
	}, norm.NFKD.String(text)))
	for i, f := range fields {
		if long, is := shortened[f]; is {
			fields[i] = long
		}
	}
	return strings.Join(fields, " ")
}

// withoutNumber drops the number of the house, before the street or after it.
func withoutNumber(street string) string {
	fields := strings.Fields(strings.ReplaceAll(street, ",", " "))
	numbered := func(f string) bool { return f[0] >= '0' && f[0] <= '9' }
	switch n := len(fields); {
	case n > 1 && numbered(fields[n-1]):
		fields = fields[:n-1]
	case n > 1 && numbered(fields[0]):
		fields = fields[1:]
	}
	return strings.Join(fields, " ")
}
