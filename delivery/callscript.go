package delivery

import (
	"fmt"

	"lungwort/delivery/depletion"
)

// Script is what to say on a check-in call, by the field it fills. The words
// are ours; what is asked is common practice in home-oxygen follow-up, no
// source.
var Script = map[string]string{
	"worse":   "How are you? Short of breath sitting still?",
	"spo2":    "Sit five minutes: which saturation, on which flow?",
	"gauge":   "What do the gauge and the hours meter show?",
	"when":    "left empty: now; for a call keyed in later, when it was",
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

// oximeterArms is the root mean square difference between an oximeter and the
// blood that is accepted of one worn on a finger, in percent: about two thirds
// of readings lie within it. Pulse oximeters, premarket notification guidance,
// U.S. Food and Drug Administration, March 2013.
const oximeterArms = 3

// accuracy says how far a reading can be from the blood, and whether that
// matters to the band it fell in.
func (b Bands) accuracy(c Called) string {
	words := fmt.Sprintf("an oximeter is right within %d %% two times of three", oximeterArms)
	if low := c.lowest(); low >= b.Target && low < b.Target+oximeterArms {
		words += fmt.Sprintf(": %g %% can be under %g %%; how they feel counts more", low, b.Target)
	}
	return words
}

// bandVerdicts gives each band the mark and colour of a verdict.
var bandVerdicts = map[string]depletion.Verdict{
	Fine: depletion.Holds, Borderline: depletion.Tight, Emergency: depletion.Dry, Incomplete: depletion.Unknown, "": depletion.Unknown,
}

// Reading says what a call means, as far as it has been told, in the form of
// every urgent answer.
func (p Programme) Reading(c Care, h Called) Answer {
	bands := p.Bands.For(c)
	a := Answer{
		Verdict: bandVerdicts[h.Band], Title: "Ask: nothing is measured yet", Help: "emergency number " + p.Emergency,
		Do: p.Steps(bands, h), Facts: []string{}, Assumed: []string{"bands: " + bands.InWords(), "a clinician decides", NoFlowAdvice},
	}
	switch {
	case h.Band == Fine:
		a.Title = "Fine"
	case h.Band != "":
		a.Title = p.Heard(h)
	case h.SpO2 != nil:
		a.Title = "The clinician's own bands decide, and none are recorded"
	}
	if unlike := c.Unlike(h); unlike != "" {
		a.Do = append(a.Do, unlike)
	}
	if h.SpO2 != nil || h.Exertion != nil {
		a.Assumed = append(a.Assumed, bands.accuracy(h))
	}
	if c.Order != nil {
		a.Facts = append(a.Facts, "ordered "+c.Order.InWords())
	}
	if told := h.heard(); told != "" {
		a.Facts = append(a.Facts, told)
	}
	if a.Do == nil {
		a.Do = []string{}
	}
	return a
}
