package delivery_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
)

// hidden is a home with a machine that is not needed there.
func hidden(name string, ride time.Duration) delivery.Hidden {
	thing := delivery.Holding{Spec: inventory.Spec{Kind: inventory.Concentrator, Serial: "CN-" + name}, Role: inventory.NotNeeded}
	return delivery.Hidden{Person: delivery.Person{Family: name}, Things: []delivery.Holding{thing}, Since: minute(-60 * 24 * 9), Ride: ride}
}

// Fourteen orders, nine ready: three in test and the nearest homes make
// fourteen, by name and in order.
func TestFastestWayToFourteen(t *testing.T) {
	var s delivery.Stock
	thing := func(state inventory.State, n int) {
		for i := range n {
			s.Things = append(s.Things, inventory.Item{State: state, Place: "depot:harbour", Spec: inventory.Spec{Kind: inventory.Concentrator, Serial: fmt.Sprintf("%s-%d", state, i)}})
		}
	}
	thing(inventory.Ready, 9)
	thing(inventory.OnBench, 3)
	s.Things[10].Passed = minute(0) // one passed already
	for i, ride := range []time.Duration{25, 8, 12, 20, 0, 15} {
		s.Hidden = append(s.Hidden, hidden(fmt.Sprintf("P%d", i), ride*time.Minute))
	}
	silent := hidden("Mourning", 2*time.Minute)
	silent.Silent = true
	s.Hidden = append(s.Hidden, silent)
	delivery.ByDistance(s.Hidden)
	want := delivery.Wanted{Kind: inventory.Concentrator, Count: 14}
	a := s.Answer(delivery.NewProgramme(), want, minute(0))
	assert.Equal(t, depletion.Tight, a.Verdict)
	assert.Equal(t, "14 are wanted, 9 are ready. Fastest way to 14: 3 in test, 2 collections within 12 min.", a.Title)
	assert.Equal(t, []string{
		"test and release on bench-0, depot harbour",
		"release on bench-1, depot harbour: it passed its test",
		"test and release on bench-2, depot harbour",
		"collect from P1, 8 min away: CN-P1, not needed for 9 days",
		"collect from P2, 12 min away: CN-P2, not needed for 9 days",
	}, a.Do)
	assert.Contains(t, a.Facts, "3 in test, 0 to clean, 6 with something not needed")
	assert.Contains(t, a.Facts, "4 more could be had after these")
	assert.NotContains(t, strings.Join(a.Do, " "), "Mourning", "nobody is asked before the day")

	want.Count = 9
	assert.Equal(t, depletion.Holds, s.Answer(delivery.NewProgramme(), want, minute(0)).Verdict)
	want.Count = 20
	a = s.Answer(delivery.NewProgramme(), want, minute(0))
	assert.Equal(t, depletion.Short, a.Verdict)
	assert.Contains(t, a.Title, "it is 18: 2 short")
	assert.Contains(t, a.Do[8], "P4, way not known", "a way nobody knows comes last")
}

// A loan of 425 days among a median of 6 is kept, counted, and to be looked at
// (discharge on oxygen of infants in Denver: median 6, longest 425 days;
// published 2014). Open loans only: censored, never short.
func TestLoanLengths(t *testing.T) {
	p, now := delivery.NewProgramme(), minute(0)
	loan := func(days int, open bool) delivery.LoanSpan {
		l := delivery.LoanSpan{From: now.AddDate(0, 0, -days), Until: now}
		if open {
			l.Until = time.Time{}
		}
		return l
	}
	var loans []delivery.LoanSpan
	for _, days := range []int{4, 5, 6, 6, 9, 14, 425} {
		loans = append(loans, loan(days, false))
	}
	assert.Equal(t, []string{
		"half of all loans have ended after 6 days, the mean is 67 (7 loans, 0 still open and counted as longer)",
		"1 loan of 180 days or more, the longest 425: counted, and to be looked at",
	}, p.LoanLengths(loans, now))
	assert.Equal(t, []string{"how long loans last is censored: 3 of 3 are still open, nobody can know the middle yet"},
		p.LoanLengths([]delivery.LoanSpan{loan(1, true), loan(3, true), loan(5, true)}, now))
	assert.Empty(t, p.LoanLengths(nil, now))
}

// After a death there is no demand: the one person named is asked once, not
// before the day, and no further grade follows.
func TestNextStepOfAsking(t *testing.T) {
	now := minute(0)
	home := delivery.Home{Care: delivery.Care{
		Phase: delivery.Over, Since: now.AddDate(0, 0, -10),
		Kit: []delivery.Holding{{Item: "i1", Role: inventory.NotNeeded}, {Item: "i2", Role: inventory.Backup}},
	}}
	h, any := delivery.HiddenIn(delivery.NewProgramme(), delivery.Person{}, home, now)
	assert.True(t, any)
	assert.Len(t, h.Things, 1)
	assert.Equal(t, "call, and agree when it suits", h.Step)
	home.Care.Chases = []delivery.Attempt{{At: now.AddDate(0, 0, -9)}, {At: now.AddDate(0, 0, -5)}}
	h, _ = delivery.HiddenIn(delivery.NewProgramme(), delivery.Person{}, home, now)
	assert.Equal(t, "letter: what is there and when we come by", h.Step)
	assert.Equal(t, now.AddDate(0, 0, -3), h.Due)
	home.Care.Chases = make([]delivery.Attempt, 5)
	for i := range home.Care.Chases {
		home.Care.Chases[i].At = now
	}
	h, _ = delivery.HiddenIn(delivery.NewProgramme(), delivery.Person{}, home, now)
	assert.Contains(t, h.Step, "enter it as lost")

	home.Care.Chases, home.Care.Died = nil, &delivery.Death{At: now, NotBefore: now.AddDate(0, 0, 7)}
	daughter := delivery.Person{Contact: &delivery.Phone{Whose: "daughter", Number: "555-0177"}}
	h, _ = delivery.HiddenIn(delivery.NewProgramme(), daughter, home, now)
	assert.True(t, h.Silent)
	assert.Equal(t, "ask daughter, 555-0177 once, when it suits them; no letter, no value", h.Step)
	h, _ = delivery.HiddenIn(delivery.NewProgramme(), daughter, home, now.AddDate(0, 0, 8))
	assert.False(t, h.Silent)
}
