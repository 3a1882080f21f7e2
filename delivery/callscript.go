package delivery

import "fmt"

// Line is one line of the script of a call: what it is about, and the words to
// say.
type Line struct {
	Ask   string // the field it fills; empty: just to say
	Words string
}

// Script returns what to say on a check-in call, in order. The words are ours;
// what is asked is common practice in home-oxygen follow-up, no source.
func Script(machine, cylinder bool) []Line {
	lines := []Line{
		{"worse", "How are you: better, the same, or worse? Are you short of breath sitting still?"},
		{"flow", "What does the flow meter show now?"},
		{"spo2", "Sit for five minutes. What does the oximeter show?"},
		{"exertion", "And after walking as you usually do? On which flow?"},
	}
	if cylinder {
		lines = append(lines, Line{"gauge", "What does the gauge of the cylinder show?"})
	}
	if machine {
		lines = append(lines, Line{"hours", "What does the hours meter of the machine show?"})
	}
	return append(lines,
		Line{"saving", "Did you turn it down to save gas?"},
		Line{"problem", "Is anything broken, missing or frightening? Nobody smokes near it?"},
		Line{"parts", "What shall we bring?"},
		Line{"next", "We call again as planned. Whom do you call when you feel worse?"},
	)
}

// Retake is what to do with a low saturation before it is believed, and what
// not to wait for. The caution about skin tone follows the safety
// communication on pulse oximeters of the U.S. Food and Drug Administration,
// February 2021; the rest is common practice, no source.
func (p Programme) Retake(b Bands, spo2 float64) []string {
	if spo2 >= b.Target {
		return nil
	}
	return []string{
		"Feeling worse, blue lips or confused: do not retake, " + p.emergencyFirst()[0] + ".",
		"Else take it again at once: warm hands, no nail polish or another finger, hand still, wait until the number stands for a minute.",
		"On darker skin an oximeter can read too high: how they feel counts more than the number.",
		fmt.Sprintf("Still under %g %%: emergency department now, by the bands. A clinician decides.", b.Target),
	}
}
