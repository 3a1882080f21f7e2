package uitest

import (
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// PSI returns a gauge reading as acts take it.
func PSI(v float64) *gas.Pressure { return new(gas.PSI(v)) }

// tell tells the story: a month of a small programme up to this afternoon.
func (d *Desk) tell() {
	d.stock()
	d.running()
	d.stopped()
	d.house()
	d.onCylinder()
	d.shelves()
	d.bridges()
	d.waiting()
	d.correction()
}

// stock buys everything the programme owns.
func (d *Desk) stock() {
	d.Day(-28, "09:00")
	for i := range 16 {
		d.item(inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: fmt.Sprintf("E-201%02d", i+1), Model: "Alu E", Requal: "2032-06"}, 2000-float64(i%4)*30)
	}
	for i := range 4 {
		d.item(inventory.Spec{Kind: inventory.Cylinder, Size: "US-D", Serial: fmt.Sprintf("D-104%02d", i+1), Owner: "Gas works", Requal: "2031-02"}, 1950)
	}
	for i := range 10 {
		d.item(inventory.Spec{Kind: inventory.Concentrator, Rated: 5, Serial: fmt.Sprintf("CN004%02d", i+1), Model: "Still 5"}, 0)
	}
	for i := range 3 {
		d.item(inventory.Spec{Kind: inventory.Concentrator, Rated: 10, Serial: fmt.Sprintf("CN009%02d", i+1), Model: "Still 10"}, 0)
	}
	for i := range 4 {
		d.item(inventory.Spec{Kind: inventory.Regulator, Serial: fmt.Sprintf("RG-33%02d", i+1)}, 0)
		d.item(inventory.Spec{Kind: inventory.Oximeter, Serial: fmt.Sprintf("OX-77%02d", i+1)}, 0)
	}
}

// order puts an order in force for a person of the story.
func (d *Desk) order(given string, rest, exertion gas.Flow) {
	d.t.Helper()
	d.Act(delivery.Order{
		Person: d.Persons[given], Rest: rest, Exertion: exertion, Hours: 24, Device: "cannula",
		Review: d.now.AddDate(0, 0, 28), Prescriber: "ward 6B",
	})
	if max(rest, exertion) >= Programme().Bands.Emergency {
		d.Act(delivery.GiveBands{Person: d.Persons[given], Target: 90, Borderline: 6, Emergency: 8, By: "Dr Holm"})
	}
}

// discharge hands a cylinder over and reserves a concentrator for a person.
func (d *Desk) discharge(given, cylinder string, psi float64, machine string, arrives time.Duration) {
	d.t.Helper()
	act := delivery.Discharge{
		Person: d.Persons[given], Ward: "6B", Arrives: d.now.Add(arrives),
		HandOver: []delivery.Piece{{Item: d.Things[cylinder], Gauge: PSI(psi)}},
		Supplies: []inventory.Handful{{Supply: "cannula", Count: 2, Lot: "C77"}},
		Consents: map[string]bool{"home visits": true, "share with power company": given != "Odd"},
		From:     d.now, Until: d.now.Add(4 * time.Hour),
	}
	if machine != "" {
		act.Bring = []inventory.ItemID{d.Things[machine]}
	}
	d.Act(act)
}

// setUp starts the concentrator in the home.
func (d *Desk) setUp(given, machine string) {
	d.t.Helper()
	d.Act(delivery.Visit{
		Person: d.Persons[given], Running: true, Oxygen: new(94.2),
		Left: []delivery.Piece{{Item: d.Things[machine], Hours: new(d.Thing(machine).Hours.Value)}},
	})
}

// running are homes where the concentrator runs.
func (d *Desk) running() {
	d.Day(-12, "09:10")
	d.person("Jory", "Vale", "Kelp Street 22", nil)
	d.order("Jory", 1, 2)
	d.discharge("Jory", "E-20101", 2000, "CN00401", time.Hour)
	d.Day(-12, "10:40")
	d.setUp("Jory", "CN00401")
	d.Day(-11, "11:00")
	d.call("Jory", 94, 1, PSI(1980))
	d.Day(-4, "10:05")
	d.call("Jory", 93, 1, PSI(1940))

	d.Day(0, "07:40")
	d.person("Pell", "Dray", "Chapel Steps 4", nil)
	d.order("Pell", 1, 2)
	d.discharge("Pell", "E-20102", 1950, "CN00402", time.Hour)
	d.Day(0, "09:15")
	d.setUp("Pell", "CN00402")
}

func (d *Desk) call(given string, spo2 float64, flow gas.Flow, gauge *gas.Pressure) {
	d.t.Helper()
	d.ActFrom(inventory.Phoned, delivery.Call{Person: d.Persons[given], Answered: true, SpO2: &spo2, Flow: &flow, Gauge: gauge})
}

// stopped are persons who need no oxygen any more.
func (d *Desk) stopped() {
	d.Day(-20, "13:00")
	d.person("Mira", "Sand", "Tern Walk 5", nil)
	d.order("Mira", 2, 0)
	d.discharge("Mira", "E-20103", 1970, "CN00403", time.Hour)
	d.Day(-20, "15:00")
	d.setUp("Mira", "CN00403")
	d.Day(-10, "10:00")
	d.borrowed("Mira", "E-20110", 1800, 700)
	d.Day(-1, "10:30")
	d.Act(delivery.StopOxygen{Person: d.Persons["Mira"], Reason: "recovered", OrderedBy: "clinic of ward 6B"})

	d.Day(-19, "13:00")
	d.person("Otto", "Hale", "Quay Head 12", nil)
	d.order("Otto", 3, 4)
	d.discharge("Otto", "E-20104", 1940, "CN00404", time.Hour)
	d.Day(-19, "15:00")
	d.setUp("Otto", "CN00404")
	d.Day(-2, "09:30")
	d.Act(delivery.StopOxygen{Person: d.Persons["Otto"], Reason: "moved away", OrderedBy: "clinic of ward 6B"})
	d.Day(0, "11:20")
	d.Act(delivery.Visit{Person: d.Persons["Otto"], Took: []delivery.Taken{
		{Item: d.Things["CN00404"], Hours: new(d.Thing("CN00404").Hours.Value + 392)}, {Item: d.Things["E-20104"], Gauge: PSI(1100)},
	}})
}

// house is two persons under one roof, one with a low backup.
func (d *Desk) house() {
	d.Day(-9, "14:00")
	d.person("Anwen", "Rowe", "Mill Croft 7", func(p *delivery.Person, a *delivery.Address) {
		p.Language, p.Note = "Welsh", "hard of hearing: let it ring"
		p.Phones = append(p.Phones, delivery.Phone{Number: "555-0177", Whose: "daughter"})
		a.Access, a.Stairs, a.Smoker, a.Pets = "gate code 4417, park behind the mill", 2, "no", "dog"
		a.Checked, a.Line = Now.AddDate(0, 0, -9), "Mill line"
	})
	d.order("Anwen", 2, 4)
	d.discharge("Anwen", "E-20105", 2000, "CN00405", time.Hour)
	d.Day(-9, "15:40")
	d.setUp("Anwen", "CN00405")
	d.Day(-6, "09:30")
	d.call("Anwen", 93, 2, PSI(1500))
	d.Day(-3, "09:40")
	d.ActFrom(inventory.Phoned, delivery.Switch{Person: d.Persons["Anwen"], To: delivery.FromCylinder, Why: "power out"})
	d.Day(-3, "11:10")
	d.ActFrom(inventory.Phoned, delivery.Switch{Person: d.Persons["Anwen"], To: delivery.FromConcentrator, Why: "power back"})
	d.call("Anwen", 92, 2, PSI(900))
	d.Day(0, "08:30")
	d.ActFrom(inventory.Phoned, delivery.Call{Person: d.Persons["Anwen"]})

	home := d.Page("Anwen").Address
	d.Day(-7, "14:00")
	d.person("Bram", "Rowe", home.Street, func(_ *delivery.Person, a *delivery.Address) { *a = home })
	d.order("Bram", 1, 2)
	d.discharge("Bram", "D-10401", 1950, "CN00406", time.Hour)
	d.Day(-7, "15:30")
	d.setUp("Bram", "CN00406")
}

// onCylinder are persons who breathe from the cylinder now.
func (d *Desk) onCylinder() {
	d.Day(-15, "12:00")
	d.person("Rhea", "Moor", "Upper Ness 2", func(_ *delivery.Person, a *delivery.Address) {
		a.Point, a.Town, a.Line = delivery.Point{Lat: 36.48, Lon: -40.41, Area: Little}, "Ness", "Ness line"
	})
	d.order("Rhea", 2, 2)
	d.discharge("Rhea", "E-20106", 1980, "CN00407", 2*time.Hour)
	d.Day(-15, "15:00")
	d.setUp("Rhea", "CN00407")
	d.Day(-1, "14:05")
	d.ActFrom(inventory.Phoned, delivery.Switch{Person: d.Persons["Rhea"], To: delivery.FromCylinder, Why: "power out"})

	d.Day(-14, "12:00")
	d.person("Odd", "Fenn", "Harbour Lane 9", func(_ *delivery.Person, a *delivery.Address) { a.Smoker, a.Line = "yes", "Harbour line" })
	d.order("Odd", 2, 3)
	d.discharge("Odd", "E-20107", 2000, "CN00408", time.Hour)
	d.Day(-14, "14:00")
	d.setUp("Odd", "CN00408")
	d.Day(-13, "10:00")
	d.Act(delivery.Visit{Person: d.Persons["Odd"], Left: []delivery.Piece{{Item: d.Things["E-20108"], Gauge: PSI(1980)}}})
	d.Day(0, "15:20")
	d.Act(delivery.Outage{Area: "Harbour line", From: d.now, Until: d.now.Add(5 * time.Hour), Cause: "storm"})
	d.ActFrom(inventory.Phoned, delivery.Switch{Person: d.Persons["Odd"], To: delivery.FromCylinder, Why: "power out"})
	d.ActFrom(inventory.Phoned, delivery.Call{Person: d.Persons["Odd"], Answered: true, Saving: true, SpO2: new(91.0), Flow: new(gas.Flow(1)), Gauge: PSI(1450)})

	d.Day(0, "12:50")
	d.person("Selma", "Quist", "Kiln Brae 1", func(_ *delivery.Person, a *delivery.Address) { a.Mains = delivery.MainsNo })
	d.order("Selma", 1, 2)
	d.discharge("Selma", "E-20109", 1900, "", 3*time.Hour)
	d.Act(delivery.Ask{Person: d.Persons["Selma"], Task: delivery.Swap, Why: "cylinders only", Bring: []delivery.Wanted{{Kind: inventory.Cylinder, Size: "US-E", Count: 2}}})

	d.Day(0, "11:00")
	d.person("Ludo", "Ash", "Rope Walk 3", nil)
	d.order("Ludo", 4, 4)
	d.discharge("Ludo", "D-10402", 1900, "CN00901", time.Hour)
}
