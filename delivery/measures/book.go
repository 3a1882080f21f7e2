package measures

import (
	"time"

	"lungwort/delivery"
	"lungwort/delivery/stocking"
	"lungwort/inventory"
)

// Book is what the measures rest on.
type Book struct {
	Programme delivery.Programme
	Now       time.Time
	Episodes  []Episode
	Items     []inventory.Item
	Cycles    map[inventory.ItemID][]stocking.Cycle
	Facts     map[inventory.ItemID][]inventory.Fact // about each item
	Trips     map[inventory.PersonID][]Trip         // oldest first
	Recalled  []delivery.RecallUnit
}

// Trip is one visit, and what for.
type Trip struct {
	Person inventory.PersonID
	At     time.Time
	Cause  string
	// Outside says that it was made outside the shift of every vehicle.
	Outside bool
}

// Measures returns everything the programme is judged by, in the order in
// which a loan goes.
func (b Book) Measures() []Measure {
	return []Measure{
		b.firstOrder(), b.completeOrder(), b.margin(), b.without(), b.emergencies(), b.tried(), b.reached(), b.papers(),
		b.stage("Days out", "Hand-over until it was taken back, for each thing; what is still out counts as longer.", out),
		b.stage("Days on oxygen", "Hand-over until the order to stop, for each thing; what is still needed counts as longer.", stayOf(stocking.Oxygen)),
		b.stage("Idle days", "Order to stop until the thing was taken back: what the programme itself can shorten.", stayOf(stocking.Idle)),
		b.stage("Turnaround", "Taken back until ready to lend again; what still waits counts as longer.", stayOf(stocking.Turnaround)),
		b.recovery(), b.lost(), b.inUse(), b.tests(), b.located(), b.cost(),
	}
}

// lasted returns a case of something that took, or is taking, a time.
func (b Book) lasted(c Case, from, to time.Time) Case {
	c.At, c.Open = from, to.IsZero()
	if c.Open {
		to = b.Now
	}
	c.Took = max(0, to.Sub(from))
	return c
}
