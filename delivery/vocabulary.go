package delivery

import (
	"encoding/json"

	"lungwort/inventory"
)

// Says implements inventory.Statement for each statement about persons and
// runs.
func (*Registered) Says() string { return "registered" }
func (*Settled) Says() string    { return "settled" }
func (*Amended) Says() string    { return "amended" }
func (*Merged) Says() string     { return "merged" }
func (*Erased) Says() string     { return "erased" }
func (*Died) Says() string       { return "died" }
func (*Readmitted) Says() string { return "readmitted" }
func (*Refused) Says() string    { return "refused" }
func (*CalledOff) Says() string  { return "called off" }
func (*Proven) Says() string     { return "proven" }
func (*Consented) Says() string  { return "consented" }
func (*Ordered) Says() string    { return "ordered" }
func (*Discharged) Says() string { return "discharged" }
func (*Switched) Says() string   { return "switched" }
func (*Called) Says() string     { return "called" }
func (*Escalated) Says() string  { return "escalated" }
func (*Banded) Says() string     { return "banded" }
func (*Tasked) Says() string     { return "tasked" }
func (*Done) Says() string       { return "done" }
func (*Promised) Says() string   { return "promised" }
func (*Stopped) Says() string    { return "stopped" }
func (*PowerCut) Says() string   { return "power cut" }
func (*PowerBack) Says() string  { return "power back" }
func (*Planned) Says() string    { return "planned" }
func (*StoodDown) Says() string  { return "stood down" }
func (*Printed) Says() string    { return "printed" }
func (*Visited) Says() string    { return "visited" }
func (*Ended) Says() string      { return "ended" }
func (*Decided) Says() string    { return "decided" }
func (*Placed) Says() string     { return "placed" }
func (*Charted) Says() string    { return "charted" }
func (*TookIn) Says() string     { return "took in" }
func (*Answered) Says() string   { return "answered" }

// Words is the vocabulary of everything the book can say: items, persons and
// runs.
func Words() inventory.Vocabulary {
	return inventory.Words().And(inventory.Vocabulary{
		"registered":     func() inventory.Statement { return new(Registered) },
		"desk user":      func() inventory.Statement { return new(DeskUser) },
		"passphrase set": func() inventory.Statement { return new(PassphraseSet) },
		"sign-in set":    func() inventory.Statement { return new(SignInSet) },
		"sign-in failed": func() inventory.Statement { return new(SignInFailed) },
		"settled":        func() inventory.Statement { return new(Settled) },
		"amended":        func() inventory.Statement { return new(Amended) },
		"merged":         func() inventory.Statement { return new(Merged) },
		"erased":         func() inventory.Statement { return new(Erased) },
		"died":           func() inventory.Statement { return new(Died) },
		"readmitted":     func() inventory.Statement { return new(Readmitted) },
		"refused":        func() inventory.Statement { return new(Refused) },
		"called off":     func() inventory.Statement { return new(CalledOff) },
		"proven":         func() inventory.Statement { return new(Proven) },
		"consented":      func() inventory.Statement { return new(Consented) },
		"ordered":        func() inventory.Statement { return new(Ordered) },
		"discharged":     func() inventory.Statement { return new(Discharged) },
		"switched":       func() inventory.Statement { return new(Switched) },
		"called":         func() inventory.Statement { return new(Called) },
		"escalated":      func() inventory.Statement { return new(Escalated) },
		"banded":         func() inventory.Statement { return new(Banded) },
		"tasked":         func() inventory.Statement { return new(Tasked) },
		"done":           func() inventory.Statement { return new(Done) },
		"promised":       func() inventory.Statement { return new(Promised) },
		"stopped":        func() inventory.Statement { return new(Stopped) },
		"power cut":      func() inventory.Statement { return new(PowerCut) },
		"power back":     func() inventory.Statement { return new(PowerBack) },
		"planned":        func() inventory.Statement { return new(Planned) },
		"stood down":     func() inventory.Statement { return new(StoodDown) },
		"printed":        func() inventory.Statement { return new(Printed) },
		"visited":        func() inventory.Statement { return new(Visited) },
		"ended":          func() inventory.Statement { return new(Ended) },
		"decided":        func() inventory.Statement { return new(Decided) },
		"placed":         func() inventory.Statement { return new(Placed) },
		"charted":        func() inventory.Statement { return new(Charted) },
		"answered":       func() inventory.Statement { return new(Answered) },
		"took in":        func() inventory.Statement { return new(TookIn) },
	}).And(recallWords()).And(chaseWords()).And(incidentWords()).And(tripWords()).And(placeWords())
}

// UnmarshalJSON reads settings as they were decided. A setting that did not
// exist then has its default.
func (s *Decided) UnmarshalJSON(body []byte) error {
	type plain Decided
	read := plain{Programme: NewProgramme()}
	read.Programme.Kits = nil // lists are as they were decided, item by item
	if err := json.Unmarshal(body, &read); err != nil {
		return err
	}
	*s = Decided(read)
	return nil
}
