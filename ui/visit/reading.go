package visit

import (
	"fmt"
	"strconv"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/ui/meter"
)

// act is the visit the screen stands for; what is wrong stands in Wrong and
// Bad.
func (m *Model) act() delivery.Visit {
	m.Wrong, m.Bad = map[Field]string{}, map[string]string{}
	v := delivery.Visit{Run: m.run.ID, Person: m.page.Person.ID}
	m.checkTime()
	if m.texts[Outcome] == Failed {
		m.failed(&v)
		return v
	}
	for _, t := range m.Leave {
		if r, ok := m.read(t); ok && t.Ticked {
			v.Left = append(v.Left, delivery.Piece{Item: t.Item.ID, Gauge: r.Gauge, Hours: r.Hours, Weight: r.Weight})
		}
	}
	for _, t := range m.Take {
		if r, ok := m.read(t); ok && t.Ticked {
			v.Took = append(v.Took, delivery.Taken{Item: t.Item.ID, Gauge: r.Gauge, Hours: r.Hours, Weight: r.Weight})
		}
	}
	var err error
	if v.Supplies, err = delivery.ReadSupplies(m.texts[Given]); err != nil {
		m.Wrong[Given] = refusal.For(err)
	}
	if len(v.Left)+len(v.Took)+len(v.Supplies) == 0 && len(m.Leave)+len(m.Take) > 0 && len(m.Bad) == 0 {
		m.Wrong[Things] = "Nothing is ticked. Scan what was left and taken, or say that the stop failed."
	}
	m.running(&v)
	return v
}

func (m *Model) checkTime() {
	at := m.times[Happened]
	switch {
	case m.badAt[Happened] != nil:
		m.Wrong[Happened] = m.badAt[Happened].Error()
	case at.IsZero():
		m.Wrong[Happened] = "when was it?"
	case at.After(m.work.Now()):
		m.Wrong[Happened] = "that is still to come"
	}
}

func (m *Model) failed(v *delivery.Visit) {
	v.Failed, v.Next = strings.TrimSpace(m.texts[Reason]), m.times[Next]
	if v.Failed == "" {
		m.Wrong[Reason] = "why could nothing be done?"
	}
	switch {
	case m.badAt[Next] != nil:
		m.Wrong[Next] = m.badAt[Next].Error()
	case v.Next.IsZero():
		m.Wrong[Next] = "when is the next try?"
	case !v.Next.After(m.times[Happened]):
		m.Wrong[Next] = "that is before the visit"
	}
}

func (m *Model) read(t Thing) (meter.Reading, bool) {
	r, err := meter.Of(t.Item, t.Value)
	if err != nil {
		m.Bad[t.ID()] = err.Error()
	}
	if t.Ticked && t.Item.Spec.Kind == inventory.Cylinder && r.Gauge == nil && t.Item.Gauge == nil {
		m.Bad[t.ID()] = "Nobody ever read this cylinder: write its gauge."
	}
	return r, m.Bad[t.ID()] == ""
}

// running says whether the concentrator runs, and what it gives.
func (m *Model) running(v *delivery.Visit) {
	if m.LeavesMachine() && m.texts[Runs] == "" {
		m.Wrong[Runs] = "does it run at the ordered flow?"
	}
	v.Running = m.texts[Runs] == Yes
	text := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(m.texts[Oxygen]), "%"))
	if text == "" {
		return
	}
	percent, err := strconv.ParseFloat(text, 64)
	if err != nil || !(percent >= 20 && percent <= 100) {
		m.Wrong[Oxygen] = "oxygen is 20 to 100 %"
		return
	}
	v.Oxygen = &percent
	if percent < delivery.PurityFloor && v.Running {
		m.Wrong[Oxygen] = fmt.Sprintf("under %d %%: leave the person on the cylinder, say it does not run, and swap the machine", delivery.PurityFloor)
	}
}
