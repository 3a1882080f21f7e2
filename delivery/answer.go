package delivery

import (
	"fmt"
	"strings"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory/wall"
)

// Answer is a decision: the verdict first, then the number as a range with
// its safe end in front, who does what by when, and what it rests on. It is
// the same on screen, on paper and as JSON.
type Answer struct {
	Verdict depletion.Verdict `json:"verdict"`
	Title   string            `json:"title"` // the verdict in full
	// Low, Mid and High are the range of the number asked for, as words with
	// their unit: "21 min".
	Low  string `json:"low"`
	Mid  string `json:"mid"`
	High string `json:"high"`
	Help string `json:"help"` // who can be there, and when
	// Do is what to do, in order. When gas ends before help it starts with
	// the emergency number and the clinician.
	Do      []string `json:"do"`
	Assumed []string `json:"assumed"`
	Facts   []string `json:"facts"`
}

// NoFlowAdvice stands under every answer that names a flow.
const NoFlowAdvice = "The programme does not advise on flow: that is the clinician's."

// Spell returns a duration as people say it, in hours and minutes, rounded
// down.
func Spell(d time.Duration) string {
	if d < 0 {
		return "none"
	}
	minutes := int(d / time.Minute)
	days, hours := minutes/1440, minutes/60
	switch {
	case days >= 4:
		return fmt.Sprintf("%d days", days)
	case hours == 0:
		return fmt.Sprintf("%d min", minutes)
	case minutes%60 == 0 || hours >= 48:
		return fmt.Sprintf("%d h", hours)
	}
	return fmt.Sprintf("%d h %02d min", hours, minutes%60)
}

// Ago returns the age of a fact as people say it.
func Ago(at, now time.Time) string {
	if at.IsZero() {
		return "never"
	}
	if d := now.Sub(at); d >= 0 {
		return Spell(d) + " ago"
	}
	return "at " + Clock(at, now)
}

// Clock returns a time as lists show it: hour and minute, with the weekday
// when it is not the day of now, the date when it is far, and the year when
// the date alone could be taken for another. In the hour that a change of the
// clocks repeats its offset stands behind it.
func Clock(t, now time.Time) string {
	t = t.In(now.Location())
	if wall.Twice(t) && !t.IsZero() {
		return clock(t, now) + t.Format(" -07:00")
	}
	return clock(t, now)
}

func clock(t, now time.Time) string {
	switch apart := t.Sub(now); {
	case t.IsZero():
		return ""
	case t.YearDay() == now.YearDay() && t.Year() == now.Year():
		return t.Format("15:04")
	case apart > -6*24*time.Hour && apart < 6*24*time.Hour:
		return t.Format("Mon 15:04")
	case apart < -300*24*time.Hour || apart > 300*24*time.Hour:
		return t.Format("Mon 2 Jan 2006 15:04")
	}
	return t.Format("Mon 2 Jan 15:04")
}

// emergencyFirst returns the first lines of an answer when gas ends before
// help: the emergency number and the clinician, before any dispatch.
func (p Programme) emergencyFirst() []string {
	return []string{"Emergency number " + p.Emergency + ", then " + p.clinicianLine()}
}

// clinicianLine names the clinician to ring first.
func (p Programme) clinicianLine() string {
	if len(p.Clinician) == 0 {
		return "the clinician on call"
	}
	c := p.Clinician[0]
	return fmt.Sprintf("%s %s", strings.TrimSpace(c.Name+" "+c.Role), c.Phone)
}
