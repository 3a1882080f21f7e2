package depletion

import (
	"fmt"
	"time"
)

// grounds is what a forecast rests on. It is put into words only when somebody
// reads them: most forecasts are only sorted by.
type grounds struct {
	home   Household
	stock  stock
	limits Limits
	priors priors
}

// Assumptions says in short sentences what the forecast rests on; none where
// nothing could be computed.
func (f Forecast) Assumptions() []string {
	if f.grounds == nil {
		return nil
	}
	return f.grounds.inWords()
}

func (g *grounds) inWords() []string {
	h, s, l := &g.home, &g.stock, g.limits
	said := append(make([]string, 0, len(s.notes)+5), s.notes...)
	said = append(said, s.readings())
	order := h.order()
	switch {
	case h.Flow == 0:
		said = append(said, fmt.Sprintf("no flow is ordered, counted at %s", order))
	case h.ObservedFlow > 0 && h.ObservedFlow != h.Flow:
		said = append(said, fmt.Sprintf("%s was observed, %s is ordered", h.ObservedFlow, h.Flow))
	default:
		said = append(said, fmt.Sprintf("flow %s as ordered", order))
	}
	if high := h.highest(); high > order {
		said = append(said, fmt.Sprintf("planning counts the highest credible flow, %s", high))
	}
	said = append(said, fmt.Sprintf("planning keeps a reserve of %s", l.Reserve))
	if note := TubingNote(h.Tubing); note != "" {
		said = append(said, note)
	}
	said = append(said, h.learntFrom(l, g.priors)...)
	return append(said, h.useAssumed(*s)...)
}

// learntFrom says how many earlier readings sharpened the forecast.
func (h Household) learntFrom(l Limits, p priors) []string {
	told := 0
	for _, u := range h.Uses {
		if h.tells(u, l, p) {
			told++
		}
	}
	var said []string
	if told > 0 {
		said = append(said, fmt.Sprintf("sharpened by earlier readings: %d", told))
	}
	if left := len(h.Uses) - told; left > 0 {
		said = append(said, fmt.Sprintf("earlier readings left out, the gauge rose, hardly fell or cannot be right: %d", left))
	}
	return said
}

// useAssumed says what is assumed of the valve and the hours.
func (h Household) useAssumed(s stock) []string {
	var said []string
	switch {
	case h.Source == OnConcentrator && !h.ValveOpen:
		if gone := min(s.first, h.leaked(s)); gone >= 1 {
			said = append(said, fmt.Sprintf("valve closed since the reading; left open, %s would be gone", gone))
		}
	case h.minutesOff() > 0:
		said = append(said, fmt.Sprintf("%g h a day at unknown times; planning takes no pause", h.HoursPerDay))
	default:
		said = append(said, "valve open since the reading")
	}
	for _, o := range h.Outages {
		if h.Source != OnConcentrator && !o.From.After(h.Now) && (o.open() || o.Until.After(h.Now)) {
			said = append(said, "the return of power is not counted on")
			break
		}
	}
	return said
}

// readings says how old the readings counted are.
func (s stock) readings() string {
	newest, oldest := inWords(s.newest), inWords(s.oldest)
	switch {
	case s.counted == 0:
		return "no gauge reading counted"
	case newest == oldest:
		return fmt.Sprintf("gauge read %s ago", newest)
	}
	return fmt.Sprintf("gauges read %s to %s ago", newest, oldest)
}

// inWords returns a duration in hours and minutes, in days and hours from two
// days on.
func inWords(d time.Duration) string {
	minutes := int(d.Round(time.Minute).Minutes())
	switch {
	case d >= 48*time.Hour:
		return fmt.Sprintf("%d d %d h", minutes/minutesPerDay, minutes%minutesPerDay/60)
	case minutes >= 60:
		return fmt.Sprintf("%d h %02d min", minutes/60, minutes%60)
	}
	return fmt.Sprintf("%d min", minutes)
}
