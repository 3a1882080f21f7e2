package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/inventory"
)

func rented(serial string, moves ...inventory.Fact) delivery.Rental {
	facts := append([]inventory.Fact{{Happened: marchDay(1), Statement: &inventory.Enrolled{}}}, moves...)
	for i := range facts {
		facts[i].ID = inventory.FactID(i + 1)
	}
	spec := inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: serial, Owner: "Gas works"}
	item := inventory.Item{Spec: spec, Place: "depot:harbour"}
	if len(moves) > 0 {
		item.Place = moves[len(moves)-1].Statement.(*inventory.Moved).To
	}
	return delivery.Rental{Item: item, Times: delivery.Possessions(facts), Last: facts[len(facts)-1]}
}

func marchDay(day int) time.Time {
	return time.Date(2030, time.March, day, 15, 0, 0, 0, time.FixedZone("", -3*3600))
}

func goes(day int, to inventory.Place) inventory.Fact {
	return inventory.Fact{Happened: marchDay(day), By: "ana", Statement: &inventory.Moved{To: to}}
}

// TestRentalDays: possession runs from proof of delivery to proof of return and
// is billed per day (Gas Cylinder Rental Policy, a university's purchasing page).
// Which of the two days counts is common practice, no source.
func TestRentalDays(t *testing.T) {
	for name, c := range map[string]struct {
		rental delivery.Rental
		days   int
		with   bool
	}{
		"all month":             {rented("A"), 30, true},
		"moved about with us":   {rented("A", goes(5, "vehicle:van 1"), goes(6, "depot:harbour")), 30, true},
		"back on the 11th":      {rented("A", goes(11, "plant:works")), 10, false},
		"away for ten days":     {rented("A", goes(11, "plant:works"), goes(21, "depot:harbour")), 20, true},
		"lost is still owed":    {rented("A", goes(11, "missing")), 30, true},
		"slip booked twice":     {rented("A", goes(11, "plant:works"), goes(12, "plant:works")), 10, false},
		"back and out at once":  {rented("A", goes(11, "plant:works"), goes(11, "depot:harbour")), 30, true},
		"came after the period": {rented("A", goes(1, "plant:works")), 0, false},
	} {
		lines := delivery.RentalLines([]delivery.Rental{c.rental}, marchDay(1), marchDay(31))
		assert.Equal(t, c.days, lines[0].Days, name)
		assert.Equal(t, c.with, lines[0].Count == 1, name)
	}
}

// The invoice says 47, we say 41: the 6 serials, with the last evidence of each
// and whom to ask.
func TestInvoiceNamesTheSerialsBehindTheDifference(t *testing.T) {
	var all []delivery.Rental
	var serials []string
	for i := range 47 {
		serial := string(rune('A'+i/10)) + "-" + string(rune('0'+i%10))
		serials = append(serials, serial)
		if i < 41 {
			all = append(all, rented(serial))
			continue
		}
		all = append(all, rented(serial, goes(20+i-41, "plant:works")))
	}
	all = append(all, rented("OLD", goes(2, "plant:works"))) // settled long ago
	for name, of := range map[string][]string{"by count": nil, "by serial": serials} {
		d := delivery.CheckInvoice(all, 47, of, marchDay(31))
		assert.Equal(t, 41, d.Ours, name)
		assert.Len(t, d.Lines, 6, name)
		assert.Contains(t, d.Lines[0], "moved to plant works by ana; ask plant works for its slip", name)
	}
	d := delivery.CheckInvoice(all[:1], 2, []string{"a 0", "ZZ-1"}, marchDay(31))
	assert.Equal(t, []string{"ZZ-1 is billed and not in the book: ask the owner for its proof of delivery"}, d.Lines)
	d = delivery.CheckInvoice(all[:2], 1, []string{"A-0"}, marchDay(31))
	assert.Contains(t, d.Lines[0], "A-1 is with us and not billed")
	assert.Empty(t, delivery.CheckInvoice(all, 41, nil, marchDay(31)).Lines)
}
