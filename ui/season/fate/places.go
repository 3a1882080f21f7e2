package fate

import (
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
)

// Names of the programme.
const (
	Depot  = "harbour"
	Plant  = "skerry"
	Ward   = "6B"
	OnCall = "duty car" // what who is on call drives
	Doctor = "Dr Noor Sayle"
	Desk   = "Greer Nairn"
	isle   = "Great Quillet"
)

// district is a part of the isle with a power line of its own.
type district struct {
	town, line string
	point      delivery.Point
	share      float64 // of the homes
}

// districts lie on the largest of the invented Quillet Isles.
var districts = []district{
	{"Quillet Harbour", "Harbour line", delivery.Point{Lat: 36.5130, Lon: -40.5220, Area: isle}, 0.4},
	{"Southmarsh", "Marsh line", delivery.Point{Lat: 36.4670, Lon: -40.4850, Area: isle}, 0.25},
	{"Kilnhead", "Kiln line", delivery.Point{Lat: 36.4916, Lon: -40.5709, Area: isle}, 0.2},
	{"Upper Ness", "Ness line", delivery.Point{Lat: 36.5502, Lon: -40.4685, Area: isle}, 0.15},
}

// Programme returns the settings of the hospital: the program's own defaults,
// with the places and vehicles of the isle.
func Programme() delivery.Programme {
	site := func(name, title string, lat, lon float64) delivery.Site {
		return delivery.Site{Name: name, Title: title, Phone: "555-0101", Point: delivery.Point{Lat: lat, Lon: lon, Area: isle}}
	}
	p := delivery.NewProgramme()
	p.Name, p.Emergency, p.Phone = "A season on the Quillet Isles", "555-0100", "555-0101"
	p.Clinician = []delivery.Contact{{Name: Doctor, Role: "chest physician", Phone: "555-0105"}}
	p.HomeLate = 15 * time.Minute // people dawdle, rides are late
	p.Hospital = site("hospital", "Quillet Isles Hospital", 36.5055, -40.5085)
	p.Wards = []delivery.Site{site(Ward, "Ward 6B", 36.5055, -40.5085)}
	p.Depots = []delivery.Site{site(Depot, "Harbour depot", 36.5148, -40.5262)}
	p.Plants = []delivery.Site{site(Plant, "Skerry filling plant", 36.5302, -40.5423)}
	noon := []delivery.Break{{From: "11:30", Until: "13:30", Minutes: 30}}
	p.Vehicles = []delivery.Vehicle{
		{Name: "van 1", Depot: Depot, Driver: "Corin Alder", Pieces: 40, Kg: 400, From: "08:00", Until: "17:00", Breaks: noon},
		{Name: "van 2", Depot: Depot, Driver: "Runa Balloch", Pieces: 40, Kg: 400, From: "11:00", Until: "20:00"},
		// No round is planned for the duty car: its shift lasts a minute.
		{Name: OnCall, Depot: Depot, Driver: "Bram Tideman", Pieces: 8, Kg: 120, From: "00:00", Until: "00:01"},
	}
	p.Kits = []delivery.Kit{{Name: "standard", Items: []delivery.Wanted{
		{Kind: inventory.Concentrator, Count: 1}, {Kind: inventory.Cylinder, Size: "US-E", Count: 2}, {Kind: inventory.Oximeter, Count: 1},
	}}}
	return p
}

// Begins is when every season begins: a Monday.
var Begins = time.Date(2030, time.January, 7, 0, 0, 0, 0, time.FixedZone("", 0))
