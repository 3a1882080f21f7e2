package inventory_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"lungwort/inventory"
)

const (
	harbourDepot = inventory.Place("depot:harbour")
	wardStore    = inventory.Place("ward:6B")
)

func cannulas(n int, lot string) inventory.Handful {
	return inventory.Handful{Supply: "cannula", Count: n, Lot: lot}
}

// supplyFacts numbers statements and lets a minute pass between them.
func supplyFacts(statements ...inventory.Statement) []inventory.Fact {
	start := time.Date(2030, time.March, 5, 8, 0, 0, 0, time.UTC)
	facts := make([]inventory.Fact, len(statements))
	for i, s := range statements {
		at := start.Add(time.Duration(i) * time.Minute)
		facts[i] = inventory.Fact{ID: inventory.FactID(i + 1), Happened: at, Recorded: at, Person: "p1", Statement: s}
	}
	return facts
}

func TestSuppliesAreCountedByLotAndPlace(t *testing.T) {
	facts := supplyFacts(
		&inventory.Supplied{Handful: cannulas(40, "C77"), To: harbourDepot, Expires: "2031-01-31"},
		&inventory.Supplied{Handful: cannulas(10, "C78"), To: harbourDepot},
		&inventory.SupplyMoved{Handful: cannulas(12, "c-77"), From: harbourDepot, To: wardStore},
		&inventory.Given{Of: []inventory.Handful{cannulas(2, "C77")}, From: wardStore},
		&inventory.Given{Of: []inventory.Handful{{Supply: " Cannula", Count: 1}}, From: harbourDepot},
	)
	stock := inventory.FoldSupplies(facts)
	counts := map[string]int{}
	for _, s := range stock {
		counts[string(s.At)+" "+s.Lot] = s.Count
	}
	assert.Equal(t, map[string]int{"depot:harbour C77": 28, "depot:harbour C78": 10, "depot:harbour ": -1, "ward:6B C77": 10}, counts)

	// A count says what is there: every lot of the supply at the place, and
	// nothing is left of no lot.
	facts = append(facts, supplyFacts(&inventory.SupplyCounted{Supply: "cannula", At: harbourDepot, Lots: []inventory.Handful{{Lot: "C77", Count: 27}}})...)
	facts[5].ID, facts[5].Happened = 6, facts[4].Happened.Add(time.Hour)
	for _, s := range inventory.FoldSupplies(facts) {
		if s.At == harbourDepot {
			assert.Equal(t, "C77", s.Lot)
			assert.Equal(t, 27, s.Count)
			assert.Equal(t, "2031-01-31", s.Expires)
			assert.True(t, s.Usable(s.Counted))
			assert.False(t, s.Usable(time.Date(2031, time.February, 1, 0, 0, 0, 0, time.UTC)))
		}
	}
}

func TestWhoWasGivenALot(t *testing.T) {
	facts := supplyFacts(
		&inventory.Given{Of: []inventory.Handful{cannulas(1, "")}, From: harbourDepot}, // before the lot came
		&inventory.Supplied{Handful: cannulas(40, "C771"), To: harbourDepot},
		&inventory.Given{Of: []inventory.Handful{cannulas(2, "c-771")}, From: harbourDepot},
		&inventory.Given{Of: []inventory.Handful{cannulas(3, "C77I")}, From: harbourDepot},
		&inventory.Given{Of: []inventory.Handful{cannulas(4, "")}, From: harbourDepot},
		&inventory.Given{Of: []inventory.Handful{cannulas(5, "")}, From: wardStore},
		&inventory.Given{Of: []inventory.Handful{cannulas(6, "D1")}, From: harbourDepot},
	)
	sure := map[int]bool{}
	for _, g := range inventory.GivenOfLot(facts, "C771") {
		sure[g.Count] = g.Sure
	}
	assert.Equal(t, map[int]bool{2: true, 3: false, 4: false}, sure)
}

// Nothing is made or lost by moving and giving, and the order in which facts
// come in changes nothing.
func TestSuppliesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var statements []inventory.Statement
		came, went := 0, 0
		for range rapid.IntRange(1, 30).Draw(t, "facts") {
			n := rapid.IntRange(1, 9).Draw(t, "count")
			h := cannulas(n, rapid.SampledFrom([]string{"", "C77", "D1"}).Draw(t, "lot"))
			switch rapid.IntRange(0, 2).Draw(t, "sort") {
			case 0:
				came += n
				statements = append(statements, &inventory.Supplied{Handful: h, To: harbourDepot})
			case 1:
				statements = append(statements, &inventory.SupplyMoved{Handful: h, From: harbourDepot, To: wardStore})
			default:
				went += n
				statements = append(statements, &inventory.Given{Of: []inventory.Handful{h}, From: wardStore})
			}
		}
		facts := supplyFacts(statements...)
		total := func(list []inventory.SupplyStock) (n int) {
			for _, s := range list {
				n += s.Count
			}
			return n
		}
		stock := inventory.FoldSupplies(facts)
		if total(stock) != came-went {
			t.Fatalf("%d came, %d went, %d are there", came, went, total(stock))
		}
		mixed := rapid.Permutation(facts).Draw(t, "order")
		assert.Equal(t, stock, inventory.FoldSupplies(mixed))
	})
}
