// Package tend is the forms of what is done to one item: read, move, keep
// back, test, fill, release. The item's page and the bench share them.
package tend

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/work"
)

// Tender makes the forms for one item.
type Tender struct {
	Work      *work.Work
	Item      inventory.Item
	Programme delivery.Programme
	Source    inventory.Source // of what is written; empty: keyed
	Done      func()           // called when an act was done
}

// Do does an act without asking anything.
func (t Tender) Do(act delivery.Act) {
	t.Work.Do("tend", t.Work.Hand(t.source()), act, t.did)
}

func (t Tender) source() inventory.Source {
	if t.Source == "" {
		return inventory.Keyed
	}
	return t.Source
}

// try does the act of a form as of its time.
func (t Tender) try(r *ask.Reader, act delivery.Act, closed func(error)) ask.Wrong {
	return t.tryThen(r, act, closed, t.did)
}

func (t Tender) tryThen(r *ask.Reader, act delivery.Act, closed func(error), then func(store.Outcome)) ask.Wrong {
	hand := t.Work.Hand(t.source())
	hand.At = r.Past("when", t.Work.Now())
	if len(r.Wrong()) > 0 {
		return r.Wrong()
	}
	t.Work.Try("tend", hand, act, func(out store.Outcome, err error) {
		closed(err)
		if err == nil {
			then(out)
		}
	})
	return nil
}

// released prints the tag of what is ready now, where the programme wants one.
func (t Tender) released(out store.Outcome) {
	t.did(out)
	if t.Programme.ReadyTags {
		t.print(paperwork.ReadyTag)
	}
}

func (t Tender) did(out store.Outcome) {
	t.Work.OfferUndo(out, t.Done)
	t.Done()
}

func (t Tender) title(what string) string { return what + " " + t.Item.Label() }

// depot is the field for the depot an act ends in: where the item is, when it
// is at one.
func (t Tender) depot() ask.Field {
	f := ask.Field{Key: "depot", Label: "Depot", Kind: ask.Pick}
	for _, d := range t.Programme.Depots {
		f.Options = append(f.Options, ask.Option{Value: d.Name, Label: d.Name})
	}
	if t.Item.Place.Kind() == inventory.AtDepot {
		f.Value = t.Item.Place.Name()
	}
	return f
}

// Read is the form for what somebody saw on the item.
func (t Tender) Read() ask.Form {
	fields := []ask.Field{{Key: "told", Label: "How", Kind: ask.Pick, Value: "read", Options: []ask.Option{
		{Value: "read", Label: "read by one of us"}, {Value: "told", Label: "told by phone"},
	}}, ask.When(t.Work.Now())}
	switch t.Item.Spec.Kind {
	case inventory.Cylinder:
		fields = append([]ask.Field{{Key: "gauge", Label: "Gauge", Kind: ask.Gauge}}, fields...)
	case inventory.Vessel:
		fields = append([]ask.Field{{Key: "weight", Label: "Weight", Hint: "in kg or lb, without bag or cart"}}, fields...)
	default:
		fields = append([]ask.Field{
			{Key: "hours", Label: "Hours meter", Kind: ask.Number, Unit: "h"},
			{Key: "oxygen", Label: "Oxygen", Kind: ask.Number, Unit: "%", Hint: "after warm-up, at the flow in use"},
		}, fields...)
	}
	return ask.Form{
		Title: t.title("Reading of"), Button: "Record reading", Fields: fields,
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.Read{
				Item: t.Item.ID, Gauge: r.Gauge("gauge"), Told: a.Is("told", "told"),
				Hours: r.Number("hours", "h", 0, 1e6), Oxygen: r.Number("oxygen", "%", 0, 100),
				Weight: r.Weight("weight"),
			}
			if act.Gauge == nil && act.Hours == nil && act.Oxygen == nil && act.Weight == nil {
				r.Fail(fields[0].Key, errors.New("write what was read"))
			}
			return t.try(r, act, closed)
		},
	}
}

// Quarantine is the form that keeps the item from being lent.
func (t Tender) Quarantine() ask.Form {
	form := ask.Form{
		Title: t.title("Keep back"), Button: "Keep from being lent",
		Fields: []ask.Field{{Key: "why", Label: "Why", Hint: "damaged, smells of smoke, recalled"}, ask.When(t.Work.Now())},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			return t.try(r, delivery.Quarantine{Item: t.Item.ID, Why: r.Need("why", "write the reason: the bench reads it")}, closed)
		},
	}
	if t.Item.Lent() {
		form.Before = "It is in a home. It stays there, marked, until it is swapped: open a task on the person's page."
	}
	return form
}

// Test is the form for the outcome of the bench.
func (t Tender) Test() ask.Form {
	form := ask.Form{
		Title: t.title("Test of"), Button: "Record test",
		Fields: []ask.Field{
			{Key: "passed", Label: "The test", Kind: ask.Pick, Options: []ask.Option{{Value: "yes", Label: "passed"}, {Value: "no", Label: "failed"}}, Hint: strings.Join(t.Programme.BenchSteps(t.Item.Spec.Kind), ", ")},
			{Key: "detail", Label: "What was found"},
			ask.When(t.Work.Now()),
		},
		Submit: t.testSubmit,
	}
	if t.Item.Spec.Kind == inventory.Concentrator {
		form.Fields[0].Label = "Everything else"
		form.Fields = append([]ask.Field{{Key: "oxygen", Label: "Oxygen", Kind: ask.Number, Unit: "%", Hint: "after warm-up, at full flow"}}, form.Fields...)
		ran := ask.Field{Key: "ran", Label: "It had run", Kind: ask.Number, Unit: "min", Hint: "empty: warmed up, " + delivery.Spell(t.Programme.WarmUp)}
		form.Fields = slices.Insert(form.Fields, len(form.Fields)-1, ran)
		form.Live = failsBelow
	}
	return form
}

// failsBelow warns while the oxygen is under what a concentrator must give.
func failsBelow(a ask.Answers) (string, bool) {
	if o := ask.Read(a).Number("oxygen", "%", 0, 100); o != nil && *o < delivery.PurityFloor {
		return fmt.Sprintf("Under %d %%: it fails and goes to quarantine.", delivery.PurityFloor), true
	}
	return "", false
}

func (t Tender) testSubmit(a ask.Answers, closed func(error)) ask.Wrong {
	r := ask.Read(a)
	act := delivery.Test{
		Item: t.Item.ID, Oxygen: r.Number("oxygen", "%", 0, 100), Detail: a.Text("detail"),
		Ran:    r.Number("ran", "min", 0, 1e4),
		Passed: r.Need("passed", "say whether it passed") == "yes",
	}
	if t.Item.Spec.Kind == inventory.Concentrator && act.Oxygen == nil && act.Passed {
		r.Fail("oxygen", errors.New("measure the oxygen: no machine passes without it"))
	}
	if !act.Passed && act.Detail == "" && (act.Oxygen == nil || *act.Oxygen >= delivery.PurityFloor) {
		r.Fail("detail", errors.New("write what failed"))
	}
	return t.try(r, act, closed)
}

// TellOwner is the form that records that the owner, or who fills a soiled
// cylinder, was told.
func (t Tender) TellOwner() ask.Form {
	whom := t.Item.Spec.Owner
	if whom == "" {
		whom = "the plant"
	}
	return ask.Form{
		Title: t.title("Told about"), Button: "It was told", Before: "Tell " + whom + ", then record it here.",
		Fields: []ask.Field{
			{Key: "how", Label: "How", Kind: ask.Pick, Value: "phone", Options: []ask.Option{{Value: "phone", Label: "phone"}, {Value: "mail", Label: "mail"}, {Value: "in person", Label: "in person"}}},
			{Key: "what", Label: "What", Hint: "empty: what the book says is wrong"},
			ask.When(t.Work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			return t.try(ask.Read(a), delivery.TellOwner{Item: t.Item.ID, How: a.Text("how"), What: a.Text("what")}, closed)
		},
	}
}

// Release is the form that makes the item ready to lend.
func (t Tender) Release() ask.Form {
	before, whole := "Clean, tested, complete: it can be lent from now on.", len(t.Item.Lacks) > 0
	if whole {
		before = "It came back without " + strings.Join(t.Item.Lacks, ", ") + ": put another with it first. " + before
	}
	return ask.Form{
		Title: t.title("Release"), Button: "Ready to lend", Before: before,
		Fields: []ask.Field{t.depot(), ask.When(t.Work.Now())},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			return t.tryThen(r, delivery.Release{Item: t.Item.ID, Depot: r.Need("depot", "choose where it is ready"), Whole: whole}, closed, t.released)
		},
	}
}

// Missing is the form that marks the item as missing.
func (t Tender) Missing() ask.Form {
	before := "It counts as missing from now on. It comes back by a return or a move when it is found."
	if t.Item.Lent() {
		before = "It is on loan: the loan ends, and nobody is asked for it any more. " + before
	}
	return ask.Form{
		Title: t.title("Missing:"), Button: "Mark missing", Danger: true, Before: before,
		Fields: []ask.Field{ask.When(t.Work.Now())},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			return t.try(ask.Read(a), delivery.Move{Item: t.Item.ID, To: inventory.At(inventory.AtMissing, "")}, closed)
		},
	}
}

// atDepot reports whether the item is at a depot of the programme.
func (t Tender) atDepot() bool {
	return t.Item.Place.Kind() == inventory.AtDepot &&
		slices.ContainsFunc(t.Programme.Depots, func(s delivery.Site) bool { return s.Name == t.Item.Place.Name() })
}
