package console

import (
	"context"
	"fmt"
	"strings"

	"lungwort/inventory/gas"
)

type gasAnswer struct {
	Planning int         `json:"planning_minutes"`
	Methods  []gasMethod `json:"methods"`
	Note     string      `json:"-"`
}

type gasMethod struct {
	Name    string  `json:"name"`
	Litres  float64 `json:"litres"`
	Minutes int     `json:"minutes"`
}

// gasLeft says how long a cylinder lasts, planning minutes first.
func gasLeft(_ context.Context, p *Program, args []string) error {
	fs := p.flags("gas")
	size := fs.String("size", "", "cylinder size by region and letter, as US-E")
	gauge := fs.String("gauge", "", "gauge pressure with unit, as 500psi")
	flow := fs.String("flow", "", "flow, as 4 or 125mL")
	reserve := fs.String("reserve", "200psi", "kept in the cylinder")
	temp := fs.String("temp", "21C", "temperature of the cylinder")
	asJSON := fs.Bool("json", false, "print JSON")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	for _, needed := range []struct{ name, value string }{{"size", *size}, {"gauge", *gauge}, {"flow", *flow}} {
		if strings.TrimSpace(needed.value) == "" {
			return misuse{fmt.Sprintf("--%s is missing", needed.name)}
		}
	}
	plan, err := planned(*size, *gauge, *reserve, *flow, *temp)
	if err != nil {
		return err
	}
	a := gasAnswer{Planning: plan.Minutes, Note: plan.Skipped, Methods: []gasMethod{}}
	for _, m := range plan.Methods {
		a.Methods = append(a.Methods, gasMethod{m.Method, float64(m.Litres), m.Minutes})
	}
	if *asJSON {
		return p.print(a)
	}
	fmt.Fprintf(p.Out, "Plan on %d min.\n", a.Planning)
	for _, m := range a.Methods {
		fmt.Fprintf(p.Out, "  %-9s %4.0f L above the reserve, %d min\n", m.Name, m.Litres, m.Minutes)
	}
	if a.Note != "" {
		fmt.Fprintln(p.Out, "  "+a.Note)
	}
	return nil
}

func planned(sizeText, gaugeText, reserveText, flowText, tempText string) (gas.Plan, error) {
	size, err := gas.ParseSize(sizeText, "")
	if err != nil {
		return gas.Plan{}, err
	}
	gauge, err := gas.ParseGauge(gaugeText, size.Service)
	if err != nil {
		return gas.Plan{}, err
	}
	reserve, err := gas.ParsePressure(reserveText)
	if err != nil {
		return gas.Plan{}, err
	}
	flow, err := gas.ParseFlow(flowText)
	if err != nil {
		return gas.Plan{}, err
	}
	temp, err := gas.ParseTemperature(tempText)
	if err != nil {
		return gas.Plan{}, err
	}
	return gas.PlanMinutes(size, gauge, reserve, flow, temp)
}
