package delivery

import (
	"cmp"
	"fmt"
	"strings"

	"lungwort/inventory"
)

// supplySentence says what a fact states about counted supplies.
func supplySentence(s inventory.Statement) string {
	switch s := s.(type) {
	case *inventory.Supplied:
		words := fmt.Sprintf("%s received at %s", handfuls([]inventory.Handful{s.Handful}), s.To.InWords())
		if s.From != "" {
			words += " from " + s.From
		}
		if s.Expires != "" {
			words += ", expires " + s.Expires
		}
		return words
	case *inventory.SupplyCounted:
		lots := make([]inventory.Handful, len(s.Lots))
		for i, h := range s.Lots {
			lots[i] = inventory.Handful{Supply: s.Supply, Count: h.Count, Lot: h.Lot}
		}
		return fmt.Sprintf("counted at %s: %s", s.At.InWords(), cmp.Or(handfuls(lots), "no "+s.Supply))
	case *inventory.SupplyMoved:
		if s.To.Kind() == inventory.AtRetired {
			return because(handfuls([]inventory.Handful{s.Handful})+" thrown away", s.Why)
		}
		return because(fmt.Sprintf("%s moved from %s to %s", handfuls([]inventory.Handful{s.Handful}), s.From.InWords(), s.To.InWords()), s.Why)
	case *inventory.Given:
		words := "given " + handfuls(s.Of)
		if s.From != "" {
			words += " from " + s.From.InWords()
		}
		return words
	case *inventory.SupplyRecalled:
		return fmt.Sprintf("lot %s of %s is named by recall %s", s.Lot, s.Supply, s.Notice)
	}
	return ""
}

func handfuls(list []inventory.Handful) string {
	parts := make([]string, len(list))
	for i, h := range list {
		parts[i] = fmt.Sprintf("%d %s", h.Count, h.Supply)
		if h.Lot != "" {
			parts[i] += " lot " + h.Lot
		}
	}
	return strings.Join(parts, ", ")
}
