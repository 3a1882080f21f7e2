package delivery

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// LeavingAnswer answers "may they leave now?" for a call from a ward that comes
// when nobody can look anything up: how long one full cylinder of each size that
// is ready lasts, and within what time of opening its valve the concentrator must
// run; and how those stand who are on the way or waiting for theirs.
func (p Programme) LeavingAnswer(rows []Watch, ready map[gas.SizeCode]int, now time.Time) Answer {
	a := Answer{
		Verdict: depletion.Holds, Title: "nobody is on the bridge to a concentrator",
		Help: fmt.Sprintf("reckon the ward %s, the ride, the wait, set-up %s and warm-up %s", Spell(p.WardDelay), Spell(p.SetUp), Spell(p.WarmUp)),
		Do: []string{
			"Read the gauge with the nurse; count from the moment the valve is opened, at the highest flow that is ordered or seen",
			"Nobody leaves before the delivery is certain and the gas outlasts it with the margin: more cylinders, later, or the delivery earlier",
		},
		Assumed: []string{
			fmt.Sprintf("full cylinders, read as full; %s kept in each; margin of %.1f", p.Reserve, p.Margin), "continuous flow: of a pulse device nothing is promised", NoFlowAdvice,
		},
		Facts: []string{},
	}
	a.Do = append(a.Do, p.leavingTimes(ready)...)
	waiting := 0
	for _, w := range rows {
		if w.Care.Phase != OnBridge {
			continue
		}
		if w.Verdict.Rank() < a.Verdict.Rank() {
			a.Verdict = w.Verdict
		}
		waiting++
		a.Do = append(a.Do, w.Person.Name()+": "+w.title(now)+"; "+w.Next)
	}
	if waiting > 0 {
		a.Title = fmt.Sprintf("%s on the bridge to a concentrator: %s", count(waiting, "home"), a.Verdict)
	}
	return a
}

// leavingFlows are those a full cylinder is reckoned at.
var leavingFlows = []gas.Flow{1, 2, 3, 4, 6}

func (p Programme) leavingTimes(ready map[gas.SizeCode]int) []string {
	var lines []string
	for _, code := range slices.Sorted(maps.Keys(ready)) {
		size, known := p.Sizes.LookUp(code)
		if !known || ready[code] == 0 {
			continue
		}
		var times []string
		for _, flow := range leavingFlows {
			plan, err := gas.PlanMinutes(size, size.Service, p.Reserve, flow, gas.Room)
			if err != nil {
				continue
			}
			lasts := time.Duration(plan.Minutes) * time.Minute
			times = append(times, fmt.Sprintf("%s %s, within %s", flow, Spell(lasts), Spell(time.Duration(float64(lasts)/p.Margin))))
		}
		lines = append(lines, fmt.Sprintf("1 full %s lasts, and the machine must run: %s (%d ready)", letter(code), strings.Join(times, "; "), ready[code]))
	}
	return lines
}

// NewOrderAnswer answers "the doctor says more oxygen" for an order that comes in
// the night: which machines are ready for it, and which homes have one that ends
// at so much, and whose machine can give no more. The order itself is compared with the house when it is written down.
func NewOrderAnswer(rows []Watch, ready []inventory.Item) Answer {
	a := Answer{
		Verdict: depletion.Unknown, Title: "take it down whole, compare it with the house, then move things", Help: "the prescriber, for every part that is missing",
		Do: []string{
			"Write down flow at rest, on exertion and asleep, hours a day, device and who orders it: a new order replaces the whole old one",
			"More than the machine's rating: a larger machine, and cylinders until it runs",
			"Backup at the new flow: minutes by gauge and size are on the page for calls; under the limit, bring gas",
			"Nothing is taken away by a new order before somebody confirms it",
		},
		Assumed: []string{NoFlowAdvice}, Facts: []string{},
	}
	free, inUse := map[gas.Flow]int{}, map[gas.Flow]int{}
	var ends []string
	for _, i := range ready {
		if i.Spec.Kind == inventory.Concentrator && i.State == inventory.Ready {
			free[i.Spec.Rated]++
		}
	}
	for _, w := range rows {
		if h, has := w.Care.Concentrator(); has {
			inUse[h.Spec.Rated]++
			if o := w.Care.Order; o != nil && h.Spec.Rated > 0 && o.Highest() >= h.Spec.Rated {
				ends = append(ends, fmt.Sprintf("%s (%s ordered)", w.Person.Name(), o.Highest()))
			}
		}
	}
	ratings := maps.Clone(inUse)
	maps.Copy(ratings, free)
	for _, rated := range slices.Sorted(maps.Keys(ratings)) {
		a.Facts = append(a.Facts, fmt.Sprintf("machines to %s: %d ready, %d in homes", rated, free[rated], inUse[rated]))
	}
	if len(ends) > 0 {
		a.Facts = append(a.Facts, "their machine can give no more: "+strings.Join(ends, "; "))
	}
	return a
}
