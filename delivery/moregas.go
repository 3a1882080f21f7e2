package delivery

import (
	"fmt"
	"slices"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory/gas"
)

// MoreGas is what a visit has to bring for the gas of a home to last: so many
// full cylinders of a size. The zero value: nobody knows, or no number does.
type MoreGas struct {
	Count int
	Size  gas.SizeCode
}

const (
	// mostBrought is how many cylinders a visit is reckoned to bring at most; who
	// needs more needs something else.
	mostBrought = 6
	// swappedAt is the share of its full pressure at which a cylinder is taken
	// along when full ones are brought. Common practice, no source.
	swappedAt = 1.0 / 3
	// lastsOver is for how long it has to last at the least: over a weekend.
	lastsOver = 72 * time.Hour
)

// moreGas returns the least that takes the act-by away, or puts it off for days.
// What is nearly empty is taken along.
func (h Home) moreGas(p Programme, now time.Time) MoreGas {
	m := MoreGas{Size: unseen}
	for _, c := range h.cylinders(p) {
		m.Size = c.Size.Code
	}
	size, known := p.Sizes.LookUp(m.Size)
	if !known {
		return MoreGas{}
	}
	d := h.Household(p, now)
	d.BackupDue = time.Time{} // it is closed by this visit
	d.Cylinders = slices.DeleteFunc(d.Cylinders, func(c depletion.Cylinder) bool { return c.Known && c.Gauge < c.Size.Service*swappedAt })
	for m.Count = 1; m.Count <= mostBrought; m.Count++ {
		d.Cylinders = append(d.Cylinders, depletion.Cylinder{Size: size, Gauge: size.Service, ReadAt: now, Known: true, InUse: len(d.Cylinders) == 0})
		f := p.predict(d)
		if f.Known && (f.ActBy.IsZero() || f.ActBy.After(now.Add(lastsOver))) {
			return m
		}
	}
	return MoreGas{}
}

// InWords names what to bring: "2 full E"; "gas" where nobody knows how much.
func (m MoreGas) InWords() string {
	if m.Count == 0 {
		return "gas"
	}
	return fmt.Sprintf("%d full %s", m.Count, letter(m.Size))
}
