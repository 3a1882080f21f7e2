package delivery_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// course folds facts about one person; each is given by its time.
type course struct {
	facts []inventory.Fact
}

func (s *course) say(at time.Time, st inventory.Statement) *course {
	s.facts = append(s.facts, inventory.Fact{ID: inventory.FactID(len(s.facts) + 1), Happened: at, Person: "p00001", Statement: st})
	return s
}

func (s *course) care() delivery.Care { return delivery.FoldCare("p00001", s.facts) }

// home is somebody at home on the concentrator since a discharge.
func home(left time.Time) *course {
	s := &course{}
	s.say(left.Add(-time.Hour), &delivery.Ordered{Rest: 2, Hours: 24})
	s.say(left, &delivery.Discharged{Opened: left, Leaves: left})
	return s.say(left.Add(time.Hour), &delivery.Switched{To: delivery.FromConcentrator})
}

func answered(spo2 float64, flow gas.Flow) *delivery.Called {
	return &delivery.Called{Answered: true, SpO2: &spo2, Flow: &flow, Band: "fine"}
}

// TestCallSchedule: the first call 12 to 18 h after the discharge (discharge
// protocol published in JAMA Netw Open 2021), then daily for three days, then
// every three days (COVID-19 home oxygen protocol, 2020).
func TestCallSchedule(t *testing.T) {
	p := delivery.NewProgramme()
	left := onDay("17:00")
	due := func(s *course) string {
		d := s.care().NextCall(p, 1)
		return fmt.Sprintf("%s: %s to %s", d.Why, d.Due.Format("Mon 15:04"), d.By.Format("Mon 15:04"))
	}
	s := home(left)
	assert.Equal(t, "first call after discharge: Sat 08:00 to Sat 11:00", due(s), "from 05:00, but nobody is woken")
	assert.Equal(t, "first call after discharge: Sat 08:00 to Sat 09:00", due(home(onDay("12:00"))), "00:00 to 06:00 is night")
	assert.Equal(t, "first call after discharge: Fri 18:30 to Sat 00:30", due(home(onDay("06:30"))))

	at := onDay("10:00").AddDate(0, 0, 1)
	for i, want := range []string{
		"daily call 1 of 3: Sun 08:00 to Sun 20:00",
		"daily call 2 of 3: Mon 08:00 to Mon 20:00",
		"daily call 3 of 3: Tue 08:00 to Tue 20:00",
		"call every 3 days: Fri 08:00 to Fri 20:00",
		"call every 3 days: Sat 08:00 to Sat 20:00",
	} {
		s.say(at.AddDate(0, 0, i), answered(94, 2))
		assert.Equal(t, want, due(s))
	}
	agreed := answered(94, 2)
	agreed.Next = at.AddDate(0, 0, 5).Add(4 * time.Hour)
	s.say(at.AddDate(0, 0, 5), agreed)
	assert.Equal(t, "call agreed: Thu 14:00 to Thu 15:00", due(s))

	s.say(at.AddDate(0, 0, 6), &delivery.Stopped{Reason: "recovered", OrderedBy: "Dr Holm"})
	assert.True(t, s.care().NextCall(p, 1).Due.IsZero(), "nobody is called about oxygen that was stopped")
}

// TestNoAnswerLeadsOn: the own number twice, then the others', then the
// welfare step; on the cylinder without waiting. Common practice, no source.
func TestNoAnswerLeadsOn(t *testing.T) {
	p := delivery.NewProgramme()
	s := home(onDay("17:00"))
	try := onDay("09:00").AddDate(0, 0, 1)
	for i, want := range []struct {
		contact int
		welfare bool
		due     string
	}{{0, false, "10:00"}, {1, false, "11:00"}, {2, false, "12:00"}, {1, true, "12:00"}} {
		s.say(try.Add(time.Duration(i)*time.Hour), &delivery.Called{})
		due := s.care().NextCall(p, 3)
		assert.Equal(t, want.contact, due.Contact, "after try %d", i+1)
		assert.Equal(t, want.welfare, due.Welfare, "after try %d", i+1)
		assert.Equal(t, want.due, due.Due.Format("15:04"), "after try %d", i+1)
	}
	care := s.care()
	now := try.Add(3 * time.Hour)
	concerns := care.Concerns(p, now)
	require.Len(t, concerns, 1)
	assert.Equal(t, delivery.NotReached, concerns[0].Matter)
	assert.Contains(t, concerns[0].Facts[0], "no answer 4 times since Sat 9 Mar 09:00")

	s.say(now, &delivery.Escalated{About: []delivery.Matter{delivery.NotReached}, Told: "welfare desk"})
	care = s.care()
	due := care.NextCall(p, 3)
	assert.False(t, due.Welfare)
	assert.Contains(t, due.Why, "welfare check asked for Sat 12:00")
	assert.Equal(t, now.Add(time.Hour), due.Due, "the calls go on")
	assert.Empty(t, care.Concerns(p, now))

	s.say(now.Add(time.Hour), answered(94, 2))
	assert.Zero(t, s.care().Tried)

	bridge := (&course{}).say(onDay("17:00"), &delivery.Discharged{Opened: onDay("17:00"), Leaves: onDay("17:00")})
	bridge.say(onDay("22:30"), &delivery.Called{})
	assert.Equal(t, onDay("22:30"), bridge.care().NextCall(p, 1).Due, "on the cylinder, at once, at any hour")
}

// TestDueCallsInCarefulOrder: who runs out stands first, then what the
// clinician must hear now, then the unreached on gas, then by the hour.
func TestDueCallsInCarefulOrder(t *testing.T) {
	p := delivery.NewProgramme()
	now := onDay("12:00").AddDate(0, 0, 1)
	row := func(name string, v depletion.Verdict, s *course) delivery.Watch {
		return delivery.Watch{Person: delivery.Person{ID: inventory.PersonID(name), Family: name}, Care: s.care(), Verdict: v}
	}
	left := onDay("15:00")
	worse := home(left).say(now.Add(-2*time.Hour), &delivery.Called{Answered: true, Worse: true, Band: "emergency", Next: now.Add(-time.Hour)})
	tried := home(left).say(now.Add(-2*time.Hour), &delivery.Switched{To: delivery.FromCylinder}).say(now.Add(-time.Minute), &delivery.Called{})
	rows := []delivery.Watch{
		row("later", depletion.Holds, home(left.Add(2*time.Hour))),
		row("first", depletion.Holds, home(left)),
		row("fresh", depletion.Holds, home(left).say(now.Add(-time.Hour), answered(94, 2))),
		row("tried", depletion.Tight, tried),
		row("worse", depletion.Holds, worse),
		row("short", depletion.Short, home(left).say(now.Add(-2*time.Hour), answered(94, 2))),
		row("unread", depletion.Unknown, home(left).say(now.Add(-2*time.Hour), answered(94, 2))),
	}
	var names []string
	for _, c := range delivery.DueCalls(p, rows, now) {
		names = append(names, c.Person.Family)
	}
	assert.Equal(t, []string{"short", "worse", "tried", "first", "later", "unread"}, names)
	asked := row("asked", depletion.Unknown, home(left).say(now.Add(-10*time.Minute), answered(94, 2)))
	assert.Empty(t, delivery.DueCalls(p, []delivery.Watch{asked}, now), "asked ten minutes ago")
}

// TestIncompleteIsAskedFor: a reading without its flow is kept, and the next
// call asks.
func TestIncompleteIsAskedFor(t *testing.T) {
	p := delivery.NewProgramme()
	s := home(onDay("17:00"))
	at := onDay("09:00").AddDate(0, 0, 1)
	s.say(at, &delivery.Called{Answered: true, SpO2: new(94.0), Band: "incomplete"})
	w := delivery.Watch{Care: s.care(), Verdict: depletion.Holds}
	due := delivery.NewCheckIn(p, w, at.Add(time.Hour))
	assert.True(t, due.Call.Now(at.Add(time.Hour)))
	assert.Equal(t, []string{"the flow of the reading of 09:00"}, due.Asks)
}

// TestSettingsOfOldBooks: a setting that did not exist when the settings were
// decided has its default; lists are as they were.
func TestSettingsOfOldBooks(t *testing.T) {
	var s delivery.Decided
	require.NoError(t, s.UnmarshalJSON([]byte(`{"programme":{"margin":2,"bands":{"target":90,"borderline":3,"emergency":4},"kits":[{"name":"small"}]}}`)))
	assert.Equal(t, 2.0, s.Programme.Margin)
	assert.Equal(t, 90.0, s.Programme.Bands.Target)
	assert.Equal(t, delivery.NewProgramme().Calls, s.Programme.Calls)
	require.Len(t, s.Programme.Kits, 1)
	assert.Empty(t, s.Programme.Kits[0].Items)
	require.Error(t, s.UnmarshalJSON([]byte(`{"programme":7}`)))
}

// TestLockedDoor: the planning minutes less set-up and warm-up are what the
// door may stay shut. 2,000 psi at 6 L/min are 84 min by the textbook rule.
func TestLockedDoor(t *testing.T) {
	p := delivery.NewProgramme()
	opened := onDay("17:00")
	s := (&course{}).say(onDay("16:00"), &delivery.Ordered{Rest: 6, Hours: 24})
	s.say(opened, &delivery.Discharged{Opened: opened, Leaves: opened})
	s.say(opened, &inventory.Lent{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}, Role: inventory.Bridging})
	s.facts[len(s.facts)-1].Item = "i000001"
	s.say(opened, &inventory.Observed{Gauge: new(gas.PSI(2000))})
	s.facts[len(s.facts)-1].Item = "i000001"
	for clock, want := range map[string]struct {
		verdict depletion.Verdict
		title   string
	}{
		"17:30": {depletion.Tight, "54 min of gas: the door must open by 17:49"},
		"17:50": {depletion.Short, "34 min of gas, 35 min to get the machine running: nobody can wait"},
		"18:30": {depletion.Dry, "0 min of gas, 35 min to get the machine running: nobody can wait"},
	} {
		w := delivery.WatchHome(p, delivery.Person{}, delivery.Home{Care: s.care()}, onDay(clock))
		a := delivery.DoorAnswer(p, w, delivery.Board{}, onDay(clock))
		assert.Equal(t, want.verdict, a.Verdict, clock)
		assert.Equal(t, want.title, a.Title, clock)
		if want.verdict != depletion.Tight {
			assert.Contains(t, a.Do[0], "Emergency number 911", clock)
		}
	}
	s.say(onDay("18:00"), &delivery.Switched{To: delivery.FromConcentrator})
	w := delivery.WatchHome(p, delivery.Person{}, delivery.Home{Care: s.care()}, onDay("18:30"))
	assert.Contains(t, delivery.DoorAnswer(p, w, delivery.Board{}, onDay("18:30")).Title, "not on the cylinder")
}
