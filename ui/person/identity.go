package person

import (
	"errors"
	"fmt"
	"strconv"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// DetailsForm corrects who the person is and how to reach them.
func (m *Model) DetailsForm() ask.Form {
	p := m.page.Person
	phone := func(i int) delivery.Phone {
		if i < len(p.Phones) {
			return p.Phones[i]
		}
		return delivery.Phone{}
	}
	return ask.Form{
		Title: "Who and how to reach", Button: "Save",
		Fields: []ask.Field{
			{Key: "family", Label: "Family name", Value: p.Family},
			{Key: "given", Label: "Given name", Value: p.Given},
			{Key: "born", Label: "Born", Value: p.Born, Hint: "as 1941-04-12"},
			{Key: "record", Label: "Record no.", Value: p.Record},
			{Key: "phone", Label: "Phone", Value: phone(0).Number},
			{Key: "second", Label: "Second phone", Value: phone(1).Number},
			{Key: "whose", Label: "Whose", Value: phone(1).Whose, Hint: "daughter, neighbour"},
			{Key: "language", Label: "Speaks", Value: p.Language},
			{Key: "note", Label: "Note", Value: p.Note, Hint: "how to talk to them; no diagnoses"},
		},
		Submit: m.detailsSubmit,
	}
}

func (m *Model) detailsSubmit(a ask.Answers, closed func(error)) ask.Wrong {
	r, p := ask.Read(a), m.page.Person
	p.Family, p.Given = r.Need("family", "a person needs a family name"), a.Text("given")
	p.Born, p.Record = a.Text("born"), a.Text("record")
	p.Language, p.Note = a.Text("language"), a.Text("note")
	if _, err := time.Parse("2006-01-02", p.Born); p.Born != "" && err != nil {
		r.Fail("born", errors.New("write it as 1941-04-12: a date such as 03/04 means two days"))
	}
	rest := p.Phones[min(2, len(p.Phones)):]
	p.Phones = nil
	for _, ph := range []delivery.Phone{{Number: a.Text("phone")}, {Number: a.Text("second"), Whose: a.Text("whose")}} {
		if ph.Number != "" {
			p.Phones = append(p.Phones, ph)
		}
	}
	p.Phones = append(p.Phones, rest...)
	if len(r.Wrong()) > 0 {
		return r.Wrong()
	}
	return m.try(inventory.Keyed, m.work.Now(), delivery.Register{Person: p}, closed)
}

// HomeForm corrects the address; others in the house have the same.
func (m *Model) HomeForm() ask.Form {
	a := m.page.Address
	form := ask.Form{Title: "The home", Button: "Save", Fields: homeFields(a)}
	if len(m.page.House) > 0 {
		form.Before = fmt.Sprintf("%s lives there too and has the same address.", m.page.House[0].Person.Short())
	}
	form.Submit = func(answers ask.Answers, closed func(error)) ask.Wrong { return m.homeSubmit(a, answers, closed) }
	return form
}

func homeFields(a delivery.Address) []ask.Field {
	stairs, point := "", ""
	if a.Stairs > 0 {
		stairs = strconv.Itoa(a.Stairs)
	}
	if a.Point.Known() {
		point = fmt.Sprintf("%.5f, %.5f", a.Point.Lat, a.Point.Lon)
	}
	return []ask.Field{
		{Key: "street", Label: "Street", Value: a.Street},
		{Key: "town", Label: "Town", Value: a.Town},
		{Key: "postcode", Label: "Postcode", Value: a.Postcode},
		{Key: "area", Label: "Area", Value: a.Point.Area},
		{Key: "point", Label: "On the map", Value: point, Hint: "latitude, longitude; blank: looked up by name and postcode"},
		{Key: "access", Label: "Way in", Value: a.Access, Hint: "gate code, parking"},
		{Key: "stairs", Label: "Stairs", Kind: ask.Number, Unit: "floors", Value: stairs},
		{Key: "mains", Label: "Mains power", Kind: ask.Pick, Value: string(a.Mains), Options: []ask.Option{
			{Value: string(delivery.MainsYes), Label: "yes"}, {Value: string(delivery.MainsPrepaid), Label: "prepaid"}, {Value: string(delivery.MainsNo), Label: "none"},
		}},
		{Key: "line", Label: "Power line", Value: a.Line},
		{Key: "registered", Label: "Power company", Kind: ask.Pick, Value: a.Registered, Options: ask.YesNo(), Hint: "knows of the machine"},
		{Key: "cooling", Label: "Cooling", Kind: ask.Pick, Value: a.Cooling, Options: ask.YesNo(), Hint: "for hot days"},
		{Key: "smoker", Label: "Smokes", Kind: ask.Pick, Value: a.Smoker, Options: append(ask.YesNo(), ask.Option{Value: "asked and not told", Label: "not told"})},
		{Key: "heater", Label: "Flames", Value: a.Heater, Hint: "open fire, gas stove"},
		{Key: "pets", Label: "Pets", Value: a.Pets},
	}
}

func (m *Model) homeSubmit(a delivery.Address, answers ask.Answers, closed func(error)) ask.Wrong {
	r := ask.Read(answers)
	a = m.home(a, r)
	if len(r.Wrong()) > 0 {
		return r.Wrong()
	}
	return m.try(inventory.Keyed, m.work.Now(), delivery.Register{Person: m.page.Person, Address: a}, closed)
}

// home reads an address as it is written over what was known of it.
func (m *Model) home(a delivery.Address, r *ask.Reader) delivery.Address {
	a.Street, a.Town, a.Postcode = r.Need("street", "write where they sleep tonight"), r.Text("town"), r.Text("postcode")
	a.Access, a.Line = r.Text("access"), r.Text("line")
	a.Heater, a.Pets = r.Text("heater"), r.Text("pets")
	a.Mains, a.Smoker = delivery.Mains(r.Text("mains")), r.Text("smoker")
	a.Cooling, a.Registered = r.Text("cooling"), r.Text("registered")
	a.Point.Area, a.Checked = r.Text("area"), m.work.Now()
	a.Stairs = 0
	if n := r.Number("stairs", "floors", 0, 60); n != nil {
		a.Stairs = int(*n)
	}
	lat, lon, err := coordinates(r.Text("point"))
	a.Rough = a.Rough && lat == a.Point.Lat && lon == a.Point.Lon
	a.Point.Lat, a.Point.Lon = lat, lon
	r.Fail("point", err)
	return a
}

// coordinates reads a point as every screen does; nothing is nothing.
func coordinates(text string) (lat, lon float64, err error) {
	if text == "" {
		return 0, 0, nil
	}
	p, err := delivery.ReadPoint(text)
	return p.Lat, p.Lon, err
}
