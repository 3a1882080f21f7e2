package delivery

import (
	"fmt"
	"slices"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
)

// Stock is what an answer on stock looks at.
type Stock struct {
	Things []inventory.Item // of the kind that is wanted
	Hidden []Hidden         // what is not needed in homes
	Loans  []LoanSpan       // of that kind
}

// way is one way to have more of a thing ready.
type way struct {
	units int
	says  string
	sort  string
	ride  time.Duration
}

// The sorts of ways, the fastest first.
const (
	inTest     = "in test"
	inDirty    = "to clean"
	collection = "collection"
)

// Answer says the fastest way to have so many of a thing ready.
func (s Stock) Answer(p Programme, want Wanted, now time.Time) Answer {
	ready, away := 0, map[inventory.State]int{}
	var ways []way
	for _, item := range s.Things {
		switch {
		case !fits(item.Spec, want) || item.Recall != "" || item.Spec.Foreign:
		case item.State == inventory.Ready:
			ready++
		case item.State == inventory.OnBench && item.Why == "":
			ways = append(ways, way{1, onBench(item), inTest, 0})
		case item.State == inventory.Dirty && item.Why == "":
			ways = append(ways, way{1, fmt.Sprintf("clean and test %s, %s", item.Label(), item.Place.InWords()), inDirty, 0})
		case !item.Lent():
			away[item.State]++
		}
	}
	slices.SortStableFunc(ways, func(a, b way) int { return slices.Index(fastest, a.sort) - slices.Index(fastest, b.sort) })
	for _, h := range s.Hidden {
		if w, may := collect(h, want, now); may {
			ways = append(ways, w)
		}
	}
	a := fill(want, ready, ways)
	for _, state := range []inventory.State{inventory.Held, inventory.WithDriver, inventory.InRepair, inventory.OutAtPlant, inventory.InQuarantine} {
		if away[state] > 0 {
			a.Facts = append(a.Facts, fmt.Sprintf("%d %s, not counted", away[state], state))
		}
	}
	a.Facts = append(a.Facts, p.LoanLengths(s.Loans, now)...)
	return a
}

var fastest = []string{inTest, inDirty, collection}

// fits reports whether a thing is of the sort that is wanted.
func fits(s inventory.Spec, want Wanted) bool {
	return s.Kind == want.Kind && (want.Size == "" || s.Size == want.Size) && s.Rated >= want.Rated
}

func onBench(item inventory.Item) string {
	if !item.Passed.IsZero() {
		return fmt.Sprintf("release %s, %s: it passed its test", item.Label(), item.Place.InWords())
	}
	return fmt.Sprintf("test and release %s, %s", item.Label(), item.Place.InWords())
}

// collect is the collection from one home; nobody is asked who may not be.
func collect(h Hidden, want Wanted, now time.Time) (way, bool) {
	h.Things = slices.DeleteFunc(slices.Clone(h.Things), func(t Holding) bool { return !fits(t.Spec, want) })
	return way{len(h.Things), "collect from " + h.Says(now), collection, h.Ride}, len(h.Things) > 0 && !h.Silent
}

// fill takes ways until there is enough.
func fill(want Wanted, ready int, ways []way) Answer {
	a := Answer{
		Verdict: depletion.Holds, Help: "the depot's own hands first, then the nearest homes",
		Assumed: []string{"what is collected still goes over the bench", "ride from the nearest depot at the programme's speed; call before you drive"},
	}
	have, far := ready, time.Duration(0)
	counts, spare := map[string]int{}, 0
	for _, w := range ways {
		counts[w.sort]++
		if have >= want.Count {
			spare += w.units
			continue
		}
		have += w.units
		far = max(far, w.ride)
		a.Do = append(a.Do, w.says)
	}
	switch {
	case ready >= want.Count:
		a.Title = fmt.Sprintf("%d are wanted, %d are ready.", want.Count, ready)
		return a
	case have >= want.Count:
		a.Verdict = depletion.Tight
		a.Title = fmt.Sprintf("%d are wanted, %d are ready. Fastest way to %d: %s.", want.Count, ready, want.Count, chosen(a.Do, ways, far))
	default:
		a.Verdict = depletion.Short
		a.Title = fmt.Sprintf("%d are wanted, %d are ready. With everything within reach it is %d: %d short.", want.Count, ready, have, want.Count-have)
		a.Do = append(a.Do, fmt.Sprintf("borrow or rent %d, or delay discharges", want.Count-have))
	}
	a.Facts = append(a.Facts, fmt.Sprintf("%d in test, %d to clean, %d with something not needed", counts[inTest], counts[inDirty], counts[collection]))
	if spare > 0 {
		a.Facts = append(a.Facts, fmt.Sprintf("%d more could be had after these", spare))
	}
	return a
}

// chosen counts the ways that were taken.
func chosen(taken []string, ways []way, far time.Duration) string {
	n := map[string]int{}
	for _, w := range ways[:len(taken)] {
		n[w.sort]++
	}
	text := ""
	add := func(part string) {
		if text != "" {
			text += ", "
		}
		text += part
	}
	if n[inTest] > 0 {
		add(fmt.Sprintf("%d in test", n[inTest]))
	}
	if n[inDirty] > 0 {
		add(fmt.Sprintf("%d to clean", n[inDirty]))
	}
	if n[collection] > 0 {
		part := count(n[collection], "collection")
		if far > 0 {
			part += " within " + Spell(far)
		}
		add(part)
	}
	return text
}
