package delivery

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// RingCard is what whoever is on call answers from on paper: how long a gauge
// lasts, and what a machine that beeps may mean.
type RingCard struct {
	Minutes []GaugeMinutes
	Causes  []AlarmCause
	Line    []string // the check of the line, in order
	Bands   string
}

// GaugeMinutes are the planning minutes of one size of cylinder.
type GaugeMinutes struct {
	Size    gas.Size
	Gauges  []gas.Pressure
	Flows   []gas.Flow
	Minutes [][]int // by gauge and flow
}

// AlarmCause is what one answer to a question points to, and what to do.
type AlarmCause struct {
	Asks, Told, Is, Do string
}

// The gauges and flows of the card: between two of them the smaller counts.
var (
	cardGauges = []float64{250, 500, 750, 1000, 1500, 2000, 2900} // psi
	cardFlows  = []gas.Flow{1, 2, 3, 4, 6}
)

// Ring returns the card for the sizes that stand in the homes.
func (p Programme) Ring(homes []Watch) RingCard {
	card := RingCard{Causes: alarmCauses(), Line: lineCheck, Bands: p.Bands.InWords()}
	for _, size := range p.leastOfEach(homes) {
		card.Minutes = append(card.Minutes, p.gaugeMinutes(size))
	}
	return card
}

// leastOfEach returns each size of cylinder in the homes, the smallest first. Of
// cylinders of one size whose own marks differ, the one that holds least at a
// gauge stands for all: on the phone nobody reads out more than the letter.
func (p Programme) leastOfEach(homes []Watch) []gas.Size {
	least := map[gas.SizeCode]gas.Size{}
	atGauge := func(s gas.Size) float64 { return float64(s.Contents) / float64(s.Service) }
	for _, w := range homes {
		for _, h := range w.Care.Kit {
			size, known := p.SizeOf(h.Spec)
			if !known || h.Spec.Kind != inventory.Cylinder {
				continue
			}
			if other, met := least[size.Code]; !met || atGauge(size) < atGauge(other) {
				least[size.Code] = size
			}
		}
	}
	return slices.SortedFunc(maps.Values(least), func(a, b gas.Size) int {
		return cmp.Or(cmp.Compare(a.Contents, b.Contents), cmp.Compare(a.Code, b.Code))
	})
}

// gaugeMinutes counts one size, up to its full pressure.
func (p Programme) gaugeMinutes(size gas.Size) GaugeMinutes {
	t := GaugeMinutes{Size: size, Flows: cardFlows}
	for _, psi := range cardGauges {
		gauge := gas.PSI(psi)
		if gauge > size.Service {
			break
		}
		row := make([]int, len(cardFlows))
		for i, flow := range cardFlows {
			if plan, err := gas.PlanMinutes(size, gauge, p.Reserve, flow, gas.Room); err == nil {
				row[i] = plan.Minutes
			}
		}
		t.Gauges, t.Minutes = append(t.Gauges, gauge), append(t.Minutes, row)
	}
	return t
}

// alarmCauses lists what each answer points to where it decides.
func alarmCauses() []AlarmCause {
	var all []AlarmCause
	for _, q := range AlarmQuestions() {
		for _, sign := range q.Signs {
			a := Alarm{}
			switch q.Key {
			case "power":
				a.Power = sign
			case "light":
				a.Light = sign
			case "air":
				a.Air, a.Light = sign, LightLow // clean or not tells only with a light that says so
			case "line":
				a.Line = sign
			}
			if c := a.cause(); c.words != "" && sign != AirClear {
				all = append(all, AlarmCause{Asks: q.Asks, Told: string(sign), Is: c.words, Do: c.inShort()})
			}
		}
	}
	return all
}

// inShort says what a cause asks for in one line.
func (c cause) inShort() string {
	var do []string
	if c.dead {
		do = append(do, "to the cylinder now")
	}
	if c.line {
		do = append(do, "check the line, nose to machine")
	}
	for _, step := range c.steps {
		do = append(do, lower(step))
	}
	if c.swap {
		do = append(do, "another machine")
	}
	return strings.Join(do, "; ")
}
