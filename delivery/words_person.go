package delivery

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"lungwort/inventory/gas"
)

// InWords returns the order in one line: "2 L/min at rest, 3 on exertion".
// Hours are named when they are not the whole day.
func (o Ordered) InWords() string {
	var parts []string
	if o.Setting != "" {
		words := "pulse setting " + o.Setting
		if !o.untold() {
			words += fmt.Sprintf(", %g mL at %g breaths a minute", float64(o.Bolus), o.Breaths)
		}
		parts = append(parts, words)
	}
	if o.Rest > 0 {
		parts = append(parts, o.Rest.String()+" at rest")
	}
	if o.Exertion > 0 {
		parts = append(parts, fmt.Sprintf("%g on exertion", float64(o.Exertion)))
	}
	if o.Asleep > 0 {
		parts = append(parts, fmt.Sprintf("%g asleep", float64(o.Asleep)))
	}
	if o.Hours < 24 {
		parts = append(parts, fmt.Sprintf("%g h a day", o.Hours))
	}
	return strings.Join(parts, ", ")
}

func ordered(o Ordered) string {
	words := "order: " + o.InWords()
	if o.Device != "" {
		words += ", " + o.Device
	}
	if o.Names != "" {
		words += "; names " + o.Names
	}
	if !o.Review.IsZero() {
		words += "; review " + o.Review.Format("Mon 2 Jan")
	}
	if o.Prescriber != "" {
		words += "; by " + o.Prescriber
	}
	return words
}

func refusedInWords(s Refused) string {
	words := because("refused "+s.What, s.Why)
	if !s.Again.IsZero() {
		words += "; offer again " + s.Again.Format("Mon 2 Jan")
	}
	return words
}

func consented(s Consented) string {
	if s.Given {
		return "said yes to " + s.To
	}
	return "said no to " + s.To
}

func discharged(s Discharged, at time.Time) string {
	words := fmt.Sprintf("left ward %s; valve open %s", cmp.Or(s.Ward, "not named"), Clock(s.Opened, at))
	if s.Verdict != "" {
		words += "; bridge " + s.Verdict
	}
	if len(s.Supplies) > 0 {
		words += "; given " + handfuls(s.Supplies)
	}
	return words
}

func switched(to Breathes) string {
	if to == FromNothing {
		return "breathes no oxygen of ours"
	}
	return "on the " + string(to)
}

func called(s Called) string {
	if !s.Answered {
		if s.Contact > 0 {
			return fmt.Sprintf("called number %d, no answer", s.Contact+1)
		}
		return "called, no answer"
	}
	heard := s.heard()
	if s.Band != "" {
		heard += ", " + s.Band + " band"
	}
	if heard = strings.TrimPrefix(heard, ", "); heard == "" {
		return "call answered"
	}
	return "call: " + heard
}

// heard says what a call told, in words.
func (c Called) heard() string {
	var heard []string
	if c.Found != "" {
		heard = append(heard, "power out, "+string(c.Found))
	}
	if c.SpO2 != nil {
		heard = append(heard, saturation(*c.SpO2, c.Flow))
	} else if c.Flow != nil {
		heard = append(heard, "flow "+c.Flow.String())
	}
	if c.Exertion != nil {
		heard = append(heard, "on exertion "+saturation(*c.Exertion, c.ExertionFlow))
	} else if c.ExertionFlow != nil {
		heard = append(heard, "on exertion flow "+c.ExertionFlow.String())
	}
	if c.Worse {
		heard = append(heard, "feels worse or breathless at rest")
	}
	if c.Saving && c.Found != FoundSaving {
		heard = append(heard, "turned down to save gas")
	}
	if c.Problem != "" {
		heard = append(heard, "problem: "+c.Problem)
	}
	if c.Parts != "" {
		heard = append(heard, "bring "+c.Parts)
	}
	return strings.Join(heard, ", ")
}

// saturation says a reading with the flow it was taken on, or that nobody
// asked for it.
func saturation(spo2 float64, flow *gas.Flow) string {
	if flow == nil {
		return fmt.Sprintf("SpO2 %g %%, flow not told", spo2)
	}
	return fmt.Sprintf("SpO2 %g %% on %s", spo2, *flow)
}

func escalated(s Escalated) string {
	words := s.Told + " told of " + matterList(s.About)
	if s.Reply != "" {
		words += "; reply: " + s.Reply
	}
	return words
}

func banded(s Banded) string {
	if s.Waived {
		return fmt.Sprintf("own check-in bands waived up to %s, by %s", s.Upto, s.By)
	}
	return fmt.Sprintf("own check-in bands up to %s: %s; by %s", s.Upto, s.Bands.InWords(), s.By)
}
