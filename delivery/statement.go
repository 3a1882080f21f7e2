package delivery

import (
	"time"

	"lungwort/delivery/gazetteer"
	"lungwort/delivery/outline"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// Task is what a visit is for.
type Task string

// The tasks of a visit.
const (
	Deliver Task = "deliver" // bring and start the kit
	Swap    Task = "swap"    // bring full, take what is used
	Collect Task = "collect" // take home what is not needed
)

// NightPack names the printed state of every household.
const NightPack = "night pack"

// Breathes is what a person breathes from.
type Breathes string

// What a person can breathe from.
const (
	FromCylinder     Breathes = "cylinder"
	FromConcentrator Breathes = "concentrator"
	FromNothing      Breathes = "" // no oxygen of ours
)

// The statements about persons and runs.
type (
	// Registered brings a person into the book.
	Registered struct{}
	// Settled says where a person sleeps from now on.
	Settled struct {
		Address inventory.AddressID `json:"address"`
		Until   time.Time           `json:"until,omitzero"` // a stay; zero: for good
		// Of a stay entered before it begins: when it does, what is to come along
		// and who moves it.
		From  time.Time          `json:"from,omitzero"`
		Along []inventory.ItemID `json:"along,omitempty"`
		Mover string             `json:"mover,omitempty"`
	}
	// Amended says that who a person is, or what the home is like, was put right
	// in the book: which particulars, and not what they were.
	Amended struct {
		What []string `json:"what"`
	}
	// Died ends everything but one contact, from a day on.
	Died struct {
		ToldBy    string    `json:"told_by"`
		NotBefore time.Time `json:"not_before"`
	}
	// Readmitted holds what is at home while the person is in hospital.
	Readmitted struct {
		Ward  string    `json:"ward"`
		Until time.Time `json:"until"`
	}
	// Proven says that a valid proof of delivery is on file for things on loan.
	Proven struct {
		Items []inventory.ItemID `json:"items"`
	}
	// Refused is what a person did not want.
	Refused struct {
		What  string    `json:"what"`
		Why   string    `json:"why"`
		Again time.Time `json:"again,omitzero"`
	}
	// CalledOff takes a person off a run.
	CalledOff struct {
		Why string `json:"why"`
	}
	// Merged says that the person is kept under another record: two records
	// were one person.
	Merged struct {
		Into inventory.PersonID `json:"into"`
	}
	// Erased says that who the person was is not kept any more.
	Erased struct {
		Why string `json:"why"`
	}
	// Consented records an answer to a question of consent.
	Consented struct {
		To    string `json:"to"`
		Given bool   `json:"given"`
	}
	// Ordered is a prescription. It replaces the whole order before it.
	Ordered struct {
		Rest     gas.Flow `json:"rest"`
		Exertion gas.Flow `json:"exertion,omitempty"`
		Asleep   gas.Flow `json:"asleep,omitempty"`
		Hours    float64  `json:"hours"` // a day
		Device   string   `json:"device,omitempty"`
		Setting  string   `json:"setting,omitempty"` // of a pulse device; never a flow
		// Bolus and Breaths are the pulse device's at this setting and the
		// person's, without which its use can't be foretold.
		Bolus      gas.Millilitres `json:"bolus,omitempty"`
		Breaths    float64         `json:"breaths,omitempty"` // a minute
		Review     time.Time       `json:"review,omitzero"`   // when "still needed?" goes to the clinician
		Prescriber string          `json:"prescriber,omitempty"`
		Names      string          `json:"names,omitempty"` // equipment it names, comma between; empty: it says nothing of it
	}
	// Discharged starts the bridge: the valve was opened on the ward.
	Discharged struct {
		Ward     string              `json:"ward"`
		Opened   time.Time           `json:"opened"` // the valve
		Leaves   time.Time           `json:"leaves"`
		Supplies []inventory.Handful `json:"supplies,omitempty"`
		From     inventory.Place     `json:"from,omitempty"` // where the supplies were taken from
		Verdict  string              `json:"verdict"`        // of the bridge, as it was answered
	}
	// Switched says what the person breathes from now on, and why.
	Switched struct {
		To  Breathes `json:"to"`
		Why string   `json:"why,omitempty"`
	}
	// Called is a call made or taken, with what was heard.
	Called struct {
		Answered bool      `json:"answered"`
		SpO2     *float64  `json:"spo2,omitempty"` // percent
		Flow     *gas.Flow `json:"flow,omitempty"` // the flow in use then
		Worse    bool      `json:"worse,omitempty"`
		Saving   bool      `json:"saving,omitempty"` // turned it down to save gas
		Band     string    `json:"band,omitempty"`   // the check-in band it falls in
		// Cut is the power cut the call was about, and Found how the home
		// stood then.
		Cut   inventory.FactID `json:"cut,omitempty"`
		Found Found            `json:"found,omitempty"`

		Exertion     *float64  `json:"exertion,omitempty"` // SpO2 on exertion, percent; SpO2 and Flow are those at rest
		ExertionFlow *gas.Flow `json:"exertion_flow,omitempty"`
		Problem      string    `json:"problem,omitempty"`
		Parts        string    `json:"parts,omitempty"`   // to bring
		Next         time.Time `json:"next,omitzero"`     // the call agreed
		Contact      int       `json:"contact,omitempty"` // which of the person's numbers was called: 0 is the first
	}
	// Escalated says that somebody was told of what stood open for a person.
	Escalated struct {
		About []Matter `json:"about"`
		Told  string   `json:"told"`
		Reply string   `json:"reply,omitempty"`
	}
	// Banded are the check-in bands a clinician gave for one person, or waived.
	// They hold up to the highest flow ordered when they were given.
	Banded struct {
		Bands
		By     string   `json:"by"`
		Waived bool     `json:"waived,omitempty"`
		Upto   gas.Flow `json:"upto"`
	}
	// Tasked opens a task for a person.
	Tasked struct {
		Task   Task      `json:"task"`
		Why    string    `json:"why"`
		From   time.Time `json:"from,omitzero"` // window
		Until  time.Time `json:"until,omitzero"`
		Due    time.Time `json:"due,omitzero"` // fixed act-by, for a backup task
		Bring  []Wanted  `json:"bring,omitempty"`
		Backup bool      `json:"backup,omitempty"`
		Parts  string    `json:"parts,omitempty"` // small things to bring: cannula, key, filter
		// Fetch is the home from which things are brought along. Where that is goes
		// with the address when the person is erased, so it is not written here.
		Fetch inventory.AddressID `json:"fetch,omitempty"`
	}
	// Done closes a task, or says why it could not be done.
	Done struct {
		Task   inventory.FactID `json:"task"`
		Failed string           `json:"failed,omitempty"`
		Next   time.Time        `json:"next,omitzero"` // of the next try
	}
	// Promised says by when a vehicle was promised for a task.
	Promised struct {
		Task inventory.FactID `json:"task"`
		By   time.Time        `json:"by"`
	}
	// Stopped ends the need for oxygen; it names who ordered that.
	Stopped struct {
		Reason    string `json:"reason"`
		OrderedBy string `json:"ordered_by"`
	}
	// PowerCut says that power is, or will be, out in a zone.
	PowerCut struct {
		ID    inventory.FactID      `json:"-"` // of the fact, once it is in the book
		By    ZoneKind              `json:"by,omitempty"`
		Area  string                `json:"area"`            // the name of the zone
		Homes []inventory.AddressID `json:"homes,omitempty"` // the addresses themselves, where an area was drawn
		From  time.Time             `json:"from"`
		Until time.Time             `json:"until,omitzero"`
		Cause string                `json:"cause,omitempty"`
	}
	// PowerBack ends a power cut when it happened; one that was announced and
	// is called off, before it began.
	PowerBack struct {
		Cut inventory.FactID `json:"cut"`
	}
	// Planned is a run as it was decided; a new plan of the same run
	// replaces what is not yet done of the old one.
	Planned struct {
		Vehicle string        `json:"vehicle"`
		Driver  string        `json:"driver,omitempty"`
		Day     string        `json:"day"` // 2006-01-02
		Departs time.Time     `json:"departs"`
		Back    time.Time     `json:"back"`
		Stops   []PlannedStop `json:"stops"`
		Metres  int64         `json:"metres"`
		Rests   []Rest        `json:"rests,omitempty"`
	}
	// StoodDown says that a vehicle makes no runs for a while: the driver
	// is ill, the van has broken down.
	StoodDown struct {
		Vehicle string    `json:"vehicle"`
		From    time.Time `json:"from"`
		Until   time.Time `json:"until"`
		Why     string    `json:"why"`
	}
	// Printed says that a paper about the whole programme was printed, and whom
	// it names under the numbers from 1.
	Printed struct {
		Paper   string               `json:"paper"`
		Persons []inventory.PersonID `json:"persons,omitempty"`
	}
	// Visited closes one stop of a run.
	Visited struct {
		Address inventory.AddressID `json:"address"`
		Failed  string              `json:"failed,omitempty"`
		Left    []inventory.ItemID  `json:"left,omitempty"`
		Took    []inventory.ItemID  `json:"took,omitempty"`
	}
	// Ended closes a run, with what was counted on the van.
	Ended struct {
		Counted *VanCount `json:"counted,omitempty"`
	}
	// VanCount is the cylinders counted on a van that is back, beside what the
	// book has there, and why they differ.
	VanCount struct {
		Full     int    `json:"full"`
		Used     int    `json:"used"`
		BookFull int    `json:"book_full"`
		BookUsed int    `json:"book_used"`
		Why      string `json:"why,omitempty"`
	}
	// TookIn closes a take-in: it wrote every fact from First on to this one.
	TookIn struct {
		First   inventory.FactID `json:"first"`
		Rows    int              `json:"rows"`
		Things  int              `json:"things"`
		Persons int              `json:"persons"`
		Facts   int              `json:"facts"`
		Changed int              `json:"changed,omitempty"` // known things and persons
	}
	// Answered keeps an answer to a question that a list raised.
	Answered struct {
		Answer AnswerID `json:"answer"`
	}
	// Placed says where the place of an address comes from. The place itself
	// is kept with the address, which can be erased.
	Placed struct {
		Address inventory.AddressID `json:"address"`
		By      PlacedBy            `json:"by"`
		Rough   bool                `json:"rough,omitempty"` // nobody confirmed it
	}
	// PlacesListed keeps the places of a programme's place file. They are named
	// by nobody who lives there.
	PlacesListed struct {
		File   string            `json:"file"` // its name alone
		Places []gazetteer.Place `json:"places"`
	}
	// RidesListed keeps the travel times of a file of rides.
	RidesListed struct {
		File   string   `json:"file"`   // its name alone
		Places []string `json:"places"` // site:NAME, home:ID or at:LAT,LON
		Rides  [][4]int `json:"rides"`  // from and to among the places, seconds, metres
	}
	// Charted puts the outline maps are drawn from in force.
	Charted struct {
		File    string          `json:"file"` // its name alone
		Outline outline.Outline `json:"outline"`
	}
	// Decided is an answer to a question of the program or a setting.
	Decided struct {
		Programme Programme `json:"programme"`
	}
)

// Wanted is one line of what a task brings.
type Wanted struct {
	Kind  inventory.Kind `json:"kind"`
	Size  gas.SizeCode   `json:"size,omitempty"`
	Rated gas.Flow       `json:"rated,omitempty"` // at least
	Count int            `json:"count"`
}

// PlannedStop is one address on a run with its tasks.
type PlannedStop struct {
	Address inventory.AddressID  `json:"address"`
	Persons []inventory.PersonID `json:"persons"`
	Tasks   []inventory.FactID   `json:"tasks"`
	Arrive  time.Time            `json:"arrive"`
	Leave   time.Time            `json:"leave"`
	ActBy   time.Time            `json:"act_by,omitzero"`
	Late    time.Duration        `json:"late,omitempty"`   // past act-by
	Locked  bool                 `json:"locked,omitempty"` // to its vehicle, by a person
}
