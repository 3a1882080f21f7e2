//go:build realwindow

package realwindow

import (
	"cmp"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// TestTheRunsInTheWindow plans a day, disturbs it five ways, moves a stop by
// hand and closes a run, by the mouse and keys alone, and looks into the book
// after each.
func TestTheRunsInTheWindow(t *testing.T) {
	s := start(t)
	s.key("ctrl+5")
	s.settle()
	s.key("ctrl+Return") // plan
	s.settle()
	s.key("ctrl+Return") // accept
	s.until("runs are planned", func() bool { return len(s.stops()) > 20 })
	s.settle()
	s.keep("16-planned.png")

	ill := s.outOfService("driver ill")
	s.keep("17-ill.png")

	failed := s.stops()[0]["Person"]
	s.person(failed)
	s.key("8", "l") // happened: a locked door
	s.key("ctrl+Return")
	s.settle()
	s.typed("rang, knocked, both neighbours")
	s.keep("18-door.png")
	s.key("ctrl+Return")
	s.until("the visit has failed", func() bool { return len(s.stops("Person", failed)) == 0 })
	s.anew()

	before := s.actBy("Skerrow, Pell")
	s.person("Skerrow, Pell")
	s.key("2") // reading
	s.settle()
	s.key("Tab")
	s.typed("1100")
	s.key("ctrl+Return") // the keyboard goes to what is missing: told or read?
	s.settle()
	s.keep("19-call.png")
	s.key("Right", "ctrl+Return")
	s.until("the call moved the act-by", func() bool { return s.actBy("Skerrow, Pell") != before })
	s.anew()

	s.discharge()
	s.until("the person is on the watch list", func() bool { return s.watched() != nil })
	s.anew()
	require.Len(t, s.stops("Person", "Finlo, Odd"), 1, "the new discharge is on a run")
	s.keep("20-joined.png")

	require.NotEqual(t, ill, s.outOfService("broken down"))
	s.keep("21-broken.png")

	s.byHand()
	s.close()
	require.Contains(t, s.command("audit", "--book", s.book), " 0 mismatches")
	s.tellsNobody()
}

// stops returns the stops nobody closed yet.
func (s *screen) stops(where ...string) []map[string]string {
	return s.rows("runs", append([]string{"Closed", "", "Failed", ""}, where...)...)
}

// outOfService takes the vehicle of the stop in hand out of service, accepts the
// day as it is planned anew and returns the vehicle: the one that served somebody
// and serves nobody now. Which it is depends on the hour.
func (s *screen) outOfService(why string) string {
	s.t.Helper()
	before := s.serving()
	s.click(vehicleOut)
	s.settle()
	s.key("Tab")
	s.typed(why)
	s.key("ctrl+Return")
	s.settle()
	s.keep("difference.png")
	s.key("ctrl+Return") // accept
	out := ""
	s.until("a vehicle serves nobody any more", func() bool {
		now := s.serving()
		for vehicle := range before {
			if now[vehicle] == 0 {
				out = vehicle
			}
		}
		return out != ""
	})
	s.settle()
	return out
}

// serving counts the open stops of each vehicle.
func (s *screen) serving() map[string]int {
	count := map[string]int{}
	for _, row := range s.stops() {
		count[row["Vehicle"]]++
	}
	return count
}

// person opens a person's page.
func (s *screen) person(name string) {
	s.key("ctrl+f")
	s.typed(name)
	s.key("Return")
	s.settle()
}

// anew plans the day anew on the screen of runs, and accepts what that shows.
func (s *screen) anew() {
	s.key("ctrl+5")
	s.settle()
	s.click(planAnew)
	s.settle()
	s.key("ctrl+Return")
	s.settle()
}

// actBy returns until when somebody must be served.
func (s *screen) actBy(name string) string {
	s.t.Helper()
	rows := s.rows("watch", "Person", name)
	require.Len(s.t, rows, 1)
	return rows[0]["Act-by"]
}

// byHand moves the stop in hand to another run by keys, of another vehicle or of
// the same one later. Which lane it stands in
// depends on the hour, so it is carried down, and where that leads nowhere up.
func (s *screen) byHand() {
	s.t.Helper()
	was := map[string]string{}
	for _, row := range s.stops() {
		was[row["Person"]] = row["Run"]
	}
	s.click(lanes)
	s.key("Return") // pick up
	s.settle()
	for _, way := range []string{"Down", "Up"} {
		before, _ := s.picture()
		s.key(way) // carry
		s.settle()
		if now, _ := s.picture(); changed(squares(now), squares(before)) > cursorSquares {
			break
		}
	}
	s.keep("22-carried.png")
	s.key("Return", "ctrl+Return") // drop, accept
	s.until("a stop is on another run", func() bool {
		for _, row := range s.stops() {
			if was[row["Person"]] != row["Run"] {
				return true
			}
		}
		return false
	})
	s.settle()
	s.keep("23-moved.png")
}

// close keys in of every stop of the first run that it was not reached, and ends
// the run.
func (s *screen) close() {
	s.t.Helper()
	first := slices.MinFunc(s.stops(), func(a, b map[string]string) int {
		return cmp.Or(cmp.Compare(a["Vehicle"], b["Vehicle"]), cmp.Compare(a["Arrive"], b["Arrive"])) // as on the screen
	})["Run"]
	tomorrow := time.Now().UTC().Add(-west()+24*time.Hour).Format(time.DateOnly) + " 09:00"
	for n := len(s.stops("Run", first)); n > 0; n = len(s.stops("Run", first)) {
		s.next()
		s.click(stopFailed)
		s.key("ctrl+Return") // the keyboard goes to what is missing: why
		s.typed("the road was shut")
		s.key("ctrl+Return") // and when it is tried again
		s.typed(tomorrow)
		s.keep("24-failed.png")
		s.key("ctrl+Return")
		s.until("the stop is closed", func() bool { return len(s.stops("Run", first)) < n })
	}
	s.next()
	s.keep("25-end.png")
	s.key("ctrl+Return")
	s.until("the run has ended", func() bool { return len(s.rows("runs", "Run", first)) == 0 })
}

// next opens the next stop of the first run, or its end when all are closed.
func (s *screen) next() {
	s.key("ctrl+5")
	s.settle()
	s.key("Home", "Return")
	s.settle()
}
