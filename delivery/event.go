package delivery

import (
	"slices"
	"time"

	"lungwort/inventory"
)

// The events that reach every list at once: what the facts say of them.
type (
	// Death is that a person died. Nobody is called, but one contact, and not
	// before a day.
	Death struct {
		At        time.Time `json:"at"`
		NotBefore time.Time `json:"not_before"`
	}
	// Hold keeps what is in a home while the person is in hospital.
	Hold struct {
		Ward  string    `json:"ward"`
		Since time.Time `json:"since"`
		Until time.Time `json:"until"`
	}
	// Refusal is what a person did not want, and when it is offered again.
	Refusal struct {
		What  string    `json:"what"`
		Why   string    `json:"why"`
		At    time.Time `json:"at"`
		Again time.Time `json:"again,omitzero"`
	}
	// Stay is an address for some days.
	Stay struct {
		Address inventory.AddressID `json:"address"`
		From    time.Time           `json:"from"`
		Until   time.Time           `json:"until"`
		Along   []inventory.ItemID  `json:"along,omitempty"` // to come along, and nobody has said yet that it did
		Mover   string              `json:"mover,omitempty"`
	}
)

// TheBackup is what a person refuses who wants no cylinder in the house.
const TheBackup = "backup"

// FireService is the consent to tell the fire service of oxygen in the home.
const FireService = "fire service notice"

// RiskForm is the consent to the risks of oxygen in the home.
const RiskForm = "risk form"

// ChargeRunning asks whether somebody is still charged for a person who died.
const ChargeRunning inventory.Clash = "charge-running"

// AddressAt returns where the person sleeps at t: the address of a stay, else
// the home.
func (c Care) AddressAt(t time.Time) inventory.AddressID {
	if s, away := c.StayAt(t); away {
		return s.Address
	}
	return c.Address
}

// StayAt returns the stay elsewhere that t falls in.
func (c Care) StayAt(t time.Time) (Stay, bool) {
	for _, s := range slices.Backward(c.Stays) {
		if !t.Before(s.From) && t.Before(s.Until) {
			return s, true
		}
	}
	return Stay{}, false
}

// NextStay returns the stay elsewhere that begins soonest after t.
func (c Care) NextStay(t time.Time) (next Stay, coming bool) {
	for _, s := range c.Stays {
		if s.From.After(t) && (!coming || s.From.Before(next.From)) {
			next, coming = s, true
		}
	}
	return next, coming
}

// Refused returns what a person last said about something they refused, and
// whether it is still to be left alone at t.
func (c Care) Refused(what string, t time.Time) (Refusal, bool) {
	for _, r := range slices.Backward(c.Refusals) {
		if r.What == what {
			return r, r.Again.IsZero() || t.Before(r.Again)
		}
	}
	return Refusal{}, false
}

// OrderNotes returns what must stand on the order wherever it is shown.
func (c Care) OrderNotes() []string {
	if given, asked := c.Consents[FireService]; asked && !given {
		return []string{"Fire service not told: consent declined. The person tells it."}
	}
	return nil
}

func (c *Care) die(s *Died, f inventory.Fact) {
	c.Died = &Death{At: f.Happened, NotBefore: s.NotBefore}
	c.become(Over, f.Happened)
	c.breathe(FromNothing, f.Happened)
	c.Questions = append(c.Questions, inventory.Ask(ChargeRunning, "rent, insurance or a voucher may still run for somebody who died", f))
	c.turn = f
}

func (c *Care) readmit(s *Readmitted, f inventory.Fact) {
	c.Hold = &Hold{Ward: s.Ward, Since: f.Happened, Until: s.Until}
	c.become(InHospital, f.Happened)
	c.breathe(FromNothing, f.Happened)
	c.turn = f
}

func (c *Care) settle(s *Settled, f inventory.Fact) {
	if s.Until.IsZero() {
		c.Address = s.Address
		return
	}
	stay := Stay{Address: s.Address, From: s.From, Until: s.Until, Along: s.Along, Mover: s.Mover}
	if stay.From.IsZero() {
		stay.From = f.Happened
	}
	c.Stays = append(c.Stays, stay)
}
