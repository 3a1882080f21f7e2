package delivery

import (
	"fmt"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// Amnesty is a time in which things are taken back and nothing is asked of who
// brings them.
type Amnesty struct {
	From  string `json:"from,omitempty"`  // first day, 2006-01-02; empty: there is none
	Until string `json:"until,omitempty"` // last day
	Where string `json:"where,omitempty"` // where they can be left, in words
}

// On reports whether the amnesty holds on the day of a time.
func (a Amnesty) On(now time.Time) bool {
	day := now.Format(time.DateOnly)
	return a.From != "" && a.Until != "" && a.From <= day && day <= a.Until
}

// check refuses days that are none, and an amnesty that ends before it begins.
func (a Amnesty) check() error {
	if a == (Amnesty{}) {
		return nil
	}
	for _, day := range []string{a.From, a.Until} {
		if _, err := time.Parse(time.DateOnly, day); err != nil {
			return refusal.New(refusal.Invalid, fmt.Sprintf("%q is no day of an amnesty.", day), "Write first and last day as 2026-04-30.")
		}
	}
	if a.Until < a.From {
		return refusal.New(refusal.Invalid, "The amnesty ends before it begins.", "Check the two days.")
	}
	return nil
}

// offer says what may be told to a household; empty while there is no amnesty.
func (a Amnesty) offer(now time.Time) string {
	until, err := time.Parse(time.DateOnly, a.Until)
	if err != nil || !a.On(now) {
		return ""
	}
	where := a.Where
	if where == "" {
		where = "the depot"
	}
	return fmt.Sprintf("until %s it can be left at %s, no questions asked", until.Format("Mon 2 Jan"), where)
}

// HandIn takes a thing in that somebody left with no questions asked: who
// brought it is not noted, nothing is charged, nobody is asked for it any more.
type HandIn struct {
	Item   inventory.ItemID `act:"item" help:"tag or serial"`
	Depot  string           `act:"depot" help:"where it is now"`
	Gauge  *gas.Pressure    `act:"gauge,optional" help:"gauge of a cylinder"`
	Hours  *float64         `act:"hours,optional" help:"hours meter"`
	Weight *gas.Kilograms   `act:"weight,optional" help:"of a liquid vessel"`
	Soiled bool             `act:"soiled,optional" help:"bag it and keep it apart"`
}

// Decide takes it into the dirty bay. What was lost is found; what is on loan
// ends its loan.
func (a HandIn) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	if !p.Amnesty.On(v.At()) {
		return Change{}, refusal.New(refusal.Conflict, "There is no amnesty on this day.", "Book it as a return, or set the days of one under Settings, Coming home.")
	}
	c, err := Return{Item: a.Item, Depot: a.Depot, Gauge: a.Gauge, Hours: a.Hours, Weight: a.Weight, Soiled: a.Soiled}.Decide(v)
	if err != nil {
		return c, err
	}
	for _, f := range c.Facts {
		if s, back := f.Statement.(*inventory.Returned); back {
			s.Unasked = true
		}
	}
	c.Says = fmt.Sprintf("%s is in the dirty bay. Nothing is asked and nothing is charged.", item.Label())
	if item.State == inventory.Missing && item.Loss != nil {
		c.Says += fmt.Sprintf(" It was lost for %s.", Spell(v.At().Sub(item.Loss.At)))
	}
	return c, nil
}
