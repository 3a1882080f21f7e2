package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// Alarm is a call about a machine that beeps, or about somebody short of
// breath on a machine that seems fine: what was told so far. An answer that is
// empty has not been asked for yet.
type Alarm struct {
	Person inventory.PersonID `act:"person" help:"who calls"`
	Worse  bool               `act:"worse,optional" help:"short of breath, blue, confused: it overrides everything"`
	SpO2   *float64           `act:"spo2,optional" help:"saturation, percent"`
	Flow   *gas.Flow          `act:"flow,optional" help:"flow it was taken on"`
	Power  Sign               `act:"power,optional" help:"on, street dark, home dark"`
	Light  Sign               `act:"light,optional" help:"fine, dead, oxygen, flow, fault"`
	Air    Sign               `act:"air,optional" help:"clear, blocked"`
	Line   Sign               `act:"line,optional" help:"bubbles, no bubbles, kinked, water"`
	Gauge  *gas.Pressure      `act:"gauge,optional" help:"gauge of the cylinder there, told now"`
	// Changed says that they breathe from the cylinder now, and Swap that
	// another machine is to be brought.
	Changed bool `act:"changed,optional" help:"they are on the cylinder now"`
	Swap    bool `act:"swap,optional" help:"open a swap of the machine"`
}

// Sign is an answer to one of the four questions.
type Sign string

// What can be told of the power, of light and sound, of the air, of the line.
const (
	PowerOn    Sign = "on"
	StreetDark Sign = "street dark"
	HomeDark   Sign = "home dark"

	LightFine  Sign = "fine"   // running, the light it has every day, no sound
	LightDead  Sign = "dead"   // no light; a tone or silence
	LightLow   Sign = "oxygen" // the light for too little oxygen
	LightFlow  Sign = "flow"   // the light for no flow
	LightFault Sign = "fault"  // red, or any other light or code

	AirClear   Sign = "clear"
	AirBlocked Sign = "blocked"

	LineBubbles Sign = "bubbles"
	LineSilent  Sign = "no bubbles"
	LineKinked  Sign = "kinked"
	LineWater   Sign = "water"
)

// AlarmQuestion is one of the four questions of an alarm call, with the
// answers it can have.
type AlarmQuestion struct {
	Key   string // of the field of Alarm
	Asks  string
	Signs []Sign
}

// AlarmQuestions are the four questions in the order in which they part the
// causes. Common practice, no source; the lights are named in the manual of
// each model.
func AlarmQuestions() []AlarmQuestion {
	return []AlarmQuestion{
		{"power", "Is there light in the house? In the street?", []Sign{PowerOn, StreetDark, HomeDark}},
		{"light", "Which light: as every day, none, too little oxygen, no flow, a fault? What sound?", []Sign{LightFine, LightDead, LightLow, LightFlow, LightFault}},
		{"air", "Is the filter clean, a foot of air around it, the room not hot?", []Sign{AirClear, AirBlocked}},
		{"line", "Prongs into a glass of water: does it bubble? Is it kinked, is water in it?", []Sign{LineBubbles, LineSilent, LineKinked, LineWater}},
	}
}

// sign returns the answer given to a question.
func (a Alarm) sign(key string) Sign {
	return map[string]Sign{"power": a.Power, "light": a.Light, "air": a.Air, "line": a.Line}[key]
}

// Check refuses an answer that none of the questions can have.
func (a Alarm) Check() error {
	for _, q := range AlarmQuestions() {
		if s := a.sign(q.Key); s != "" && !slices.Contains(q.Signs, s) {
			words := make([]string, len(q.Signs))
			for i, known := range q.Signs {
				words[i] = string(known)
			}
			return refusal.New(refusal.Ask, fmt.Sprintf("%q is no answer to: %s", s, q.Asks), "Answer with one of: "+strings.Join(words, ", ")+".")
		}
	}
	return nil
}

// cause is what the answers point to.
type cause struct {
	words string
	dead  bool     // the machine gives nothing, or too little: to the cylinder
	swap  bool     // the machine is at fault: another one is needed
	line  bool     // check the line
	steps []string // for this cause alone
}

// cause returns what the answers point to; without words they leave it open.
// Common practice, no source.
func (a Alarm) cause() cause {
	switch {
	case a.Power == StreetDark:
		return cause{words: "power is out in the street", dead: true, steps: []string{
			"Enter the power cut under Outage: others on that line are dark too", "Power back: machine on, and the cylinder closed"}}
	case a.Power == HomeDark:
		return cause{words: "power is out in this home alone", dead: true, steps: []string{
			"Somebody else there looks: breaker, main switch, prepaid meter, bill"}}
	case a.Light == LightDead:
		return cause{words: "the machine gets no power", dead: true, swap: true, steps: []string{
			"Switch off, plug straight into a socket where a lamp works, no extension lead, its own breaker pressed in, switch on"}}
	case a.Air == AirBlocked && (a.Light == LightLow || a.Light == LightFault):
		return cause{words: "the machine gets too little air, or is too hot", dead: true, swap: true, steps: []string{
			"Clean the filter, a foot of air on every side, out of the sun, away from heater and curtain",
			"If the light goes out once it is warm again, no swap: call back and ask"}}
	case a.Light == LightLow:
		return cause{words: "the machine makes too little oxygen", dead: true, swap: true}
	case a.Light == LightFault:
		return cause{words: "the machine reports a fault", dead: true, swap: true}
	case a.Line == LineWater:
		return cause{words: "water stands in the tubing", line: true, steps: []string{
			"Prongs off the face, swing the water out or take the spare tubing; less water in the humidifier"}}
	case a.Line == LineKinked, a.Line == LineSilent, a.Light == LightFlow:
		return cause{words: "nothing gets through the line", line: true}
	case a.Light == LightFine && a.Line == LineBubbles:
		return cause{words: "machine and line are fine: do not chase the machine", line: true}
	case a.Light == LightFine:
		return cause{words: "the machine is fine: check the line, do not chase the machine", line: true}
	}
	return cause{}
}

// lineCheck is the way from the nose to the machine. Common practice, no
// source.
var lineCheck = []string{
	"Nose: prongs in and not blocked; in a glass of water they must bubble",
	"Along the tubing: chair leg, door, wheel, bed, pet's teeth; no knot, no kink, no hole",
	"Every joint pushed home; one taken off at a time, feel where the stream stops",
	"Humidifier: lid straight and tight, else leave it out",
	"Machine: outlet tight, the ball at the flow ordered, filter clean",
}

// Decide records the call, that they changed to the cylinder, and the swap it
// leads to.
func (a Alarm) Decide(v View) (Change, error) {
	if err := a.Check(); err != nil {
		return Change{}, err
	}
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	words := cmp.Or(a.cause().words, "cause not known")
	c, err := Call{Person: a.Person, Answered: true, Worse: a.Worse, SpO2: a.SpO2, Flow: a.Flow, Gauge: a.Gauge, Problem: "alarm: " + words}.Decide(v)
	if err != nil {
		return c, err
	}
	if a.Changed && care.Breathes != FromCylinder {
		more, err := Switch{Person: a.Person, To: FromCylinder, Why: words}.Decide(v)
		if err != nil {
			return c, err
		}
		c = c.and(more)
	}
	if a.Swap {
		more, err := Ask{Person: a.Person, Task: Swap, Why: "alarm: " + words, Bring: care.swapFor()}.Decide(v)
		if err != nil {
			return c, err
		}
		c = c.and(more)
	}
	return c, nil
}

// swapFor is what a visit brings when the machine fails: another machine, and
// gas for what is breathed until then.
func (c Care) swapFor() []Wanted {
	_, highest := c.Flow()
	bring := []Wanted{{Kind: inventory.Concentrator, Rated: highest, Count: 1}}
	if i := inUse(c); i >= 0 {
		bring = append(bring, Wanted{Kind: inventory.Cylinder, Size: c.Kit[i].Spec.Size, Count: 1})
	}
	return bring
}
