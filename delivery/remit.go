package delivery

import (
	"fmt"
	"reflect"
	"slices"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// Remit is a piece of the work with the acts it takes, and whose it is beside
// the coordinator's, who does everything.
type Remit struct {
	Name  string
	Roles []Role
	acts  []Act
}

// Remits is the whole work, each act in one of them. What stands in none is
// the coordinator's. Common practice, no source: each role has what its day
// needs.
func Remits() []Remit {
	return []Remit{
		{"the depot: take in, clean, test, repair, release, count, exchange with plants", []Role{AsWarehouse}, []Act{
			Enrol{}, Receive{}, Unreceive{}, ReceiveSupply{}, CountSupply{}, Bench{}, Test{}, Release{}, Requalify{}, Refill{},
			SendToRepair{}, BackFromRepair{}, Maintain{}, Stocktake{}, Exchange{}, TellOwner{}, RecallSupply{}, Describe{},
		}},
		{"things on the move: returns, strays, labels, what is read on a thing", []Role{AsWarehouse, AsDriverDesk}, []Act{
			Return{}, Stray{}, Move{}, MoveSupply{}, Label{}, Find{}, HandIn{}, ReturnBySlip{},
		}},
		{"what anybody may see on a thing: readings, and what is to be held back", []Role{AsWarehouse, AsDriverDesk, AsOnCall}, []Act{Read{}, Quarantine{}}},
		{"the road: plan, change and close runs", []Role{AsDriverDesk}, []Act{PlanRuns{}, EndRun{}, Prove{}, GiveSupply{}}},
		{"the door: stops, what was found in a home, vehicles out of service", []Role{AsDriverDesk, AsOnCall}, []Act{
			Visit{}, PlanAnew{}, TakeSlot{}, Withdraw{}, Switch{}, Refuse{}, Arrive{}, Place{}, FindPlaces{}, LayTubing{}, Ask{}, Incident{}, LeaveAlone{},
		}},
		{"the phone and the night: calls, alarms, power cuts, the night pack, orders given by phone", []Role{AsOnCall}, []Act{
			Call{}, Alarm{}, Escalate{}, Outage{}, OutageCall{}, PowerReturned{}, NightLine{}, PrintedPack{}, Shelter{},
			Order{}, BookTrip{}, CallOffTrip{}, Relocate{}, Readmit{}, Die{},
		}},
		{"the household: discharge, who and where, stopping, asking things home", nil, []Act{
			Register{}, Admission{}, Discharge{}, GiveBands{}, StopOxygen{}, Chase{}, Lose{}, Erase{}, Resolve{},
		}},
		{"the programme: settings, lists taken in, recalls, who is at the desk", nil, []Act{
			Settings{}, SetClock{}, SetSize{}, TakeOutline{}, TakePlaces{}, TakeRides{}, TakeIn{}, TakeBack{}, AnswerSheet{}, Recall{}, RecallLetter{}, RecallReply{},
			AddUser{}, ChangeRole{}, SwitchUserOff{}, SignInOn{}, SignInOff{},
		}},
		{"one's own: taking back what one recorded, one's passphrase", []Role{AsDriverDesk, AsWarehouse, AsOnCall}, []Act{Retract{}, SetPassphrase{}}},
	}
}

// Sees is what of people a role is shown.
type Sees struct {
	Persons  bool // names, homes, phones
	Clinical bool // what was heard of somebody's health, and bands
}

// Sees returns what a role is shown. The warehouse knows a home by its number
// alone; the driver's desk knows flow and gas, but not how somebody is.
func (r Role) Sees() Sees {
	switch r {
	case AsCoordinator, AsOnCall, AsReader:
		return Sees{Persons: true, Clinical: true}
	case AsDriverDesk:
		return Sees{Persons: true}
	}
	return Sees{}
}

// InWords says what a role is shown.
func (s Sees) InWords() string {
	switch {
	case s.Clinical:
		return "everything"
	case s.Persons:
		return "names, homes, flows; nobody's health"
	}
	return "things, places; a home by its number"
}

// Does names the remits of a role.
func (r Role) Does() []string {
	var names []string
	for _, d := range Remits() {
		if r == AsCoordinator || slices.Contains(d.Roles, r) {
			names = append(names, d.Name)
		}
	}
	return names
}

// May refuses an act that is not the user's. A fact may be taken back by who
// recorded it, and a passphrase changed by whose it is.
func (u User) May(act Act, v View) error {
	if u.Role == AsCoordinator {
		return nil
	}
	switch a := act.(type) {
	case SetPassphrase:
		if UserKey(a.Name) == UserKey(u.Name) {
			return nil
		}
		return u.notYours("to change somebody else's passphrase")
	case Retract:
		fact, _, err := v.Fact(a.Fact)
		if err != nil {
			return err
		}
		if fact.By == u.Name && slices.Contains(remitOf(act).Roles, u.Role) {
			return nil
		}
		return u.notYours("to take back what " + fact.By + " recorded")
	}
	if d := remitOf(act); !slices.Contains(d.Roles, u.Role) {
		return u.notYours("to do this: it belongs to " + d.Name)
	}
	return nil
}

func (u User) notYours(what string) error {
	return refusal.New(refusal.Forbidden, fmt.Sprintf("%s is at the desk as %s, and that is not enough %s.", u.Name, u.Role, what), "Ask a coordinator, or sign in as somebody whose work it is.")
}

func remitOf(act Act) Remit {
	sort := reflect.TypeOf(act)
	for _, d := range Remits() {
		if slices.ContainsFunc(d.acts, func(a Act) bool { return reflect.TypeOf(a) == sort }) {
			return d
		}
	}
	return Remit{Name: "the coordinator"}
}

// Shown returns a fact as a role may see it, and whether it may at all.
func (s Sees) Shown(f inventory.Fact) (inventory.Fact, bool) {
	if s.Clinical {
		return f, true
	}
	if !s.Persons && f.Person != "" && f.Item == "" {
		return f, false // about a person alone
	}
	switch said := f.Statement.(type) {
	case *Called:
		kept := *said
		kept.hide()
		f.Statement = &kept
	case *Stopped:
		f.Statement = &Stopped{Reason: "not shown", OrderedBy: said.OrderedBy}
	case *Banded, *Escalated:
		return f, false
	}
	return f, true
}

// hide takes away how somebody is, and leaves the flow, which the gas is
// reckoned with.
func (c *Called) hide() {
	c.SpO2, c.Exertion, c.Worse, c.Band, c.Problem = nil, nil, false, "", ""
}

// Care returns what a role may see of a person's care. Nothing the forecast
// rests on is taken away: every desk sees the same verdict.
func (s Sees) Care(c Care) Care {
	if s.Clinical {
		return c
	}
	if c.LastCall != nil {
		last := *c.LastCall
		last.hide()
		c.LastCall = &last
	}
	c.Checks = slices.Clone(c.Checks)
	for i := range c.Checks {
		c.Checks[i].hide()
	}
	c.Bands, c.StoppedBy = nil, ""
	return c
}
