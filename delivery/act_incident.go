package delivery

import (
	"fmt"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// Happening says what happened in a home: smoking seen, fire, burn, fall. What
// was involved is kept as it was.
type Happening struct {
	What   string   `json:"what"`
	ToldBy string   `json:"told_by"`
	Kept   []Frozen `json:"kept,omitempty"`
}

// Frozen is a thing as it was when something happened with it.
type Frozen struct {
	Item  inventory.ItemID `json:"item"`
	State inventory.State  `json:"state"`
	Gauge *gas.Pressure    `json:"gauge,omitempty"`
	Lot   string           `json:"lot,omitempty"`
}

// Says implements inventory.Statement.
func (*Happening) Says() string { return "incident" }

// incidentWords is the vocabulary of incidents.
func incidentWords() inventory.Vocabulary {
	return inventory.Vocabulary{"incident": func() inventory.Statement { return new(Happening) }}
}

// Incident records what happened in a home, keeps what was involved untouched,
// and says whom to tell. It decides nothing about the oxygen.
type Incident struct {
	Person inventory.PersonID `act:"person" help:"record number, name or id"`
	What   string             `act:"what" help:"smoking seen, fire, burn, fall"`
	ToldBy string             `act:"told-by" help:"who reports it: neighbour, driver, family"`
	Items  []inventory.ItemID `act:"items,optional" help:"involved, kept as they are: tags or serials"`
}

// Decide records it and freezes the things with their state and lots.
func (a Incident) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	switch {
	case strings.TrimSpace(a.What) == "" || strings.TrimSpace(a.ToldBy) == "":
		return Change{}, refusal.New(refusal.Invalid, "An incident says what was seen, and by whom.", "Ask who reports it.")
	case care.Died != nil:
		return Change{}, refusal.New(refusal.Conflict, "This person died.", "Tell the clinician; the program keeps no incident after that.")
	}
	if err := twice(v, a.Items); err != nil {
		return Change{}, err
	}
	var c Change
	what := &Happening{What: a.What, ToldBy: a.ToldBy}
	for _, id := range a.Items {
		item, err := v.Item(id)
		if err != nil {
			return Change{}, err
		}
		what.Kept = append(what.Kept, frozen(item))
		kept, err := Quarantine{Item: id, Why: "incident: " + a.What}.Decide(v)
		if err != nil {
			return Change{}, err
		}
		c.Facts = append(c.Facts, kept.Facts...)
	}
	c.person(a.Person, what)
	c.Says = fmt.Sprintf("Noted: %s, told by %s. %s", a.What, a.ToldBy, strings.Join(p.incidentSteps(care, len(a.Items)), " "))
	return c, nil
}

func frozen(item inventory.Item) Frozen {
	f := Frozen{Item: item.ID, State: item.State}
	if item.Gauge != nil {
		f.Gauge = &item.Gauge.Value
	}
	if item.Fill != nil {
		f.Lot = item.Fill.Lot
	}
	return f
}

// incidentSteps are whom to tell, by what the person agreed to. Whether oxygen
// goes on is the clinician's alone.
func (p Programme) incidentSteps(care Care, kept int) []string {
	clinician := "Tell the clinician now"
	if len(p.Clinician) > 0 {
		clinician = fmt.Sprintf("Tell %s, %s, now", p.Clinician[0].Name, p.Clinician[0].Phone)
	}
	steps := []string{
		fmt.Sprintf("If anything burns or somebody is hurt: emergency number %s first.", p.Emergency),
		clinician + "; whether oxygen goes on is decided there.",
	}
	switch given, asked := care.Consents[FireService]; {
	case given:
		steps = append(steps, "Fire service: consent given, tell it of the home.")
	case asked:
		steps = append(steps, "Fire service: consent declined. Ask again; the person may tell it. Local rules decide whether you must.")
	default:
		steps = append(steps, "Fire service: nobody asked for consent. Ask, and note the answer.")
	}
	if !care.Consents[RiskForm] {
		steps = append(steps, "The risk form is not signed: bring it on the next visit.")
	}
	if kept > 0 {
		steps = append(steps, "Leave what was involved as it is; a swap is open.")
	}
	return steps
}
