package person

import (
	"errors"
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/history"
)

// try does an act as of a time and reads the page anew; the form closes, or
// says why it was refused.
func (m *Model) try(source inventory.Source, at time.Time, act delivery.Act, closed func(error)) ask.Wrong {
	hand := m.work.Hand(source)
	hand.At = at
	m.work.Try("person act", hand, act, func(out store.Outcome, err error) {
		closed(err)
		if err != nil {
			return
		}
		switch act.(type) {
		case delivery.Register, delivery.Erase: // who somebody is no fact takes back
		default:
			m.work.OfferUndo(out, m.Load)
		}
		m.Load()
	})
	return nil
}

// ReadingForm records a gauge or a meter of the kit; the thing in hand is
// chosen beforehand.
func (m *Model) ReadingForm(inHand inventory.ItemID) ask.Form {
	which := ask.Field{Key: "item", Label: "Of which", Kind: ask.Pick}
	for _, h := range m.page.Care.Kit {
		if h.Spec.Kind != inventory.Cylinder && h.Spec.Kind != inventory.Concentrator {
			continue
		}
		which.Options = append(which.Options, ask.Option{Value: string(h.Item), Label: h.Spec.Serial})
		if h.Item == inHand || which.Value == "" && h.Spec.Kind == inventory.Cylinder {
			which.Value = string(h.Item)
		}
	}
	form := ask.Form{Title: "Reading", Button: "Record reading"}
	if len(which.Options) == 0 {
		form.Before = "This person has nothing of ours that is read."
	}
	form.Fields = []ask.Field{
		which,
		{Key: "gauge", Label: "Gauge", Kind: ask.Gauge, Hint: "of a cylinder"},
		{Key: "temp", Label: "Cylinder's temperature", Hint: "where known, as 5C or 40F: a cold gauge shows less than there is"},
		{Key: "hours", Label: "Hours meter", Kind: ask.Number, Unit: "h", Hint: "of a concentrator"},
		{Key: "oxygen", Label: "Oxygen", Kind: ask.Number, Unit: "%", Hint: "of a concentrator, after warm-up"},
		{Key: "told", Label: "How", Kind: ask.Pick, Options: []ask.Option{{Value: "told", Label: "told by phone"}, {Value: "read", Label: "read by one of us"}}},
		ask.When(m.work.Now()),
	}
	form.Submit = m.readingSubmit
	return form
}

func (m *Model) readingSubmit(a ask.Answers, closed func(error)) ask.Wrong {
	r := ask.Read(a)
	act := delivery.Read{
		Item:  inventory.ItemID(r.Need("item", "choose what was read")),
		Gauge: r.Gauge("gauge"), Hours: r.Number("hours", "h", 0, 1e6), Oxygen: r.Number("oxygen", "%", 0, 100),
		Temp: r.Temperature("temp"),
		Told: r.Need("told", "say whether one of us read it") == "told",
	}
	if act.Gauge == nil && act.Hours == nil && act.Oxygen == nil && r.Wrong()["gauge"] == nil {
		r.Fail("gauge", errors.New("write a gauge, hours or oxygen"))
	}
	if act.Temp != nil && act.Gauge == nil {
		r.Fail("temp", errors.New("write the gauge it was read with, or leave it out"))
	}
	at := r.Past("when", m.work.Now())
	if len(r.Wrong()) > 0 {
		return r.Wrong()
	}
	source := inventory.Keyed
	if act.Told {
		source = inventory.Phoned
	}
	return m.try(source, at, act, closed)
}

// SwitchForm says what the person breathes from now on.
func (m *Model) SwitchForm() ask.Form {
	return ask.Form{
		Title: "On cylinder or concentrator", Button: "Record",
		Fields: []ask.Field{
			{Key: "to", Label: "Breathes from", Kind: ask.Pick, Options: []ask.Option{
				{Value: string(delivery.FromCylinder), Label: "cylinder"},
				{Value: string(delivery.FromConcentrator), Label: "concentrator"},
			}},
			{Key: "why", Label: "Why", Hint: "power out, machine stopped, trip, power back"},
			ask.When(m.work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.Switch{Person: m.id, To: delivery.Breathes(r.Need("to", "choose one")), Why: a.Text("why")}
			at := r.Past("when", m.work.Now())
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Phoned, at, act, closed)
		},
	}
}

// StopForm stops the oxygen; it warns first.
func (m *Model) StopForm() ask.Form {
	return ask.Form{
		Title: "Stop oxygen for " + m.page.Person.Short(), Button: "Stop oxygen", Danger: true,
		Before: fmt.Sprintf("Only the clinician stops oxygen; the program never does. "+
			"This home leaves the watch list at once, %d things count as not needed, and a collection opens.", len(m.page.Care.Kit)),
		Fields: []ask.Field{
			{Key: "ordered", Label: "Ordered by", Hint: "the clinician who ordered the stop"},
			{Key: "reason", Label: "Reason", Hint: "recovered, moved away, died"},
			ask.When(m.work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.StopOxygen{
				Person:    m.id,
				OrderedBy: r.Need("ordered", "name the clinician who ordered it"),
				Reason:    r.Need("reason", "write the reason"),
			}
			at := r.Past("when", m.work.Now())
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Keyed, at, act, closed)
		},
	}
}

// TakeBackForm takes back a fact of the timeline.
func (m *Model) TakeBackForm(r history.Row) ask.Form { return history.TakeBack(m.work, r, m.Load) }
