package delivery

import (
	"fmt"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// Happening says what happened in a home, or with a thing elsewhere: smoking
// seen, fire, burn, fall. What was involved is kept as it was.
type Happening struct {
	What   string   `json:"what"`
	ToldBy string   `json:"told_by"`
	Kept   []Frozen `json:"kept,omitempty"`
	// Touched: what was involved was moved, cleaned or used since.
	Touched bool `json:"touched,omitempty"`
}

// Frozen is a thing as it was when something happened with it.
type Frozen struct {
	Item   inventory.ItemID `json:"item"`
	State  inventory.State  `json:"state"`
	Place  inventory.Place  `json:"place,omitempty"`
	Gauge  *gas.Pressure    `json:"gauge,omitempty"`
	Hours  *float64         `json:"hours,omitempty"`
	Oxygen *float64         `json:"oxygen,omitempty"`
	Lot    string           `json:"lot,omitempty"`  // of the fill
	Made   string           `json:"made,omitempty"` // lot of its making
}

// happened says what happened in a sentence.
func happened(s Happening) string {
	words := fmt.Sprintf("incident: %s, told by %s", s.What, s.ToldBy)
	if len(s.Kept) > 0 {
		words += "; kept as it was: " + count(len(s.Kept), "thing")
	}
	if s.Touched {
		words += ", touched since"
	}
	return words
}

// Says implements inventory.Statement.
func (*Happening) Says() string { return "incident" }

// incidentWords is the vocabulary of incidents.
func incidentWords() inventory.Vocabulary {
	return inventory.Vocabulary{"incident": func() inventory.Statement { return new(Happening) }}
}

// Incident records what happened in a home, or with things elsewhere, keeps what
// was involved untouched, and says whom to tell. It decides nothing about the
// oxygen.
type Incident struct {
	Person  inventory.PersonID `act:"person,optional" help:"in whose home: record number, name or id; left out: with things elsewhere"`
	What    string             `act:"what" help:"smoking seen, fire, burn, fall"`
	ToldBy  string             `act:"told-by" help:"who reports it: neighbour, driver, family"`
	Items   []inventory.ItemID `act:"items,optional" help:"involved, kept as they are: tags or serials"`
	Touched bool               `act:"touched,optional" help:"what was involved was moved, cleaned or used since"`
}

// Decide records it and freezes the things with their state and lots. After a
// death it is recorded too; then nobody of the household is asked anything.
func (a Incident) Decide(v View) (Change, error) {
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	switch {
	case strings.TrimSpace(a.What) == "" || strings.TrimSpace(a.ToldBy) == "":
		return Change{}, refusal.New(refusal.Invalid, "An incident says what was seen, and by whom.", "Ask who reports it.")
	case a.Person == "" && len(a.Items) == 0:
		return Change{}, refusal.New(refusal.Invalid, "An incident happens in a home or with a thing.", "Choose the person, or scan what was involved.")
	}
	var c Change
	what, err := a.freeze(v, &c)
	if err != nil {
		return Change{}, err
	}
	says := fmt.Sprintf("Noted: %s, told by %s. ", a.What, a.ToldBy)
	if a.Person == "" {
		for _, id := range a.Items {
			c.item(id, what)
		}
		c.Says = says + strings.Join(p.elsewhereSteps(), " ")
		return c, nil
	}
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	c.person(a.Person, what)
	c.Says = says + strings.Join(p.incidentSteps(care, len(a.Items)), " ")
	return c, nil
}

// freeze keeps what was involved from being lent, and notes how it stands.
func (a Incident) freeze(v View, c *Change) (*Happening, error) {
	what := &Happening{What: a.What, ToldBy: a.ToldBy, Touched: a.Touched}
	if err := twice(v, a.Items); err != nil {
		return nil, err
	}
	for _, id := range a.Items {
		item, err := v.Item(id)
		if err != nil {
			return nil, err
		}
		what.Kept = append(what.Kept, frozen(item))
		kept, err := Quarantine{Item: id, Why: "incident: " + a.What}.Decide(v)
		if err != nil {
			return nil, err
		}
		c.Facts = append(c.Facts, kept.Facts...)
	}
	return what, nil
}

func frozen(item inventory.Item) Frozen {
	f := Frozen{Item: item.ID, State: item.State, Place: item.Place, Made: item.Spec.Lot}
	if item.Gauge != nil {
		f.Gauge = &item.Gauge.Value
	}
	if item.Hours != nil {
		f.Hours = &item.Hours.Value
	}
	if item.Oxygen != nil {
		f.Oxygen = &item.Oxygen.Value
	}
	if item.Fill != nil {
		f.Lot = item.Fill.Lot
	}
	return f
}

// clinicianNow is whom to tell first.
func (p Programme) clinicianNow() string {
	if len(p.Clinician) > 0 {
		return fmt.Sprintf("Tell %s, %s, now", p.Clinician[0].Name, p.Clinician[0].Phone)
	}
	return "Tell the clinician now"
}

// elsewhereSteps are whom to tell of what happened with things in no home.
func (p Programme) elsewhereSteps() []string {
	return []string{
		fmt.Sprintf("If anything burns or somebody is hurt: emergency number %s first.", p.Emergency),
		p.clinicianNow() + " if it touched a person.",
		"Leave what was involved as it is, nobody cleans or fills it; the maker or the plant is told of it.",
	}
}

// incidentSteps are whom to tell, by what the person agreed to. Whether oxygen
// goes on is the clinician's alone.
func (p Programme) incidentSteps(care Care, kept int) []string {
	if care.Died != nil {
		return []string{
			p.clinicianNow() + ".", "This person died: nobody of the household is called before the day that is set, and then only the one person named.",
			"Leave what was involved as it is until it is known who examines it.",
		}
	}
	steps := []string{
		fmt.Sprintf("If anything burns or somebody is hurt: emergency number %s first.", p.Emergency),
		p.clinicianNow() + "; whether oxygen goes on is decided there.",
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
