package console

import (
	"context"
	"fmt"
	"io"
	"strings"

	"lungwort/inventory/gas"
)

type gasAnswer struct {
	Planning int         `json:"planning_minutes"`
	Methods  []gasMethod `json:"methods"`
	Size     string      `json:"-"`
	Figures  string      `json:"-"` // of the size, each with its status
	Note     string      `json:"-"`
}

type gasMethod struct {
	Name    string  `json:"name"`
	Litres  float64 `json:"litres"`
	Minutes int     `json:"minutes"`
}

// gasAsked is what was typed, each with its unit.
type gasAsked struct {
	size, contents, full, gauge, reserve, temp string

	flow, bolus string
	breaths     float64
}

// gasLeft says how long a cylinder lasts, planning minutes first.
func gasLeft(_ context.Context, p *Program, args []string) error {
	var q gasAsked
	fs := p.flags("gas")
	fs.StringVar(&q.size, "size", "", "cylinder size by region and letter, as US-E")
	fs.StringVar(&q.contents, "contents", "", "of this cylinder by its own label, as 660L")
	fs.StringVar(&q.full, "full", "", "full pressure of this cylinder by its own label, as 1900psi")
	fs.StringVar(&q.gauge, "gauge", "", "gauge pressure with unit, as 500psi")
	fs.StringVar(&q.flow, "flow", "", "flow, as 4 or 125mL")
	fs.StringVar(&q.bolus, "bolus", "", "of a pulse device, in place of a flow, as 16.5mL")
	fs.Float64Var(&q.breaths, "breaths", 0, "breaths a minute, with a bolus")
	fs.StringVar(&q.reserve, "reserve", "200psi", "kept in the cylinder")
	fs.StringVar(&q.temp, "temp", "21C", "temperature of the cylinder")
	asJSON := fs.Bool("json", false, "print JSON")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	if q.bolus == "" && q.breaths == 0 && strings.TrimSpace(q.flow) == "" {
		return misuse{"--flow is missing; of a pulse device give --bolus and --breaths"}
	}
	for _, needed := range []struct{ name, value string }{{"size", q.size}, {"gauge", q.gauge}} {
		if strings.TrimSpace(needed.value) == "" {
			return misuse{fmt.Sprintf("--%s is missing", needed.name)}
		}
	}
	size, plan, err := q.planned()
	if err != nil {
		return err
	}
	a := gasAnswer{Planning: plan.Minutes, Note: plan.Skipped, Size: string(size.Code), Figures: size.Sources(), Methods: []gasMethod{}}
	for _, m := range plan.Methods {
		a.Methods = append(a.Methods, gasMethod{m.Method, float64(m.Litres), m.Minutes})
	}
	if *asJSON {
		return p.print(a)
	}
	a.say(p.Out)
	return nil
}

func (a gasAnswer) say(out io.Writer) {
	fmt.Fprintf(out, "Plan on %d min.\n", a.Planning)
	for _, m := range a.Methods {
		fmt.Fprintf(out, "  %-9s %4.0f L above the reserve, %d min\n", m.Name, m.Litres, m.Minutes)
	}
	if a.Note != "" {
		fmt.Fprintln(out, "  "+a.Note)
	}
	fmt.Fprintf(out, "  %s: %s\n", a.Size, a.Figures)
}

// planned reads what was typed. A pulse device uses its bolus at every breath.
func (q gasAsked) planned() (gas.Size, gas.Plan, error) {
	size, err := q.cylinder()
	if err != nil {
		return size, gas.Plan{}, err
	}
	gauge, err := gas.ParseGauge(q.gauge, size.Service)
	if err != nil {
		return size, gas.Plan{}, err
	}
	reserve, err := gas.ParsePressure(q.reserve)
	if err != nil {
		return size, gas.Plan{}, err
	}
	temp, err := gas.ParseTemperature(q.temp)
	if err != nil {
		return size, gas.Plan{}, err
	}
	flow, err := q.used()
	if err != nil {
		return size, gas.Plan{}, err
	}
	plan, err := gas.PlanMinutes(size, gauge, reserve, flow, temp)
	return size, plan, err
}

// cylinder is the size, with what the label of the cylinder says of its own.
func (q gasAsked) cylinder() (gas.Size, error) {
	size, err := gas.ParseSize(q.size, "")
	if err != nil || q.contents == "" && q.full == "" {
		return size, err
	}
	var contents gas.Litres
	if q.contents != "" {
		if contents, err = gas.ParseLitres(q.contents); err != nil {
			return size, err
		}
	}
	var full gas.Pressure
	if q.full != "" {
		if full, err = gas.ParsePressure(q.full); err != nil {
			return size, err
		}
	}
	return size.Marked(gas.Marks{Contents: contents, Service: full, Water: 0})
}

// used is the oxygen used a minute.
func (q gasAsked) used() (gas.Flow, error) {
	if q.bolus == "" && q.breaths == 0 {
		return gas.ParseFlow(q.flow)
	}
	var bolus gas.Millilitres
	if q.bolus != "" {
		var err error
		if bolus, err = gas.ParseMillilitres(q.bolus); err != nil {
			return 0, err
		}
	}
	return gas.Pulse{Bolus: bolus, BreathsPerMinute: q.breaths}.Uses()
}
