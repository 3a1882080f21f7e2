package discharge

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// reading turns the texts on the screen into an act, and keeps what could not
// be read by field.
type reading struct {
	model *Model
	wrong map[Field]string
}

// act returns the act the screen stands for, as far as it can be read, and
// what is wrong in which field. What lacks is named once the person has tried
// to hand over.
func (m *Model) act() (delivery.Admission, map[Field]string) {
	r := &reading{model: m, wrong: map[Field]string{}}
	act := delivery.Admission{
		Register:  delivery.Register{Person: r.person(), Address: r.address()},
		Discharge: r.discharge(),
	}
	order := r.order()
	if old := m.draft.page.Care.Order; old == nil || *old != ordered(order) {
		act.Order = &order
	}
	if m.AsksBands() {
		bands, err := readBands(m.texts[OwnBands])
		if r.keep(OwnBands, err) {
			act.Bands = bands
		}
		if m.tried && bands == nil && err == nil {
			r.wrong[OwnBands] = "ask the clinician before they leave: " + bandsExample
		}
	}
	if m.tried {
		r.lacking(act, order)
	}
	return act, r.wrong
}

func (r *reading) text(f Field) string { return strings.TrimSpace(r.model.texts[f]) }

// keep notes an error of a field that holds something.
func (r *reading) keep(f Field, err error) bool {
	if err != nil {
		r.wrong[f] = err.Error()
	}
	return err == nil
}

func (r *reading) person() delivery.Person {
	p := r.model.draft.page.Person // what is not on the screen stays
	p.Family, p.Given, p.Record, p.Language = r.text(Family), r.text(Given), r.text(Record), r.text(Language)
	p.Born = r.text(Born)
	if p.Born != "" {
		born, err := readDay(p.Born, r.model.draft.now.Location())
		if err == nil && born.After(r.model.draft.now) {
			err = fmt.Errorf("%s has not come yet", p.Born)
		}
		r.keep(Born, err)
	}
	phones, err := readPhones(r.text(Phones))
	r.keep(Phones, err)
	p.Phones = phones
	return p
}

func (r *reading) address() delivery.Address {
	m := r.model
	a := m.draft.page.Address
	if a.Where() != "" && streetName(a.Street) != streetName(r.text(Street)) {
		a = delivery.Address{} // somewhere else: nothing known of the old home holds
	}
	a.Street, a.Town, a.Access, a.Checked = r.text(Street), r.text(Town), r.text(Access), m.draft.now
	a.Mains, a.Smoker = delivery.Mains(r.text(Mains)), r.text(Smoker)
	a.Stairs = 0
	if text := r.text(Stairs); text != "" {
		floors, err := strconv.Atoi(text)
		if err != nil || floors < 0 || floors > 99 {
			r.wrong[Stairs] = "write the floors to climb without a lift, as 2"
		}
		a.Stairs = floors
	}
	a.Point, a.Rough = r.point(a)
	return a
}

// point returns where the home is: as written, else where a home in the same
// street is known to be, or where its name or postcode leads, only about right.
func (r *reading) point(a delivery.Address) (p delivery.Point, rough bool) {
	m := r.model
	p.Area = areaOf(r.text(Area), areas(m.draft.programme))
	if text := r.text(Spot); text != "" {
		lat, lon, err := readSpot(text)
		if r.keep(Spot, err) {
			p.Lat, p.Lon = lat, lon
		}
		return p, a.Rough && p.Lat == a.Point.Lat && p.Lon == a.Point.Lon
	}
	if len(m.spots) > 0 {
		p.Lat, p.Lon = m.spots[0].Point.Lat, m.spots[0].Point.Lon
		p.Area = cmp.Or(p.Area, m.spots[0].Point.Area)
		return p, true
	}
	if found := a.Matches(m.draft.places); len(found) == 1 {
		p.Lat, p.Lon, p.Area = found[0].Lat, found[0].Lon, cmp.Or(p.Area, found[0].Area)
	}
	return p, p.Known()
}

func (r *reading) flow(f Field) gas.Flow {
	text := r.text(f)
	if text == "" {
		return 0
	}
	flow, err := gas.ParseFlow(text)
	r.keep(f, err)
	return flow
}

func (r *reading) order() delivery.Order {
	o := delivery.Order{
		Rest: r.flow(Rest), Exertion: r.flow(Exertion), Asleep: r.flow(Asleep),
		Setting: r.text(Setting), Prescriber: r.text(Prescriber),
	}
	if old := r.model.draft.page.Care.Order; old != nil {
		o.Device = old.Device
	}
	if o.Setting != "" {
		pulse, err := gas.ParsePulse(r.text(Bolus))
		r.keep(Bolus, err)
		o.Bolus, o.Breaths = pulse.Bolus, pulse.BreathsPerMinute
	}
	if text := r.text(Hours); text != "" {
		hours, err := readHours(text)
		r.keep(Hours, err)
		o.Hours = hours
	}
	if text := r.text(Review); text != "" {
		day, err := readDay(text, r.model.draft.now.Location())
		if old := r.model.draft.page.Care.Order; err == nil && old != nil && old.Review.Format(time.DateOnly) == text {
			day = old.Review
		} else if err == nil && day.Before(r.model.draft.now) {
			err = fmt.Errorf("%s is past", text)
		}
		r.keep(Review, err)
		o.Review = day
	}
	return o
}

// order is what the screen orders now.
func (m *Model) order() delivery.Ordered {
	r := &reading{model: m, wrong: map[Field]string{}}
	return ordered(r.order())
}

func ordered(o delivery.Order) delivery.Ordered {
	return delivery.Ordered{
		Rest: o.Rest, Exertion: o.Exertion, Asleep: o.Asleep, Hours: o.Hours,
		Device: o.Device, Setting: o.Setting, Bolus: o.Bolus, Breaths: o.Breaths, Review: o.Review, Prescriber: o.Prescriber,
	}
}

func (r *reading) discharge() delivery.Discharge {
	m := r.model
	d := delivery.Discharge{
		Ward: r.text(Ward), Leaves: m.times[Leaves], Arrives: m.times[Arrives],
		Until: m.times[Arrives], SuppliesFrom: m.store, Consents: map[string]bool{},
	}
	supplies, err := delivery.ReadSupplies(r.text(Supplies))
	if err != nil {
		err = errors.New(refusal.For(err))
	}
	r.keep(Supplies, err)
	d.Supplies = supplies
	for _, f := range []Field{Leaves, Arrives} {
		r.keep(f, m.badTimes[f])
	}
	for f, into := range map[Field]**time.Duration{Ride: &d.Ride, SetUp: &d.SetUp, WarmUp: &d.WarmUp} {
		takes, err := readMinutes(r.text(f))
		r.keep(f, err)
		*into = takes
	}
	for _, c := range consents {
		if answer := r.text(c); answer != "" {
			d.Consents[string(c)] = answer == Yes
		}
	}
	for _, p := range m.Pieces {
		switch read, _ := p.reading(); {
		case p.Item.ID == "" || m.Troubles[p.ID()].Out:
		case p.Brought:
			d.Bring = append(d.Bring, p.Item.ID)
		default:
			d.HandOver = append(d.HandOver, delivery.Piece{Item: p.Item.ID, Gauge: read, With: m.There()})
		}
	}
	return d
}

// machine reports whether a concentrator is in the kit.
func (r *reading) machine() bool {
	return slices.ContainsFunc(r.model.Pieces, func(p Piece) bool { return p.Item.Spec.Kind == inventory.Concentrator })
}

// lacking names what has to be asked for before anybody leaves.
func (r *reading) lacking(act delivery.Admission, o delivery.Order) {
	need := func(f Field, lacks bool, says string) {
		if _, wrong := r.wrong[f]; lacks && !wrong {
			r.wrong[f] = says
		}
	}
	need(Family, r.text(Family) == "", "a person needs a name")
	need(Street, r.text(Street) == "", "where do they sleep tonight?")
	need(Mains, r.machine() && r.text(Mains) == "", "ask: without mains power no concentrator runs")
	need(Mains, r.machine() && r.text(Mains) == string(delivery.MainsNo), "no concentrator runs there: take it out of the kit; the clinician decides on cylinders")
	need(Smoker, r.text(Smoker) == "", "ask, and note the answer")
	need(Rest, o.Setting == "" && o.Rest <= 0, "no flow at rest: back to the ward")
	need(Hours, o.Hours == 0, "how many hours a day? Back to the ward")
	need(Review, o.Review.IsZero(), "until when? Back to the ward")
	need(Prescriber, o.Prescriber == "", "who ordered it?")
	need(Ward, r.text(Ward) == "", "which ward?")
	need(Leaves, r.model.times[Leaves].IsZero(), "when do they leave?")
	need(Arrives, r.model.times[Arrives].IsZero() && len(act.Discharge.Bring) > 0, "promise a time: the bridge is judged by it")
	for _, c := range consents {
		need(c, r.text(c) == "", "ask: both answers are recorded")
	}
	for _, p := range act.Discharge.HandOver {
		if item, err := r.model.draft.Item(p.Item); err == nil && item.Spec.Kind == inventory.Cylinder {
			return
		}
	}
	need(Kit, true, "no cylinder goes along: nothing bridges the way home")
}
