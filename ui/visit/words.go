package visit

import (
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/finder"
	"lungwort/ui/meter"
)

// Title names the person and the home.
func (m *Model) Title() string {
	return strings.Trim(m.page.Person.Name()+" · "+m.page.Address.Where(), " ·")
}

// Planned says which run the stop is of, and when it was to be.
func (m *Model) Planned() string {
	stop, ok := m.Stop()
	if !ok {
		return "outside any run"
	}
	words := fmt.Sprintf("%s, planned %s", m.run.Vehicle, delivery.Clock(stop.Arrive, m.now))
	if !stop.ActBy.IsZero() {
		words += ", act-by " + delivery.Clock(stop.ActBy, m.now)
	}
	return words
}

// Row is a line as the lists show it.
type Row struct {
	ID, Text, Below, Asks, Value, Aside, Wrong string
	Ticked                                     bool
}

// Rows returns the lines of one of the two lists.
func (m *Model) Rows(things []Thing) []Row {
	rows := make([]Row, len(things))
	for i, t := range things {
		r := Row{ID: t.ID(), Value: t.Value, Ticked: t.Ticked, Wrong: m.Bad[t.ID()]}
		if t.Item.ID == "" {
			r.Text = inventory.Spec{Kind: t.Want.Kind, Size: t.Want.Size, Rated: t.Want.Rated}.What()
			r.Below = "none was set aside: scan the one that was left"
			rows[i] = r
			continue
		}
		r.Text, r.Asks = finder.Label(t.Item), meter.Asks(t.Item.Spec)
		r.Below = strings.TrimPrefix(t.Item.Spec.What(), "oxygen ") + last(t.Item, m)
		if t.Extra {
			r.Aside = "not planned"
		}
		rows[i] = r
	}
	return rows
}

// last says what was last read on a thing.
func last(i inventory.Item, m *Model) string {
	switch {
	case i.Gauge != nil:
		return fmt.Sprintf(" · %s %s", i.Gauge.Value, delivery.Clock(i.Gauge.At, m.now))
	case i.Hours != nil:
		return fmt.Sprintf(" · %.0f h %s", i.Hours.Value, delivery.Clock(i.Hours.At, m.now))
	}
	return ""
}

// Mind are what has to be known at this door.
func (m *Model) Mind() []string {
	var lines []string
	for _, p := range m.page.Person.Phones {
		lines = append(lines, strings.TrimSpace("Phone "+p.Whose+" "+p.Number))
	}
	if o := m.page.Care.Order; o != nil {
		lines = append(lines, "Ordered "+o.InWords()+".")
	}
	if a := m.page.Address; a.Access != "" {
		lines = append(lines, a.Access)
	}
	if m.LeavesMachine() {
		lines = append(lines, "Before the door closes: machine on a wall socket of its own with air around it, backup valve shut, cylinder secured, no flame near; local fire code decides.")
	}
	for _, other := range m.page.House {
		for _, h := range other.Care.Kit {
			name := h.Spec.Serial
			if name == "" {
				name = h.Spec.What()
			}
			lines = append(lines, fmt.Sprintf("Leave %s alone: it is lent to %s in the same house.", name, other.Person.Short()))
		}
	}
	for _, i := range m.page.Theirs {
		lines = append(lines, fmt.Sprintf("Leave %s alone: it belongs to %s.", i.Label(), i.Spec.Owner))
	}
	return lines
}

// AskedFor says which small parts a call asked for, to be brought here.
func (m *Model) AskedFor() string {
	var parts []string
	for _, t := range m.tasks() {
		if t.Parts != "" {
			parts = append(parts, t.Parts)
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "asked for: " + strings.Join(parts, ", ")
}

// Late says how long ago the visit was, when it comes in late; and asks for the
// time on the sheet where the visit is keyed in as just made, long after its plan.
func (m *Model) Late() string {
	at := m.times[Happened]
	if stop, ok := m.Stop(); ok && at.Equal(m.now) && m.now.Sub(stop.Leave) > time.Hour {
		return "planned " + delivery.Clock(stop.Arrive, m.now) + ": write the time that stands on the sheet"
	}
	if at.IsZero() || m.badAt[Happened] != nil || m.now.Sub(at).Minutes() < 15 {
		return ""
	}
	return delivery.Ago(at, m.now) + ": it takes its true place in the book"
}
