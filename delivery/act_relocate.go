package delivery

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// The acts about where a person sleeps.
type (
	// Relocate moves a person to another address, for good or for some days. A
	// stay can be entered before it begins.
	Relocate struct {
		Person  inventory.PersonID
		Address Address
		From    time.Time // zero: now
		Until   time.Time // zero: for good
		Along   []inventory.ItemID
		Mover   string // who moves the things; Us: a vehicle of ours
	}
	// Arrive says what really came along once a stay has begun.
	Arrive struct {
		Person inventory.PersonID `act:"person" help:"record number, name or id"`
		Along  []inventory.ItemID `act:"along,optional" help:"what came along: tags or serials"`
	}
)

// Us is who moves things when a vehicle of the programme does.
const Us = "us"

// Decide moves the person; visits planned at the old address are called off, and
// the tasks wait to be planned at the new one.
func (a Relocate) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	if err := a.may(v.At()); err != nil {
		return Change{}, err
	}
	address := a.Address
	if address.ID, err = v.NewAddress(); err != nil {
		return Change{}, err
	}
	m := move{Relocate: a, view: v, care: care, to: address}
	var c Change
	if m.to, err = c.place(v, a.Person, m.to); err != nil {
		return Change{}, err
	}
	if m.p, err = v.Programme(); err != nil {
		return Change{}, err
	}
	if m.old, err = v.Address(care.AddressAt(v.At())); err != nil {
		m.old = Address{} // nobody knows where they slept
	}
	return m.decide(c)
}

func (a Relocate) may(at time.Time) error {
	switch {
	case strings.TrimSpace(a.Address.Street) == "":
		return refusal.New(refusal.Invalid, "There is no address to move to.", "Ask where they sleep from then on.")
	case endsBeforeItBegins(later(a.From, at), a.Until):
		return refusal.New(refusal.Invalid, "The stay ends before it begins.", "Check the two dates.")
	case a.From.After(at) && a.Until.IsZero():
		return refusal.New(refusal.Ask, "A move for good is entered on the day it happens.", "Say until when they stay there, or enter it that day.")
	}
	return nil
}

// ahead reports whether the stay has not begun.
func (a Relocate) ahead(at time.Time) bool { return a.From.After(at) }

// move is a move being decided.
type move struct {
	Relocate
	view View
	p    Programme
	care Care
	old  Address
	to   Address
}

func (m move) decide(c Change) (Change, error) {
	now := m.view.At()
	c.Addresses = []Address{m.to}
	settled := Settled{Address: m.to.ID, Until: m.Until}
	if m.ahead(now) {
		settled.From, settled.Mover = m.From, m.Mover
	}
	along, stays := m.parted()
	for _, h := range along {
		if m.ahead(now) {
			settled.Along = append(settled.Along, h.Item)
			continue
		}
		c.about(h.Item, m.Person, &inventory.Carried{To: inventory.At(inventory.AtAddress, string(m.to.ID))})
	}
	c.person(m.Person, &settled)
	off, err := m.callOff(&c)
	if err != nil {
		return Change{}, err
	}
	c.Says = m.says(now, along, stays, off)
	if m.Mover == Us && len(along) > 0 {
		c.person(m.Person, &Tasked{Task: Swap, From: m.From, Parts: serials(along), Fetch: m.old.ID, Why: "move: bring along what is at the old home"})
	}
	return c, nil
}

// parted returns what moves along and what stays.
func (m move) parted() (along, stays []Holding) {
	for _, h := range m.care.Kit {
		if m.Until.IsZero() || slices.Contains(m.Along, h.Item) {
			along = append(along, h)
		} else {
			stays = append(stays, h)
		}
	}
	return along, stays
}

// callOff takes the person off the runs that go to the old address while they
// are away, and returns how many there are.
func (m move) callOff(c *Change) (int, error) {
	runs, err := m.view.Visits(m.Person)
	if err != nil {
		return 0, err
	}
	off := 0
	for _, r := range runs {
		at, _ := r.Visit(m.Person)
		if at.Before(m.From) || !m.Until.IsZero() && at.After(m.Until) {
			continue
		}
		c.Facts = append(c.Facts, inventory.Fact{Run: r.ID, Person: m.Person, Statement: &CalledOff{Why: "moved"}})
		off++
	}
	return off, nil
}

// says is what the move means: what moves and who moves it, power and stairs
// there, the fire service, the way.
func (m move) says(now time.Time, along, stays []Holding, off int) string {
	words := []string{m.when(now)}
	if len(along) > 0 {
		words = append(words, fmt.Sprintf("Moves along: %s%s.", serials(along), m.by()))
	}
	if len(stays) > 0 {
		words = append(words, "Stays: "+serials(stays)+".")
	}
	machine := slices.ContainsFunc(along, func(h Holding) bool { return h.Spec.Kind == inventory.Concentrator })
	gasAlong := slices.ContainsFunc(along, func(h Holding) bool { return h.Spec.Kind == inventory.Cylinder })
	switch {
	case machine && m.to.Mains == MainsNo:
		words = append(words, "No mains there: the concentrator can't run, the clinician decides on a plan with cylinders.")
	case machine && m.to.Mains == MainsUnknown:
		words = append(words, "Nobody asked about mains power there: the concentrator may not run.")
	}
	if machine && !gasAlong {
		words = append(words, "No cylinder moves along: there is no backup there.")
	}
	if len(along) > 0 {
		words = append(words, m.stairs()+" "+m.fire())
	}
	if off > 0 {
		words = append(words, fmt.Sprintf("%s at %s called off: plan the runs anew.", count(off, "visit"), m.old.Where()))
	}
	return strings.Join(append(words, m.way()), " ")
}

func (m move) when(now time.Time) string {
	switch {
	case m.ahead(now):
		return fmt.Sprintf("At %s from %s until %s.", m.to.Where(), m.From.Format("Mon 2 Jan"), m.Until.Format("Mon 2 Jan"))
	case m.Until.IsZero():
		return fmt.Sprintf("At %s from now on.", m.to.Where())
	}
	return fmt.Sprintf("At %s until %s.", m.to.Where(), m.Until.Format("Mon 2 Jan"))
}

// by says who moves the things.
func (m move) by() string {
	switch m.Mover {
	case "":
		return ""
	case Us:
		return ", with a vehicle of ours: a task is open"
	}
	return ", moved by " + m.Mover
}

func (m move) stairs() string {
	if m.to.Stairs > 0 {
		return fmt.Sprintf("%s of stairs there: plan the hands for it.", count(m.to.Stairs, "floor"))
	}
	return "Check stairs and power there."
}

// fire says what the fire service is to hear: a notice follows the oxygen.
func (m move) fire() string {
	given, asked := m.care.Consents[FireService]
	switch {
	case given:
		return "Tell the fire service of oxygen at " + m.to.Where() + ": they agreed to it."
	case asked:
		return "The fire service is not told: they declined; they tell it themselves."
	}
	return "Ask whether the fire service may be told of oxygen there."
}

// way says what the move does to the runs.
func (m move) way() string {
	at := later(m.From, m.view.At())
	there, before := m.p.Nearest(m.to.Point, at), m.p.Nearest(m.old.Point, at)
	switch {
	case !m.to.Point.Known():
		return "Where it lies is not known: set its place, or no run can be reckoned there."
	case there == 0:
		return ""
	case before == 0:
		return fmt.Sprintf("The way from the nearest depot is %s.", Spell(there))
	}
	return fmt.Sprintf("The way from the nearest depot is %s there, %s before.", Spell(there), Spell(before))
}

// serials names things by their serials.
func serials(list []Holding) string {
	names := make([]string, len(list))
	for i, h := range list {
		names[i] = h.Spec.Serial
	}
	return strings.Join(names, ", ")
}

// Decide puts what came along at the address of the stay. What was to come and
// did not stays where it was.
func (a Arrive) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	stay, away := care.StayAt(v.At())
	if !away {
		return Change{}, refusal.New(refusal.Conflict, "This person is not staying elsewhere now.", "Enter the stay first.")
	}
	var c Change
	c.person(a.Person, &Settled{Address: stay.Address, Until: stay.Until})
	var along []Holding
	for _, id := range a.Along {
		h, has := care.Holding(id)
		if !has {
			item, err := v.Item(id)
			if err != nil {
				return Change{}, err
			}
			return Change{}, refusal.New(refusal.Conflict, item.Label()+" is not on loan to this person.", "Read the label again.")
		}
		along = append(along, h)
		c.about(id, a.Person, &inventory.Carried{To: inventory.At(inventory.AtAddress, string(stay.Address))})
	}
	c.Says = "Nothing came along."
	if len(along) > 0 {
		c.Says = "Came along: " + serials(along) + "."
	}
	return c, nil
}
