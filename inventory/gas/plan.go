package gas

import (
	"fmt"
	"math"
)

// Estimate is the gas above the reserve by one method, and how long it lasts.
type Estimate struct {
	Method  string
	Litres  Litres
	Minutes int // rounded down
}

// Plan is how long a cylinder can be counted on: the smaller of the methods.
type Plan struct {
	Minutes int
	Methods []Estimate
	Skipped string // which method was left out and why; empty when none was
}

// The names of the methods, as Estimate carries them.
const (
	Textbook = "textbook"
	RealGas  = "real gas"
)

// PlanMinutes returns how long a cylinder lasts down to the reserve at a
// steady flow. The textbook rule, (gauge - reserve) × factor ÷ flow, is left
// out where no factor is published for the size. What cannot be right is
// refused: no flow, a gauge above what the cylinder holds, a temperature
// outside Coldest to Warmest.
func PlanMinutes(s Size, gauge, reserve Pressure, flow Flow, t Celsius) (Plan, error) {
	if err := plannable(s, gauge, reserve, flow, t); err != nil {
		return Plan{}, err
	}
	var plan Plan
	if s.Factor > 0 {
		usable := max(0, Litres((gauge-reserve).PSI()*s.Factor))
		plan.Methods = append(plan.Methods, Estimate{Textbook, usable, lasts(usable, flow)})
	} else {
		plan.Skipped = fmt.Sprintf("%s rule left out: no factor is published for %s", Textbook, s.name())
	}
	usable := s.Usable(gauge, reserve, t)
	plan.Methods = append(plan.Methods, Estimate{RealGas, usable, lasts(usable, flow)})
	plan.Minutes = plan.Methods[0].Minutes
	for _, m := range plan.Methods {
		plan.Minutes = min(plan.Minutes, m.Minutes)
	}
	return plan, nil
}

// lasts rounds down, after forgiving what decimal arithmetic loses: 21
// minutes exactly must not come out as 20.
func lasts(l Litres, flow Flow) int {
	return int(math.Floor(float64(l)/float64(flow) + 1e-6))
}

func plannable(s Size, gauge, reserve Pressure, flow Flow, t Celsius) error {
	if err := s.Check(); err != nil {
		return err
	}
	switch {
	case !(flow >= lowestFlow) || flow > highestFlow:
		return fmt.Errorf("a flow of %s is not between %s and %s. Ask what the flow meter shows", flow, lowestFlow, highestFlow)
	case !(gauge >= 0):
		return fmt.Errorf("a gauge of %s is below zero. Ask what the gauge shows", gauge)
	case gauge > s.Service*overfilled:
		return fmt.Errorf("a gauge of %s is more than %s holds (full is %s). Check the number, its unit and the cylinder's size", gauge, s.name(), s.Service)
	case !(reserve >= 0) || reserve >= s.Service:
		return fmt.Errorf("a reserve of %s does not lie between zero and full (%s). Set the reserve again, as 200psi", reserve, s.Service)
	case !(t >= Coldest) || t > Warmest:
		return fmt.Errorf("%s is outside %s to %s, where cylinders are read. Check the temperature and its unit", t, Coldest, Warmest)
	}
	return nil
}
