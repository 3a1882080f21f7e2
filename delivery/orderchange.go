package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// OrderChange is the question before a new order is put in force: what it
// means for what stands in the house, before anything moves.
type OrderChange struct {
	Care  Care
	New   Ordered
	Ready []inventory.Item // machines that could be lent now
	At    time.Time
}

// Answer compares what is ordered with what is in the house, item by item. A
// new order replaces the whole old one; nothing is taken away by it.
func (q OrderChange) Answer(p Programme) Answer {
	a := Answer{
		Verdict: depletion.Holds, Title: "what is in the house serves the new order", Help: "nothing has to move",
		Do: []string{}, Assumed: []string{"the new order replaces the whole old one", NoFlowAdvice},
		Facts: slices.Concat(q.flows(), q.items()),
	}
	worse := func(v depletion.Verdict, title string) {
		if v.Rank() < a.Verdict.Rank() {
			a.Verdict, a.Title = v, title
		}
	}
	if cover, known := q.cover(p, &a); known && len(q.cylinders(p)) > 0 && cover < p.BackupHours {
		worse(depletion.Tight, fmt.Sprintf("backup lasts %s, under %s", Spell(cover), Spell(p.BackupHours)))
		a.Do = append(a.Do, "A backup task opens with the order: bring gas")
	} else if !known {
		worse(depletion.Unknown, "the cover at the new flow is not known")
		a.Do = append(a.Do, q.missing())
	}
	if err := q.New.Check(); err != nil {
		worse(depletion.Unknown, "incomplete: "+firstSentence(err))
		a.Do = slices.Insert(a.Do, 0, "Send it back to the ward: no part is filled in here")
		a.Assumed = append(a.Assumed, "24 h a day, continuous, where the order does not say")
	}
	q.machine(&a, worse)
	q.delivers(&a, worse)
	if thin := p.Thin(); thin != "" {
		a.Assumed = append(a.Assumed, thin)
	}
	if left := q.unnamed(); len(left) > 0 {
		a.Do = append(a.Do, fmt.Sprintf("Ask the prescriber whether %s stay: the order does not name them, and nothing is taken until somebody confirms", strings.Join(left, ", ")))
	}
	if q.Care.Phase == Over {
		worse(depletion.Unknown, "oxygen was stopped "+Clock(q.Care.Since, q.At)+", by order of "+q.Care.StoppedBy)
		a.Do = slices.Insert(a.Do, 0, "Ask whether the stop was a mistake: this order alone starts nothing, a discharge does")
	}
	return a
}

func firstSentence(err error) string {
	words, _, _ := strings.Cut(refusal.For(err), ".")
	return strings.ToLower(words[:1]) + words[1:]
}

// flows says what changes in the order, part by part.
func (q OrderChange) flows() []string {
	if q.Care.Order == nil {
		return []string{"ordered now: " + q.New.InWords(), "no order before it"}
	}
	old := *q.Care.Order
	var list []string
	part := func(name, before, after string) {
		switch {
		case before == after:
		case before == "":
			list = append(list, fmt.Sprintf("%s: %s, new", name, after))
		case after == "":
			list = append(list, fmt.Sprintf("%s: %s before, not in the new order", name, before))
		default:
			list = append(list, fmt.Sprintf("%s: %s before, %s now", name, before, after))
		}
	}
	flow := func(f gas.Flow) string {
		if f == 0 {
			return ""
		}
		return f.String()
	}
	part("at rest", flow(old.Rest), flow(q.New.Rest))
	part("on exertion", flow(old.Exertion), flow(q.New.Exertion))
	part("asleep", flow(old.Asleep), flow(q.New.Asleep))
	part("a day", hours(old.Hours), hours(q.New.Hours))
	part("device", old.Device, q.New.Device)
	part("pulse setting", old.Setting, q.New.Setting)
	if len(list) == 0 {
		list = append(list, "the same as the order in force")
	}
	return list
}

func hours(h float64) string {
	if h == 0 {
		return ""
	}
	return fmt.Sprintf("%g h", h)
}

// items says of each thing in the house whether it serves the new order.
func (q OrderChange) items() []string {
	var list []string
	for _, h := range q.Care.Kit {
		words := h.Spec.Serial + ", " + h.Spec.What()
		switch why, small := TooSmall(h.Spec, q.New); {
		case small:
			words += ": " + why
		case !q.New.names(h.Spec.Kind):
			words += ": not named by the new order, stays until somebody confirms"
		default:
			words += ": stays"
		}
		list = append(list, words)
	}
	if len(list) == 0 {
		list = append(list, "nothing of ours is in the house")
	}
	return list
}

// names reports whether the order names a kind of thing; one that names nothing
// takes nothing away.
func (o Ordered) names(kind inventory.Kind) bool {
	gasKind := kind == inventory.Cylinder || kind == inventory.Concentrator
	return len(o.named()) == 0 || !gasKind || slices.Contains(o.named(), kind)
}

// unnamed returns the serials the new order does not name.
func (q OrderChange) unnamed() []string {
	var list []string
	for _, h := range q.Care.Kit {
		if !q.New.names(h.Spec.Kind) {
			list = append(list, cmp.Or(h.Spec.Serial, string(h.Spec.Kind)))
		}
	}
	return list
}

// machine judges the concentrator against the new order.
func (q OrderChange) machine(a *Answer, worse func(depletion.Verdict, string)) {
	held, has := q.Care.Concentrator()
	why, small := TooSmall(held.Spec, q.New)
	if !has || !small {
		return
	}
	worse(depletion.Short, "not met: the concentrator "+why)
	free := 0
	for _, i := range q.Ready {
		if _, small := TooSmall(i.Spec, q.New); !small && i.Spec.Kind == inventory.Concentrator && i.State == inventory.Ready && i.Recall == "" && !i.Spec.Foreign {
			free++
		}
	}
	a.Help = fmt.Sprintf("larger machines free: %d", free)
	next := "A swap opens with the order: bring one of the larger machines"
	if free == 0 {
		next = "No larger machine is free: tell the prescriber; look at the bench and at what is not needed in homes"
	}
	a.Do = slices.Insert(a.Do, 0, next)
}

// usualOxygen is the least a machine in order gives: 90 to 96 % in the WHO and
// UNICEF technical specifications for oxygen therapy devices, 2019.
const usualOxygen = 90

// delivers judges what oxygen the machine gives: nearer its rating it gives
// less, so that a new flow asks for a new measurement.
func (q OrderChange) delivers(a *Answer, worse func(depletion.Verdict, string)) {
	held, has := q.Care.Concentrator()
	if _, small := TooSmall(held.Spec, q.New); !has || small {
		return
	}
	full, flow, last := q.New.Highest() >= held.Spec.Rated && held.Spec.Rated > 0, q.New.Highest(), "nothing was measured yet"
	if seen := held.Oxygen; seen != nil {
		last = fmt.Sprintf("it gave %.0f %% %s", seen.Value, Clock(seen.At, q.At))
		a.Facts = append(a.Facts, "oxygen of the machine: "+last)
		if seen.Value < usualOxygen {
			worse(depletion.Tight, fmt.Sprintf("the machine gave %.0f %% oxygen, %d to 96 is usual", seen.Value, usualOxygen))
			full = true
		}
	}
	if full {
		a.Do = append(a.Do, fmt.Sprintf("Measure its oxygen at %s at the next visit: %s; under %d %% it is swapped", flow, last, PurityFloor))
	}
}

// cylinders returns the cylinders that count as backup.
func (q OrderChange) cylinders(p Programme) []depletion.Cylinder {
	return Home{Care: q.Care}.cylinders(p)
}

// cover fills in how long the gas in the house lasts under the new order and
// says what it was: planning time, the reserve kept, at the highest flow.
func (q OrderChange) cover(p Programme, a *Answer) (after time.Duration, known bool) {
	if q.New.untold() || q.New.Highest() <= 0 {
		return 0, false
	}
	after, ok := q.lasts(p, q.New.Highest())
	atRest, _ := q.lasts(p, cmp.Or(q.New.atRest(), q.New.Highest()))
	if !ok {
		return 0, false
	}
	a.Low, a.Mid, a.High = Spell(after), Spell((after+atRest)/2), Spell(atRest)
	words := fmt.Sprintf("backup lasts %s at %s", Spell(after), q.New.Highest())
	if old := q.Care.Order; old != nil && old.Highest() > 0 && old.Highest() != q.New.Highest() {
		before, _ := q.lasts(p, old.Highest())
		change := "rises"
		if after < before {
			change = "falls"
		}
		words = fmt.Sprintf("backup %s from %s at %s to %s at %s", change, Spell(before), old.Highest(), Spell(after), q.New.Highest())
	}
	a.Facts = append(a.Facts, words)
	return after, true
}

// missing says what to ask for where the cover is not known.
func (q OrderChange) missing() string {
	if q.New.untold() {
		return "Ask for the mL a breath of the device at this setting, from its papers, and the breaths a minute; or for a flow"
	}
	return "Ask for a gauge reading"
}

// lasts returns the planning time of the cylinders in the house at a flow.
func (q OrderChange) lasts(p Programme, flow gas.Flow) (time.Duration, bool) {
	var sum time.Duration
	for _, c := range q.cylinders(p) {
		plan, err := gas.PlanMinutes(c.Size, c.Gauge, p.Reserve, flow, depletion.Warmth(c.Temperature, gas.Room))
		if !c.Known || err != nil {
			return 0, false
		}
		sum += time.Duration(plan.Minutes) * time.Minute
	}
	return sum, true
}
