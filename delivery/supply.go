package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// SupplyLevel is how many of a supply the programme wants in its stores; under
// that it is ordered anew.
type SupplyLevel struct {
	Supply  string `json:"supply"`
	Reorder int    `json:"reorder"`
}

// LowSupply is a supply of which too few are left to give.
type LowSupply struct {
	SupplyLevel
	Have int `json:"have"` // that can be given
}

// InWords says it in one line: "cannula 12 of 40".
func (l LowSupply) InWords() string { return fmt.Sprintf("%s %d of %d", l.Supply, l.Have, l.Reorder) }

// Low returns the supplies under their level, in the order of the settings. What
// is recalled or expired does not count.
func (p Programme) Low(stock []inventory.SupplyStock, now time.Time) []LowSupply {
	var low []LowSupply
	for _, level := range p.Supplies {
		have := 0
		for _, s := range stock {
			if inventory.SupplyKey(s.Supply) == inventory.SupplyKey(level.Supply) && s.Usable(now) {
				have += s.Count
			}
		}
		if have = max(0, have); have < level.Reorder {
			low = append(low, LowSupply{level, have})
		}
	}
	return low
}

// Gives implements inventory.Giving: a discharge hands supplies over too.
func (s *Discharged) Gives() ([]inventory.Handful, inventory.Place) { return s.Supplies, s.From }

// LotsAt returns the lots of a supply at a place that can be given.
func LotsAt(stock []inventory.SupplyStock, supply string, at inventory.Place, now time.Time) []inventory.SupplyStock {
	var lots []inventory.SupplyStock
	for _, s := range stock {
		if s.At == at && s.Count > 0 && s.Usable(now) && inventory.SupplyKey(s.Supply) == inventory.SupplyKey(supply) {
			lots = append(lots, s)
		}
	}
	return lots
}

// LotNames lists lots with their counts: "C77 (28), D01 (10)".
func LotNames(lots []inventory.SupplyStock) string {
	names := make([]string, len(lots))
	for i, s := range lots {
		names[i] = fmt.Sprintf("%s (%d)", cmp.Or(s.Lot, "no lot"), s.Count)
	}
	return strings.Join(names, ", ")
}

// Stocked returns the store a kit's supplies are taken from, and the supplies
// with their lots: noted only where a single lot lies there. Which of several
// it is, the bag says.
func Stocked(v View, of []inventory.Handful, ward string) ([]inventory.Handful, inventory.Place, error) {
	at, err := storeFor(v, of, ward)
	if err != nil || at == "" {
		return of, at, err
	}
	stock, err := v.Supplies()
	of = slices.Clone(of)
	for i, h := range of {
		if lots := LotsAt(stock, h.Supply, at, v.At()); h.Lot == "" && len(lots) == 1 {
			of[i].Lot = lots[0].Lot
		}
	}
	return of, at, err
}

// WriteSupplies writes supplies as ReadSupplies reads them.
func WriteSupplies(of []inventory.Handful) string { return handfuls(of) }

// ReadSupplies reads supplies as they are written: "2 cannula lot C77, 1
// extension tubing".
func ReadSupplies(text string) ([]inventory.Handful, error) {
	var of []inventory.Handful
	for part := range strings.SplitSeq(text, ",") {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		h, err := readHandful(part, "cannula")
		if err != nil {
			return nil, err
		}
		of = append(of, h)
	}
	return of, nil
}

// readHandful reads "2 cannula lot C77". An example of how to write it names a
// supply.
func readHandful(text, example string) (inventory.Handful, error) {
	number, what, _ := strings.Cut(strings.TrimSpace(text), " ")
	supply, lot, _ := strings.Cut(what+" ", " lot ")
	n, err := strconv.Atoi(number)
	if err != nil {
		n = 0
	}
	h, err := handful(supply, n, lot)
	if err != nil {
		return h, refusal.New(refusal.Invalid, fmt.Sprintf("%q does not say how many of what.", strings.TrimSpace(text)), "Write it as 2 "+example+" lot C77.")
	}
	return h, nil
}

// mostSupplies is more of one lot than anybody takes in at once.
const mostSupplies = 1_000_000

// handful returns so many of a lot, or refuses what can't be.
func handful(supply string, count int, lot string) (inventory.Handful, error) {
	h := inventory.Handful{Supply: strings.Join(strings.Fields(supply), " "), Count: count, Lot: strings.TrimSpace(lot)}
	if strings.EqualFold(h.Lot, noLot) {
		h.Lot = ""
	}
	switch {
	case h.Supply == "" || strings.Contains(h.Supply, ","):
		return h, refusal.New(refusal.Invalid, "A supply has a name, without a comma.", "Say what it is, as cannula.")
	case count < 1 || count > mostSupplies:
		return h, refusal.New(refusal.Invalid, fmt.Sprintf("%d of %s can't be.", count, h.Supply), "Count them again.")
	}
	return h, nil
}
