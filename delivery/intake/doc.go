// Package intake turns the rows of spreadsheets into persons, items, orders
// and loans. It first reads: what each column was taken for, what is clear,
// what has to be asked, what can't be read. Then the clear rows become acts,
// each with the time its own facts happened. It guesses nothing and writes
// nothing itself.
//
// Headings are found by meaning: case, accents and punctuation don't matter,
// and each has synonyms (see vocabulary.go). Several values in one cell are
// parted by comma, slash, semicolon or line break. A blank means unknown.
// Days without a time of day count from midnight; times without an offset
// are in the offset of the time of taking in. These are the headings as the
// program itself would write them.
//
// # Item list
//
// One row is one thing. A list is an item list when it has a column Serial
// and no column that names persons.
//
//	Serial           the maker's, as stamped; needed
//	Kind             cylinder, regulator, concentrator, oximeter; may be left out
//	                 when the sheet or file is named for one kind
//	Size             of a cylinder: US-E; a letter alone is of the programme's region
//	Model
//	Owner            blank or "own": the programme's
//	Rated (L/min)    most a concentrator can give
//	Hours            its hours meter
//	Oxygen (%)
//	Gauge (psi)      or (bar), (kPa), (MPa), or the unit in the cell
//	Read at          when gauge, hours and oxygen were read
//	Lot              of the fill in it
//	Filled           when; the day of the fill
//	Full (psi)       gauge after filling; blank: the size's service pressure
//	Requalify by     2027-05
//	Depot            a depot's short name; or Place: depot:NAME, ward:NAME,
//	                 vehicle:NAME, plant:NAME, workshop, missing, retired
//	Status           ready, at home, dirty, quarantine, on bench,
//	                 in repair, at plant, missing, retired, not ours
//	Since            when it came into this place and status
//	Notes
//
// # Person list
//
// One row is one person.
//
//	Record number    the hospital's; with its leading zeros
//	Family name      Given name     or Name: "Family, Given"
//	Born             2006-01-02
//	Phone            several may stand in one cell: 555-0142, 555-0177 (son Ben)
//	Street           Town           Area           Postcode
//	Latitude         Longitude      blank: by the place file, else a US postcode, only about right
//	Power line
//	Mains            mains, prepaid meter, no mains
//	Floors           to climb without a lift
//	Smoker           yes, no, asked and not told
//	Heater           Pets           Access
//	Language
//	Rest (L/min)     Exertion (L/min)     Asleep (L/min)
//	Hours a day
//	Device           cannula, mask
//	Setting          of a pulse device; never a flow
//	Ordered          when the order was given; blank: at discharge
//	Review           Prescriber
//	Ward             Discharged
//	Breathes         cylinder or concentrator
//	Since            when that began, as the concentrator was confirmed running
//	Items lent       several serials; the items are in the book or in an item
//	                 list taken in together with this one
//	Gauge (psi)      Read at        of the cylinders, in the order of Items lent
//	Hours            the concentrator's hours meter, read at the same time
//	Last call        SpO2 (%)       Flow in use (L/min)
//	Stopped          when the oxygen was stopped          Stopped by     the clinician
//	Notes
//
// # Ledger
//
// One row is one hand-over to a person, with what came back of it; the same
// person and the same thing may stand in many rows. A list is a ledger when
// it names persons and has a column Date out.
//
//	Date out         Name           Record number         Phone
//	Concentrator     Cylinder       Regulator             serials, several in a cell
//	Lot              Gauge (psi)    Flow (L/min)          Hours out
//	Date in          Hours in       Depot                 Notes
package intake
