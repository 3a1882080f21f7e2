package delivery

import (
	"fmt"
	"slices"
	"strings"

	"lungwort/inventory"
)

// usualParts are the small parts that go along with a thing unless the
// programme sets others. Without key or washer a full cylinder is nothing.
// Common practice, no source.
var usualParts = map[inventory.Kind][]string{
	inventory.Cylinder:     {"key", "seal washer", "stand"},
	inventory.Concentrator: {"power cord", "intake filter"},
}

// PartsOf returns the small parts that go along with a kind of thing.
func (p Programme) PartsOf(kind inventory.Kind) []string {
	if parts, set := p.Parts[kind]; set {
		return parts
	}
	return usualParts[kind]
}

// partsAmong returns those of some small parts that go along with a kind of
// thing; nil where nobody looked.
func (p Programme) partsAmong(kind inventory.Kind, with []string) []string {
	if with == nil {
		return nil
	}
	parts := []string{}
	for _, part := range p.PartsOf(kind) {
		if slices.Contains(with, part) {
			parts = append(parts, part)
		}
	}
	return parts
}

// lackingParts returns the small parts of a thing that are not among those
// there.
func (p Programme) lackingParts(kind inventory.Kind, there []string) []string {
	var lacks []string
	for _, part := range p.PartsOf(kind) {
		if !slices.Contains(there, part) {
			lacks = append(lacks, part)
		}
	}
	return lacks
}

// goesWithout says which small parts do not go along with what is handed over;
// empty where nobody looked.
func (p Programme) goesWithout(item inventory.Item, with []string) string {
	lacks := p.lackingParts(item.Spec.Kind, with)
	if with == nil || len(lacks) == 0 {
		return ""
	}
	return fmt.Sprintf(" %s goes without %s.", item.Label(), strings.Join(lacks, ", "))
}
