package measures

import (
	"fmt"
	"time"

	"lungwort/delivery"
)

// Says tells a figure of a measure in a few words: the middle and the tail, or
// the share with its band, and what is still open.
func (m Measure) Says(f Figure) string {
	if f.N == 0 {
		return "no case"
	}
	says := ""
	switch m.Sort {
	case Lasts:
		says = m.lasts(f)
	case Shares:
		says = m.share(f)
	case Sums:
		says = fmt.Sprintf("%.0f in all, %.0f each", f.Sum, f.Sum/float64(f.N))
	default:
		says = fmt.Sprint(f.N)
	}
	if f.Open > 0 {
		says += fmt.Sprintf(", %d of %d open", f.Open, f.N)
	}
	return says
}

func (m Measure) lasts(f Figure) string {
	if !f.Known {
		return "more than half are still open"
	}
	tail := "9 of 10 within "
	if m.Least {
		tail = "1 of 10 under "
	}
	says := "half within " + Spell(f.Middle)
	if m.Least {
		says = "half under " + Spell(f.Middle)
	}
	if !f.TailKnown {
		return says
	}
	return says + ", " + tail + Spell(f.Tail)
}

func (m Measure) share(f Figure) string {
	if f.N == f.Open {
		return "none is decided yet"
	}
	return fmt.Sprintf("%.0f %% %s (%.0f to %.0f %%)", 100*f.Share, m.Asked, 100*f.Low, 100*f.High)
}

// Spell returns a time that something took, with days as days.
func Spell(d time.Duration) string {
	if d >= 4*24*time.Hour {
		return fmt.Sprintf("%.1f days", d.Hours()/24)
	}
	return delivery.Spell(d)
}
