package delivery

import (
	"slices"
	"time"

	"lungwort/inventory"
)

// OpenCuts returns the power cuts among standing facts that are not over at
// now, in the order they begin. Power that came back ends its cut; a cut that
// was called off before it began is none.
func OpenCuts(facts []inventory.Fact, now time.Time) []PowerCut {
	back := make(map[inventory.FactID]time.Time)
	for _, f := range facts {
		if s, is := f.Statement.(*PowerBack); is {
			back[s.Cut] = f.Happened
		}
	}
	var cuts []PowerCut
	for _, f := range facts {
		s, is := f.Statement.(*PowerCut)
		if !is {
			continue
		}
		cut := *s
		cut.ID = f.ID
		if end, over := back[f.ID]; over && (cut.Until.IsZero() || end.Before(cut.Until)) {
			cut.Until = end
		}
		if cut.Until.IsZero() || cut.Until.After(now) && cut.Until.After(cut.From) {
			cuts = append(cuts, cut)
		}
	}
	slices.SortStableFunc(cuts, func(a, b PowerCut) int { return a.From.Compare(b.From) })
	return cuts
}
