package intake

import "lungwort/inventory/sheet"

var (
	pressures = []string{"psi", "psig", "bar", "kPa", "MPa"}
	flows     = []string{"L/min", "lpm", "mL/min", "mL"}
	hours     = []string{"h", "hours"}
)

// things is what the columns of an item list can mean.
var things = []sheet.Heading{
	{Key: "serial", Synonyms: []string{"serial number", "serial no", "ser no", "sn", "s/n"}},
	{Key: "kind", Synonyms: []string{"type", "category", "item", "equipment", "device type"}},
	{Key: "size", Synonyms: []string{"cylinder size", "tank size"}},
	{Key: "model", Synonyms: []string{"make and model", "make", "model no"}},
	{Key: "owner", Synonyms: []string{"own/rent", "owned by", "supplier", "owner/supplier", "rented from"}},
	{Key: "rated", Synonyms: []string{"rated flow", "max flow", "flow max", "lpm max", "max lpm", "rated lpm", "capacity"}, Units: flows},
	{Key: "hours", Synonyms: []string{"hrs", "hours meter", "hour meter", "meter", "meter hours", "run hours"}, Units: hours},
	{Key: "oxygen", Synonyms: []string{"o2", "o2 %", "oxygen %", "purity", "o2 percent"}, Units: []string{"%", "percent"}},
	{Key: "gauge", Synonyms: []string{"psi", "pressure", "gauge pressure", "gauge reading", "reading"}, Units: pressures},
	{Key: "read at", Synonyms: []string{"read", "gauge read", "gauge time", "gauge date", "date read", "read on", "checked at", "last reading"}},
	{Key: "lot", Synonyms: []string{"lot no", "lot number", "batch", "batch no", "fill lot"}},
	{Key: "filled", Synonyms: []string{"fill date", "fill dt", "date filled", "filled on", "filled at"}},
	{Key: "full", Synonyms: []string{"full pressure", "filled to"}, Units: pressures},
	{Key: "requalify by", Synonyms: []string{"hydro", "hydro due", "requalification", "requalification month", "requal", "retest", "retest due", "test due"}},
	{Key: "place", Synonyms: []string{"location", "loc", "where", "site", "bay"}},
	{Key: "depot", Synonyms: []string{"depot bay", "store"}},
	{Key: "status", Synonyms: []string{"state", "full/mt", "condition"}},
	{Key: "since", Synonyms: []string{"status since", "as of", "date"}},
	{Key: "notes", Synonyms: []string{"note", "comments", "comment", "remarks"}},
	{Key: notTaken}, {Key: marks},
}

// people is what the columns of a person list or a ledger can mean.
var people = []sheet.Heading{
	{Key: "record", Synonyms: []string{"record number", "record no", "mrn", "medical record number", "hospital number", "patient id", "pt id"}},
	{Key: "family", Synonyms: []string{"family name", "surname", "last name"}},
	{Key: "given", Synonyms: []string{"given name", "first name", "forename", "given names"}},
	{Key: "name", Synonyms: []string{"patient", "pt", "pt name", "patient name", "person", "full name", "client"}},
	{Key: "born", Synonyms: []string{"dob", "date of birth", "birth date", "birthdate"}},
	{Key: "phone", Synonyms: []string{"phones", "ph", "ph1", "phone 1", "tel", "telephone", "mobile", "home phone"}},
	{Key: "phone 2", Synonyms: []string{"ph2", "other phone", "other phones", "second phone", "tel 2", "contact phone", "mobile phone"}},
	{Key: "street", Synonyms: []string{"address", "addr", "street address", "home address"}},
	{Key: "town", Synonyms: []string{"city", "village", "place"}},
	{Key: "postcode", Synonyms: postcodeWords},
	{Key: "area", Synonyms: []string{"island", "district", "zone", "region"}},
	{Key: "latitude", Synonyms: []string{"lat"}},
	{Key: "longitude", Synonyms: []string{"lon", "long", "lng"}},
	{Key: "power line", Synonyms: []string{"line", "feeder", "power feeder"}},
	{Key: "mains", Synonyms: []string{"mains power", "power", "electricity"}},
	{Key: "floors", Synonyms: []string{"stairs", "floors to climb", "floor", "flights"}},
	{Key: "smoker", Synonyms: []string{"smokes", "smoking", "smokers"}},
	{Key: "heater", Synonyms: []string{"heating", "open fire"}},
	{Key: "pets", Synonyms: []string{"pet", "dog"}},
	{Key: "access", Synonyms: []string{"gate code", "directions"}},
	{Key: "language", Synonyms: []string{"lang", "speaks"}},
	{Key: "rest", Synonyms: []string{"flow at rest", "flow", "lpm", "ordered flow", "rest flow", "o2 flow", "prescribed flow", "ox"}, Units: flows},
	{Key: "exertion", Synonyms: []string{"flow on exertion", "exercise", "activity", "exertion flow"}, Units: flows},
	{Key: "asleep", Synonyms: []string{"flow asleep", "sleep", "night", "asleep flow"}, Units: flows},
	{Key: "hours a day", Synonyms: []string{"hours per day", "hrs/day", "h/day", "hours/day", "hrs a day", "daily hours"}},
	{Key: "device", Synonyms: []string{"interface", "delivery device"}},
	{Key: "setting", Synonyms: []string{"pulse setting", "conserver setting"}},
	{Key: "ordered", Synonyms: []string{"order date", "ordered on", "ordered at", "prescribed"}},
	{Key: "review", Synonyms: []string{"review date", "review due", "reassess", "still needed"}},
	{Key: "prescriber", Synonyms: []string{"ordered by", "prescribed by", "clinician", "doctor"}},
	{Key: "ward", Synonyms: []string{"unit", "from ward", "discharged from"}},
	{Key: "out", Synonyms: []string{"discharged", "discharged at", "discharge date", "d/c date", "dc date", "discharge"}},
	{Key: "date out", Synonyms: []string{"out", "handed out", "issued", "date issued", "loan date", "date lent"}},
	{Key: "breathes", Synonyms: []string{"breathes from", "source", "oxygen on", "on"}},
	{Key: "since", Synonyms: []string{"running since", "breathes since", "concentrator since", "set up"}},
	{Key: "items", Synonyms: []string{"items lent", "serials", "serial", "serial number", "kit", "equipment", "lent", "on loan"}},
	{Key: "concentrator", Synonyms: []string{"conc", "conc no", "concentrator no", "concentrator serial", "machine"}},
	{Key: "cylinder", Synonyms: []string{"cylinders", "tank", "tanks", "tank no", "cylinder no", "cyl", "cyl no", "cylinder serial"}},
	{Key: "regulator", Synonyms: []string{"reg", "reg no", "regulator no", "regulator serial"}},
	{Key: "oximeter", Synonyms: []string{"oximeter no", "oximeter serial", "pulse oximeter"}},
	{Key: "kind", Synonyms: []string{"type", "kind of item"}},
	{Key: "size", Synonyms: []string{"cylinder size", "tank size"}},
	{Key: "lot", Synonyms: []string{"lot no", "lot number", "batch", "batch no", "fill lot"}},
	{Key: "gauge", Synonyms: []string{"psi", "pressure", "gauge pressure", "gauge reading"}, Units: pressures},
	{Key: "read at", Synonyms: []string{"read", "gauge read", "gauge time", "gauge date", "date read", "read on"}},
	{Key: "hours", Synonyms: []string{"hrs out", "hours out", "hours meter", "meter out"}, Units: hours},
	{Key: "date in", Synonyms: []string{"in", "returned", "date returned", "back"}},
	{Key: "hours in", Synonyms: []string{"hrs in", "meter in"}, Units: hours},
	{Key: "depot", Synonyms: []string{"returned to", "depot in"}},
	{Key: "last call", Synonyms: []string{"called", "last called", "last contact"}},
	{Key: "spo2", Synonyms: []string{"saturation", "sat", "sats", "spo2 %"}, Units: []string{"%", "percent"}},
	{Key: "flow in use", Synonyms: []string{"flow used", "observed flow", "flow now"}, Units: flows},
	{Key: "stopped", Synonyms: []string{"oxygen stopped", "stop date", "ended"}},
	{Key: "stopped by", Synonyms: []string{"stop ordered by"}},
	{Key: "by", Synonyms: []string{"handed out by", "staff"}},
	{Key: "notes", Synonyms: []string{"note", "comments", "comment", "remarks"}},
	{Key: notTaken}, {Key: marks},
}

// notTaken heads the column of reasons in a sheet of rows that were not taken
// in; when the mended sheet comes back, the column says nothing.
const notTaken = "not taken in because"

// marks heads the column of marks in a sheet of ours.
const marks = "lungwort mark"

// means says in words what a column was taken for.
var means = map[string]string{
	"serial": "the maker's serial", "kind": "what sort of thing it is", "size": "size of a cylinder",
	"owner": "whose it is", "rated": "most a concentrator can give", "hours": "hours meter", "oxygen": "oxygen, percent",
	"gauge": "gauge pressure", "read at": "when it was read", "lot": "lot of the fill", "filled": "when it was filled",
	"full": "gauge after filling", "requalify by": "month of requalification", "place": "where it is",
	"depot": "depot", "status": "what can be done with it", "since": "since when that is so",
	"record": "the hospital's record number", "name": "name, family and given", "born": "date of birth",
	"phone": "phone numbers", "phone 2": "more phone numbers", "floors": "floors to climb without a lift",
	"rest": "ordered flow at rest", "exertion": "ordered flow on exertion", "asleep": "ordered flow asleep",
	"hours a day": "ordered hours a day", "setting": "setting of a pulse device, not a flow",
	"ordered": "when the order was given", "review": "when “still needed?” goes to the clinician",
	"out": "when discharged", "date out": "when the things were handed out", "breathes": "what the person breathes from",
	"items": "serials of the things lent", "concentrator": "serials of concentrators", "cylinder": "serials of cylinders",
	"regulator": "serials of regulators", "oximeter": "serials of oximeters", "date in": "when the things came back",
	"hours in": "hours meter at return", "last call": "when last called", "spo2": "saturation, percent",
	"flow in use": "flow heard of in use", "stopped": "when the oxygen was stopped", "stopped by": "who ordered the stop",
	"by": "who handed it out", notTaken: "why it stayed out before", marks: "what the row was when it was given out",
}

// dated are the keys of columns that hold days of the past, whose order of
// day and month is decided for the whole file.
var dated = []string{"born", "ordered", "out", "date out", "date in", "since", "read at", "filled", "last call", "stopped"}
