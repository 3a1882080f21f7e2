package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/delivery/route"
)

// Loading is a run to be judged before it leaves, and on its way.
type Loading struct {
	Run     Run
	Vehicle Vehicle
	Cargo   Cargo
	Rules   []TransportRule // in force on the day of the run, lowest limit first
}

// LoadingOf returns the run as the programme's rules judge it.
func (p Programme) LoadingOf(r Run, c Cargo) Loading {
	vehicle, _ := p.Vehicle(r.Vehicle)
	return Loading{Run: r, Vehicle: vehicle, Cargo: c, Rules: p.InForce(r.Departs)}
}

// over are the rules whose limit the run is above.
func (l Loading) over() []TransportRule {
	kg := float64(l.Cargo.Most()[route.Kg])
	return slices.DeleteFunc(slices.Clone(l.Rules), func(r TransportRule) bool { return kg <= r.Kg })
}

// Missing names what the rules ask and the vehicle lacks.
func (l Loading) Missing() []string {
	var all []string
	for _, r := range l.over() {
		all = append(all, r.missing(l.Vehicle, l.Run.Departs)...)
	}
	return all
}

// Asked names the papers and signs that must be on board.
func (l Loading) Asked() []string {
	var all []string
	for _, r := range l.over() {
		for _, paper := range r.Asks {
			all = with(all, paper)
		}
	}
	return all
}

// Excess says what the vehicle has not room for, by how much; empty when it has.
func (l Loading) Excess() string {
	most, room := l.Cargo.Most(), l.Vehicle.capacity()
	var parts []string
	for d, unit := range [...]string{route.Pieces: "pieces", route.Kg: "kg of cylinders", route.Bulk: "litres", route.Dirty: "used things"} {
		if more := most[d] - room[d]; more > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", more, unit))
		}
	}
	return strings.Join(parts, ", ")
}

// Weighs sets the load against the first limit it is under, or the highest it
// is above.
func (l Loading) Weighs() string {
	kg := l.Cargo.Most()[route.Kg]
	text := fmt.Sprintf("%d kg of cylinders at most", kg)
	over := l.over()
	switch {
	case len(l.Rules) == 0:
		return text + "; the programme has set no transport rule"
	case len(over) == 0:
		return fmt.Sprintf("%s, under the %.0f kg of %s", text, l.Rules[0].Kg, l.Rules[0].Name)
	}
	last := over[len(over)-1]
	return fmt.Sprintf("%s, over the %.0f kg of %s", text, last.Kg, last.Name)
}

// Sources says where the rules stand.
func (l Loading) Sources() []string {
	lines := make([]string, len(l.Rules))
	for i, r := range l.Rules {
		lines[i] = fmt.Sprintf("%s, over %.0f kg: %s", r.Name, r.Kg, r.Source)
	}
	return lines
}

// Answer says whether the vehicle may leave as it is loaded.
func (l Loading) Answer() Answer {
	a := Answer{
		Verdict: depletion.Holds, Title: l.Run.Vehicle + ": " + l.Weighs(),
		Help: cmp.Or(l.Run.Driver, "no driver is written") + " drives",
		Do:   []string{}, Facts: l.facts(),
		Assumed: append([]string{"gross mass by size, each rounded up; local transport rules decide"}, l.Sources()...),
	}
	missing, excess := l.Missing(), l.Excess()
	if excess != "" {
		a.Do = append(a.Do, "Take off before it leaves: "+excess+" more than its room; give a stop to another vehicle, or make two trips")
	}
	for _, m := range missing {
		a.Do = append(a.Do, "Missing: "+m)
	}
	switch asked := l.Asked(); {
	case excess != "" || len(missing) > 0:
		a.Verdict = depletion.Short
	case len(asked) > 0:
		a.Verdict = depletion.Tight
		a.Do = append(a.Do, "On board: "+strings.Join(asked, ", "))
	default:
		a.Do = append(a.Do, "No paper is asked for; cylinders tied, valves shut, clean and dirty apart")
	}
	return a
}

func (l Loading) facts() []string {
	c := l.Cargo
	facts := []string{fmt.Sprintf("leaves with %s, comes home with %d used", count(c.Out.Full, "full cylinder"), l.home().Used)}
	if c.Given > 0 {
		facts = append(facts, fmt.Sprintf("%d of %d given out, %d full and %d used on board now: the total on the paper need not be rewritten after each drop (PHMSA 04-0232, 2004)",
			c.Given, c.Out.Full, c.Now.Full, c.Now.Used))
	}
	for _, r := range l.Rules {
		if again, ok := r.again(l.Vehicle); ok && r.Years > 0 {
			facts = append(facts, fmt.Sprintf("driver trained %s, again by %s", l.Vehicle.Trained, again.Format(time.DateOnly)))
		}
	}
	return facts
}

// home is what is on board at the end of the run.
func (l Loading) home() Aboard {
	if n := len(l.Cargo.After); n > 0 {
		return l.Cargo.After[n-1]
	}
	return l.Cargo.Out
}
