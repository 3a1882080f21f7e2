package delivery

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/inventory/refusal"
)

// TransportRule is what is asked of a vehicle with more cylinders on board than
// a rule lets pass. It is a dated example with its source: local rules decide.
type TransportRule struct {
	Name   string   `json:"name"`
	Kg     float64  `json:"kg"`              // gross mass of all cylinders on board above which it asks
	Asks   []string `json:"asks"`            // papers and signs that must be on board then
	Years  int      `json:"years,omitempty"` // how old the driver's training may be then; zero: none is asked for
	From   string   `json:"from,omitempty"`  // the first day it holds, 2006-01-02; empty: always
	Until  string   `json:"until,omitempty"` // the last day; empty: still
	Source string   `json:"source"`
}

// usualTransport are the rules that come with the program, read for the road in
// the United States.
func usualTransport() []TransportRule {
	return []TransportRule{
		{
			Name: "materials of trade", Kg: 200, Asks: []string{"shipping paper", "emergency guide"}, Years: 3,
			Source: "49 CFR 173.6(a): 200 kg (440 lb) gross on one vehicle, medical oxygen included (PHMSA 17-0027, 2017); training every three years, 172.704(c)",
		},
		{
			Name: "placards", Kg: 453, Asks: []string{"OXYGEN placards"},
			Source: "49 CFR 172.504(c): from 454 kg (1,001 lb) gross on",
		},
	}
}

// InForce returns the transport rules that hold on the day of a time, the
// lowest limit first.
func (p Programme) InForce(day time.Time) []TransportRule {
	date := day.Format(time.DateOnly)
	rules := slices.DeleteFunc(slices.Clone(p.Transport), func(r TransportRule) bool {
		return r.From != "" && date < r.From || r.Until != "" && date > r.Until
	})
	slices.SortStableFunc(rules, func(a, b TransportRule) int { return int(a.Kg - b.Kg) })
	return rules
}

// missing names what a vehicle lacks of what the rule asks on a day.
func (r TransportRule) missing(v Vehicle, day time.Time) []string {
	var lacks []string
	for _, paper := range r.Asks {
		if !slices.ContainsFunc(v.Papers, func(has string) bool { return strings.EqualFold(has, paper) }) {
			lacks = append(lacks, paper)
		}
	}
	if r.Years == 0 {
		return lacks
	}
	switch again, ok := r.again(v); {
	case !ok:
		lacks = append(lacks, "a driver with training: no date is written")
	case !day.Before(again):
		lacks = append(lacks, fmt.Sprintf("the driver's training: it ran out on %s", again.Format("2 Jan 2006")))
	}
	return lacks
}

// again returns the day from which the driver has to be trained again.
func (r TransportRule) again(v Vehicle) (time.Time, bool) {
	trained, err := time.Parse(time.DateOnly, v.Trained)
	return trained.AddDate(r.Years, 0, 0), err == nil
}

func (r TransportRule) check() error {
	for _, day := range []string{r.From, r.Until} {
		if _, err := time.Parse(time.DateOnly, day); day != "" && err != nil {
			return refusal.New(refusal.Invalid, fmt.Sprintf("%q is not a day.", day), "Write it as 2026-03-06.")
		}
	}
	switch {
	case r.Kg < 0 || r.Years < 0:
		return refusal.New(refusal.Invalid, fmt.Sprintf("The limit of %s can't be.", r.Name), "Give kilograms and years of zero or more.")
	case r.Until != "" && r.Until < r.From:
		return refusal.New(refusal.Invalid, fmt.Sprintf("The rule %s ends before it begins.", r.Name), "Change one of the two days.")
	case r.Source == "":
		return refusal.New(refusal.Invalid, fmt.Sprintf("The rule %s names no source.", r.Name), "Write where it stands.")
	}
	return nil
}
