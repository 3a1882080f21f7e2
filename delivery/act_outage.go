package delivery

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// The acts about a power cut.
type (
	// Outage says that power is, or will be, out in a zone.
	Outage struct {
		By    ZoneKind              `act:"zone,optional" help:"area, town, line, street or everywhere; left out: whatever goes by the name"`
		Area  string                `act:"area,optional" help:"the name; left out only when everywhere"`
		From  time.Time             `act:"from,optional" help:"begin; left out: now"`
		Until time.Time             `act:"until,optional" help:"end, if it is known"`
		Cause string                `act:"cause,optional" help:"the reason"`
		Homes []inventory.AddressID // with homes as the zone: the addresses themselves
	}
	// PowerReturned ends a power cut, or calls one off that was announced.
	PowerReturned struct {
		Cut inventory.FactID `act:"cut" help:"id of the power cut"`
	}
	// OutageCall records a call made in a power cut.
	OutageCall struct {
		Person inventory.PersonID `act:"person" help:"record number, name or id"`
		Cut    inventory.FactID   `act:"cut" help:"id of the power cut"`
		Found  Found              `act:"found" help:"running, on backup, turned down or unreachable"`
		Flow   *gas.Flow          `act:"flow,optional" help:"flow in use"`
		Gauge  *gas.Pressure      `act:"gauge,optional" help:"gauge of the cylinder in use, as told"`
		Worse  bool               `act:"worse,optional" help:"feels worse, or breathless at rest"`
	}
)

// Decide records the outage. A zone in which nobody ever lived is a slip of
// the pen: nobody would be warned.
func (a Outage) Decide(v View) (Change, error) {
	cut := PowerCut{By: a.By, Area: strings.TrimSpace(a.Area), From: a.From, Until: a.Until, Cause: a.Cause, Homes: a.Homes}
	if cut.From.IsZero() {
		cut.From = v.At()
	}
	if err := a.may(v, cut); err != nil {
		return Change{}, err
	}
	return Change{
		Facts: []inventory.Fact{{Statement: &cut}},
		Says:  fmt.Sprintf("Power out %s from %s.", cut.Zone().InWords(), cut.From.Format("Mon 15:04")),
	}, nil
}

func (a Outage) may(v View, cut PowerCut) error {
	switch {
	case endsBeforeItBegins(cut.From, cut.Until):
		return refusal.New(refusal.Invalid, "The outage ends before it begins.", "Check the two times.")
	case !slices.Contains([]ZoneKind{AnyZone, ByArea, ByTown, ByLine, ByStreet, ByHomes, Everywhere}, cut.By):
		return refusal.New(refusal.Invalid, fmt.Sprintf("%q says not where power is out.", cut.By), "Say area, town, line, street or everywhere.")
	case cut.By != Everywhere && cut.Area == "":
		return refusal.New(refusal.Invalid, "It is not said where power is out.", "Name an area, a town, a power line or a street, or say everywhere.")
	}
	addresses, err := v.Addresses()
	if err != nil {
		return err
	}
	if cut.By != Everywhere && !slices.ContainsFunc(addresses, cut.Touches) {
		return refusal.New(refusal.NotFound, fmt.Sprintf("No address in the book lies %s.", cut.Zone().InWords()), "Known: "+known(Zones(addresses))+".")
	}
	return nil
}

// known names the zones of the book, but for the streets.
func known(zones []ZoneCount) string {
	var names []string
	for _, z := range zones {
		if z.By != ByStreet && z.By != Everywhere && !slices.Contains(names, z.Name) {
			names = append(names, z.Name)
		}
	}
	if len(names) == 0 {
		return "no area, town or power line yet; enter them with the homes"
	}
	return strings.Join(names, ", ")
}

func endsBeforeItBegins(from, until time.Time) bool {
	return !from.IsZero() && !until.IsZero() && !until.After(from)
}

// powerCut returns the power cut of a fact that stands.
func powerCutOf(v View, id inventory.FactID) (PowerCut, error) {
	f, stands, err := v.Fact(id)
	if err != nil {
		return PowerCut{}, err
	}
	cut, is := f.Statement.(*PowerCut)
	if !is || !stands {
		return PowerCut{}, refusal.New(refusal.NotFound, fmt.Sprintf("Fact %d is no power cut that stands.", id), "Choose the power cut on the outage screen.")
	}
	found := *cut
	found.ID = id
	return found, nil
}

// Decide records that power is back.
func (a PowerReturned) Decide(v View) (Change, error) {
	cut, err := powerCutOf(v, a.Cut)
	if err != nil {
		return Change{}, err
	}
	says := fmt.Sprintf("Power is back %s: ask each home on its backup to switch the concentrator on.", cut.Zone().InWords())
	if v.At().Before(cut.From) {
		says = fmt.Sprintf("The power cut %s is called off.", cut.Zone().InWords())
	}
	return Change{Facts: []inventory.Fact{{Statement: &PowerBack{Cut: a.Cut}}}, Says: says}, nil
}

// Decide records the call, what the person breathes from now on, and the flow
// they have set. Who turned it down to save gas is not on the order: that goes
// to the clinician.
func (a OutageCall) Decide(v View) (Change, error) {
	cut, err := a.may(v)
	if err != nil {
		return Change{}, err
	}
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	call := Call{
		Person: a.Person, Answered: a.Found != FoundNobody, Flow: a.Flow, Gauge: a.Gauge,
		Worse: a.Worse, Saving: a.Found == FoundSaving,
	}
	c, err := call.Decide(v)
	if err != nil {
		return Change{}, err
	}
	heard := c.Facts[0].Statement.(*Called)
	heard.Cut, heard.Found = a.Cut, a.Found
	if to, other := a.breathes(care); other {
		c.Facts = append(c.Facts, inventory.Fact{
			Happened: switchedAt(cut, care, to, v.At()), Person: a.Person,
			Statement: &Switched{To: to, Why: "power cut: " + string(a.Found)},
		})
	}
	if a.Found == FoundNobody {
		c.Says = "No answer is recorded: call again, then have somebody look in."
	}
	return c, nil
}

// switchedAt returns since when the person breathes from what the call found.
// On the cylinder they have been since the power went: the careful side.
func switchedAt(cut PowerCut, care Care, to Breathes, at time.Time) time.Time {
	if to == FromCylinder && cut.From.Before(at) && care.Switched.Before(cut.From) {
		return cut.From
	}
	return at
}

func (a OutageCall) may(v View) (PowerCut, error) {
	cut, err := powerCutOf(v, a.Cut)
	if err != nil {
		return cut, err
	}
	switch {
	case !slices.Contains(Findings, a.Found):
		return cut, refusal.New(refusal.Invalid, fmt.Sprintf("%q says not how the home stands.", a.Found), "Say running, on backup, turned down or unreachable.")
	case a.Found == FoundSaving && a.Flow == nil:
		return cut, refusal.New(refusal.Ask, "Turned down, but not to what.", "Ask what the flow meter shows now.")
	}
	return cut, nil
}

// breathes returns what the person breathes from by what was found, and
// whether that is other than the book has it.
func (a OutageCall) breathes(care Care) (Breathes, bool) {
	_, machine := care.Concentrator()
	switch {
	case !care.Watched():
		return FromNothing, false
	case a.Found == FoundRunning && machine:
		return FromConcentrator, care.Breathes != FromConcentrator
	case (a.Found == FoundBackup || a.Found == FoundSaving) && inUse(care) >= 0:
		return FromCylinder, care.Breathes != FromCylinder
	}
	return care.Breathes, false
}
