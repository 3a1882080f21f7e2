package delivery

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery/depletion"
)

// Next says what to do next for a home in a power cut, and whether it can't
// wait.
func (o OutagePlan) Next(p Programme, h OutageHome) (next string, urgent bool) {
	switch {
	case h.Unreachable():
		return fmt.Sprintf("no answer %s: have somebody look in", times(h.Contact.Tried)), true
	case h.State == depletion.Dry:
		return "emergency number " + p.Emergency + " first, then call the home", true
	case h.Contact.Found == FoundRunning:
		return "power is on there: call again " + Clock(h.NextCall, o.At), false
	case h.Contact.Found == FoundSaving:
		return "turned down to save: tell the clinician; " + o.bring(h), true
	case !h.Known:
		return "call: ask for a gauge reading", true
	}
	return o.bring(h), h.State == depletion.Short
}

// bring says what carries the home through.
func (o OutagePlan) bring(h OutageHome) string {
	letter, by := letter(h.Size), Clock(h.Ends, o.At)
	switch {
	case h.Need == 0:
		return "gas lasts: call again " + Clock(h.NextCall, o.At)
	case h.Relocate:
		return fmt.Sprintf("%d %s for %s: let them go where power is before %s%s", h.Need, letter, Spell(o.Hours), by, h.Refuge.inWords())
	case h.Lack == h.Need:
		return fmt.Sprintf("%d %s before %s, none is left: find gas, or let them go where power is", h.Need, letter, by)
	case h.Lack > 0:
		return fmt.Sprintf("bring %d %s before %s, %d more are not ready", h.Need-h.Lack, letter, by, h.Lack)
	}
	return fmt.Sprintf("bring %d %s before %s", h.Need, letter, by)
}

// inWords names the place and the way to it; empty where none is known.
func (r Refuge) inWords() string {
	if r.Name == "" {
		return ""
	}
	return strings.TrimRight(fmt.Sprintf(": %s, %s away, %s", r.Name, Spell(r.Takes), r.Phone), ", ")
}

// Answer says how the homes come through, in the form of every urgent answer.
func (o OutagePlan) Answer(p Programme) Answer {
	a := Answer{
		Verdict: depletion.Holds,
		Title:   fmt.Sprintf("every home lasts %s", Spell(o.Hours)),
		Help:    o.stockLine(),
		Do:      []string{},
		Assumed: o.assumed(p),
		Facts:   []string{o.cutLine()},
	}
	if len(o.Homes) == 0 {
		a.Title = "no home is on oxygen"
		if o.Cut.By != Everywhere {
			a.Title += " " + o.Cut.Zone().InWords()
		}
		return a
	}
	a.Facts = append(a.Facts, fmt.Sprintf("%s on oxygen %s", count(len(o.Homes), "home"), o.Cut.Zone().InWords()))
	a.Low, a.Mid, a.High = o.covers()
	failing := o.count(func(h OutageHome) bool { return h.State == depletion.Short || h.State == depletion.Dry })
	unknown := o.count(func(h OutageHome) bool { return h.State == depletion.Unknown })
	for _, h := range o.Homes {
		if h.State.Rank() < a.Verdict.Rank() {
			a.Verdict = h.State
		}
	}
	switch {
	case failing > 0:
		a.Title = fmt.Sprintf("gas ends within %s in %d of %s", Spell(o.Hours), failing, count(len(o.Homes), "home"))
		if o.count(OutageHome.late) > 0 {
			a.Do = append(a.Do, p.emergencyFirst()...)
		}
	case unknown > 0:
		a.Title = fmt.Sprintf("nobody can say how long the gas lasts in %d of %s", unknown, count(len(o.Homes), "home"))
	}
	a.Do = append(a.Do, o.steps()...)
	return a
}

// covers returns the shortest, the middle and the longest cover in words.
func (o OutagePlan) covers() (low, mid, high string) {
	var known []time.Duration
	for _, h := range o.ByCover() {
		if h.Known {
			known = append(known, h.Cover)
		}
	}
	if len(known) == 0 {
		return "", "", ""
	}
	slices.Sort(known)
	return Spell(known[0]), Spell(known[len(known)/2]), Spell(known[len(known)-1])
}

// steps says what to do for all of them together.
func (o OutagePlan) steps() []string {
	var steps []string
	say := func(of func(OutageHome) bool, words string) {
		if n := o.count(of); n > 0 {
			steps = append(steps, fmt.Sprintf("%s %s", count(n, "home"), words))
		}
	}
	say(OutageHome.Unreachable, "did not answer: have somebody look in")
	say(func(h OutageHome) bool { return h.Relocate }, "more than cylinders can carry: let them go where power is, early")
	say(func(h OutageHome) bool { return h.NoBackup }, "without a backup: first on the list")
	say(func(h OutageHome) bool { return h.Contact.Found == FoundSaving }, "turned down to save gas: tell the clinician")
	for _, s := range o.Sizes {
		switch {
		case s.Short() > 0:
			steps = append(steps, fmt.Sprintf("%d %s needed, %d ready: %d short", s.Need, letter(s.Size), s.Ready, s.Short()))
		case s.Need > 0:
			steps = append(steps, fmt.Sprintf("Send %d %s; %d are ready", s.Need, letter(s.Size), s.Ready))
		}
	}
	if n := o.count(func(h OutageHome) bool { return !h.NextCall.After(o.At) }); n > 0 {
		steps = append(steps, fmt.Sprintf("Call %s now, in the order of the list; ask each whether they turned it down", count(n, "home")))
	}
	return steps
}

// late reports whether the gas ends before help could be there.
func (h OutageHome) late() bool {
	return h.State == depletion.Dry || h.State == depletion.Short && h.Help.After(h.Ends)
}

func (o OutagePlan) count(of func(OutageHome) bool) int {
	n := 0
	for _, h := range o.Homes {
		if of(h) {
			n++
		}
	}
	return n
}

func (o OutagePlan) stockLine() string {
	var parts []string
	for _, s := range o.Sizes {
		if s.Ready > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", s.Ready, letter(s.Size)))
		}
	}
	if len(parts) == 0 {
		return "no full cylinder is ready"
	}
	return strings.Join(parts, ", ") + " ready"
}

func (o OutagePlan) cutLine() string {
	if o.Cut.ID == 0 {
		return fmt.Sprintf("what if: power out %s from %s, for %s", o.Cut.Zone().InWords(), Clock(o.Begins(), o.At), Spell(o.Hours))
	}
	return powerCut(o.Cut, o.At)
}

func (o OutagePlan) assumed(p Programme) []string {
	list := []string{
		fmt.Sprintf("power out for %s from %s", Spell(o.Hours), Clock(o.Begins(), o.At)),
		fmt.Sprintf("gas counted at the highest flow ordered or seen, %s kept in each cylinder", p.Reserve),
		fmt.Sprintf("more than %.0f L in one home counts as too much to bring; the local fire code decides", float64(roomLimit)),
	}
	list = append(list, fmt.Sprintf("a machine stops with the power; back on, it needs its %s of warm-up before the cylinder is closed", Spell(p.WarmUp)))
	if o.Cut.Until.IsZero() && o.Cut.ID != 0 {
		list = append(list, "nobody knows when power is back")
	}
	return append(list, NoFlowAdvice)
}

// ByCover returns the homes as the bars show them: whose gas ends first stands
// first.
func (o OutagePlan) ByCover() []OutageHome {
	homes := slices.Clone(o.Homes)
	slices.SortStableFunc(homes, byEnd)
	return homes
}

// Saved says in words both times at which the gas ends when the flow was
// turned down; empty when it was not.
func (h OutageHome) Saved(now time.Time) string {
	if h.SavedEnds.IsZero() {
		return ""
	}
	return fmt.Sprintf("ends %s at the order, %s at %s", Clock(h.Ends, now), Clock(h.SavedEnds, now), *h.Contact.Flow)
}
