package delivery

import (
	"fmt"
	"slices"
	"time"

	"lungwort/inventory/refusal"
	"lungwort/inventory/wall"
)

// Check refuses settings the program can't work with.
func (p Programme) Check() error {
	bad := func(what, next string) error { return refusal.New(refusal.Invalid, what, next) }
	switch {
	case p.Emergency == "":
		return bad("The programme has no emergency number.", "Enter the number people call for an ambulance.")
	case p.Billing != "" && p.Billing != HCPCS:
		return bad(fmt.Sprintf("%q is no system of billing codes the program has.", p.Billing), "Choose HCPCS or none.")
	case p.Margin < 1:
		return bad(fmt.Sprintf("A bridge margin of %.2f is under 1.", p.Margin), "Choose 1 or more; 1.5 is the default.")
	case p.Risk <= 0 || p.Risk >= 0.5:
		return bad(fmt.Sprintf("An accepted chance of %g is out of range.", p.Risk), "Choose more than 0 and less than 0.5; 0.01 is the default.")
	case p.Shortage <= 0 || p.Shortage >= 0.5:
		return bad(fmt.Sprintf("An accepted chance of running short of %g is out of range.", p.Shortage), "Choose more than 0 and less than 0.5; 0.05 is the default.")
	case p.Reserve < 0:
		return bad("The reserve is under zero.", "Choose 0 psi or more; 200 psi is the default.")
	case p.Tariff < 0 || p.WattsLeast < 0 || p.WattsMost < p.WattsLeast:
		return bad("The power of the concentrators can't be.", "The least is not under zero, and the most not under the least.")
	case !(p.Highest >= -500) || p.Highest > 6000:
		return bad(fmt.Sprintf("No home lies %g m above the sea.", p.Highest), "Give metres, or 0 where it does not matter.")
	case p.SpeedKmh <= 0 || p.Detour < 1:
		return bad("Driving speed or detour factor can't be.", "Speed over 0 km/h, detour 1 or more.")
	case p.Calls.Every < 1 || p.Calls.Daily < 0 || p.Calls.WelfareTries < 1:
		return bad("The rules of the calls can't be.", "Call at least every day or more, and take the welfare step after one try or more.")
	case p.Bands.Borderline > p.Bands.Emergency:
		return bad("The borderline band begins above the emergency band.", "Let the clinician be told at a lower flow than the emergency department.")
	}
	for _, v := range p.Vehicles {
		if !slices.ContainsFunc(p.Depots, func(d Site) bool { return d.Name == v.Depot }) {
			return bad(fmt.Sprintf("Vehicle %s starts from %q, which is no depot.", v.Name, v.Depot), "Choose one of the depots.")
		}
		if from, until, ok := v.shift(time.Time{}); !ok || !from.Before(until) {
			return bad(fmt.Sprintf("The shift of vehicle %s, %q to %q, can't be.", v.Name, v.From, v.Until), "Give two times of one day, as 08:00 and 17:30.")
		}
		if err := v.checkBreaks(); err != nil {
			return err
		}
	}
	for _, r := range p.Transport {
		if err := r.check(); err != nil {
			return err
		}
	}
	if err := p.Sizes.Check(); err != nil {
		return impossible(err)
	}
	if p.TimeZone != "" {
		if _, err := wall.Zone(p.TimeZone); err != nil {
			return impossible(err)
		}
	}
	if err := p.checkRoads(); err != nil {
		return err
	}
	if err := p.checkPapers(); err != nil {
		return err
	}
	if err := p.Amnesty.check(); err != nil {
		return err
	}
	return p.twins()
}

// twins refuses two places of one short name: facts could mean either.
func (p Programme) twins() error {
	seen := make(map[string]string)
	for _, s := range p.sites() {
		if s.Name == "" {
			continue
		}
		if other, ok := seen[s.Name]; ok {
			return refusal.New(refusal.Invalid, fmt.Sprintf("%s and %s both go by %q.", other, s.Title, s.Name), "Give each place a short name of its own.")
		}
		seen[s.Name] = s.Title
	}
	return nil
}
