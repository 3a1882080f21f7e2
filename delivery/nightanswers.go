package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
)

// useMatters are those in which what is used differs from what is ordered.
var useMatters = []Matter{NoOrder, AboveOrder, BelowOrder, SavingGas, LowUse, ReviewMaybe}

// UseAnswer holds what was seen in use in all homes against the orders. It is a
// note to the clinician and changes nothing.
func UseAnswer(tell []CheckIn) Answer {
	a := Answer{
		Verdict: depletion.Holds, Title: "what is used is what is ordered, as far as anybody told", Help: "nobody waits",
		Do: []string{}, Assumed: []string{"what people told on the phone, and their meters", NoFlowAdvice}, Facts: []string{},
	}
	pressing := 0
	for _, c := range tell {
		for _, x := range c.Concerns {
			if !slices.Contains(useMatters, x.Matter) {
				continue
			}
			a.Facts = append(a.Facts, strings.Join(append([]string{c.Person.Name() + ", " + string(x.Matter) + ": " + x.Says}, x.Facts...), "; "))
			if x.Now {
				pressing++
			}
		}
	}
	if len(a.Facts) == 0 {
		return a
	}
	a.Verdict, a.Help = depletion.Tight, "the clinician decides; nothing is collected or changed by a reading"
	a.Title = fmt.Sprintf("%s from what is ordered, %d to tell today", count(len(a.Facts), "difference"), pressing)
	a.Do = append(a.Do, "Tell the clinician, and write down whom and when")
	return a
}

// MainsAnswer answers "my bill doubled" for a call that comes when nobody can look
// the home up: what a machine of each model in use takes, and which homes the
// power company does not know.
func (p Programme) MainsAnswer(rows []Watch) Answer {
	a := Answer{
		Verdict: depletion.Holds, Title: "no machine of ours is in a home", Help: "the power company, not this programme, decides on the bill",
		Do: []string{}, Assumed: []string{NoFlowAdvice}, Facts: []string{},
	}
	specs, unregistered, unasked := map[string]inventory.Spec{}, []string{}, 0
	for _, w := range rows {
		h, has := w.Care.Concentrator()
		if !has || h.Spec.Rated <= 0 {
			continue
		}
		specs[h.Spec.Model+" "+h.Spec.What()] = h.Spec
		switch w.Address.Registered {
		case "yes":
		case "no":
			unregistered = append(unregistered, w.Person.Name())
		default:
			unasked++
		}
	}
	if len(specs) == 0 {
		return a
	}
	for _, s := range specs {
		least, most, rests := p.Draw(s)
		a.Facts = append(a.Facts, fmt.Sprintf("%s, %s: %s to %s a day, running all day", cmp.Or(s.Model, "no model noted"), s.What(), kWh(energy(least, 24*time.Hour)), kWh(energy(most, 24*time.Hour))))
		if !slices.Contains(a.Assumed, rests) {
			a.Assumed = append(a.Assumed, rests)
		}
	}
	slices.Sort(a.Facts)
	slices.Sort(a.Assumed)
	a.Title = fmt.Sprintf("%s on the mains in homes", count(len(specs), "model"))
	a.Do = append(a.Do, "Tell them not to switch it off or turn it down to save money; who did: tell the clinician")
	if len(unregistered)+unasked > 0 {
		a.Verdict = depletion.Tight
		a.Title += fmt.Sprintf("; %s not registered with the power company, %d not asked", count(len(unregistered), "home"), unasked)
		a.Do = append(a.Do, "Ask whether the power company knows of the machine: a rebate and a warning before cuts may come with it")
	}
	if len(unregistered) > 0 {
		a.Do = append(a.Do, "Not registered: "+strings.Join(unregistered, "; "))
	}
	return a
}
