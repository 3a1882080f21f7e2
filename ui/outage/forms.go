package outage

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/ui/ask"
)

// CallForm logs a call in the power cut: how the home stands, and the few
// things that decide what happens next.
func (m *Model) CallForm(id inventory.PersonID) (ask.Form, error) {
	h, ok := m.home(id)
	switch {
	case !m.Recorded():
		return ask.Form{}, refusal.New(refusal.Unready, "This power cut is not recorded yet: it is a what-if.", "Record it first (2), then call.")
	case !ok:
		return ask.Form{}, refusal.New(refusal.NotFound, "Nobody is in hand.", "Choose a home in the list.")
	}
	options := make([]ask.Option, len(delivery.Findings))
	for i, f := range delivery.Findings {
		options[i] = ask.Option{Value: string(f), Label: string(f)}
	}
	form := ask.Form{
		Title: "Call " + m.reach(h), Button: "Log call", Before: m.script(h),
		Fields: []ask.Field{
			{Key: "found", Label: "Found", Kind: ask.Pick, Options: options},
			{Key: "saving", Label: "Turned it down", Kind: ask.Pick, Options: ask.YesNo(), Hint: "to make the gas last? Ask every home on its cylinder"},
			{Key: "flow", Label: "Flow set now", Kind: ask.Flow, Hint: "as the flow meter stands"},
			{Key: "gauge", Label: "Gauge", Kind: ask.Gauge, Hint: "of the cylinder in use"},
			{Key: "worse", Label: "Feels worse", Kind: ask.Pick, Options: ask.YesNo(), Hint: "or breathless at rest: it overrides the numbers"},
			ask.When(m.work.Now()),
		},
		Live: m.heard,
	}
	if h.NoBackup {
		form.Fields = slices.DeleteFunc(form.Fields, func(f ask.Field) bool { return f.Key == "gauge" || f.Key == "saving" })
	}
	form.Submit = func(a ask.Answers, closed func(error)) ask.Wrong { return m.logCall(h, a, closed) }
	return form, nil
}

func (m *Model) home(id inventory.PersonID) (delivery.OutageHome, bool) {
	for _, h := range m.Plan.Homes {
		if h.Person.ID == id {
			return h, true
		}
	}
	return delivery.OutageHome{}, false
}

func (m *Model) reach(h delivery.OutageHome) string {
	words := h.Person.Short()
	for _, p := range h.Person.Phones {
		words += " · " + p.Number
		if p.Whose != "" {
			words += " " + p.Whose
		}
	}
	return words
}

// script is what to know and to say on the call.
func (m *Model) script(h delivery.OutageHome) string {
	words := "Gas in the home: " + h.Gas + "."
	if h.Known {
		words += fmt.Sprintf(" Plan on %s, until %s.", delivery.Spell(h.Cover), delivery.Clock(h.Ends, m.Plan.At))
	}
	if h.Person.Language != "" {
		words += " Speaks " + h.Person.Language + "."
	}
	return words + " Ask: is the concentrator running; what do the gauge and the flow meter show; was the flow turned down to save gas. " +
		"No flame near the oxygen, candles too. " + delivery.NoFlowAdvice
}

// heard says what the answers so far mean.
func (m *Model) heard(a ask.Answers) (says string, alarm bool) {
	switch {
	case a.Is("worse", "yes"):
		return "Emergency number " + m.all.Emergency + " now, then the clinician.", true
	case a.Is("found", string(delivery.FoundSaving)), a.Is("saving", "yes"):
		return "Turned down to save gas is not as ordered: tell the clinician. Both run-out times are kept.", true
	case a.Is("found", string(delivery.FoundNobody)):
		return "Call again in 10 min; after the second try somebody looks in.", false
	}
	return "", false
}

func (m *Model) logCall(h delivery.OutageHome, a ask.Answers, closed func(error)) ask.Wrong {
	r, id := ask.Read(a), h.Person.ID
	act := delivery.OutageCall{
		Person: id, Cut: m.Plan.Cut.ID, Found: delivery.Found(r.Need("found", "say how the home stands")),
	}
	if act.Found != delivery.FoundNobody {
		act.Flow, act.Gauge, act.Worse = r.Flow("flow"), r.Gauge("gauge"), a.Is("worse", "yes")
		r.Need("worse", "ask: it overrides the numbers")
	}
	if act.Found == delivery.FoundBackup && !h.NoBackup {
		if r.Need("saving", "ask: who saves gas does not say so by themselves") == "yes" {
			act.Found = delivery.FoundSaving
		}
	}
	if act.Found == delivery.FoundSaving && act.Flow == nil {
		r.Fail("flow", errors.New("ask what the flow meter shows now"))
	}
	at := r.Past("when", m.work.Now())
	if len(r.Wrong()) > 0 {
		return r.Wrong()
	}
	return m.try(inventory.Phoned, at, act, closed)
}

// ShelterForm records that a home goes where power is.
func (m *Model) ShelterForm(id inventory.PersonID) (ask.Form, error) {
	h, ok := m.home(id)
	if !ok {
		return ask.Form{}, refusal.New(refusal.NotFound, "Nobody is in hand.", "Choose a home in the list.")
	}
	where := ask.Field{Key: "where", Label: "Goes to", Kind: ask.Pick}
	for _, r := range m.all.Refuges(h.Address.Point, m.Plan.At)[:min(3, len(m.all.Refuges(h.Address.Point, m.Plan.At)))] {
		where.Options = append(where.Options, ask.Option{Value: r.Name, Label: r.Name + ", " + delivery.Spell(r.Takes)})
	}
	until := ask.Field{Key: "until", Label: "Until", Kind: ask.Moment, Hint: "at the least; it can be changed"}
	if end := m.Plan.Begins().Add(m.Plan.Hours); end.After(m.work.Now()) {
		until.Value = end.Format(time.RFC3339)
	}
	next, _ := m.Plan.Next(m.all, h)
	return ask.Form{
		Title: h.Person.Short() + " goes where power is", Button: "On the way",
		Before: m.reach(h) + ". " + next + ". All of ours goes along: machine, cylinders, tubing. Cylinders upright and tied in the car, nobody smokes.",
		Fields: []ask.Field{
			where,
			{Key: "street", Label: "or to", Hint: "another address where power is: street"},
			{Key: "how", Label: "Brought by", Hint: "family, taxi, ambulance; 'us' opens a task for a vehicle"},
			until,
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r, now := ask.Read(a), m.work.Now()
			act := delivery.Shelter{Person: id, Cut: m.Plan.Cut.ID, Where: a.Text("where"), How: a.Text("how"), Until: r.Time("until", now.Location())}
			if street := a.Text("street"); street != "" {
				act.Where = street
			}
			if act.Where == "" {
				r.Fail("where", errors.New("choose where, or write another address"))
			}
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Phoned, now, act, closed)
		},
	}, nil
}

// LookInForm records who was asked to look in at a home that does not answer.
func (m *Model) LookInForm(id inventory.PersonID) (ask.Form, error) {
	h, ok := m.home(id)
	switch {
	case !ok:
		return ask.Form{}, refusal.New(refusal.NotFound, "Nobody is in hand.", "Choose a home in the list.")
	case h.Contact.Tried == 0:
		return ask.Form{}, refusal.New(refusal.Conflict, h.Person.Short()+" was not called without an answer.", "Call first (4).")
	}
	return ask.Form{
		Title: "Have somebody look in on " + h.Person.Short(), Button: "Asked for",
		Before: fmt.Sprintf("%s. %s. No answer %s; last reading: %s. %s.", h.Address.Where(), m.reach(h), triedInWords(h.Contact.Tried), h.Gas, m.all.Calls.Welfare),
		Fields: []ask.Field{
			{Key: "told", Label: "Asked", Hint: "neighbour, driver, police: who looks in"},
			{Key: "reply", Label: "Their reply"},
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.Escalate{Person: id, Told: r.Need("told", "name who looks in"), Reply: a.Text("reply"), About: []string{string(delivery.NotReached)}}
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Phoned, m.work.Now(), act, closed)
		},
	}, nil
}

func triedInWords(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}

// RecordForm records a power cut in the place chosen.
func (m *Model) RecordForm() ask.Form {
	cut := m.Plan.Cut
	return ask.Form{
		Title: "Power out " + cut.Zone().InWords(), Button: "Record power cut",
		Before: "Homes on oxygen there: " + strconv.Itoa(len(m.Plan.Homes)) + ". Every list counts with it at once.",
		Fields: []ask.Field{
			{Key: "from", Label: "From", Kind: ask.Moment, Value: m.work.Now().Format(time.RFC3339), Hint: "may lie ahead when it is announced"},
			{Key: "until", Label: "Until", Kind: ask.Moment, Hint: "left empty: nobody knows"},
			{Key: "cause", Label: "Cause", Hint: "storm, work on the line"},
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r, now := ask.Read(a), m.work.Now()
			act := delivery.Outage{By: cut.By, Area: cut.Area, Homes: cut.Homes, From: ask.Exact(r.Time("from", now.Location()), now), Until: r.Time("until", now.Location()), Cause: a.Text("cause")}
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Keyed, now, act, closed)
		},
	}
}

// BackForm ends the recorded power cut that is chosen.
func (m *Model) BackForm() (ask.Form, error) {
	if !m.Recorded() {
		return ask.Form{}, refusal.New(refusal.Unready, "No recorded power cut is chosen.", "Choose one at the top of the list on the left.")
	}
	form := ask.Form{
		Title: "Power is back " + m.Plan.Cut.Zone().InWords(), Button: "Power is back",
		Before: "Homes recorded on their cylinder stay so until each says that the concentrator runs: call them.",
		Fields: []ask.Field{ask.When(m.work.Now())},
	}
	form.Submit = func(a ask.Answers, closed func(error)) ask.Wrong {
		r := ask.Read(a)
		at := r.Past("when", m.work.Now())
		if len(r.Wrong()) > 0 {
			return r.Wrong()
		}
		return m.try(inventory.Keyed, at, delivery.PowerReturned{Cut: m.Plan.Cut.ID}, closed)
	}
	return form, nil
}

// try does an act as of a time and reads the screen anew; the form closes, or
// says why it was refused. A power cut just recorded is shown.
func (m *Model) try(source inventory.Source, at time.Time, act delivery.Act, closed func(error)) ask.Wrong {
	hand := m.work.Hand(source)
	hand.At = at
	m.work.Try("outage act", hand, act, func(out store.Outcome, err error) {
		closed(err)
		if err != nil {
			return
		}
		if _, recorded := act.(delivery.Outage); recorded {
			m.here = fmt.Sprintf("cut %d", out.Facts[0].ID)
		}
		m.work.OfferUndo(out, m.Load)
		m.Load()
	})
	return nil
}
