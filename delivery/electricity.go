package delivery

import (
	"fmt"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory/gas"
)

// Electricity answers "my bill doubled": what the concentrator took from the
// mains, as a range from its hours meter and the power it may draw, and what
// that costs at a price of a kilowatt-hour; a price of zero is not known.
func (w Watch) Electricity(price float64, now time.Time) Answer {
	a := Answer{
		Verdict: depletion.Unknown, Title: "no machine of ours is there", Help: "the power company, not this programme, decides on the bill",
		Do: []string{}, Facts: []string{}, Assumed: []string{NoFlowAdvice},
	}
	h, has := w.Care.Concentrator()
	if !has || h.Spec.Rated <= 0 {
		return a
	}
	ran, since, counted := w.ran(h, now)
	least, most := gas.Concentrator{Rated: h.Spec.Rated}.Energy(ran)
	low, high := gas.Concentrator{Rated: h.Spec.Rated}.Draw()
	a.Verdict = depletion.Holds
	a.Low, a.Mid, a.High = kWh(least), kWh((least+most)/2), kWh(most)
	a.Title = fmt.Sprintf("%s to %s since %s", a.Low, a.High, Clock(since, now))
	a.Facts = append(a.Facts, counted, fmt.Sprintf("%s, %s", h.Spec.Serial, h.Spec.What()))
	if days := now.Sub(since).Hours() / 24; days >= 1 {
		a.Facts = append(a.Facts, fmt.Sprintf("%s to %s a day", kWh(least/gas.KilowattHours(days)), kWh(most/gas.KilowattHours(days))))
	}
	if price > 0 {
		a.Facts = append(a.Facts, fmt.Sprintf("at %g a kWh: %.2f to %.2f", price, price*float64(least), price*float64(most)))
	} else {
		a.Do = append(a.Do, "Ask what a kWh costs on the bill")
	}
	a.Do = append(a.Do, w.Address.companyStep(),
		"Tell them not to switch it off or turn it down to save money; who did: tell the clinician")
	a.Assumed = append([]string{fmt.Sprintf("%.0f to %.0f W for a machine of %s: 55 to 70 W for each L/min, under 70 required (WHO and UNICEF 2019); the plate says what this one draws",
		float64(low), float64(high), h.Spec.Rated)}, a.Assumed...)
	return a
}

// ran returns how long the machine ran here: by its meter, else as ordered.
func (w Watch) ran(h Holding, now time.Time) (ran time.Duration, since time.Time, counted string) {
	if _, _, known := h.Use(); known {
		hours := h.Hours.Value - h.From.Value
		return time.Duration(hours * float64(time.Hour)), h.From.At,
			fmt.Sprintf("meter %.0f h %s, %.0f h %s: ran %.0f h", h.From.Value, Clock(h.From.At, now), h.Hours.Value, Clock(h.Hours.At, now), hours)
	}
	daily := 24.0
	if w.Care.Order != nil && w.Care.Order.Hours > 0 {
		daily = w.Care.Order.Hours
	}
	return time.Duration(daily / 24 * float64(now.Sub(h.Since))), h.Since, fmt.Sprintf("no two readings of the meter: counted as ordered, %g h a day since %s", daily, Clock(h.Since, now))
}

func kWh(e gas.KilowattHours) string { return fmt.Sprintf("%.0f kWh", float64(e)) }

// companyStep says what to ask the power company for.
func (a Address) companyStep() string {
	switch a.Registered {
	case "yes":
		return "Registered with the power company: ask it for its rebate for medical machines, where there is one"
	case "no":
		return "Not registered with the power company: send its form for medical machines; a rebate and a warning before cuts may come with it"
	}
	return "Ask whether the power company knows of the machine: a rebate and a warning before cuts may come with it"
}

// heatLimit is the warmest room a concentrator is commonly made for: common
// practice, no source; the plate or the manual of the model decides.
const heatLimit gas.Celsius = 40

// HeatAnswer lists whom to call on a hot day: homes on a concentrator without
// cooling first, then those nobody asked, each by the gas it has beside.
func HeatAnswer(rows []Watch, degrees gas.Celsius) Answer {
	a := Answer{
		Verdict: depletion.Holds, Title: fmt.Sprintf("%.0f °C: every home on a concentrator has cooling", float64(degrees)),
		Help: "machine hot or alarming: cylinder, then a cooler room", Do: []string{}, Facts: []string{},
		Assumed: []string{fmt.Sprintf("machines are made for rooms up to %.0f °C (common practice, no source; the manual decides); a room can be warmer than the street", float64(heatLimit)), NoFlowAdvice},
	}
	var without, unasked []string
	for _, w := range rows {
		if _, has := w.Care.Concentrator(); !has {
			continue
		}
		switch w.Address.Cooling {
		case "yes":
		case "no":
			without = append(without, w.heatLine("no cooling"))
		default:
			unasked = append(unasked, w.heatLine("cooling not asked"))
		}
	}
	a.Facts = append(a.Facts, fmt.Sprintf("%s without cooling, %s not asked", count(len(without), "home"), count(len(unasked), "home")))
	a.Do = append(append(a.Do, without...), unasked...)
	if len(a.Do) == 0 {
		return a
	}
	a.Verdict = depletion.Tight
	if degrees >= heatLimit {
		a.Verdict = depletion.Short
	}
	a.Title = fmt.Sprintf("%.0f °C: call %s on a concentrator, those without cooling first", float64(degrees), count(len(a.Do), "home"))
	a.Do = append(a.Do, "Ask each: is the machine out of the sun, a foot of air around it, its filter clean? No cylinder in the sun or in a closed car")
	return a
}

// heatLine says whom to call and why.
func (w Watch) heatLine(why string) string {
	lasts := "gas not known"
	if w.Forecast.Known {
		low, _, _ := w.lasts(w.Home.Now)
		lasts = Spell(low) + " of gas beside"
	}
	return fmt.Sprintf("Call %s, %s: %s, %s", w.Person.Name(), w.numbers(), why, lasts)
}
