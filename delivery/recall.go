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
func (n RecallNotice) Match(spec inventory.Spec) (Match, string) {
	model := inventory.SerialKey(spec.Model)
	noModel := n.Model != "" && model == ""
	if n.Model != "" && !noModel && model != inventory.SerialKey(n.Model) {
		return No, ""
	}
	match, why := n.serial(spec)
	switch {
	case match == No || !noModel:
		return match, why
	case spec.Kind == inventory.Cylinder: // known by its size, not by a model
		return No, ""
	}
	return Perhaps, strings.TrimPrefix(why+"; ", "; ") + "no model is in the book: read the plate"
}

func (n RecallNotice) serial(spec inventory.Spec) (Match, string) {
	switch {
	case len(n.Serials) > 0:
		return n.listed(spec.Serial)
	case n.From != "" || n.To != "":
		return n.ranged(spec.Serial)
	case n.Model == "":
		return No, ""
	case spec.Model == "":
		return Yes, ""
	}
	return Yes, "model " + spec.Model
}

func (n RecallNotice) listed(serial string) (Match, string) {
	key, near := inventory.SerialKey(serial), inventory.NearKey(serial)
	if key == "" {
		return No, ""
	}
	best, why := No, ""
	for _, s := range n.Serials {
		switch {
		case inventory.SerialKey(s) == key:
			return Yes, "on the list"
		case inventory.NearKey(s) == near:
			best, why = Perhaps, "near "+s+" on the list: read the plate"
		}
	}
	return best, why
}

// ranged compares the serial with the range sign by sign. A serial of another
// length than the ends can't be placed; what comes in only after folding what
// is easily misread or lost is asked about.
func (n RecallNotice) ranged(serial string) (Match, string) {
	r := serialRange{inventory.SerialKey(n.From), inventory.SerialKey(n.To)}
	key := inventory.SerialKey(serial)
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

// withDigits returns a key with the letters past its prefix of two that are
// easily misread made digits.
func withDigits(key string) string {
	const prefix = 2
	if len(key) <= prefix {
		return key
	}
	return key[:prefix] + strings.NewReplacer("O", "0", "I", "1", "L", "1", "S", "5").Replace(key[prefix:])
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
