package delivery

import (
	"fmt"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// Machine is what one model of concentrator needs of a home, as its plate or
// manual says.
type Machine struct {
	Model   string      `json:"model"`
	Least   gas.Watts   `json:"watts_least"`
	Most    gas.Watts   `json:"watts_most"`
	Warmest gas.Celsius `json:"warmest"` // the room it is made for
	Source  string      `json:"source,omitempty"`
}

// machine returns what is set for the model of a thing, and whether anything is.
func (p Programme) machine(s inventory.Spec) (Machine, bool) {
	for _, m := range p.Machines {
		if s.Model != "" && strings.EqualFold(strings.TrimSpace(m.Model), strings.TrimSpace(s.Model)) {
			return m, true
		}
	}
	return Machine{}, false
}

// Draw returns the power a concentrator takes from the mains, and what that
// rests on: its model where it is set, else so much for each litre a minute.
func (p Programme) Draw(s inventory.Spec) (least, most gas.Watts, rests string) {
	if m, set := p.machine(s); set && m.Most > 0 {
		return m.Least, m.Most, fmt.Sprintf("%.0f to %.0f W for model %s (%s)", float64(m.Least), float64(m.Most), strings.TrimSpace(m.Model), source(m.Source))
	}
	least, most = gas.Watts(s.Rated)*p.WattsLeast, gas.Watts(s.Rated)*p.WattsMost
	return least, most, fmt.Sprintf("%.0f to %.0f W for a machine of %s: %.0f to %.0f W for each L/min, under 70 required (WHO and UNICEF 2019); the plate says what this one draws",
		float64(least), float64(most), s.Rated, float64(p.WattsLeast), float64(p.WattsMost))
}

// WarmestFor returns the warmest room a concentrator is made for, and what that
// rests on.
func (p Programme) WarmestFor(s inventory.Spec) (limit gas.Celsius, rests string) {
	if m, set := p.machine(s); set && m.Warmest > 0 {
		return m.Warmest, fmt.Sprintf("model %s up to %.0f °C (%s)", m.Model, float64(m.Warmest), source(m.Source))
	}
	return p.Warmest, fmt.Sprintf("machines are made for rooms up to %.0f °C (%s; the manual decides)", float64(p.Warmest), practice)
}

// high is from where on thin air is spoken of, in metres: 8,000 ft, where one of
// four home machines fell from 93 to 89 % (Bunel et al., High Alt Med Biol
// 2016;17:370).
const high = 2438

// Thin says what a machine may lack in homes as high as the programme's; empty
// where they lie lower.
func (p Programme) Thin() string {
	if p.Highest < high {
		return ""
	}
	return fmt.Sprintf("homes lie up to %.0f m high: at %d m one machine of four fell from 93 to 89 %% oxygen (High Alt Med Biol 2016); measure at the door, the manual says how high it may stand", p.Highest, high)
}

func source(text string) string {
	if text == "" {
		return "no source given"
	}
	return text
}

// energy returns what a power takes in a time.
func energy(of gas.Watts, ran time.Duration) gas.KilowattHours {
	return gas.KilowattHours(float64(of) * ran.Hours() / 1000)
}
