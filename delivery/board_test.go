package delivery_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/delivery"
	"lungwort/inventory"
)

// twoVans is a planner with two vans on the West island.
func twoVans() delivery.Planner {
	pl := day()
	pl.Programme.Vehicles = append(pl.Programme.Vehicles, delivery.Vehicle{
		Name: "van 2", Depot: "west", Driver: "Wick", Pieces: 30, Kg: 100, From: "08:00", Until: "20:00",
	})
	return pl
}

// run books stops of errands in their order on a vehicle, as the book would
// have them planned at two.
func run(id inventory.RunID, vehicle string, departs int, errands ...delivery.Errand) delivery.Run {
	p := delivery.Run{ID: id, Vehicle: vehicle, Day: "2030-03-04", Departs: minute(departs), Back: minute(departs + 60*len(errands))}
	for i, e := range errands {
		s := delivery.PlannedStop{Address: e.Address.ID, Persons: []inventory.PersonID{e.Person.ID}, Arrive: minute(departs + 30 + 30*i), Leave: minute(departs + 40 + 30*i)}
		for _, task := range e.Care.Tasks {
			s.Tasks = append(s.Tasks, task.ID)
		}
		p.Stops = append(p.Stops, delivery.Stop{PlannedStop: s})
	}
	return p
}

func board(t testing.TB, pl delivery.Planner, runs []delivery.Run, errands ...delivery.Errand) delivery.Board {
	t.Helper()
	return boardOf(t, pl, runs, errands)
}

func boardOf(t require.TestingT, pl delivery.Planner, runs []delivery.Run, errands []delivery.Errand) delivery.Board {
	at := make(map[inventory.AddressID]delivery.Address)
	for _, e := range errands {
		at[e.Address.ID] = e.Address
	}
	b, err := delivery.NewBoard(pl, delivery.Standing{Runs: runs, Errands: errands, Addresses: at})
	require.NoError(t, err)
	return b
}

func e1() delivery.Tasked { return swap(inventory.Cylinder, "US-E", 1) }

// TestSlotHarmsNobody: A at 36.6 has 98 min less 22 of riding to spare; a wish
// beyond A goes after A, one on the way goes before when A's act-by allows it.
func TestSlotHarmsNobody(t *testing.T) {
	a := errand("a", point(36.6, "West"), 900, e1()) // act-by well under 98 min
	b := board(t, day(), []delivery.Run{run("r1", "van 1", 10, a)}, a)
	wish := delivery.Wish{Address: delivery.Address{Street: "Gull Row 14", Point: point(36.55, "West")}, Takes: 10 * time.Minute}
	with, stop, known := b.With(wish)
	require.True(t, known)
	slots := with.Slots(stop)
	require.NotEmpty(t, slots)
	first := slots[0]
	assert.Equal(t, "van 1", first.Name)
	assert.Equal(t, minute(10+11), first.Arrive, "on the way: 10 min of loading, 0.05 degree in 11 min")
	require.Len(t, first.Shifts, 1)
	assert.Equal(t, 10*time.Minute, first.Shifts[0].Later(), "the time at the door")
	assert.Contains(t, first.Shifts[0].Says(minute(0)), "10 min later at 14:42, still")

	forward := with.Forward(stop, minute(30))
	assert.Contains(t, forward, "Or move the delivery: van 1 before ")
	assert.Contains(t, forward, "10 min later at 14:42, still", "whom it delays, and that it is safe")
	assert.Empty(t, with.Forward(stop, minute(5)), "nobody can be there in five minutes")

	wish.Takes = 2 * time.Hour // A could not wait that long
	with, stop, _ = b.With(wish)
	for _, s := range with.Slots(stop) {
		assert.True(t, s.Arrive.After(minute(32)), "after A, at %s", s.Arrive)
	}
}

// TestSlotAnswerNamesTheOneWithLessDriving: a van could go at once and all the
// way; van 1 passes there later, still before act-by.
func TestSlotAnswerNamesTheOneWithLessDriving(t *testing.T) {
	a := errand("a", point(36.6, "West"), 0, e1())
	a.Care.Tasks[0].From = minute(230)
	for name, c := range map[string]struct {
		actBy time.Time
		says  bool
	}{
		"time enough": {minute(500), true},
		"no time":     {minute(100), false},
		"no act-by":   {time.Time{}, false},
	} {
		b := board(t, twoVans(), []delivery.Run{run("r1", "van 1", 200, a)}, a)
		with, stop, known := b.With(delivery.Wish{Address: delivery.Address{Street: "Gull Row 14", Point: point(36.6, "West")}, Takes: 10 * time.Minute, ActBy: c.actBy})
		require.True(t, known)
		answer := with.SlotAnswer(stop)
		assert.Contains(t, answer.Title, "can be there 14:32", name)
		assert.Equal(t, c.says, strings.Contains(strings.Join(answer.Do, "; "), " less on the road, still by act-by: 18:01, the last stop of van 1"), "%s: %s", name, answer.Do)
		if c.says {
			assert.Contains(t, answer.Do[len(answer.Do)-1], "Or 43 min less on the road")
		}
	}
}

// TestSlotKnowsWhatIsOnBoard: a van that has left brings nothing more than it
// loaded; what it carries spare it can leave.
func TestSlotKnowsWhatIsOnBoard(t *testing.T) {
	a := errand("a", point(36.6, "West"), 2000, e1())
	wish := delivery.Wish{
		Address: delivery.Address{Street: "Gull Row 14", Point: point(36.65, "West")}, Takes: 10 * time.Minute,
		Bring: []delivery.Wanted{{Kind: inventory.Cylinder, Size: "US-E", Count: 1}},
	}
	pl := day()
	out := board(t, pl, []delivery.Run{run("r1", "van 1", -5, a)}, a)
	with, stop, _ := out.With(wish)
	for _, s := range with.Slots(stop) {
		assert.Equal(t, "van 1, next trip", s.Name)
	}
	pl.Aboard = map[string][]inventory.Item{"van 1": {{ID: "e9", Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}, State: inventory.Ready}}}
	out = board(t, pl, []delivery.Run{run("r1", "van 1", -5, a)}, a)
	with, stop, _ = out.With(wish)
	assert.Equal(t, "van 1", with.Slots(stop)[0].Name)
}

// TestReplanWhenTheDriverIsIll: the stops of van 1 go to van 2, whose own stop
// stays where it is as long as that harms nobody.
func TestReplanWhenTheDriverIsIll(t *testing.T) {
	pl := twoVans()
	a, b, c := errand("a", point(36.52, "West"), 2000, e1()), errand("b", point(36.54, "West"), 2000, e1()), errand("c", point(36.51, "West"), 2000, e1())
	runs := []delivery.Run{run("r1", "van 1", 30, a, b), run("r2", "van 2", 30, c)}
	pl.Out = map[string]time.Time{"van 1": minute(6 * 60)}
	anew, err := board(t, pl, runs, a, b, c).Replan(context.Background(), 2000)
	require.NoError(t, err)
	assert.Empty(t, anew.Troubles)
	for _, s := range anew.Shifts {
		assert.Equal(t, "van 2", s.To, s.Where)
	}
	plans := anew.Board.Plans()
	require.Len(t, plans, 2)
	assert.Equal(t, inventory.RunID("r2"), plans[0].ID)
	assert.Len(t, plans[0].Stops, 3)
	assert.Equal(t, inventory.RunID("r1"), plans[1].ID)
	assert.Empty(t, plans[1].Stops, "the run of van 1 is over")
}

// TestReplanNamesWhatIsLeftOnTheVan: it broke down with the cylinder on board.
func TestReplanNamesWhatIsLeftOnTheVan(t *testing.T) {
	pl := twoVans()
	a, b := errand("a", point(36.52, "West"), 2000, e1()), errand("b", point(36.54, "West"), 2000, e1())
	pl.Out = map[string]time.Time{"van 1": minute(6 * 60)}
	pl.Aboard = map[string][]inventory.Item{"van 1": {{Spec: inventory.Spec{Serial: "E-20103"}}}}
	gone := run("r1", "van 1", -40, a, b)
	gone.Stops[0].Seen, gone.Stops[0].Closed = gone.Stops[0].Persons, minute(-5)
	anew, err := board(t, pl, []delivery.Run{gone}, b).Replan(context.Background(), 2000)
	require.NoError(t, err)
	assert.Equal(t, []string{
		"van 1 has E-20103 on board: fetch them, or count them out of the day",
		"Street of b: 1 × oxygen cylinder US-E left with van 1; load the same again, or fetch it from the van",
	}, anew.Notes)
	require.NotEmpty(t, anew.Shifts)
	assert.Contains(t, anew.Shifts[0].Says(minute(0)), "stop 2 of van 1, Street of b, moves to van 2,")
}

// TestReplanLeavesAloneWhatHolds: nothing waits and nothing got worse.
func TestReplanLeavesAloneWhatHolds(t *testing.T) {
	a, b := errand("a", point(36.54, "West"), 2000, e1()), errand("b", point(36.52, "West"), 2000, e1())
	pl := twoVans()
	runs := []delivery.Run{run("r1", "van 1", 10, a, b)}
	first := board(t, pl, runs, a, b)
	anew, err := first.Replan(context.Background(), 2000)
	require.NoError(t, err)
	assert.Equal(t, first.Times(), anew.Board.Times(), "though the other order is shorter")
	assert.Empty(t, anew.Troubles)
}

// TestReplanWhenTheActByMoves: a call brings A's act-by forward, so that A is
// visited first now; B, with time, gives way.
func TestReplanWhenTheActByMoves(t *testing.T) {
	b := errand("b", point(36.6, "West"), 2000, e1())
	a := errand("a", point(36.7, "West"), 900, e1()) // 22 + 10 + 22 min of riding over B would do, two stops before not
	c := errand("c", point(36.45, "West"), 2000, e1())
	pl := day()
	r := run("r1", "van 1", 10, c, b, a)
	anew, err := board(t, pl, []delivery.Run{r}, a, b, c).Replan(context.Background(), 2000)
	require.NoError(t, err)
	var found bool
	for _, times := range anew.Board.Times() {
		for _, s := range times.Stops {
			if m, waits := s.Margin(); waits && slices.Contains(s.Persons, inventory.PersonID("a")) {
				found = true
				assert.GreaterOrEqual(t, m, time.Duration(0), "there at %s, act-by %s", s.Arrive, s.ActBy)
			}
		}
	}
	assert.True(t, found)
	assert.Empty(t, anew.Troubles)
}

// TestUnderWayStays: the stop a van drives to is not taken from it, whatever
// waits.
func TestUnderWayStays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pl := twoVans()
		var errands, on1, on2 []delivery.Errand
		for i := range rapid.IntRange(2, 9).Draw(t, "homes") {
			lat := 36.5 + float64(rapid.IntRange(1, 30).Draw(t, "north"))/100
			e := errand(inventory.PersonID(fmt.Sprint("p", i)), point(lat, "West"), float64(rapid.IntRange(0, 10).Draw(t, "gauge"))*200, e1())
			errands = append(errands, e)
			switch rapid.IntRange(0, 2).Draw(t, "van") {
			case 1:
				on1 = append(on1, e)
			case 2:
				on2 = append(on2, e)
			}
		}
		left := rapid.IntRange(-30, 30).Draw(t, "leaves")
		runs := []delivery.Run{run("r1", "van 1", left, on1...), run("r2", "van 2", 60, on2...)}
		at := make(map[inventory.AddressID]delivery.Address)
		for _, e := range errands {
			at[e.Address.ID] = e.Address
		}
		b, err := delivery.NewBoard(pl, delivery.Standing{Runs: runs, Errands: errands, Addresses: at})
		require.NoError(t, err)
		anew, err := b.Replan(context.Background(), 300)
		require.NoError(t, err)
		served := make(map[inventory.AddressID]int)
		for _, r := range anew.Board.Times() {
			for k, s := range r.Stops {
				served[s.Address]++
				if r.Run == "r1" && left <= 0 && k == 0 {
					require.Equal(t, on1[0].Address.ID, s.Address)
				}
			}
		}
		named := make(map[string]bool)
		for _, trouble := range anew.Troubles {
			named[trouble.Where] = true
		}
		for _, e := range errands {
			require.LessOrEqual(t, served[e.Address.ID], 1)
			require.True(t, served[e.Address.ID] == 1 || named[e.Address.Where()], "%s is neither served nor named", e.Address.Where())
		}
	})
}

// sixty is a busy day: four vans, sixty stops.
func sixty(b *testing.B) delivery.Board {
	pl := day()
	pl.Programme.Vehicles = nil
	var runs []delivery.Run
	var errands []delivery.Errand
	for v := range 4 {
		name := fmt.Sprint("van ", v+1)
		pl.Programme.Vehicles = append(pl.Programme.Vehicles, delivery.Vehicle{Name: name, Depot: "west", Pieces: 40, Kg: 400, From: "08:00", Until: "20:00"})
		var on []delivery.Errand
		for i := range 15 {
			at := delivery.Point{Lat: 36.5 + float64(v*7+i*13%15)/300, Lon: -40.5 + float64(i)/200, Area: "West"}
			on = append(on, errand(inventory.PersonID(fmt.Sprintf("p%d-%d", v, i)), at, float64(i%3)*900, e1()))
		}
		runs, errands = append(runs, run(inventory.RunID(name), name, 10, on...)), append(errands, on...)
	}
	return board(b, pl, runs, errands...)
}

// BenchmarkSlot is the answer while the nurse is on the phone: asked for under
// 300 ms on a day of 60 stops.
func BenchmarkSlot(b *testing.B) {
	day := sixty(b)
	wish := delivery.Wish{Address: delivery.Address{Point: point(36.53, "West")}, Takes: 35 * time.Minute, ActBy: minute(180)}
	for b.Loop() {
		with, stop, _ := day.With(wish)
		with.Slots(stop)
	}
}

// BenchmarkMove puts a stop elsewhere and times the whole day: asked for
// within a frame, 5 ms at 60 stops.
func BenchmarkMove(b *testing.B) {
	day := sixty(b)
	for b.Loop() {
		day.Put(3, 2, 5).Since(day)
	}
}

// A vehicle that is back in service during its shift makes no round before.
func TestSlotWaitsForTheVehicleToBeBack(t *testing.T) {
	pl := day()
	pl.Out = map[string]time.Time{"van 1": minute(60)}
	a := errand("a", point(36.51, "West"), 0, e1())
	b := board(t, pl, nil, a)
	stop, waits := b.StopOf("a")
	require.True(t, waits)
	slots := b.Slots(stop)
	require.NotEmpty(t, slots)
	assert.True(t, slots[0].Arrive.After(minute(60)), "it is reached %s", slots[0].Arrive)
}
