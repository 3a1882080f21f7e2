package work

import (
	"context"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
)

// OfferUndo tells what an act did and offers to take it back: every fact it
// wrote, by new facts, in one transaction. after runs once that is done.
func (w *Work) OfferUndo(out store.Outcome, after func()) {
	if len(out.Facts) == 0 {
		return
	}
	w.Offer(out.Says, "Undo", func() {
		acts := make([]store.Dated, 0, len(out.Facts))
		for i := len(out.Facts) - 1; i >= 0; i-- {
			f := out.Facts[i]
			acts = append(acts, store.Dated{
				Hand: w.Hand(inventory.Keyed),
				Act:  delivery.Retract{Fact: f.ID, Why: "undone at the desk"},
			})
		}
		w.Run.Go("undo", func(ctx context.Context) error {
			return w.Desk.DoAll(ctx, acts, nil)
		}, func(err error) {
			if err != nil {
				w.Refuse(err)
				return
			}
			w.Say("Undone: " + out.Says)
			w.Changed()
			after()
		})
	})
}
