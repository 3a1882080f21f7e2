package delivery

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"lungwort/inventory"
)

// RecallNotice is what a notice names: a model, a range of serials, a list of
// serials, or the lot of a fill.
type RecallNotice struct {
	Model    string
	From, To string
	Lot      string
	Serials  []string
}

// Empty reports whether the notice names nothing.
func (n RecallNotice) Empty() bool {
	return n.Model == "" && n.From == "" && n.To == "" && n.Lot == "" && len(n.Serials) == 0
}

// Match is how well an item fits a notice.
type Match int

// The matches. Perhaps is asked about: a serial near one of the notice.
const (
	No Match = iota
	Perhaps
	Yes
)

// Match returns whether the notice names an item, by what is on its plate, and
// why. Lots are matched by the item's fills, not here.
func (n RecallNotice) Match(spec inventory.Spec) (Match, string) { return n.Search().Match(spec) }

// RecallSearch is a notice made ready to be held against many items.
type RecallSearch struct {
	notice RecallNotice
	model  string
	listed map[string]bool
	near   map[string]string // serials of the list, by what is easily misread for them
	in     serialRange
}

// Search makes the notice ready.
func (n RecallNotice) Search() RecallSearch {
	s := RecallSearch{
		notice: n, model: inventory.SerialKey(n.Model),
		listed: make(map[string]bool, len(n.Serials)), near: make(map[string]string, len(n.Serials)),
		in: serialRange{inventory.SerialKey(n.From), inventory.SerialKey(n.To)},
	}
	for _, serial := range n.Serials {
		s.listed[inventory.SerialKey(serial)] = true
		s.near[inventory.NearKey(serial)] = serial
	}
	return s
}

// Longest returns how many signs a serial in the range has at most.
func (s RecallSearch) Longest() int { return max(len(s.in.from), len(s.in.to)) }

// MayHold reports whether a serial of a key is, or may be, inside the range.
func (s RecallSearch) MayHold(key string) bool {
	return s.in.holds(key) || s.in.holds(withDigits(key)) || s.in.holds(s.in.withZeros(key))
}

// Match returns whether the notice names an item, and why.
func (s RecallSearch) Match(spec inventory.Spec) (Match, string) {
	model := inventory.SerialKey(spec.Model)
	noModel := s.notice.Model != "" && model == ""
	if s.notice.Model != "" && !noModel && model != s.model {
		return No, ""
	}
	match, why := s.serial(spec)
	switch {
	case match == No || !noModel:
		return match, why
	case spec.Kind == inventory.Cylinder: // known by its size, not by a model
		return No, ""
	}
	return Perhaps, strings.TrimPrefix(why+"; ", "; ") + "no model is in the book: read the plate"
}

func (s RecallSearch) serial(spec inventory.Spec) (Match, string) {
	key := inventory.SerialKey(spec.Serial)
	switch {
	case len(s.notice.Serials) > 0:
		return s.onList(key)
	case s.notice.From != "" || s.notice.To != "":
		return s.in.match(key)
	case s.notice.Model == "":
		return No, ""
	case spec.Model == "":
		return Yes, ""
	}
	return Yes, "model " + spec.Model
}

func (s RecallSearch) onList(key string) (Match, string) {
	near, isNear := s.near[inventory.NearKey(key)]
	switch {
	case key == "":
		return No, ""
	case s.listed[key]:
		return Yes, "on the list"
	case isNear:
		return Perhaps, "near " + near + " on the list: read the plate"
	}
	return No, ""
}

// match compares a serial with the range sign by sign. A serial of another
// length than the ends can't be placed; what comes in only after folding what
// is easily misread or lost is asked about.
func (r serialRange) match(key string) (Match, string) {
	switch {
	case key == "":
		return No, ""
	case r.holds(key) && r.beyondItsMonth(key):
		return Yes, "inside the range as text, with a number beyond its ends: check the plate"
	case r.holds(key):
		return Yes, "inside the range"
	case r.holds(withDigits(key)):
		return Perhaps, "inside the range if a letter is a digit: read the plate"
	case r.holds(r.withZeros(key)):
		return Perhaps, "inside the range if zeros were lost in front: read the plate"
	}
	return No, ""
}

// serialRange is a range of serial keys; an empty end is open.
type serialRange struct{ from, to string }

func (r serialRange) holds(key string) bool {
	return (r.from == "" || len(key) == len(r.from) && key >= r.from) &&
		(r.to == "" || len(key) == len(r.to) && key <= r.to)
}

// dated is a serial that begins with two letters, a year and a month.
var dated = regexp.MustCompile(`^([A-Z]{2}[0-9]{2}(?:0[1-9]|1[0-2]))([0-9]+)$`)

// beyondItsMonth reports whether the number of a dated serial lies outside the
// numbers of a range over several months.
func (r serialRange) beyondItsMonth(key string) bool {
	from, to, of := dated.FindStringSubmatch(r.from), dated.FindStringSubmatch(r.to), dated.FindStringSubmatch(key)
	if from == nil || to == nil || of == nil || from[1] == to[1] {
		return false
	}
	return of[2] < min(from[2], to[2]) || of[2] > max(from[2], to[2])
}

// lookAlikes makes digits of the letters that are easily read for them.
var lookAlikes = strings.NewReplacer("O", "0", "I", "1", "L", "1", "S", "5")

// withDigits returns a key with the letters past its prefix of two that are
// easily misread made digits.
func withDigits(key string) string {
	const prefix = 2
	if len(key) <= prefix || !strings.ContainsAny(key[prefix:], "OILS") {
		return key
	}
	return key[:prefix] + lookAlikes.Replace(key[prefix:])
}

// withZeros returns a number with the zeros in front that the ends of the
// range have.
func (r serialRange) withZeros(key string) string {
	long := max(len(r.from), len(r.to))
	if len(key) >= long || strings.Trim(key, "0123456789") != "" {
		return key
	}
	return strings.Repeat("0", long-len(key)) + key
}

// BySerial orders items as recall lists show them.
func BySerial(list []inventory.Item) {
	slices.SortFunc(list, func(a, b inventory.Item) int {
		return cmp.Or(cmp.Compare(inventory.SerialKey(a.Spec.Serial), inventory.SerialKey(b.Spec.Serial)), cmp.Compare(a.ID, b.ID))
	})
}
