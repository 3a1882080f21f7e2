package delivery

import (
	"fmt"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory/gas"
)

// Electricity answers "my bill doubled": what the concentrator took from the
// mains, as a range from its hours meter and the power it may draw, and what
// that costs at a price of a kilowatt-hour; with zero the programme's tariff counts.
func (w Watch) Electricity(p Programme, price float64, now time.Time) Answer {
	a := Answer{
		Verdict: depletion.Unknown, Title: "no machine of ours is there", Help: "the power company, not this programme, decides on the bill",
		Do: []string{}, Facts: []string{}, Assumed: []string{NoFlowAdvice},
	}
	h, has := w.Care.Concentrator()
	if !has || h.Spec.Rated <= 0 {
		return a
	}
	ran, since, counted := w.ran(h, now)
	low, high, rests := p.Draw(h.Spec)
	least, most := energy(low, ran), energy(high, ran)
	a.Verdict = depletion.Holds
	a.Low, a.Mid, a.High = kWh(least), kWh((least+most)/2), kWh(most)
	a.Title = fmt.Sprintf("%s to %s since %s", a.Low, a.High, Clock(since, now))
	a.Facts = append(a.Facts, counted, fmt.Sprintf("%s, %s", h.Spec.Serial, h.Spec.What()))
	if days := now.Sub(since).Hours() / 24; days >= 1 {
		a.Facts = append(a.Facts, fmt.Sprintf("%s to %s a day", kWh(least/gas.KilowattHours(days)), kWh(most/gas.KilowattHours(days))))
	}
	a.Facts, a.Do = append(a.Facts, p.costs(price, least, most)...), append(a.Do, p.askPrice(price)...)
	a.Do = append(a.Do, w.Address.companyStep(),
		"Tell them not to switch it off or turn it down to save money; who did: tell the clinician")
	a.Assumed = append([]string{rests}, a.Assumed...)
	return a
}

// costs says what the energy costs: at the price on the bill, else at the tariff
// the programme has set.
func (p Programme) costs(price float64, least, most gas.KilowattHours) []string {
	said := ""
	if price <= 0 {
		price, said = p.Tariff, ", the tariff set; their bill decides"
	}
	if price <= 0 {
		return nil
	}
	return []string{fmt.Sprintf("at %g a kWh: %.2f to %.2f%s", price, price*float64(least), price*float64(most), said)}
}

func (p Programme) askPrice(price float64) []string {
	if price > 0 {
		return nil
	}
	return []string{"Ask what a kWh costs on the bill"}
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
