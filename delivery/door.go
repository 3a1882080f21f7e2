package delivery

import (
	"fmt"
	"time"

	"lungwort/delivery/depletion"
)

// DoorAnswer answers the driver who stands at a locked door while the person
// breathes from the cylinder: how many minutes there are, how long to wait,
// whom to call, when a vehicle could be back, and until when somebody must have
// been in.
func DoorAnswer(p Programme, w Watch, board Board, now time.Time) Answer {
	a := w.Answer(p, now)
	if w.Home.Source != depletion.OnCylinder || !w.Forecast.Known {
		a.Title = "not on the cylinder as far as the book knows: " + a.Title
		a.Do = append([]string{"Call " + w.numbers()}, a.Do...)
		if next := board.NextVisit(w, time.Time{}); next != "" {
			a.Do = append(a.Do, next)
		}
		return a
	}
	ends := w.Forecast.PlanningDry
	running := p.SetUp + p.WarmUp
	latest := ends.Add(-running)
	a.Low = Spell(max(0, ends.Sub(now)))
	a.Help = fmt.Sprintf("set-up and warm-up take %s: in by %s", Spell(running), Clock(latest, now))
	a.Do = nil
	if !latest.After(now) {
		a.Verdict = depletion.Dry
		if ends.After(now) {
			a.Verdict = depletion.Short
		}
		a.Title = fmt.Sprintf("%s of gas, %s to get the machine running: nobody can wait", a.Low, Spell(running))
		a.Do = p.emergencyFirst()
	} else {
		a.Verdict = depletion.Tight
		a.Title = fmt.Sprintf("%s of gas: the door must open by %s", a.Low, Clock(latest, now))
	}
	a.Do = append(a.Do, "Call "+w.numbers())
	if wait := latest.Sub(now); wait > 0 {
		a.Do = append(a.Do, fmt.Sprintf("Wait %s at the most, knock, ask the neighbours", Spell(min(10*time.Minute, wait))))
	}
	if next := board.NextVisit(w, latest); next != "" {
		a.Do = append(a.Do, next)
	}
	a.Do = append(a.Do,
		"Ask the ward where they sleep tonight: the discharge form may name another address",
		fmt.Sprintf("Do not put the stop off past %s; if it must be, leave gas with them first", Clock(latest, now)))
	return a
}

// numbers lists the numbers to call.
func (w Watch) numbers() string {
	words := ""
	for i, phone := range w.Person.Phones {
		if i > 0 {
			words += ", then "
		}
		if phone.Whose != "" {
			words += phone.Whose + " "
		}
		words += phone.Number
	}
	if words == "" {
		return "the ward: no number is in the book"
	}
	return words
}
