package delivery

import "fmt"

// Script is what to say on a check-in call, by the field it fills. The words
// are ours; what is asked is common practice in home-oxygen follow-up, no
// source.
var Script = map[string]string{
	"worse":   "How are you? Short of breath sitting still?",
	"spo2":    "Sit five minutes: which saturation, on which flow?",
	"gauge":   "What do the gauge and the hours meter show?",
	"problem": "Anything broken, missing, frightening? Anybody smoking?",
}

// Steps returns what to do at once about what was heard; nothing where it is
// fine. The caution about skin tone follows the safety communication on pulse
// oximeters of the U.S. Food and Drug Administration, February 2021; the rest
// is common practice, no source.
func (p Programme) Steps(b Bands, c Called) []string {
	switch c.Band {
	case Emergency:
	case Borderline:
		return []string{"Tell the clinician today: " + p.clinicianLine()}
	case Incomplete:
		return []string{"Ask for the flow the reading was taken on"}
	default:
		return nil
	}
	steps := p.emergencyFirst()
	if c.Worse {
		return append(steps, "Stay on the line until help is on its way; no retake, no waiting")
	}
	if low := c.lowest(); low >= b.Target {
		return steps
	}
	return append(steps,
		"Only while somebody dials, take it again: warm hands, no nail polish or another finger, hand still, until the number stands for a minute",
		"On darker skin an oximeter can read too high: how they feel counts more than the number",
		fmt.Sprintf("Still under %g %%: emergency department, by the bands. A clinician decides", b.Target))
}

// lowest returns the lowest saturation of a call; 100 where none was taken.
func (c Called) lowest() float64 {
	low := 100.0
	for _, spo2 := range []*float64{c.SpO2, c.Exertion} {
		if spo2 != nil {
			low = min(low, *spo2)
		}
	}
	return low
}
