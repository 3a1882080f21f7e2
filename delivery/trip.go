package delivery

import (
	"fmt"
	"slices"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

type (
	// TripBooked says that a person will be away from home, on the cylinder.
	TripBooked struct {
		From  time.Time `json:"from"`
		Until time.Time `json:"until"`
		Where string    `json:"where,omitempty"`
	}
	// TripOff says that a booked trip does not take place, or is over sooner.
	TripOff struct {
		Trip inventory.FactID `json:"trip"`
	}
	// TubingLaid says how long the tubing of a home is, all pieces together.
	TubingLaid struct {
		Metres float64 `json:"metres"`
	}
)

// Says implements inventory.Statement.
func (*TripBooked) Says() string { return "trip booked" }
func (*TripOff) Says() string    { return "trip off" }
func (*TubingLaid) Says() string { return "tubing laid" }

func tripWords() inventory.Vocabulary {
	return inventory.Vocabulary{
		"trip booked": func() inventory.Statement { return new(TripBooked) },
		"trip off":    func() inventory.Statement { return new(TripOff) },
		"tubing laid": func() inventory.Statement { return new(TubingLaid) },
	}
}

// Trip is a booked trip that stands.
type Trip struct {
	ID inventory.FactID `json:"id"`
	TripBooked
}

// tripsKept is how long a trip that is over still counts: what was breathed on
// it came out of a gauge read before.
const tripsKept = 30 * 24 * time.Hour

// book takes a trip up and forgets those long over.
func (c *Care) book(s *TripBooked, f inventory.Fact) {
	c.Trips = slices.DeleteFunc(c.Trips, func(t Trip) bool { return t.Until.Before(f.Happened.Add(-tripsKept)) })
	c.Trips = append(c.Trips, Trip{ID: f.ID, TripBooked: *s})
}

// offTrip ends a trip: one under way ends now, one ahead falls away.
func (c *Care) offTrip(s *TripOff, f inventory.Fact) {
	i := slices.IndexFunc(c.Trips, func(t Trip) bool { return t.ID == s.Trip })
	switch {
	case i < 0:
	case c.Trips[i].From.Before(f.Happened):
		c.Trips[i].Until = f.Happened
	default:
		c.Trips = slices.Delete(c.Trips, i, i+1)
	}
}

// trips returns when the person is away on the cylinder.
func (c Care) trips() []depletion.Span {
	var all []depletion.Span
	for _, t := range c.Trips {
		all = append(all, depletion.Span{From: t.From, Until: t.Until})
	}
	return all
}

// atRest is the oxygen used a minute at rest, by a pulse device too where its
// bolus and a breath rate are known; zero when the order tells neither.
func (o Ordered) atRest() gas.Flow {
	pulse, err := o.pulse().Uses()
	if o.Setting == "" || err != nil {
		return o.Rest
	}
	return max(o.Rest, pulse)
}

func (o Ordered) pulse() gas.Pulse {
	return gas.Pulse{Bolus: o.Bolus, BreathsPerMinute: o.Breaths}
}

// untold says whether a pulse device is ordered whose use can't be worked out.
func (o Ordered) untold() bool {
	_, err := o.pulse().Uses()
	return o.Setting != "" && err != nil
}

// The acts about trips and tubing.
type (
	// BookTrip books a trip on the cylinder.
	BookTrip struct {
		Person inventory.PersonID `act:"person" help:"record number, name or id"`
		From   time.Time          `act:"from" help:"leaves home"`
		Until  time.Time          `act:"until" help:"is back"`
		Where  string             `act:"where,optional" help:"to where; no more than is needed"`
	}
	// CallOffTrip takes a trip off the book, or ends it now.
	CallOffTrip struct {
		Person inventory.PersonID `act:"person" help:"record number, name or id"`
		Trip   inventory.FactID   `act:"trip" help:"id of the booked trip"`
	}
	// LayTubing notes how long the tubing of a home is.
	LayTubing struct {
		Person inventory.PersonID `act:"person" help:"record number, name or id"`
		Metres float64            `act:"metres" help:"all pieces together"`
	}
)

const (
	longestTrip   = 30 * 24 * time.Hour
	longestTubing = 100.0 // m; nobody lays more in a home
)

// Decide books the trip and says by when gas must be there for it.
func (a BookTrip) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	switch {
	case !care.Watched():
		return Change{}, refusal.New(refusal.Conflict, "The person breathes no oxygen of ours now.", "Book the trip after the discharge.")
	case !a.Until.After(a.From):
		return Change{}, refusal.New(refusal.Invalid, "The trip ends before it begins.", "Check the two times.")
	case !a.Until.After(v.At()):
		return Change{}, refusal.New(refusal.Invalid, "The trip is over already.", "Enter what the gauge shows now.")
	case a.Until.Sub(a.From) > longestTrip:
		return Change{}, refusal.New(refusal.Invalid, "A trip of more than 30 days is a move.", "Enter where the person sleeps until then.")
	}
	booked := TripBooked{From: a.From, Until: a.Until, Where: a.Where}
	var c Change
	c.person(a.Person, &booked)
	p, err := v.Programme()
	c.Says = fmt.Sprintf("The trip is booked, %s to %s: %s", Clock(a.From, v.At()), Clock(a.Until, v.At()), care.gasFor(booked, p, v.At()))
	return c, err
}

// gasFor says whether the gas in the home lasts for the trip.
func (c Care) gasFor(trip TripBooked, p Programme, now time.Time) string {
	c.Trips = append(slices.Clone(c.Trips), Trip{TripBooked: trip})
	home := Home{Care: c}
	_, f := home.Forecast(p, now)
	switch {
	case !f.Known:
		return "whether the gas lasts is not known. " + f.Status + "."
	case f.ActByCause == depletion.CauseTrip:
		return fmt.Sprintf("the gas in the home may not last for it. Bring %s by %s.", home.moreGas(p, now).InWords(), Clock(f.ActBy, now))
	}
	return fmt.Sprintf("the gas in the home lasts %s at its safe end. Let them take the full ones along, secured.", Spell(f.CoverLow))
}

// Decide takes the trip off.
func (a CallOffTrip) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	if !slices.ContainsFunc(care.Trips, func(t Trip) bool { return t.ID == a.Trip && t.Until.After(v.At()) }) {
		return Change{}, refusal.New(refusal.NotFound, fmt.Sprintf("No trip %d of this person stands.", a.Trip), "Choose one of the trips on the person's page.")
	}
	var c Change
	c.person(a.Person, &TripOff{Trip: a.Trip})
	c.Says = "The trip is off. Ask what the gauge shows."
	return c, nil
}

// Decide notes the tubing.
func (a LayTubing) Decide(v View) (Change, error) {
	if !(a.Metres > 0 && a.Metres <= longestTubing) {
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("%g m of tubing can't be.", a.Metres), "Add up the pieces, in metres.")
	}
	if _, err := v.Care(a.Person); err != nil {
		return Change{}, err
	}
	var c Change
	c.person(a.Person, &TubingLaid{Metres: a.Metres})
	c.Says = fmt.Sprintf("%g m of tubing noted.", a.Metres)
	if note := depletion.TubingNote(a.Metres); note != "" {
		c.Says += " Mind: " + note + "."
	}
	return c, nil
}
