package delivery

import (
	"cmp"
	"fmt"
	"strings"

	"lungwort/inventory"
)

// itemSentence says what a fact states about an item.
func itemSentence(f inventory.Fact) string {
	switch s := f.Statement.(type) {
	case *inventory.Enrolled:
		return fmt.Sprintf("entered in the book: %s", s.Spec.What())
	case *inventory.Described:
		return described(s.Spec)
	case *inventory.Observed:
		return observed(*s)
	case *inventory.Filled:
		return filled(*s)
	case *inventory.Recalled:
		return "named by recall " + s.Notice
	case *inventory.Benched:
		return "put on the bench"
	case *inventory.Tested:
		return tested(*s)
	case *inventory.Cleared:
		return "ready to lend, depot " + s.Depot
	case *inventory.Catalogued:
		return fmt.Sprintf("product %s is %s", s.GTIN, strings.TrimSpace(s.Spec.What()+" "+s.Spec.Model))
	case *inventory.Labelled:
		return labelled(*s)
	case *inventory.Sighted:
		return "in hand at a count of " + s.At.InWords()
	case *inventory.Stocktaken:
		return fmt.Sprintf("count of %s: %d seen, %s", s.Where(), s.Seen, count(len(s.Different), "difference"))
	case *inventory.Stamped:
		return stamped(*s)
	case *inventory.OwnerTold:
		return ownerTold(*s)
	case *inventory.Exchanged:
		return exchanged(*s)
	case *inventory.Supplied, *inventory.SupplyCounted, *inventory.SupplyMoved, *inventory.Given, *inventory.SupplyRecalled:
		return supplySentence(s)
	case *inventory.Mended:
		return mended(*s)
	case *inventory.Maintained:
		return costing("maintained: "+s.What, s.Cost)
	case *Happening:
		return happened(*s)
	case *inventory.Quarantined:
		return because("kept from being lent", s.Why)
	}
	return custodySentence(f)
}

// custodySentence says from whose hand to whose an item went.
func custodySentence(f inventory.Fact) string {
	switch s := f.Statement.(type) {
	case *inventory.Moved:
		return moved(*s)
	case *inventory.Reserved:
		return "set aside"
	case *inventory.Freed:
		return "no longer set aside"
	case *inventory.Lent:
		return withParts(fmt.Sprintf("handed over as %s: %s", s.Role, s.Spec.What()), s.With)
	case *inventory.LeftAt:
		return "left at " + s.At.InWords() + ", to be fetched"
	case *inventory.Carried:
		return "went along to another address"
	case *inventory.Handed:
		return fmt.Sprintf("the loan goes on under this record as %s", s.Role)
	case *inventory.Serving:
		return "counts as " + string(s.As)
	case *inventory.Collected:
		return collected(*s)
	case *inventory.Returned:
		return returned(*s)
	case nil:
		return ""
	}
	return f.Statement.Says()
}

func withParts(words string, parts []string) string {
	if len(parts) == 0 {
		return words
	}
	return words + ", with " + strings.Join(parts, ", ")
}

func moved(s inventory.Moved) string {
	words := because("moved to "+s.To.InWords(), s.Why)
	if s.Worth > 0 {
		words += fmt.Sprintf(", worth %.0f", s.Worth)
	}
	return words
}

func collected(s inventory.Collected) string {
	if s.Vehicle == "" || s.Vehicle == "unknown" {
		return "collected outside a run"
	}
	return "collected by " + s.Vehicle
}

func observed(s inventory.Observed) string {
	var seen []string
	if s.Gauge != nil {
		seen = append(seen, "gauge "+s.Gauge.String())
		if s.Temperature != nil {
			seen[0] += " at " + s.Temperature.String()
		}
	}
	if s.Hours != nil {
		seen = append(seen, fmt.Sprintf("hours meter %.0f", *s.Hours))
	}
	if s.Oxygen != nil {
		seen = append(seen, fmt.Sprintf("oxygen %.1f %%", *s.Oxygen))
	}
	if s.Weight != nil {
		seen = append(seen, fmt.Sprintf("weighed %.1f kg", float64(*s.Weight)))
	}
	if s.Flow != nil {
		seen = append(seen, "flow "+s.Flow.String())
	}
	if s.Warm > 0 {
		seen = append(seen, "after running "+Spell(s.Warm))
	}
	words := strings.Join(seen, ", ")
	if s.Told {
		words += ", told"
	}
	return words
}

func filled(s inventory.Filled) string {
	words := "filled"
	if s.Full > 0 {
		words += " to " + s.Full.String()
	}
	if s.Lot != "" {
		words += ", lot " + s.Lot
	}
	if s.Plant != "" {
		words += ", by " + s.Plant
	}
	if !s.Made.IsZero() {
		words += ", on " + s.Made.Format("Mon 2 Jan 2006")
	}
	return words
}

func stamped(s inventory.Stamped) string {
	words := "stamp " + s.Stamp
	if s.Shell != "" {
		words += " on " + s.Shell
	}
	if s.Due == "" {
		return words + ": no requalification is required"
	}
	return words + ": requalify by the end of " + s.Due
}

func ownerTold(s inventory.OwnerTold) string {
	words := cmp.Or(s.Owner, "its owner") + " was told"
	if s.How != "" {
		words += " by " + s.How
	}
	return because(words, s.What)
}

func mended(s inventory.Mended) string {
	words := "repaired"
	if s.By != "" {
		words += " by " + s.By
	}
	words = because(words, s.Did)
	if s.Board {
		words += "; hours count anew"
	}
	return costing(words, s.Cost)
}

func costing(words string, cost float64) string {
	if cost > 0 {
		words += fmt.Sprintf(", cost %.2f", cost)
	}
	return words
}

func exchanged(s inventory.Exchanged) string {
	words := fmt.Sprintf("exchange with %s: %d out, %d in", s.Plant, total(s.Out), total(s.In))
	if n := len(s.Exceptions); n > 0 {
		words += ", signed with " + count(n, "exception")
	}
	return words
}

func total(list []inventory.Counted) int {
	n := 0
	for _, c := range list {
		n += c.Count
	}
	return n
}

func tested(s inventory.Tested) string {
	if s.Passed {
		words := "passed its test"
		if len(s.Steps) > 0 {
			words += " of " + strings.Join(s.Steps, ", ")
		}
		return because(words, s.Detail)
	}
	return because("failed its test", s.Detail)
}

func returned(s inventory.Returned) string {
	words := "back in the dirty bay, depot " + s.Depot
	if s.Empty {
		words += ", given back as empty"
	}
	if s.Found != "" {
		words += ", was found " + s.Found
	}
	if s.Unasked {
		words += ", no questions asked"
	}
	if s.BySlip {
		words += ", by the name on a slip"
	}
	if s.Soiled {
		words += ", soiled"
	}
	if len(s.Lacks) > 0 {
		words += ", without " + strings.Join(s.Lacks, ", ")
	}
	return words
}

func labelled(s inventory.Labelled) string {
	words := "label printed"
	if s.Copies > 1 {
		words += fmt.Sprintf(", %d copies", s.Copies)
	}
	if s.Stock != "" {
		words += ", on " + s.Stock
	}
	return words
}

func described(s inventory.Spec) string {
	words := strings.Join(strings.Fields("described anew: "+s.What()+" "+s.Model+" "+s.Serial), " ")
	words += ", owner " + cmp.Or(s.Owner, "the programme")
	if m := s.Marked; m.Contents > 0 {
		words += ", marked " + m.Contents.String()
	}
	if m := s.Marked; m.Service > 0 {
		words += ", marked full at " + m.Service.String()
	}
	return words
}
