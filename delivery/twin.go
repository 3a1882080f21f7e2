package delivery

import (
	"fmt"
	"iter"
	"slices"
	"strings"
	"unicode"

	"lungwort/inventory"
)

// MaybeOne reports whether two records may be one person, and why: the same
// record number, or the same name with the same birth date or phone. Two birth
// dates are two persons, unless the hospital says one number.
func MaybeOne(a, b Person) (why string, may bool) {
	switch {
	case a.ID == b.ID || a.Erased || b.Erased:
		return "", false
	case RecordKey(a.Record) != "" && RecordKey(a.Record) == RecordKey(b.Record):
		return "same record number", true
	case a.Born != "" && b.Born != "" && a.Born != b.Born:
		return "", false
	case !namedAlike(a, b):
		return "", false
	case a.Born != "" && a.Born == b.Born:
		return "same name and birth date", true
	case sharePhone(a, b):
		return "same name and phone", true
	}
	return "", false
}

// TwinsOf returns each two of the persons who may be one, and why. Persons come
// in a fixed order, and so do the pairs.
func TwinsOf(persons []Person) iter.Seq2[[2]Person, string] {
	alike := make(map[string][]Person) // by what two records of one person share
	return func(yield func([2]Person, string) bool) {
		for _, p := range persons {
			keys := []string{"name " + NameKey(p.Family)}
			if record := RecordKey(p.Record); record != "" {
				keys = append(keys, "record "+record)
			}
			asked := make(map[inventory.PersonID]bool)
			for _, key := range keys {
				for _, other := range alike[key] {
					why, may := MaybeOne(other, p)
					if !may || asked[other.ID] {
						continue
					}
					asked[other.ID] = true
					if !yield([2]Person{other, p}, why) {
						return
					}
				}
				alike[key] = append(alike[key], p)
			}
		}
	}
}

// TwinKey names the question whether two records are one person.
func TwinKey(a, b inventory.PersonID) string {
	return fmt.Sprintf("%s-%s-%s", OnePerson, min(a, b), max(a, b))
}

// twins returns the persons a key asks about.
func twins(key string) (a, b inventory.PersonID, is bool) {
	rest, is := strings.CutPrefix(key, string(OnePerson)+"-")
	first, second, both := strings.Cut(rest, "-")
	return inventory.PersonID(first), inventory.PersonID(second), is && both
}

// RecordKey returns a record number as it is compared: without leading zeros,
// which spreadsheets drop.
func RecordKey(record string) string {
	return strings.TrimLeft(strings.ToUpper(strings.Join(strings.Fields(record), "")), "0")
}

// namedAlike reports whether family names agree and given names do, as far as
// they are written: "T." may be "Thabo".
func namedAlike(a, b Person) bool {
	if NameKey(a.Family) == "" || NameKey(a.Family) != NameKey(b.Family) {
		return false
	}
	one, other := NameKey(a.Given), NameKey(b.Given)
	return one != "" && other != "" && (strings.HasPrefix(one, other) || strings.HasPrefix(other, one))
}

// NameKey returns a name as it is compared: its letters alone, lower case.
func NameKey(name string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, name)
}

func sharePhone(a, b Person) bool {
	return slices.ContainsFunc(a.Phones, func(p Phone) bool {
		return phoneDigits(p) != "" && slices.ContainsFunc(b.Phones, func(q Phone) bool { return phoneDigits(p) == phoneDigits(q) })
	})
}

func phoneDigits(p Phone) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, p.Number)
}
