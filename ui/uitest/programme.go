package uitest

import (
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
)

// The areas of the Quillet Isles.
const (
	Great  = "Great Quillet"
	Little = "Little Quillet"
)

// Programme returns the settings of the desk.
func Programme() delivery.Programme {
	p := delivery.NewProgramme()
	p.Name = "Quillet home oxygen"
	p.Phone = "555-0110"
	p.Clinician = []delivery.Contact{{Name: "Clinician on call", Phone: "555-0112"}}
	p.OnCall = []delivery.Duty{{
		Contact: delivery.Contact{Name: "night desk", Phone: "555-0110"},
		From:    Now.Add(-9 * time.Hour), Until: Now.Add(16 * time.Hour),
	}}
	p.Hospital = site("hospital", "Quillet General", 36.500, -40.500, Great)
	p.Wards = []delivery.Site{site("6B", "Ward 6B", 36.500, -40.500, Great)}
	p.Depots = []delivery.Site{
		site("harbour", "Harbour depot", 36.512, -40.521, Great),
		site("ness", "Ness depot", 36.471, -40.402, Little),
	}
	p.Plants = []delivery.Site{site("works", "Gas works", 36.530, -40.560, Great)}
	p.Vehicles = []delivery.Vehicle{
		{Name: "van 1", Depot: "harbour", Driver: "Esk", Pieces: 30, Kg: 220, From: "08:00", Until: "20:00"},
		{Name: "van 2", Depot: "harbour", Driver: "Wick", Pieces: 24, Kg: 180, From: "10:00", Until: "22:00"},
	}
	p.Ferries = []delivery.Ferry{{Between: [2]string{Great, Little}, Takes: 40 * time.Minute, Metres: 9000}}
	return p
}

func site(name, title string, lat, lon float64, area string) delivery.Site {
	return delivery.Site{Name: name, Title: title, Phone: "555-0111", Point: delivery.Point{Lat: lat, Lon: lon, Area: area}}
}

// person brings a person of the story into the book, with an order where one
// is given.
func (d *Desk) person(given, family, street string, more func(*delivery.Person, *delivery.Address)) {
	d.t.Helper()
	n := len(d.Persons)
	p := delivery.Person{
		Given: given, Family: family, Record: "Q-" + string(rune('A'+n)) + "417",
		Born:   "19" + string(rune('3'+n%5)) + "1-04-12",
		Phones: []delivery.Phone{{Number: "555-01" + string(rune('2'+n/10)) + string(rune('0'+n%10))}},
	}
	a := delivery.Address{
		Street: street, Town: "Quillet Town", Mains: delivery.MainsYes,
		Point: delivery.Point{Lat: 36.505 + float64(n)*0.004, Lon: -40.51 + float64(n%4)*0.006, Area: Great},
	}
	if more != nil {
		more(&p, &a)
	}
	d.Persons[given] = d.Act(delivery.Register{Person: p, Address: a}).Facts[0].Person
}

// item brings an item of the story into the book, ready at the harbour depot.
func (d *Desk) item(spec inventory.Spec, psi float64) inventory.ItemID {
	d.t.Helper()
	act := delivery.Enrol{Spec: spec, Depot: "harbour", Cleared: true}
	if spec.Kind == inventory.Cylinder {
		act.Gauge, act.Lot = PSI(psi), "L2409A"
	}
	if spec.Kind == inventory.Concentrator {
		act.Hours = new(1200.0 + float64(len(d.Things))*37)
	}
	id := d.Act(act).Facts[0].Item
	d.Things[spec.Serial] = id
	return id
}
