package store

import (
	"strings"
	"unicode"

	"golang.org/x/text/runes"
	"golang.org/x/text/transform"
	"golang.org/x/text/unicode/norm"

	"lungwort/inventory"
)

// apart spells the letters that Unicode does not take apart into a letter and
// a mark.
var apart = strings.NewReplacer("đ", "d", "ð", "d", "ł", "l", "ø", "o", "ß", "ss", "æ", "ae", "œ", "oe", "þ", "th")

// Fold returns text as it is searched: lower case, without marks on letters,
// single blanks between words, so that "da nang" finds "Đà Nẵng".
func Fold(text string) string {
	bare, _, err := transform.String(transform.Chain(norm.NFKD, runes.Remove(runes.In(unicode.Mn))), text)
	if err != nil {
		bare = text
	}
	return strings.Join(strings.Fields(apart.Replace(strings.ToLower(bare))), " ")
}

// searched returns what a search for the item looks in.
func searched(i inventory.Item) string {
	return Fold(strings.Join([]string{
		i.Spec.Serial, inventory.SerialKey(i.Spec.Serial), i.Spec.Model, string(i.Spec.Kind), string(i.Spec.Size),
		i.Spec.Owner, string(i.State), i.Place.Name(),
	}, " "))
}
