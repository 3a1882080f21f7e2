package person

import (
	"errors"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// HappenedForm asks what happened to the person; then opens the form of it.
func (m *Model) HappenedForm(then func(ask.Form)) ask.Form {
	events := []struct {
		ask.Option
		form func() ask.Form
	}{
		{ask.Option{Value: "moved", Label: "moved"}, m.MovedForm},
		{ask.Option{Value: "hospital", Label: "in hospital"}, m.ReadmitForm},
		{ask.Option{Value: "refused", Label: "refused something"}, m.RefuseForm},
		{ask.Option{Value: "incident", Label: "incident: smoking, fire, burn, fall"}, m.IncidentForm},
		{ask.Option{Value: "theirs", Label: "another supplier's thing there"}, m.LeaveAloneForm},
		{ask.Option{Value: "slip", Label: "a thing came by post"}, m.SlipForm},
		{ask.Option{Value: "door", Label: "locked door"}, m.DoorForm},
		{ask.Option{Value: "bill", Label: "asks about the bill"}, m.BillForm},
		{ask.Option{Value: "trip", Label: "goes on a trip"}, m.TripForm},
		{ask.Option{Value: "trip off", Label: "trip is off, or over"}, m.TripOffForm},
		{ask.Option{Value: "tubing", Label: "tubing laid or changed"}, m.TubingForm},
		{ask.Option{Value: "died", Label: "died"}, m.DiedForm},
		{ask.Option{Value: "erase", Label: "asks to be erased"}, m.EraseForm},
	}
	which := ask.Field{Key: "what", Label: "What happened", Kind: ask.Pick}
	for _, e := range events {
		which.Options = append(which.Options, e.Option)
	}
	return ask.Form{
		Title: "What happened to " + m.page.Person.Short(), Button: "Go on", Fields: []ask.Field{which},
		Before: "Each reaches every list at once: the watch list, calls, runs, what is set aside. A stop ordered by the clinician has its own key.",
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			for _, e := range events {
				if a.Is("what", e.Value) {
					closed(nil)
					then(e.form())
					return nil
				}
			}
			return ask.Wrong{"what": errors.New("choose what happened")}
		},
	}
}

// DiedForm takes a death down: who told it, and the one person who may be
// called, from which day on.
func (m *Model) DiedForm() ask.Form {
	return ask.Form{
		Title: m.page.Person.Short() + " died", Button: "Record the death", Danger: true,
		Before: "Every call and visit falls silent at once. One person alone may be called, not before the day given here; nothing is collected earlier.",
		Fields: []ask.Field{
			{Key: "told", Label: "Told by", Hint: "ward, clinician, family"},
			{Key: "contact", Label: "Who may be called", Hint: "one person: who they are to the dead"},
			{Key: "phone", Label: "Their number"},
			{Key: "from", Label: "Not before", Kind: ask.Moment, Hint: "ask the ward what is right for this family"},
			ask.When(m.work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r, now := ask.Read(a), m.work.Now()
			act := delivery.Die{
				Person: m.id, ToldBy: r.Need("told", "write who told it"),
				Contact: r.Need("contact", "name the one person who may be called"), Phone: r.Need("phone", "write that person's number"),
				NotBefore: r.Time("from", now.Location()),
			}
			if act.NotBefore.IsZero() {
				r.Fail("from", errors.New("write the first day that person may be called"))
			}
			at := r.Past("when", now)
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Keyed, at, act, closed)
		},
	}
}

// ReadmitForm holds what is at home while the person is in hospital, and notes
// what came along to the ward.
func (m *Model) ReadmitForm() ask.Form {
	ward := ask.Field{Key: "ward", Label: "Ward", Kind: ask.Pick}
	for _, w := range m.all.Wards {
		ward.Options = append(ward.Options, ask.Option{Value: w.Name, Label: w.Name})
	}
	fields := append([]ask.Field{ward, {Key: "until", Label: "Hold until", Kind: ask.Moment, Hint: "then the kit at home is collected, unless the hold is renewed"}},
		m.each("at home", "on the ward")...)
	return ask.Form{
		Title: m.page.Person.Short() + " is in hospital", Button: "Hold the kit",
		Before: "Calls and visits pause. What is at home stays there, held until a day; what came along is fetched from the ward.",
		Fields: append(fields, ask.When(m.work.Now())),
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r, now := ask.Read(a), m.work.Now()
			act := delivery.Readmit{
				Person: m.id, Ward: r.Need("ward", "choose the ward"),
				Until: r.Time("until", now.Location()), Portable: m.chosen(a),
			}
			if act.Until.IsZero() {
				r.Fail("until", errors.New("write until when the kit at home is held"))
			}
			at := r.Past("when", now)
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Keyed, at, act, closed)
		},
	}
}

// along marks the answer of a thing that goes with the person.
const along = "along"

// each asks of every thing of the kit where it is; it stays unless said
// otherwise.
func (m *Model) each(stays, goes string) []ask.Field {
	fields := make([]ask.Field, len(m.page.Care.Kit))
	for i, h := range m.page.Care.Kit {
		fields[i] = ask.Field{
			Key: string(h.Item), Label: h.Spec.Serial, Kind: ask.Pick, Value: "stays", Hint: short(h.Spec),
			Options: []ask.Option{{Value: "stays", Label: stays}, {Value: along, Label: goes}},
		}
	}
	return fields
}

// chosen returns the things of the kit that go along.
func (m *Model) chosen(a ask.Answers) (items []inventory.ItemID) {
	for _, h := range m.page.Care.Kit {
		if a.Is(string(h.Item), along) {
			items = append(items, h.Item)
		}
	}
	return items
}

// MovedForm takes down a new address, for good or for some days. Nothing of
// the old one is kept.
func (m *Model) MovedForm() ask.Form {
	fields := append(homeFields(delivery.Address{}),
		ask.Field{Key: "from", Label: "From", Kind: ask.Moment, Hint: "a stay that is still to come; empty: now"},
		ask.Field{Key: "until", Label: "Until", Kind: ask.Moment, Hint: "for some days only; empty: for good"})
	fields = append(fields, m.each("stays", "goes along")...)
	fields = append(fields, ask.Field{Key: "mover", Label: "Moved by", Hint: "the family, or us: then a vehicle gets the task"})
	return ask.Form{
		Title: m.page.Person.Short() + " moved", Button: "Sleeps there from then on",
		Before: "Moved for good, everything on loan goes along. For some days, say of each thing whether it does. Ask about the new home anew.",
		Fields: append(fields, ask.When(m.work.Now())),
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r, now := ask.Read(a), m.work.Now()
			act := delivery.Relocate{
				Person: m.id, Address: m.home(delivery.Address{}, r),
				From: r.Time("from", now.Location()), Until: r.Time("until", now.Location()), Along: m.chosen(a), Mover: a.Text("mover"),
			}
			at := r.Past("when", now)
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Keyed, at, act, closed)
		},
	}
}

// RefuseForm takes down what was offered and not wanted.
func (m *Model) RefuseForm() ask.Form {
	return ask.Form{
		Title: m.page.Person.Short() + " refused", Button: "Record the refusal",
		Before: "Write it as they said it, and tell the clinician. A home without a backup stays on every outage list, marked so.",
		Fields: []ask.Field{
			{Key: "what", Label: "What", Kind: ask.Pick, Options: []ask.Option{
				{Value: delivery.TheBackup, Label: "the backup cylinder"}, {Value: "concentrator", Label: "the concentrator"},
				{Value: "home visits", Label: "visits"}, {Value: "calls", Label: "calls"},
			}},
			{Key: "why", Label: "Why", Hint: "as they said it"},
			{Key: "again", Label: "Offer again", Kind: ask.Moment, Hint: "empty: only when they ask"},
			ask.When(m.work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r, now := ask.Read(a), m.work.Now()
			act := delivery.Refuse{
				Person: m.id, What: r.Need("what", "choose what was refused"), Why: r.Need("why", "write why, as they said it"),
				Again: r.Time("again", now.Location()),
			}
			at := r.Past("when", now)
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Phoned, at, act, closed)
		},
	}
}

// EraseForm takes away who the person was. The family name is typed, so that
// nobody is erased by a slip of the hand.
func (m *Model) EraseForm() ask.Form {
	name := m.page.Person.Family
	return ask.Form{
		Title: "Erase " + m.page.Person.Short(), Button: "Erase for good", Danger: true,
		Before: "Name, numbers and address are gone for good: this can't be taken back. What happened stays in the book under a bare number. " +
			"Check how long your hospital must keep such records first.",
		Fields: []ask.Field{
			{Key: "why", Label: "Why", Hint: "who asked for it, or which period is over"},
			{Key: "sooner", Label: "Period of keeping", Kind: ask.Pick, Options: []ask.Option{{Value: "over", Label: "is over, or nothing was lent"}, {Value: "sooner", Label: "the law here asks for it sooner"}}},
			{Key: "name", Label: "Family name", Hint: "type it as it stands above, to confirm"},
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.Erase{Person: m.id, Why: r.Need("why", "write who asked for it, or which period is over"), Sooner: a.Is("sooner", "sooner")}
			if !strings.EqualFold(a.Text("name"), name) {
				r.Fail("name", errors.New("type the family name of this page to confirm"))
			}
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Keyed, m.work.Now(), act, closed)
		},
	}
}
