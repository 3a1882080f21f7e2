package delivery

import (
	"cmp"
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

// Match returns whether the notice names an item, by what is on its plate.
// Lots are matched by the item's fills, not here.
func (n RecallNotice) Match(spec inventory.Spec) (Match, string) {
	if n.Model != "" && !strings.EqualFold(strings.TrimSpace(n.Model), strings.TrimSpace(spec.Model)) {
		return No, ""
	}
	switch {
	case len(n.Serials) > 0:
		return n.listed(spec.Serial)
	case n.From != "" || n.To != "":
		return n.ranged(spec.Serial)
	case n.Model != "":
		return Yes, "model " + spec.Model
	}
	return No, ""
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

// ranged compares the serial with the range sign by sign; serials of another
// length than the ends can't be placed and are left out unless they come in
// after folding what is easily misread.
func (n RecallNotice) ranged(serial string) (Match, string) {
	from, to := inventory.SerialKey(n.From), inventory.SerialKey(n.To)
	within := func(s string) bool {
		return (from == "" || len(s) == len(from) && s >= from) && (to == "" || len(s) == len(to) && s <= to)
	}
	key := inventory.SerialKey(serial)
	if key == "" {
		return No, ""
	}
	if within(key) {
		return Yes, "inside the range"
	}
	digits := strings.NewReplacer("O", "0", "I", "1", "L", "1", "S", "5")
	if len(key) > 2 && within(key[:2]+digits.Replace(key[2:])) {
		return Perhaps, "inside the range if a letter is a digit: read the plate"
	}
	return No, ""
}

// BySerial orders items as recall lists show them.
func BySerial(list []inventory.Item) {
	slices.SortFunc(list, func(a, b inventory.Item) int {
		return cmp.Or(cmp.Compare(inventory.SerialKey(a.Spec.Serial), inventory.SerialKey(b.Spec.Serial)), cmp.Compare(a.ID, b.ID))
	})
}
