package discharge

import (
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/labels/scene"
)

// answer judges the bridge. A cylinder whose gauge was not read on the ward
// yet counts with its last reading, and the answer says so.
func (m *Model) answer(act delivery.Admission) {
	m.Bridge, m.Answer = delivery.Bridge{}, delivery.BridgeAnswer{}
	if len(act.Discharge.Bring) == 0 {
		act.Discharge.Arrives = time.Time{} // nothing to run is on its way
	}
	bridge, err := act.Bridge(&m.draft)
	if err != nil {
		m.cannotSay("not worked out yet", err.Error())
		return
	}
	var assumed []string
	for i := range bridge.Gas {
		g := &bridge.Gas[i]
		if g.Gauge != nil {
			continue
		}
		for _, p := range m.Pieces {
			if p.Item.Label() == g.Tag && p.Item.Gauge != nil {
				last := p.Item.Gauge.Value
				g.Gauge = &last
				assumed = append(assumed, fmt.Sprintf("%s as read %s: read it now", g.Tag, delivery.Clock(p.Item.Gauge.At, m.draft.now)))
			}
		}
	}
	answer, err := bridge.Answer(m.draft.programme)
	if err != nil {
		m.cannotSay("not worked out yet", err.Error())
		return
	}
	answer.Assumed = append(assumed, answer.Assumed...)
	m.Bridge, m.Answer = bridge, answer
}

func (m *Model) cannotSay(title, why string) {
	m.Answer.Verdict, m.Answer.Title = depletion.Unknown, title
	m.Answer.Do = []string{why}
}

// Parts says of what the minutes needed are made.
func (m *Model) Parts() string {
	b := m.Bridge
	if m.Answer.Needs == 0 {
		return ""
	}
	return fmt.Sprintf("%s; running %s. With the margin of %.1f: %s",
		b.Parts(), delivery.Clock(b.Running(), m.draft.now), b.Margin, delivery.Spell(m.Answer.Wants))
}

// Usual is what a part of the way home takes where nobody knows better.
func (m *Model) Usual(f Field) string {
	takes := map[Field]time.Duration{Ride: m.Bridge.Ride, SetUp: m.draft.programme.SetUp, WarmUp: m.draft.programme.WarmUp}
	return fmt.Sprintf("%.0f min", takes[f].Minutes())
}

// Horizon is how far ahead the ribbon looks.
const Horizon = 6 * time.Hour

// Ribbon is the clock of the bridge: the gas that goes along, with the flag
// where the concentrator runs.
func (m *Model) Ribbon() scene.RibbonData {
	r := scene.RibbonData{Now: m.draft.now, Horizon: Horizon}
	if m.Bridge.Opens.IsZero() || m.Answer.Has == 0 {
		return r
	}
	r.Low = m.Bridge.Opens.Add(m.Answer.Has)
	r.Mid, r.High = r.Low.Add(m.Answer.Most-m.Answer.Has), r.Low.Add(2*(m.Answer.Most-m.Answer.Has))
	r.ActBy = r.Low
	if running := m.Bridge.Running(); !running.IsZero() {
		r.Visits = []time.Time{running}
	}
	return r
}

// Notes are what has to be minded for this person and this home.
func (m *Model) Notes() []string {
	order := m.order()
	var notes []string
	note := func(text string, args ...any) { notes = append(notes, fmt.Sprintf(text, args...)) }
	if highest := order.Highest(); m.AsksBands() && m.texts[OwnBands] == "" {
		note("%s ordered: get this person's own call bands from the clinician before they leave.", highest)
	}
	if m.texts[Smoker] == "yes" {
		note("Somebody smokes there: the risk form, and the clinician decides.")
	}
	if m.texts[Mains] == string(delivery.MainsNo) && m.brings() {
		note("No mains: the concentrator can't run there. The clinician decides on a plan with cylinders.")
	}
	if m.texts[Mains] == string(delivery.MainsPrepaid) {
		note("Prepaid meter: ask that it holds credit for the nights.")
	}
	if lang := m.texts[Language]; lang != "" {
		note("Teach in %s, with an interpreter where needed.", lang)
	}
	return notes
}

// Cautions are what everybody who takes oxygen home is told.
func (m *Model) Cautions() []string {
	p := m.draft.programme
	return []string{
		fmt.Sprintf("Emergency number %s first.", p.Emergency),
		fmt.Sprintf("No smoking, vaping or flame within %g m (%.0f ft) of oxygen; local fire code decides.", p.FireMetres, p.FireMetres/0.3048),
		"Secure the cylinder in the car and at home; no oil, grease or petroleum cream near it.",
		"The concentrator needs air around it and a wall socket of its own.",
	}
}

// Warning is what has to be confirmed before this bridge is handed over;
// empty when nothing has.
func (m *Model) Warning() (title, text string) {
	switch m.Answer.Verdict {
	case depletion.Short:
		return m.Answer.Title, fmt.Sprintf("There are %s of gas for %s. Handed over like this, the person may be without oxygen. What would mend it stands on the card. Is there another plan that the clinician agrees with?",
			delivery.Spell(m.Answer.Has), delivery.Spell(m.Answer.Needs))
	case depletion.Unknown:
		return "The bridge is not known: " + m.Answer.Title, "Nobody has worked out whether the gas lasts. Does the clinician agree to hand over like this?"
	}
	if hint := m.partsHint(); hint != "" && m.There() != nil {
		return "Small parts are not there", "Going along: " + strings.Join(m.There(), ", ") + "; " + hint + ". A full cylinder without key or washer gives no gas. Hand over without them?"
	}
	return "", ""
}
