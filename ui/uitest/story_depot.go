package uitest

import (
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
)

// shelves puts items into every state a shelf can have.
func (d *Desk) shelves() {
	at := d.Things
	d.Day(-5, "10:00")
	d.Act(delivery.Move{Item: at["E-20113"], To: inventory.At(inventory.AtPlant, "works")})
	d.Act(delivery.Move{Item: at["CN00902"], To: inventory.At(inventory.AtWorkshop, "")})
	d.Act(delivery.Move{Item: at["OX-7704"], To: inventory.At(inventory.AtMissing, "")})
	d.Act(delivery.Move{Item: at["RG-3304"], To: inventory.At(inventory.AtRetired, "")})
	d.Act(delivery.Move{Item: at["E-20114"], To: inventory.At(inventory.AtWard, "6B")})
	d.Day(-4, "16:00")
	d.Act(delivery.Quarantine{Item: at["CN00409"], Why: "smells of smoke"})
	d.Day(-3, "16:10")
	d.Act(delivery.Quarantine{Item: at["CN00410"], Why: "filter torn"})
	d.Act(delivery.Bench{Item: at["CN00410"]})
	d.Day(-2, "16:10")
	d.Act(delivery.Quarantine{Item: at["E-20115"], Why: "valve stiff"})
	d.Act(delivery.Bench{Item: at["E-20115"]})
	d.Act(delivery.Stray{Serial: "ZX 9981", Depot: "harbour", Owner: "Other supplier"})
	d.Act(delivery.Recall{Notice: "2030-07", Items: []inventory.ItemID{at["RG-3303"], at["E-20106"]}})
	d.Day(0, "08:10")
	d.Act(delivery.Return{Item: at["E-20110"], Depot: "harbour", Gauge: PSI(700)})
}

// borrowed is a cylinder a person had for a day and gave back.
func (d *Desk) borrowed(given, serial string, before, after float64) {
	d.t.Helper()
	who, id := d.Persons[given], d.Things[serial]
	d.Act(delivery.Visit{Person: who, Left: []delivery.Piece{{Item: id, Gauge: PSI(before)}}})
	d.Act(delivery.Visit{Person: who, Took: []delivery.Taken{{Item: id, Gauge: PSI(after)}}})
}

// bridges are persons on the way home, and the van that is out for them.
func (d *Desk) bridges() {
	d.Day(0, "15:10")
	d.person("Tobin", "Kestrel", "Slip House 3", nil)
	d.order("Tobin", 2, 2)
	d.discharge("Tobin", "E-20111", 1900, "CN00903", 2*time.Hour)
	d.Day(0, "15:50")
	d.person("Ines", "Abara", "Gull Row 14", nil)
	d.order("Ines", 4, 4)
	d.discharge("Ines", "D-10403", 1400, "", 2*time.Hour)
	d.Act(delivery.Ask{Person: d.Persons["Ines"], Task: delivery.Deliver, Why: "discharged", Bring: []delivery.Wanted{{Kind: inventory.Concentrator, Rated: 5, Count: 1}}})
	out := d.Act(delivery.PlanRuns{Runs: []delivery.RunPlan{{Planned: delivery.Planned{
		Vehicle: "van 1", Driver: "Esk", Day: Now.Format("2006-01-02"), Metres: 14200,
		Departs: d.now.Add(20 * time.Minute), Back: d.now.Add(3 * time.Hour),
		Stops: []delivery.PlannedStop{d.stop("Tobin", 70), d.stop("Anwen", 95), d.stop("Ines", 120)},
	}}}})
	d.Run = out.Facts[0].Run
}

func (d *Desk) stop(given string, minutes int) delivery.PlannedStop {
	care := d.Page(given).Care
	s := delivery.PlannedStop{
		Address: care.Address, Persons: []inventory.PersonID{care.Person},
		Arrive: d.now.Add(time.Duration(minutes) * time.Minute), Leave: d.now.Add(time.Duration(minutes+15) * time.Minute),
	}
	for _, t := range care.Tasks {
		s.Tasks = append(s.Tasks, t.ID)
	}
	return s
}

// waiting are persons in the book without oxygen yet.
func (d *Desk) waiting() {
	d.Day(0, "15:55")
	d.person("Nia", "Lund", "Shore Road 8", nil)
	d.order("Nia", 2, 3)
	d.person("Cai", "Ferro", "", nil)
}

// correction is a gauge told wrong and taken back.
func (d *Desk) correction() {
	d.Day(-2, "09:00")
	wrong := d.ActFrom(inventory.Phoned, delivery.Read{Item: d.Things["E-20101"], Gauge: PSI(190), Told: true}).Facts
	d.Day(-2, "09:05")
	for _, f := range wrong { // the reading, and the backup task it opened
		d.Act(delivery.Retract{Fact: f.ID, Why: "a zero was lost on the phone"})
	}
	d.Day(-2, "09:06")
	d.ActFrom(inventory.Phoned, delivery.Read{Item: d.Things["E-20101"], Gauge: PSI(1900), Told: true})
}
