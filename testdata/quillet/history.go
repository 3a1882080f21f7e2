package quillet

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
)

// scripted is how long before the present the script takes over.
const scripted = 5*time.Hour + 30*time.Minute

// historian tells the weeks before the script: who went home with what, who
// called, what came back, what the bench made of it. Dice are seeded, so that
// the same lists and the same moment tell the same story. Every turn of it is
// an act that the desk may refuse.
type historian struct {
	scene  Scene
	places delivery.Programme
	dice   *rand.Rand
	shelf  shelf
	acts   []store.Dated
	rounds map[round]*outing
}

// History returns the acts of the weeks before the script, in the order they
// happened, for the people and the things of the lists. Whom the script
// discharges and what it names are left to the script.
func (s Scene) History(p delivery.Programme, people []store.Found, things []inventory.Item, script []Line) []store.Dated {
	kept := owned(script)
	h := historian{scene: s, places: p, shelf: newShelf(things, s.Opening(), kept), rounds: make(map[round]*outing)}
	people = slices.DeleteFunc(slices.Clone(people), func(f store.Found) bool {
		return f.Care.Order == nil || kept[f.Person.Record]
	})
	slices.SortFunc(people, func(a, b store.Found) int {
		return cmp.Or(a.Care.OrderedAt.Compare(b.Care.OrderedAt), cmp.Compare(a.Person.Record, b.Person.Record))
	})
	for i, who := range people {
		h.dice = rand.New(rand.NewPCG(36, uint64(i))) // each their own, so that no story turns on another's
		h.tell(who)
	}
	h.drive()
	until := s.now.Add(-scripted)
	told := slices.DeleteFunc(h.acts, func(a store.Dated) bool { return !a.Hand.At.Before(until) })
	slices.SortStableFunc(told, func(a, b store.Dated) int { return a.Hand.At.Compare(b.Hand.At) })
	return told
}

func (h *historian) act(at time.Time, by string, source inventory.Source, a delivery.Act) {
	h.acts = append(h.acts, store.Dated{Hand: store.Hand{By: by, Source: source, At: at.Truncate(time.Minute)}, Act: a})
}

// Coordinator is who sits at the supply desk of the isles.
const Coordinator = "Wynn Calder"

// The others who work in the story.
const (
	caller = "Greer Nairn"
	bench  = "Perrin Larkin"
)

// between returns a time from low to high, to five minutes.
func (h *historian) between(low, high time.Duration) time.Duration {
	return low + time.Duration(h.dice.Int64N(int64(high-low)+1)).Truncate(5*time.Minute)
}

// chance is true so many times in a hundred.
func (h *historian) chance(percent int) bool { return h.dice.IntN(100) < percent }

// clock returns a time of day, so many days after a day.
func clock(day time.Time, days int, at time.Duration) time.Time {
	y, m, d := day.Date()
	return time.Date(y, m, d+days, 0, 0, 0, 0, day.Location()).Add(at)
}

// length returns how many days oxygen is needed: log-normal, median 10 days,
// some for months. The shape follows published cohorts of patients sent home
// with oxygen after a respiratory infection (medians of 6 to 13 days, a long
// tail).
func (h *historian) length() int {
	return max(2, int(math.Round(10*math.Exp(0.8*h.dice.NormFloat64()))))
}

// tell tells one person's way: discharge, set-up, calls and, for those who
// recovered, stop, collection, return.
func (h *historian) tell(who store.Found) {
	day := who.Care.OrderedAt
	home, ok := h.discharge(who, clock(day, 0, h.between(13*time.Hour, 17*time.Hour+30*time.Minute)))
	if !ok {
		return
	}
	days := h.length()
	h.calls(home, clock(day, days, 0))
	h.stop(home, clock(day, days, h.between(9*time.Hour+30*time.Minute, 12*time.Hour)))
}

func (h *historian) ward() string {
	return h.places.Wards[h.dice.IntN(len(h.places.Wards))].Name
}

func (h *historian) doctor() string {
	return h.places.Clinician[h.dice.IntN(2)].Name
}

func round1(v float64) float64 { return math.Round(v*10) / 10 }
