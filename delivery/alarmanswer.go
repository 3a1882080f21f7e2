package delivery

import (
	"fmt"
	"strings"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// AlarmCall is an alarm with what the book knows of the home and of help.
type AlarmCall struct {
	Alarm
	At    time.Time
	Home  Watch  // with the gauge as told
	Van   *Slot  // the first vehicle that could bring a machine on its rounds
	Spare Rescue // where a machine is ready, the soonest; nowhere: no From
}

// Told returns the home with what the caller read off the cylinder.
func (a Alarm) Told(h Home, at time.Time) Home {
	i := inUse(h.Care)
	if a.Gauge == nil || i < 0 {
		return h
	}
	h.Care.Kit = append([]Holding{}, h.Care.Kit...)
	h.Care.Kit[i].Gauge = &inventory.Seen[gas.Pressure]{Value: *a.Gauge, At: at, Told: true}
	h.Care.Kit[i].Breathed = 0
	return h
}

// Swapping returns the visit that brings another machine, and gas for what is
// breathed until then.
func (p Programme) Swapping(w Watch, now time.Time) Wish {
	return Wish{Address: w.Address, Language: w.Person.Language, From: now, Takes: p.SetUp + p.WarmUp, Bring: w.Care.swapFor()}
}

// gasLasts returns how long the gas in the home lasts from now on: the lower
// end is the more careful of the forecast and the planning minutes.
func (c AlarmCall) gasLasts() (low, mid, high time.Duration) {
	low, mid, high = c.Home.lasts(c.At)
	if _, flow := c.Home.Care.Flow(); flow > 0 {
		low = min(low, time.Duration(float64(c.Home.Forecast.Litres)/float64(flow))*time.Minute)
	}
	return low, mid, high
}

// Answer names the cause as far as it is known, and what to do in order:
// breath first, then the cylinder, then the cause, then who brings what.
func (c AlarmCall) Answer(p Programme) Answer {
	why := c.cause()
	low, mid, high := c.gasLasts()
	a := Answer{
		Verdict: depletion.Unknown, Title: why.words, Help: c.help(), Do: []string{},
		Assumed: []string{"the lights are those of its manual: models differ", NoFlowAdvice}, Facts: c.Home.factLines(c.At),
	}
	if c.Home.Forecast.Known {
		a.Low, a.Mid, a.High = Spell(low), Spell(mid), Spell(high)
		a.Assumed = append([]string{"gas counted as if the cylinder were opened now, at the highest flow ordered or seen"}, a.Assumed...)
	}
	if why.words == "" {
		a.Title = "ask on: nothing is known of the cause yet"
	}
	emergency := c.breathless(p)
	if why.dead {
		a.Verdict = c.holds(p, low)
		a.Title += ": " + c.gasWords(low)
		emergency = emergency || a.Verdict == depletion.Dry || a.Verdict == depletion.Short
	}
	if c.breathless(p) {
		a.Verdict, a.Title = bandVerdicts[Emergency], "emergency first. "+strings.ToUpper(a.Title[:1])+a.Title[1:]
	}
	if emergency {
		a.Do = p.emergencyFirst()
	}
	a.Do = append(a.Do, c.steps(p, why, low)...)
	return a
}

// breathless reports whether the person comes before the machine.
func (c AlarmCall) breathless(p Programme) bool {
	bands := p.Bands.For(c.Home.Care)
	return bands.Band(Called{Worse: c.Worse, SpO2: c.SpO2, Flow: c.Flow}) == Emergency
}

// steps are what to do after the emergency number.
func (c AlarmCall) steps(p Programme, why cause, low time.Duration) []string {
	var do []string
	if why.words == "" {
		for _, q := range AlarmQuestions() {
			if c.sign(q.Key) == "" {
				do = append(do, "Ask: "+q.Asks)
			}
		}
	}
	switch cylinder := c.change(); {
	case why.dead:
		do = append(do, cylinder)
	case why.line:
		do = append(do, lineCheck...)
		do = append(do, "If it helps nothing at once: "+lower(cylinder))
	default:
		do = append(do, "If they feel it at all, do not ask on: "+lower(cylinder))
	}
	do = append(do, why.steps...)
	if why.swap {
		do = append(do, c.swap(p, low)...)
	} else if why.dead && inUse(c.Home.Care) >= 0 {
		do = append(do, "Call again in half the time the gas lasts, and ask for the gauge")
	}
	return do
}

func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// change says how to get to the cylinder.
func (c AlarmCall) change() string {
	switch i := inUse(c.Home.Care); {
	case i < 0:
		return "There is no cylinder of ours in this home"
	case c.Changed || c.Home.Care.Breathes == FromCylinder:
		return "Stay on the cylinder; ask for its gauge"
	case !c.Home.Forecast.Known:
		return "To the cylinder now, at the flow ordered, opened slowly, no flame near; ask for the gauge: nobody knows how long it lasts"
	}
	return "To the cylinder now, at the flow ordered, opened slowly, no flame near"
}

// gasWords says how long the gas lasts.
func (c AlarmCall) gasWords(low time.Duration) string {
	switch {
	case inUse(c.Home.Care) < 0:
		return "no gas of ours is there"
	case !c.Home.Forecast.Known:
		return "nobody knows how long the gas lasts"
	}
	return fmt.Sprintf("%s of gas, until %s", Spell(low), Clock(c.At.Add(low), c.At))
}

// holds judges whether somebody can be there before the gas ends.
func (c AlarmCall) holds(p Programme, low time.Duration) depletion.Verdict {
	wait := c.soonest().Sub(c.At)
	switch {
	case inUse(c.Home.Care) < 0:
		return depletion.Dry
	case !c.Home.Forecast.Known:
		return depletion.Unknown
	case low == 0:
		return depletion.Dry
	case low < wait:
		return depletion.Short
	case low < time.Duration(p.Margin*float64(wait)):
		return depletion.Tight
	}
	return depletion.Holds
}

// soonest is when somebody could be there: on call, by the rounds, or with the
// visit planned already.
func (c AlarmCall) soonest() time.Time {
	at := c.Home.Help
	if c.Spare.From != "" && c.At.Add(c.Spare.Takes).Before(at) {
		at = c.At.Add(c.Spare.Takes)
	}
	if c.Van != nil && c.Van.Arrive.Before(at) {
		at = c.Van.Arrive
	}
	return at
}

func (c AlarmCall) help() string {
	if c.Spare.From == "" {
		return c.Home.helpLine(c.At)
	}
	return fmt.Sprintf("%s from %s, if somebody left now", Spell(c.Spare.Takes), c.Spare.From)
}

// swap says when another machine comes and who brings it: with the rounds
// where the gas lasts until then with a margin, else now.
func (c AlarmCall) swap(p Programme, low time.Duration) []string {
	bring := "another machine and full gas"
	if v := c.Home.Visit; v.After(c.At) && c.inTime(p, v, low) {
		return []string{fmt.Sprintf("A vehicle stops there %s already: put %s on it", Clock(v, c.At), bring)}
	}
	if c.Van != nil && c.inTime(p, c.Van.Arrive, low) {
		return []string{
			fmt.Sprintf("The gas lasts: %s brings %s %s, promise %s", c.Van.Name, bring, Clock(c.Van.Arrive, c.At), Clock(c.Van.Promise(), c.At)),
			"Open a swap for it; call again in half the time the gas lasts, and ask for the gauge",
		}
	}
	words := "Swap now, not in the morning: "
	if c.Van != nil {
		words = fmt.Sprintf("Swap now: %s at %s would be too close to the end of the gas. ", c.Van.Name, Clock(c.Van.Arrive, c.At))
	}
	if c.Spare.From == "" {
		return []string{words + "no machine for this flow is ready anywhere: bring gas, find a machine"}
	}
	words += fmt.Sprintf("%s has %s", c.Spare.From, c.Spare.Holds)
	if c.Spare.Phone != "" {
		words += ", " + c.Spare.Phone
	}
	if who, on := p.Duty(c.At); on {
		words += "; on call " + strings.TrimSpace(who.Name+" "+who.Phone)
	}
	return []string{words + fmt.Sprintf("; there %s, with full gas", Clock(c.At.Add(c.Spare.Takes), c.At))}
}

// inTime reports whether a machine that comes at a time runs before the gas
// ends, with the programme's margin.
func (c AlarmCall) inTime(p Programme, at time.Time, low time.Duration) bool {
	needed := at.Sub(c.At) + p.SetUp + p.WarmUp
	return c.Home.Forecast.Known && low >= time.Duration(p.Margin*float64(needed))
}
