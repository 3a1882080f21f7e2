package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/delivery/gazetteer"
	"lungwort/delivery/outline"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

var told = time.Date(2030, time.March, 5, 16, 20, 0, 0, time.FixedZone("", -3*3600))

// sentences are the words for each kind of fact. They are our own choice.
var sentences = []struct {
	states inventory.Statement
	want   string
}{
	{&delivery.Registered{}, "entered in the book"},
	{&delivery.DeskUser{Name: "Ines Vey", Role: delivery.AsOnCall}, "Ines Vey works in the book as on call"},
	{&delivery.DeskUser{Name: "Ines Vey", Role: delivery.AsOnCall, Off: true}, "Ines Vey works in the book no more"},
	{&delivery.PassphraseSet{User: "Ines Vey"}, "passphrase of Ines Vey set"},
	{&delivery.SignInSet{On: true}, "name and passphrase asked for from now on"},
	{&delivery.SignInSet{}, "name and passphrase asked for no more"},
	{&delivery.SignInFailed{User: "Ines Vey"}, "sign-in as Ines Vey failed"},
	{&delivery.SignInFailed{}, "sign-in failed under a name nobody goes by"},
	{&delivery.Settled{Address: "a00001"}, "sleeps at this address from now on"},
	{&delivery.Settled{Address: "a00002", Until: told.AddDate(0, 0, 10)}, "sleeps at another address until Fri 15 Mar"},
	{&delivery.Settled{Address: "a00002", From: told.AddDate(0, 0, 6), Until: told.AddDate(0, 0, 16)}, "sleeps at another address from Mon 11 Mar until Thu 21 Mar"},
	{&delivery.Died{ToldBy: "ward 6B", NotBefore: told.AddDate(0, 0, 7)}, "died, told by ward 6B; nobody is called before Tue 12 Mar"},
	{&delivery.Readmitted{Ward: "6B", Until: told.AddDate(0, 0, 3)}, "in hospital, ward 6B; kit held until Fri 8 Mar"},
	{&delivery.Refused{What: "backup", Why: "no room", Again: told.AddDate(0, 0, 3)}, "refused backup: no room; offer again Fri 8 Mar"},
	{&delivery.Proven{Items: []inventory.ItemID{"i000001", "i000002"}}, "delivery proven for 2 items"},
	{&delivery.CalledOff{Why: "died"}, "visit called off: died"},
	{&delivery.Merged{Into: "p00001"}, "kept under the record p00001: two records were one person"},
	{&delivery.Erased{Why: "seven years are over"}, "who this was is erased: seven years are over"},
	{&delivery.Consented{To: "home visits", Given: true}, "said yes to home visits"},
	{&delivery.Consented{To: "home visits"}, "said no to home visits"},
	{&delivery.Ordered{Rest: 2, Hours: 24}, "order: 2 L/min at rest"},
	{&delivery.Ordered{Rest: 2, Exertion: 3, Asleep: 1.5, Hours: 16, Device: "cannula", Review: told.AddDate(0, 0, 7), Prescriber: "ward 6B"},
		"order: 2 L/min at rest, 3 on exertion, 1.5 asleep, 16 h a day, cannula; review Tue 12 Mar; by ward 6B"},
	{&delivery.Ordered{Setting: "3", Hours: 24}, "order: pulse setting 3"},
	{&delivery.Ordered{Setting: "3", Bolus: 16.5, Breaths: 20, Hours: 24}, "order: pulse setting 3, 16.5 mL at 20 breaths a minute"},
	{&delivery.TripBooked{From: told, Until: told.Add(4 * time.Hour), Where: "clinic"}, "trip on the cylinder booked, Tue 5 Mar 16:20 to Tue 5 Mar 20:20: clinic"},
	{&delivery.TripOff{Trip: 7}, "trip of fact 7 is off"},
	{&delivery.TubingLaid{Metres: 30}, "30 m of tubing in the home"},
	{&delivery.Discharged{Ward: "6B", Opened: told.Add(-time.Hour), Verdict: "holds", Supplies: []inventory.Handful{{Supply: "cannula", Count: 2, Lot: "C77"}}},
		"left ward 6B; valve open 15:20; bridge holds; given 2 cannula lot C77"},
	{&delivery.Switched{To: delivery.FromCylinder, Why: "power out"}, "on the cylinder: power out"},
	{&delivery.Switched{}, "breathes no oxygen of ours"},
	{&delivery.Called{}, "called, no answer"},
	{&delivery.Called{Answered: true}, "call answered"},
	{&delivery.Called{Answered: true, SpO2: new(91.0), Flow: new(gas.Flow(4)), Worse: true, Saving: true, Band: "emergency"},
		"call: SpO2 91 % on 4 L/min, feels worse or breathless at rest, turned down to save gas, emergency band"},
	{&delivery.Called{Answered: true, Flow: new(gas.Flow(2))}, "call: flow 2 L/min"},
	{&delivery.Called{Contact: 1}, "called number 2, no answer"},
	{&delivery.Called{Answered: true, SpO2: new(94.0), Exertion: new(91.0), ExertionFlow: new(gas.Flow(3)), Problem: "tube cracked", Parts: "tube", Band: "emergency"},
		"call: SpO2 94 %, flow not told, on exertion SpO2 91 % on 3 L/min, problem: tube cracked, bring tube, emergency band"},
	{&delivery.Escalated{About: []delivery.Matter{delivery.SavingGas, delivery.AboveOrder}, Told: "Dr Holm", Reply: "new order today"},
		"Dr Holm told of saving gas, more than ordered; reply: new order today"},
	{&delivery.Banded{Bands: delivery.Bands{Target: 90, Borderline: 5, Emergency: 6}, By: "Dr Holm", Upto: 4},
		"own check-in bands up to 4 L/min: hold 90 %; tell from 5 L/min; emergency from 6 L/min or under 90 %; by Dr Holm"},
	{&delivery.Banded{Waived: true, By: "Dr Holm", Upto: 5}, "own check-in bands waived up to 5 L/min, by Dr Holm"},
	{&delivery.Tasked{Task: delivery.Swap, Why: "backup lasts 2 h, under 4 h", Due: told.Add(24 * time.Hour), Bring: []delivery.Wanted{{Kind: inventory.Cylinder, Size: "US-E", Count: 2}}},
		"task open: swap: backup lasts 2 h, under 4 h; bring 2 × oxygen cylinder US-E; due Wed 16:20"},
	{&delivery.Tasked{Task: delivery.Deliver, Why: "discharged", From: told, Until: told.Add(2 * time.Hour)},
		"task open: deliver: discharged; promised 16:20 to 18:20"},
	{&delivery.Tasked{Task: delivery.Swap, Why: "parts asked for on the phone", Parts: "cannula, 2 m"}, "task open: swap: parts asked for on the phone; parts: cannula, 2 m"},
	{&delivery.Done{Task: 7}, "task done"},
	{&delivery.Done{Task: 7, Failed: "nobody in", Next: told.Add(16 * time.Hour)}, "visit failed: nobody in; next try Wed 08:20"},
	{&delivery.Promised{Task: 7, By: told.Add(2 * time.Hour)}, "promised by 18:20"},
	{&delivery.Stopped{Reason: "recovered", OrderedBy: "clinic"}, "oxygen stopped: recovered; ordered by clinic"},
	{&delivery.PowerCut{Area: "Mill line", From: told, Until: told.Add(3 * time.Hour), Cause: "storm"}, "power out on Mill line from 16:20 to 19:20: storm"},
	{&delivery.PowerCut{By: delivery.ByLine, Area: "Mill line", From: told}, "power out on Mill line from 16:20"},
	{&delivery.PowerCut{By: delivery.ByStreet, Area: "Kelp Street, Ness", From: told}, "power out along Kelp Street, Ness from 16:20"},
	{&delivery.PowerCut{By: delivery.Everywhere, From: told}, "power out everywhere from 16:20"},
	{&delivery.PowerBack{Cut: 12}, "power back: fact 12 is over"},
	{&delivery.Called{Answered: true, Cut: 12, Found: delivery.FoundSaving, Flow: new(gas.Flow(1)), Saving: true}, "call: power out, turned down, flow 1 L/min"},
	{&delivery.Planned{Vehicle: "van 1", Departs: told.Add(time.Hour), Stops: make([]delivery.PlannedStop, 1)}, "run planned: van 1, 1 stop, leaves 17:20"},
	{&delivery.Printed{Paper: delivery.NightPack, Persons: []inventory.PersonID{"p00001", "p00002"}}, "night pack printed: 2 homes"},
	{&delivery.StoodDown{Vehicle: "van 1", From: told, Until: told.Add(4 * time.Hour), Why: "driver ill"}, "van 1 stood down until 20:20: driver ill"},
	{&delivery.Visited{}, "stop done"},
	{&delivery.Visited{Failed: "nobody in"}, "stop failed: nobody in"},
	{&delivery.Ended{}, "run closed"},
	{&delivery.Ended{Counted: &delivery.VanCount{Full: 2, Used: 3, BookFull: 3, BookUsed: 3, Why: "one stayed at the depot"}},
		"run closed; on the van 2 full and 3 used counted, the book has 3 full and 3 used: one stayed at the depot"},
	{&delivery.Decided{}, "settings put in force"},
	{&delivery.Placed{By: delivery.OnTheMap}, "place on the map set"},
	{&delivery.Placed{By: delivery.ByTyping, Rough: true}, "place on the map typed, only about right"},
	{&delivery.Placed{By: delivery.ByPlaceFile, Rough: true}, "place on the map taken from the place file, only about right"},
	{&delivery.Placed{By: delivery.ByPostcode, Rough: true}, "place on the map taken from the postcode, only about right"},
	{&delivery.PlacesListed{File: "places.csv", Places: make([]gazetteer.Place, 3)}, "place file taken in: 3 places of places.csv"},
	{&delivery.RidesListed{File: "rides.csv", Rides: make([][4]int, 1)}, "file of rides taken in: 1 ride of rides.csv"},
	{&delivery.Charted{File: "isles.geojson", Outline: outline.Outline{Towns: make([]outline.Town, 2)}}, "map drawn from isles.geojson: 2 points"},
	{&delivery.Answered{Answer: "q00001"}, "question about a list answered"},
	{&delivery.TookIn{First: 7, Rows: 12, Things: 9, Persons: 6, Facts: 80}, "list taken in: 12 rows, with 9 new things, 6 new persons and 80 facts"},
	{&delivery.TookIn{First: 7, Rows: 1, Changed: 2}, "list taken in: 1 row, with 0 new things, 0 new persons and 0 facts; 2 changed"},
	{&delivery.Amended{What: []string{"phone", "street"}}, "put right: phone, street"},

	{&inventory.Lent{Role: inventory.Backup, Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}, With: []string{"key", "stand"}}, "handed over as backup: oxygen cylinder US-E, with key, stand"},
	{&inventory.Mended{Did: "compressor", By: "Isle Works", Cost: 140, Board: true}, "repaired by Isle Works: compressor; hours count anew, cost 140.00"},
	{&inventory.Maintained{What: "inner filter"}, "maintained: inner filter"},
	{&delivery.Happening{What: "smoking seen", ToldBy: "neighbour", Kept: make([]delivery.Frozen, 1)}, "incident: smoking seen, told by neighbour; kept as it was: 1 thing"},
	{&inventory.Supplied{Handful: inventory.Handful{Supply: "cannula", Count: 40, Lot: "C77"}, To: "depot:harbour", From: "Isles Medical", Expires: "2031-01-31"},
		"40 cannula lot C77 received at depot harbour from Isles Medical, expires 2031-01-31"},
	{&inventory.SupplyCounted{Supply: "cannula", At: "ward:6B", Lots: []inventory.Handful{{Count: 18, Lot: "C77"}, {Count: 2}}}, "counted at ward 6B: 18 cannula lot C77, 2 cannula"},
	{&inventory.SupplyCounted{Supply: "cannula", At: "ward:6B"}, "counted at ward 6B: no cannula"},
	{&inventory.SupplyMoved{Handful: inventory.Handful{Supply: "cannula", Count: 12, Lot: "C77"}, From: "depot:harbour", To: "ward:6B"}, "12 cannula lot C77 moved from depot harbour to ward 6B"},
	{&inventory.SupplyMoved{Handful: inventory.Handful{Supply: "cannula", Count: 3}, From: "ward:6B", To: "retired", Why: "wet"}, "3 cannula thrown away: wet"},
	{&inventory.Given{Of: []inventory.Handful{{Supply: "cannula", Count: 1, Lot: "C77"}}, From: "depot:harbour"}, "given 1 cannula lot C77 from depot harbour"},
	{&inventory.SupplyRecalled{Supply: "cannula", Lot: "C77", Notice: "Q-9"}, "lot C77 of cannula is named by recall Q-9"},
	{&inventory.Described{Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: 5, Model: "Breeze 5", Serial: "CN1"}}, "described anew: concentrator to 5 L/min Breeze 5 CN1, owner the programme"},
	{&inventory.Enrolled{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}}, "entered in the book: oxygen cylinder US-E"},
	{&inventory.Enrolled{}, "entered in the book: unknown thing"},
	{&inventory.Moved{To: "vehicle:van 1"}, "moved to van 1"},
	{&inventory.Moved{To: "missing"}, "moved to missing"},
	{&inventory.Moved{To: "depot:harbour"}, "moved to depot harbour"},
	{&inventory.Observed{Gauge: new(gas.PSI(1400)), Told: true}, "gauge 1,400 psi, told"},
	{&inventory.Observed{Gauge: new(gas.PSI(1705)), Temperature: new(gas.Celsius(-10))}, "gauge 1,705 psi at -10 °C"},
	{&inventory.Observed{Hours: new(1204.4), Oxygen: new(94.0), Flow: new(gas.Flow(5)), Warm: 20 * time.Minute},
		"hours meter 1204, oxygen 94.0 %, flow 5 L/min, after running 20 min"},
	{&inventory.Filled{Lot: "L2409A", Full: gas.PSI(2000), Plant: "works"}, "filled to 2,000 psi, lot L2409A, by works"},
	{&inventory.Filled{Lot: "L2409A"}, "filled, lot L2409A"},
	{&inventory.Reserved{}, "set aside"},
	{&inventory.Freed{}, "no longer set aside"},
	{&inventory.Lent{Role: inventory.Bridging, Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-D"}}, "handed over as bridge: oxygen cylinder US-D"},
	{&inventory.LeftAt{At: "ward:6B"}, "left at ward 6B, to be fetched"},
	{&inventory.Carried{To: "address:a00002"}, "went along to another address"},
	{&inventory.Handed{Role: inventory.Backup}, "the loan goes on under this record as backup"},
	{&inventory.Serving{As: inventory.NotNeeded}, "counts as not needed"},
	{&inventory.Collected{Vehicle: "van 2"}, "collected by van 2"},
	{&inventory.Collected{Vehicle: "unknown"}, "collected outside a run"},
	{&inventory.Returned{Depot: "harbour", Soiled: true, Lacks: []string{"key", "washer"}}, "back in the dirty bay, depot harbour, soiled, without key, washer"},
	{&inventory.Benched{}, "put on the bench"},
	{&inventory.Tested{Passed: true}, "passed its test"},
	{&inventory.Tested{Detail: "oxygen 78.0 %, under 82 %"}, "failed its test: oxygen 78.0 %, under 82 %"},
	{&inventory.Cleared{Depot: "harbour"}, "ready to lend, depot harbour"},
	{&inventory.Quarantined{Why: "smells of smoke"}, "kept from being lent: smells of smoke"},
	{&inventory.Filled{Lot: "L1", Made: told}, "filled, lot L1, on Tue 5 Mar 2030"},
	{&inventory.Moved{To: "retired", Why: "stays with Gas works: exchanged by count"}, "moved to retired: stays with Gas works: exchanged by count"},
	{&inventory.Moved{To: "missing", Why: "moved away", Worth: 640}, "moved to missing: moved away, worth 640"},
	{&inventory.Returned{Depot: "harbour", Found: "behind the lift"}, "back in the dirty bay, depot harbour, was found behind the lift"},
	{&delivery.Chased{Step: "letter", Reply: "will look"}, "asked for what is not needed (letter): will look"},
	{&inventory.Sighted{At: "depot:harbour"}, "in hand at a count of depot harbour"},
	{&inventory.Stocktaken{Place: "depot:harbour", Seen: 4, Different: make([]inventory.Exception, 1)}, "count of depot harbour: 4 seen, 1 difference"},
	{&inventory.Stamped{Stamp: "06-21", Shell: "3AL", Due: "2026-06"}, "stamp 06-21 on 3AL: requalify by the end of 2026-06"},
	{&inventory.Stamped{Stamp: "06-21", Shell: "4L"}, "stamp 06-21 on 4L: no requalification is required"},
	{&inventory.Tested{Passed: true, Steps: []string{"leak", "zero"}}, "passed its test of leak, zero"},
	{&inventory.OwnerTold{Owner: "Gas works", How: "phone", What: "soiled"}, "Gas works was told by phone: soiled"},
	{&inventory.Exchanged{Plant: "works", Out: []inventory.Counted{{Size: "US-E", Count: 2}}, In: []inventory.Counted{{Size: "US-E", Count: 1}}, Exceptions: make([]inventory.Exception, 1)},
		"exchange with works: 2 out, 1 in, signed with 1 exception"},
	{&delivery.Noticed{Notice: "2030-07", How: "letter"}, "told of recall 2030-07 by letter"},
	{&delivery.Replied{Notice: "2030-07"}, "replied to recall 2030-07: it is not there"},
	{&delivery.Replied{Notice: "2030-07", Has: true, Rests: true}, "replied to recall 2030-07: it is there and not used any more"},
	{&delivery.Replied{Notice: "2030-07", Has: true}, "replied to recall 2030-07: it is there and in use"},
	{&inventory.Recalled{Notice: "2030-07"}, "named by recall 2030-07"},
	{&inventory.Catalogued{GTIN: "09521234543213", Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: 5, Model: "Still 5"}},
		"product 09521234543213 is concentrator to 5 L/min Still 5"},
	{&inventory.Labelled{Copies: 1}, "label printed"},
	{&inventory.Labelled{Stock: "Roll, 62 × 29 mm", Copies: 2}, "label printed, 2 copies, on Roll, 62 × 29 mm"},
	{&inventory.Resolved{Question: "hours-down-12", Choice: "new board", Why: "repair slip of Monday"}, "question answered: new board: repair slip of Monday"},
	{&inventory.Retracted{Why: "a zero was lost"}, "fact 12 taken back: a zero was lost"},
}

func TestSentence(t *testing.T) {
	for _, tc := range sentences {
		f := inventory.Fact{Happened: told, Corrects: 12, Statement: tc.states}
		assert.Equal(t, tc.want, delivery.Sentence(f), "%s %+v", tc.states.Says(), tc.states)
	}
}

// TestEveryStatementHasASentence holds the table above to the vocabulary, so
// that a new kind of fact can't be shown by its bare name.
func TestEveryStatementHasASentence(t *testing.T) {
	covered := map[string]bool{}
	for _, tc := range sentences {
		covered[tc.states.Says()] = true
	}
	for name := range delivery.Words() {
		assert.True(t, covered[name], "statement %q has no sentence in the table", name)
	}
}
