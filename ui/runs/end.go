package runs

import (
	"math"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// End closes a run whose stops are all closed: the van is counted before, where
// somebody can.
func (m *Model) End(run inventory.RunID) {
	for _, r := range m.book.runs {
		if r.ID == run && len(r.Open()) == 0 {
			m.Ask(m.EndForm(r))
			return
		}
	}
	m.work.Do("end run", m.work.Hand(inventory.Keyed), delivery.EndRun{Run: run}, func(store.Outcome) { m.Load() })
}

// EndForm asks what stands on the van.
func (m *Model) EndForm(r delivery.Run) ask.Form {
	return ask.Form{
		Title: "End the run of " + r.Vehicle, Button: "End the run",
		Before: "Count the cylinders on the van before you look at the paper. Left empty, the van is not counted.",
		Fields: []ask.Field{
			{Key: "full", Label: "Full on the van", Kind: ask.Number},
			{Key: "used", Label: "Used on the van", Kind: ask.Number},
			{Key: "why", Label: "If it differs, why", Hint: "one stayed at the depot, one was taken beside the list"},
			ask.When(m.work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			in := ask.Read(a)
			act := delivery.EndRun{Run: r.ID, Full: whole(in, "full"), Used: whole(in, "used"), Why: a.Text("why")}
			hand := m.work.Hand(inventory.Keyed)
			hand.At = in.Past("when", m.work.Now())
			if len(in.Wrong()) > 0 {
				return in.Wrong()
			}
			m.work.Try("end run", hand, act, func(_ store.Outcome, err error) {
				closed(err)
				if err == nil {
					m.Load()
				}
			})
			return nil
		},
	}
}

// whole is a count; nil when none is written.
func whole(in *ask.Reader, key string) *int {
	n := in.Number(key, "", 0, 500)
	if n == nil {
		return nil
	}
	count := int(math.Round(*n))
	return &count
}
