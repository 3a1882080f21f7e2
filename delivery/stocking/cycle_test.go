package stocking_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/delivery/stocking"
	"lungwort/inventory"
	"lungwort/inventory/outlook"
)

var start = time.Date(2030, time.March, 4, 9, 0, 0, 0, time.UTC)

func on(day float64) time.Time { return start.Add(time.Duration(day * 24 * float64(time.Hour))) }

// fact is one fact about the thing "i1" on a day.
func fact(id int, day float64, person inventory.PersonID, s inventory.Statement) inventory.Fact {
	return inventory.Fact{ID: inventory.FactID(id), Happened: on(day), Recorded: on(day), Item: "i1", Person: person, Statement: s}
}

func told(facts ...inventory.Fact) []stocking.Cycle {
	return stocking.Cycles("i1", inventory.Course("i1", facts))
}

func TestOneLoanFromTheShelfToTheShelf(t *testing.T) {
	cycles := told(
		fact(1, 0, "", &inventory.Enrolled{Spec: inventory.Spec{Kind: inventory.Concentrator}}),
		fact(2, 0, "", &inventory.Cleared{Depot: "harbour"}),
		fact(3, 1, "p1", &inventory.Reserved{}),
		fact(4, 2, "p1", &inventory.Lent{Role: inventory.InUse}),
		fact(5, 12, "p1", &inventory.Serving{As: inventory.NotNeeded}),
		fact(6, 15, "p1", &inventory.Collected{Vehicle: "van 1"}),
		fact(7, 15.5, "", &inventory.Returned{Depot: "harbour"}),
		fact(8, 17, "", &inventory.Benched{}),
		fact(9, 18, "", &inventory.Cleared{Depot: "harbour"}),
	)
	require.Len(t, cycles, 1)
	want := map[stocking.Stage]outlook.Days{stocking.Waiting: 1, stocking.Oxygen: 10, stocking.Idle: 3, stocking.Turnaround: 3}
	for stage, days := range want {
		stay, was := cycles[0].Stay(stage, on(30))
		require.True(t, was, stage)
		assert.Equal(t, outlook.Stay{Length: days, Ended: true}, stay, stage)
	}
	stay, _ := cycles[0].UntilReady(stocking.Oxygen, on(30))
	assert.Equal(t, outlook.Stay{Length: 16, Ended: true}, stay)
}

// What is still out, or was lost, is known to have lasted longer and is never
// counted as ended.
func TestWhatIsOpenOrLostIsCensored(t *testing.T) {
	lent := []inventory.Fact{
		fact(1, 0, "", &inventory.Enrolled{Spec: inventory.Spec{Kind: inventory.Oximeter}}),
		fact(2, 0, "", &inventory.Cleared{Depot: "harbour"}),
		fact(3, 1, "p1", &inventory.Lent{Role: inventory.InUse}),
	}
	stay, _ := told(lent...)[0].Stay(stocking.Oxygen, on(8))
	assert.Equal(t, outlook.Stay{Length: 7}, stay)

	lost := append(lent, fact(4, 5, "", &inventory.Moved{To: inventory.At(inventory.AtMissing, "")}),
		fact(5, 9, "", &inventory.Moved{To: inventory.At(inventory.AtDepot, "harbour")}))
	cycles := told(lost...)
	require.Len(t, cycles, 1, "what was found begins no loan")
	stay, _ = cycles[0].Stay(stocking.Oxygen, on(30))
	assert.Equal(t, outlook.Stay{Length: 4}, stay)
	_, _, open := cycles[0].Stage()
	assert.False(t, open)
}

// A thing that is needed again was not idle; one that goes straight on to
// another person ends the first loan and begins a second.
func TestNeededAgainAndPassedOn(t *testing.T) {
	cycles := told(
		fact(1, 0, "", &inventory.Enrolled{Spec: inventory.Spec{Kind: inventory.Concentrator}}),
		fact(2, 0, "", &inventory.Cleared{Depot: "harbour"}),
		fact(3, 1, "p1", &inventory.Lent{Role: inventory.InUse}),
		fact(4, 3, "p1", &inventory.Serving{As: inventory.NotNeeded}),
		fact(5, 4, "p1", &inventory.Serving{As: inventory.InUse}),
		fact(6, 9, "p2", &inventory.Lent{Role: inventory.InUse}),
	)
	require.Len(t, cycles, 2)
	stay, _ := cycles[0].Stay(stocking.Oxygen, on(20))
	assert.Equal(t, outlook.Stay{Length: 8, Ended: true}, stay)
	_, idle := cycles[0].Stay(stocking.Idle, on(20))
	assert.False(t, idle)
	stage, since, open := cycles[1].Stage()
	assert.Equal(t, stocking.Oxygen, stage)
	assert.Equal(t, on(9), since)
	assert.True(t, open)
}

// Whatever happens to a thing, its loans follow each other, their stages come
// in order, and the last span of its course is the state the fold tells.
func TestAnyCourse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		facts := []inventory.Fact{fact(1, 0, "", &inventory.Enrolled{Spec: inventory.Spec{Kind: inventory.Oximeter}})}
		day := 0.0
		for id := range rapid.IntRange(0, 25).Draw(t, "facts") {
			day += rapid.Float64Range(0, 3).Draw(t, "days")
			who := rapid.SampledFrom([]inventory.PersonID{"p1", "p2"}).Draw(t, "who")
			said := rapid.SampledFrom([]inventory.Statement{
				&inventory.Cleared{Depot: "harbour"}, &inventory.Reserved{}, &inventory.Lent{Role: inventory.InUse}, &inventory.Benched{},
				&inventory.Serving{As: inventory.NotNeeded}, &inventory.Serving{As: inventory.Backup}, &inventory.Collected{Vehicle: "van 1"},
				&inventory.Returned{Depot: "harbour"}, &inventory.Moved{To: inventory.At(inventory.AtMissing, "")},
				&inventory.Moved{To: inventory.At(inventory.AtDepot, "harbour")}, &inventory.Quarantined{Why: "cracked"},
			}).Draw(t, "said")
			facts = append(facts, fact(id+2, day, who, said))
		}
		course := inventory.Course("i1", facts)
		now := inventory.Fold("i1", facts)
		assert.Equal(t, now.State, course[len(course)-1].State)
		last := time.Time{}
		for _, c := range stocking.Cycles("i1", course) {
			assert.False(t, c.Lent.Before(last), "%+v", c)
			for _, stage := range stocking.Stages {
				if stay, was := c.Stay(stage, on(200)); was {
					assert.GreaterOrEqual(t, stay.Length, outlook.Days(0))
				}
			}
			last = c.Lent
		}
	})
}
