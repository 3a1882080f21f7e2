package delivery

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// Sentence says in words what a fact states: "gauge 1,400 psi, told". Screens
// and papers show the same words. It names neither the person nor the item
// the fact is about; the page around it does.
func Sentence(f inventory.Fact) string {
	switch s := f.Statement.(type) {
	case *Registered:
		return "entered in the book"
	case *Settled:
		switch {
		case !s.From.IsZero():
			return fmt.Sprintf("sleeps at another address from %s until %s", s.From.Format("Mon 2 Jan"), s.Until.Format("Mon 2 Jan"))
		case !s.Until.IsZero():
			return "sleeps at another address until " + s.Until.Format("Mon 2 Jan")
		}
		return "sleeps at this address from now on"
	case *Amended:
		return "put right: " + strings.Join(s.What, ", ")
	case *Died:
		return fmt.Sprintf("died, told by %s; nobody is called before %s", cmp.Or(s.ToldBy, "nobody named"), s.NotBefore.Format("Mon 2 Jan"))
	case *Readmitted:
		return fmt.Sprintf("in hospital, ward %s; kit held until %s", s.Ward, s.Until.Format("Mon 2 Jan"))
	case *Proven:
		return fmt.Sprintf("delivery proven for %s", count(len(s.Items), "item"))
	case *Refused:
		return refusedInWords(*s)
	case *Merged:
		return "kept under the record " + string(s.Into) + ": two records were one person"
	case *Erased:
		return because("who this was is erased", s.Why)
	case *Consented:
		return consented(*s)
	case *Ordered:
		return ordered(*s)
	case *Discharged:
		return discharged(*s, f.Happened)
	case *TripBooked:
		return because(fmt.Sprintf("trip on the cylinder booked, %s to %s", s.From.Format("Mon 2 Jan 15:04"), s.Until.Format("Mon 2 Jan 15:04")), s.Where)
	case *TripOff:
		return fmt.Sprintf("trip of fact %d is off", s.Trip)
	case *TubingLaid:
		return fmt.Sprintf("%g m of tubing in the home", s.Metres)
	case *Switched:
		return because(switched(s.To), s.Why)
	case *Called:
		return called(*s)
	case *Escalated:
		return escalated(*s)
	case *Banded:
		return banded(*s)
	case *Stopped:
		return fmt.Sprintf("oxygen stopped: %s; ordered by %s", s.Reason, s.OrderedBy)
	case *inventory.Resolved:
		return because("question answered: "+s.Choice, s.Why)
	case *inventory.Retracted:
		return fmt.Sprintf("fact %d taken back: %s", f.Corrects, s.Why)
	}
	if words := workSentence(f); words != "" {
		return words
	}
	return itemSentence(f)
}

// workSentence says what a fact states about tasks, runs and the programme;
// empty when it is about something else.
func workSentence(f inventory.Fact) string {
	switch s := f.Statement.(type) {
	case *Tasked:
		return tasked(*s, f.Happened)
	case *Done:
		return done(*s, f.Happened)
	case *Promised:
		return "promised by " + Clock(s.By, f.Happened)
	case *Noticed:
		return noticed(*s)
	case *Replied:
		return replied(*s)
	case *Happening:
		words := fmt.Sprintf("incident: %s, told by %s", s.What, s.ToldBy)
		if len(s.Kept) > 0 {
			words += "; kept as it was: " + count(len(s.Kept), "thing")
		}
		return words
	case *Chased:
		return because("asked for what is not needed ("+s.Step+")", s.Reply)
	case *PowerCut:
		return powerCut(*s, f.Happened)
	case *PowerBack:
		return fmt.Sprintf("power back: fact %d is over", s.Cut)
	case *Planned:
		return fmt.Sprintf("run planned: %s, %s, leaves %s", s.Vehicle, count(len(s.Stops), "stop"), Clock(s.Departs, f.Happened))
	case *StoodDown:
		return because(fmt.Sprintf("%s stood down until %s", s.Vehicle, Clock(s.Until, f.Happened)), s.Why)
	case *CalledOff:
		return because("visit called off", s.Why)
	case *Printed:
		return fmt.Sprintf("%s printed: %s", s.Paper, count(len(s.Persons), "home"))
	case *Visited:
		if s.Failed != "" {
			return "stop failed: " + s.Failed
		}
		return "stop done"
	case *Ended:
		if s.Counted != nil {
			return "run closed; on the van " + s.Counted.InWords()
		}
		return "run closed"
	case *Decided:
		return "settings put in force"
	case *Placed:
		words := "place on the map set"
		if s.By == ByTyping {
			words = "place on the map typed"
		}
		if s.Rough {
			words += ", only about right"
		}
		return words
	case *Charted:
		return fmt.Sprintf("map drawn from %s: %s", s.File, count(s.Outline.Size(), "point"))
	case *Answered:
		return "question about a list answered"
	case *TookIn:
		return tookIn(*s)
	}
	return ""
}

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

func tasked(s Tasked, at time.Time) string {
	words := because("task open: "+string(s.Task), s.Why)
	if len(s.Bring) > 0 {
		words += "; bring " + wantedInWords(s.Bring)
	}
	if s.Parts != "" {
		words += "; parts: " + s.Parts
	}
	switch {
	case !s.Due.IsZero():
		words += "; due " + Clock(s.Due, at)
	case !s.From.IsZero() && !s.Until.IsZero():
		words += fmt.Sprintf("; promised %s to %s", Clock(s.From, at), Clock(s.Until, at))
	}
	return words
}

func wantedInWords(list []Wanted) string {
	parts := make([]string, len(list))
	for i, w := range list {
		parts[i] = fmt.Sprintf("%d × %s", w.Count, inventory.Spec{Kind: w.Kind, Size: w.Size, Rated: w.Rated}.What())
	}
	return strings.Join(parts, ", ")
}

func done(s Done, at time.Time) string {
	if s.Failed == "" {
		return "task done"
	}
	words := "visit failed: " + s.Failed
	if !s.Next.IsZero() {
		words += "; next try " + Clock(s.Next, at)
	}
	return words
}

func powerCut(s PowerCut, at time.Time) string {
	words := fmt.Sprintf("power out %s from %s", s.Zone().InWords(), Clock(s.From, at))
	if !s.Until.IsZero() {
		words += " to " + Clock(s.Until, at)
	}
	return because(words, s.Cause)
}

func because(what, why string) string {
	if why == "" {
		return what
	}
	return what + ": " + why
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func tookIn(s TookIn) string {
	words := fmt.Sprintf("list taken in: %s, with %s, %s and %s", count(s.Rows, "row"), count(s.Things, "new thing"), count(s.Persons, "new person"), count(s.Facts, "fact"))
	if s.Changed > 0 {
		words += fmt.Sprintf("; %d changed", s.Changed)
	}
	return words
}
