package delivery

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"lungwort/inventory"
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
		return happened(*s)
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
	case *DeskUser, *PassphraseSet, *SignInSet, *SignInFailed:
		return accessSentence(f.Statement)
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
		switch s.By {
		case ByTyping:
			words = "place on the map typed"
		case ByPlaceFile:
			words = "place on the map taken from the place file"
		case ByPostcode:
			words = "place on the map taken from the postcode"
		}
		if s.Rough {
			words += ", only about right"
		}
		return words
	case *Charted:
		return fmt.Sprintf("map drawn from %s: %s", s.File, count(s.Outline.Size(), "point"))
	case *PlacesListed:
		return fmt.Sprintf("place file taken in: %s of %s", count(len(s.Places), "place"), s.File)
	case *RidesListed:
		return fmt.Sprintf("file of rides taken in: %s of %s", count(len(s.Rides), "ride"), s.File)
	case *Answered:
		return "question about a list answered"
	case *TookIn:
		return tookIn(*s)
	}
	return ""
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

// Count writes how many there are of a thing: "1 stop", "4 stops".
func Count(n int, what string) string { return count(n, what) }

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
