package delivery

import (
	"fmt"
	"slices"
	"time"

	"lungwort/inventory/gas"
)

// Matter is what kind of thing a clinician is to hear of.
type Matter string

// The matters, the most pressing first.
const (
	InEmergency  Matter = "emergency band"
	NoOrder      Matter = "oxygen without an order"
	AboveOrder   Matter = "more than ordered"
	NotReached   Matter = "cannot be reached"
	SavingGas    Matter = "saving gas"
	BelowOrder   Matter = "less than ordered"
	InBorderline Matter = "borderline band"
	BandsLacking Matter = "no bands given"
	LowUse       Matter = "used less than ordered"
	ReviewMaybe  Matter = "possible review candidate"
)

// Matters lists all matters, the most pressing first.
func Matters() []Matter {
	return []Matter{InEmergency, NoOrder, AboveOrder, NotReached, SavingGas, BelowOrder, InBorderline, BandsLacking, LowUse, ReviewMaybe}
}

// Concern is one thing the clinician is to hear of a person. It stays until
// somebody was told. It reports what was seen and judges nothing.
type Concern struct {
	Matter Matter    `json:"matter"`
	Says   string    `json:"says"`
	Facts  []string  `json:"facts"`
	Since  time.Time `json:"since"` // of what it rests on
	Now    bool      `json:"now"`   // today would be too late
}

// remind is how long a matter of use or review, once told, stays quiet while
// the same readings go on.
const remind = 7 * 24 * time.Hour

// Concerns returns what the clinician has not heard of yet, the most pressing
// first.
func (c Care) Concerns(p Programme, now time.Time) []Concern {
	if !c.Watched() {
		return nil
	}
	var list []Concern
	for _, find := range []func() (Concern, bool){
		c.banded(InEmergency, Emergency), c.unordered, c.above, func() (Concern, bool) { return c.unreached(p, now) },
		c.savings, c.below, c.banded(InBorderline, Borderline),
		func() (Concern, bool) { return c.bandless(p) }, func() (Concern, bool) { return c.littleUse(p) },
		func() (Concern, bool) { return c.reviewable(p) },
	} {
		if x, is := find(); is {
			list = append(list, x)
		}
	}
	return list
}

// untold returns the latest check of a kind that nobody was told of.
func (c Care) untold(m Matter, is func(Check) bool) (Check, bool) {
	for _, check := range slices.Backward(c.Checks) {
		if is(check) {
			return check, check.At.After(c.Told[m])
		}
	}
	return Check{}, false
}

// concern puts what one call told as a concern.
func (c Care) concern(m Matter, says string, check Check, now bool) Concern {
	facts := []string{"call " + check.At.Format("Mon 2 Jan 15:04") + ": " + check.heard()}
	if c.Order != nil {
		facts = append(facts, "ordered "+c.Order.InWords())
	}
	return Concern{Matter: m, Says: says, Facts: facts, Since: check.At, Now: now}
}

func (c Care) banded(m Matter, band string) func() (Concern, bool) {
	return func() (Concern, bool) {
		check, is := c.untold(m, func(k Check) bool { return k.Band == band })
		return c.concern(m, band+" band: "+check.heard(), check, band == Emergency), is
	}
}

func (c Care) unordered() (Concern, bool) {
	check, is := c.untold(NoOrder, func(k Check) bool { return k.Flow != nil && *k.Flow > 0 })
	if !is || c.Order != nil {
		return Concern{}, false
	}
	return c.concern(NoOrder, fmt.Sprintf("%s in use and no order in the book", *check.Flow), check, true), true
}

func (c Care) above() (Concern, bool) {
	if c.Order == nil || c.Order.Setting != "" {
		return Concern{}, false
	}
	check, is := c.untold(AboveOrder, func(k Check) bool {
		return k.highest() > c.Order.Highest() && !k.At.Before(c.OrderedAt)
	})
	if !is {
		return Concern{}, false
	}
	return c.concern(AboveOrder, fmt.Sprintf("%s in use, %s ordered at most; gas is counted at %s", check.highest(), c.Order.Highest(), check.highest()), check, true), true
}

func (c Care) savings() (Concern, bool) {
	check, is := c.untold(SavingGas, func(k Check) bool { return k.Saving })
	return c.concern(SavingGas, "turned down to save gas: "+check.heard(), check, true), is
}

func (c Care) below() (Concern, bool) {
	if c.Order == nil {
		return Concern{}, false
	}
	check, is := c.untold(BelowOrder, func(k Check) bool {
		return k.Flow != nil && *k.Flow < c.Order.Rest && !k.Saving && !k.At.Before(c.OrderedAt)
	})
	if !is {
		return Concern{}, false
	}
	return c.concern(BelowOrder, fmt.Sprintf("%s in use, %s ordered at rest", *check.Flow, c.Order.Rest), check, false), true
}

func (c Care) bandless(p Programme) (Concern, bool) {
	if !c.LacksBands(p) || !c.OrderedAt.After(c.Told[BandsLacking]) {
		return Concern{}, false
	}
	return Concern{
		Matter: BandsLacking, Since: c.OrderedAt,
		Says:  fmt.Sprintf("%s ordered: which saturation to hold, and from which flow on to tell and to send?", c.Order.Highest()),
		Facts: []string{"ordered " + c.Order.InWords()},
	}, true
}

// unreached is the end of the contacts: nobody answered, and the programme's
// welfare step is next.
func (c Care) unreached(p Programme, now time.Time) (Concern, bool) {
	if c.Tried == 0 || !c.FirstTry.After(c.Told[NotReached]) || c.Tried < p.Calls.WelfareTries {
		return Concern{}, false
	}
	facts := []string{fmt.Sprintf("no answer %s since %s", times(c.Tried), c.FirstTry.Format("Mon 2 Jan 15:04"))}
	if last := c.LastCall; last != nil {
		facts = append(facts, fmt.Sprintf("last heard %s: %s", Ago(last.At, now), last.heard()))
	}
	return Concern{Matter: NotReached, Says: p.Calls.Welfare, Facts: facts, Since: c.FirstTry, Now: true}, true
}

// littleUse compares the hours meter with the order: a thing to look into, not
// a verdict. Meters that went down are somebody else's question.
func (c Care) littleUse(p Programme) (Concern, bool) {
	h, has := c.Concentrator()
	if !has || c.Order == nil {
		return Concern{}, false
	}
	used, days, known := h.Use()
	if !known || days < p.Calls.UseDays || used >= p.Calls.UseShare*c.Order.Hours || h.Hours.At.Before(c.Told[LowUse].Add(remind)) {
		return Concern{}, false
	}
	says := fmt.Sprintf("used %.1f h a day, %g h ordered", used, c.Order.Hours)
	if used == 0 {
		says = fmt.Sprintf("the meter has not moved in %.0f days: is it plugged in? are they on cylinders?", days)
	}
	return Concern{Matter: LowUse, Says: says, Since: h.Hours.At, Facts: []string{
		fmt.Sprintf("meter %.1f h %s, %.1f h %s", h.From.Value, h.From.At.Format("Mon 2 Jan 15:04"), h.Hours.Value, h.Hours.At.Format("Mon 2 Jan 15:04")),
		"ordered " + c.Order.InWords(),
	}}, true
}

// Use returns how many hours a day the meter of a machine on loan ran between
// its first and its last reading here.
func (h Holding) Use() (hoursADay, days float64, known bool) {
	if h.From == nil || h.Hours == nil || !h.Hours.At.After(h.From.At) || h.Hours.Value < h.From.Value {
		return 0, 0, false
	}
	days = h.Hours.At.Sub(h.From.At).Hours() / 24
	return (h.Hours.Value - h.From.Value) / days, days, true
}

// reviewable is somebody whose readings were high on little oxygen, day after
// day. Whether oxygen is still needed is the clinician's question alone.
func (c Care) reviewable(p Programme) (Concern, bool) {
	if len(c.Checks) == 0 {
		return Concern{}, false
	}
	last := c.Checks[len(c.Checks)-1]
	var days []string
	var facts []string
	for _, k := range slices.Backward(c.Checks) {
		if !k.high(p.Calls) {
			break
		}
		if day := k.At.Format(time.DateOnly); !slices.Contains(days, day) {
			days = append(days, day)
			facts = append(facts, k.At.Format("Mon 2 Jan 15:04")+": "+k.heard())
		}
	}
	if len(days) < p.Calls.ReviewDays || last.At.Before(c.Told[ReviewMaybe].Add(remind)) {
		return Concern{}, false
	}
	slices.Reverse(facts)
	return Concern{
		Matter: ReviewMaybe, Since: last.At, Facts: facts,
		Says: fmt.Sprintf("possible review candidate: %d days at %g %% or more on %s or less; nothing is booked", len(days), p.Calls.ReviewSpO2, p.Calls.ReviewFlow),
	}, true
}

// high reports whether a check was high on little oxygen, at rest and, where
// it was taken, on exertion.
func (k Check) high(r CallRules) bool {
	on := func(spo2 *float64, flow *gas.Flow) bool {
		return spo2 != nil && flow != nil && *spo2 >= r.ReviewSpO2 && *flow <= r.ReviewFlow
	}
	return !k.Worse && on(k.SpO2, k.Flow) && (k.Exertion == nil || on(k.Exertion, k.ExertionFlow))
}

// highest returns the highest flow a call told of.
func (c Called) highest() gas.Flow {
	var top gas.Flow
	for _, f := range []*gas.Flow{c.Flow, c.ExertionFlow} {
		if f != nil {
			top = max(top, *f)
		}
	}
	return top
}
