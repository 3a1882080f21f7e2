package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"lungwort/inventory"
)

// Shift is how one stop would fare otherwise than before.
type Shift struct {
	Persons  []inventory.PersonID
	Where    string
	Number   int    // on the run it was on; 0 for none
	From, To string // the rounds; empty: on none
	Was      time.Time
	Will     time.Time
	ActBy    time.Time // zero: nobody waits for gas
}

// Later is how much later the vehicle comes than before.
func (s Shift) Later() time.Duration { return s.Will.Sub(s.Was) }

// Says tells the difference in words: "stop 4 of van 1, Kelp Street 22, moves
// to van 2, 25 min later at 18:05, still 50 min before act-by".
func (s Shift) Says(now time.Time) string {
	name := s.Where
	if s.Number > 0 {
		name = fmt.Sprintf("stop %d of %s, %s,", s.Number, s.From, s.Where)
	}
	switch {
	case s.To == "":
		return name + " is on no run any more"
	case s.From == "":
		return fmt.Sprintf("%s joins %s at %s%s", s.Where, s.To, Clock(s.Will, now), s.margin(""))
	}
	words := name
	if s.From != s.To {
		words += " moves to " + s.To + ","
	}
	switch by := s.Later().Round(time.Minute); {
	case by > 0:
		words += fmt.Sprintf(" %s later at %s", Spell(by), Clock(s.Will, now))
	case by < 0:
		words += fmt.Sprintf(" %s sooner at %s", Spell(-by), Clock(s.Will, now))
	default:
		words += " at the same time, " + Clock(s.Will, now)
	}
	return words + s.margin("still ")
}

func (s Shift) margin(still string) string {
	if s.ActBy.IsZero() {
		return ""
	}
	if m := s.ActBy.Sub(s.Will); m >= 0 {
		return fmt.Sprintf(", %s%s before act-by", still, Spell(m))
	}
	return fmt.Sprintf(", %s after act-by", Spell(s.Will.Sub(s.ActBy).Round(time.Minute)))
}

// stand is where a stop stands.
type stand struct {
	round  string
	number int
	at     time.Time
}

// booked returns where each stop stands in the book.
func (b Board) booked() map[int]stand {
	at := make(map[int]stand)
	for i, s := range b.stops {
		if s.run != "" {
			at[i] = stand{s.vehicle, s.number, s.booked.Arrive}
		}
	}
	return at
}

// stands returns where each stop stands as rounds are timed.
func stands(rounds []RoundTimes) map[int]stand {
	at := make(map[int]stand)
	for _, r := range rounds {
		for _, s := range r.Stops {
			at[s.On] = stand{r.Name, s.Number, s.Arrive}
		}
	}
	return at
}

// shifts returns how stops fare otherwise on this board than they stood
// before: those who are visited otherwise, most endangered first.
func (b Board) shifts(before map[int]stand) []Shift {
	after := stands(b.Times())
	var shifts []Shift
	for i, s := range b.stops {
		was, had := before[i]
		will, has := after[i]
		moved := was.round != will.round || will.at.Sub(was.at).Abs() >= time.Minute
		if !had && !has || !moved {
			continue
		}
		shift := Shift{
			Where: s.address.Where(), From: was.round, Number: was.number, Was: was.at,
			To: will.round, Will: will.at, ActBy: b.planner.due(s.call), Persons: slices.Clone(s.waits),
		}
		for _, e := range s.errands {
			shift.Persons = with(shift.Persons, e.Person.ID)
		}
		shifts = append(shifts, shift)
	}
	slices.SortStableFunc(shifts, func(a, b Shift) int {
		return cmp.Or(cmp.Compare(order(a.To == ""), order(b.To == "")), dueOrder(a.ActBy, b.ActBy), a.Will.Compare(b.Will))
	})
	return shifts
}

// Differences returns what the board changes of the book.
func (b Board) Differences() []Shift { return b.shifts(b.booked()) }

// Since returns what the board changes of another one with the same stops.
func (b Board) Since(before Board) []Shift { return b.shifts(stands(before.Times())) }
