package person

import (
	"fmt"
	"strconv"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// TripForm books a trip on the cylinder.
func (m *Model) TripForm() ask.Form {
	return ask.Form{
		Title: m.page.Person.Short() + " goes on a trip", Button: "Book the trip",
		Before: "For these hours the cylinder counts, whatever the concentrator does: gas that would end on the way must be there before they leave.",
		Fields: []ask.Field{
			{Key: "from", Label: "Leaves", Kind: ask.Moment},
			{Key: "until", Label: "Is back", Kind: ask.Moment},
			{Key: "where", Label: "To", Hint: "no more than is needed"},
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r, zone := ask.Read(a), m.work.Now().Location()
			r.Need("from", "write when they leave")
			r.Need("until", "write when they are back")
			act := delivery.BookTrip{Person: m.id, From: r.Time("from", zone), Until: r.Time("until", zone), Where: r.Text("where")}
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Phoned, m.work.Now(), act, closed)
		},
	}
}

// TripOffForm takes a booked trip off the book, or ends one under way.
func (m *Model) TripOffForm() ask.Form {
	which := ask.Field{Key: "trip", Label: "Which trip", Kind: ask.Pick}
	for _, t := range m.page.Care.Trips {
		if t.Until.After(m.work.Now()) {
			which.Options = append(which.Options, ask.Option{Value: strconv.FormatInt(int64(t.ID), 10),
				Label: fmt.Sprintf("%s to %s", delivery.Clock(t.From, m.work.Now()), delivery.Clock(t.Until, m.work.Now()))})
		}
	}
	return ask.Form{
		Title: "A trip is off, or over", Button: "Take it off", Fields: []ask.Field{which},
		Before: "Then ask what the gauge shows.",
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			id, _ := strconv.ParseInt(r.Need("trip", "no trip is booked, or none was chosen"), 10, 64)
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Phoned, m.work.Now(), delivery.CallOffTrip{Person: m.id, Trip: inventory.FactID(id)}, closed)
		},
	}
}

// TubingForm notes how long the tubing of the home is.
func (m *Model) TubingForm() ask.Form {
	return ask.Form{
		Title: "Tubing of " + m.page.Person.Short(), Button: "Note the tubing",
		Before: "All pieces together. On a cylinder long tubing may give less: check the flow at the cannula end.",
		Fields: []ask.Field{{Key: "metres", Label: "Length", Kind: ask.Number, Unit: "m"}, ask.When(m.work.Now())},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r, now := ask.Read(a), m.work.Now()
			act := delivery.LayTubing{Person: m.id}
			if r.Need("metres", "write the length in metres") != "" {
				if metres := r.Number("metres", "m", 0, 100); metres != nil {
					act.Metres = *metres
				}
			}
			at := r.Past("when", now)
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			return m.try(inventory.Phoned, at, act, closed)
		},
	}
}
