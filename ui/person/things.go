package person

import (
	"errors"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// IncidentForm takes down what happened in the home: what was involved is kept
// as it is.
func (m *Model) IncidentForm() ask.Form {
	fields := []ask.Field{
		{Key: "what", Label: "What happened", Hint: "smoking seen, fire, burn, fall"},
		{Key: "told", Label: "Told by", Hint: "neighbour, driver, family"},
	}
	fields = append(fields, m.each("not involved", "involved")...)
	return ask.Form{
		Title: "Incident at " + m.page.Person.Short(), Button: "Note it", Danger: true,
		Before: "Anything burns, somebody is hurt: emergency number " + m.all.Emergency + " first. What was involved is kept as it is, and a swap opens for it. Whether oxygen goes on is the clinician's to decide.",
		Fields: append(fields,
			ask.Field{Key: "touched", Label: "Since then", Kind: ask.Pick, Value: "no", Options: []ask.Option{{Value: "no", Label: "untouched"}, {Value: "yes", Label: "moved, cleaned or used"}}},
			ask.When(m.work.Now())),
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.Incident{
				Person: m.id, What: r.Need("what", "write what was seen"), ToldBy: r.Need("told", "write who told it"),
				Items: m.chosen(a), Touched: a.Is("touched", "yes"),
			}
			at := r.Past("when", m.work.Now())
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Phoned, at, act, closed)
		},
	}
}

// LeaveAloneForm takes down a thing of another supplier that was seen there.
func (m *Model) LeaveAloneForm() ask.Form {
	kind := ask.Field{Key: "kind", Label: "What it is", Kind: ask.Pick}
	for _, k := range inventory.Kinds() {
		kind.Options = append(kind.Options, ask.Option{Value: string(k), Label: string(k)})
	}
	return ask.Form{
		Title: "Another's thing at " + m.page.Person.Short(), Button: "Leave it alone",
		Before: "It stands on the run sheet and on the visit as not to be touched. Only what is ours is collected there.",
		Fields: []ask.Field{
			{Key: "owner", Label: "Whose", Hint: "as its label says"}, kind,
			{Key: "serial", Label: "Serial", Hint: "on its plate; empty: it can't be read"},
			{Key: "model", Label: "Model"}, ask.When(m.work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.LeaveAlone{
				Person: m.id, Owner: r.Need("owner", "write whose label it carries"), Serial: a.Text("serial"),
				Kind: inventory.Kind(a.Text("kind")), Model: a.Text("model"),
			}
			at := r.Past("when", m.work.Now())
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Phoned, at, act, closed)
		},
	}
}

// SlipForm takes in what came by post with the person's name on a slip and no
// serial that can be read.
func (m *Model) SlipForm() ask.Form {
	kind := ask.Field{Key: "kind", Label: "What came", Kind: ask.Pick}
	seen := make(map[inventory.Kind]bool)
	for _, h := range m.page.Care.Kit {
		if k := h.Spec.Kind; !k.HoldsGas() && !seen[k] {
			seen[k] = true
			kind.Options = append(kind.Options, ask.Option{Value: string(k), Label: string(k)})
		}
	}
	depot := ask.Field{Key: "depot", Label: "Depot", Kind: ask.Pick}
	for _, d := range m.all.Depots {
		depot.Options = append(depot.Options, ask.Option{Value: d.Name, Label: d.Name})
	}
	if len(depot.Options) == 1 {
		depot.Value = depot.Options[0].Value
	}
	form := ask.Form{
		Title: "Came by post from " + m.page.Person.Short(), Button: "Credit it",
		Before: "The one thing of the kind on loan is taken back. The bench compares its plate before it is lent again.",
		Fields: []ask.Field{kind, depot, ask.When(m.work.Now())},
	}
	if len(kind.Options) == 0 {
		form.Before = "This person has nothing of ours on loan that comes by post."
	}
	form.Submit = func(a ask.Answers, closed func(error)) ask.Wrong {
		r := ask.Read(a)
		act := delivery.ReturnBySlip{
			Person: m.id, Kind: inventory.Kind(r.Need("kind", "choose what came")), Depot: r.Need("depot", "choose where it is"),
		}
		if len(kind.Options) == 0 {
			r.Fail("kind", errors.New("nothing of that sort is on loan"))
		}
		at := r.Past("when", m.work.Now())
		if len(r.Wrong()) > 0 {
			return r.Wrong()
		}
		return m.try(inventory.Keyed, at, act, closed)
	}
	return form
}
