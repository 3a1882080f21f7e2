package delivery

import (
	"slices"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/wall"
)

// Contact is somebody the programme calls, with the number.
type Contact struct {
	Name  string `json:"name"`
	Role  string `json:"role,omitempty"`
	Phone string `json:"phone"`
}

// Duty is one turn of the on-call rota.
type Duty struct {
	Contact
	From  time.Time `json:"from"`
	Until time.Time `json:"until"`
}

// Site is a place of the programme: depot, ward, filling plant, workshop.
type Site struct {
	Name  string `json:"name"` // short and unique; places refer to it
	Title string `json:"title"`
	Phone string `json:"phone,omitempty"`
	Point Point  `json:"point"`
}

// Vehicle is what a run is driven with.
type Vehicle struct {
	Name      string   `json:"name"`
	Depot     string   `json:"depot"`
	Driver    string   `json:"driver,omitempty"`
	Pieces    int      `json:"pieces"`
	Kg        float64  `json:"kg"`    // gross mass of cylinders it may carry
	From      string   `json:"from"`  // shift, 15:04
	Until     string   `json:"until"` // shift, 15:04
	Languages []string `json:"languages,omitempty"`
	Pair      bool     `json:"pair,omitempty"`    // two persons on board
	Litres    float64  `json:"litres,omitempty"`  // of load space; zero: not reckoned with
	Breaks    []Break  `json:"breaks,omitempty"`  // in order, three at most
	Papers    []string `json:"papers,omitempty"`  // papers and signs it has on board
	Trained   string   `json:"trained,omitempty"` // the day of the driver's last training, 2006-01-02
}

// Bands are the programme's check-in bands: common practice, no source; a
// clinician decides.
type Bands struct {
	Target     float64  `json:"target"`     // SpO2, percent
	Borderline gas.Flow `json:"borderline"` // from this flow on: tell the clinician today
	Emergency  gas.Flow `json:"emergency"`  // from this flow on: emergency department now
}

// LeadTimes are how long it takes until more of a thing is ready.
type LeadTimes struct {
	Bench    time.Duration `json:"bench"`    // from the dirty bay to ready, when hurried
	Exchange time.Duration `json:"exchange"` // of empty cylinders at a filling plant
	Hire     time.Duration `json:"hire"`
	Buy      time.Duration `json:"buy"`
}

// Prices are what things cost the programme, in its own money; zero: not
// entered.
type Prices struct {
	Visit     float64 `json:"visit,omitempty"`
	Fill      float64 `json:"fill,omitempty"`
	RentalDay float64 `json:"rental_day,omitempty"` // of one rented cylinder
	// Worth is what it costs to replace one thing, by its kind.
	Worth map[inventory.Kind]float64 `json:"worth,omitempty"`
}

// Programme is everything a hospital decides about how it lends. Each value
// has a default; Notes says where the default comes from.
type Programme struct {
	Name   string `json:"name"`
	Region string `json:"region"` // of cylinder letters without one
	// TimeZone names the zone of the clocks on the programme's walls in the
	// IANA database; empty: each machine's own.
	TimeZone  string    `json:"time_zone,omitempty"`
	Emergency string    `json:"emergency"`
	Phone     string    `json:"phone"` // printed on labels: whom to call about kit
	Clinician []Contact `json:"clinicians"`
	OnCall    []Duty    `json:"on_call"`

	Hospital Site          `json:"hospital"`
	Wards    []Site        `json:"wards"`
	Depots   []Site        `json:"depots"`
	Plants   []Site        `json:"plants"`
	Vehicles []Vehicle     `json:"vehicles"`
	Kits     []Kit         `json:"kits"`
	Supplies []SupplyLevel `json:"supplies,omitempty"`
	Sizes    gas.Table     `json:"sizes,omitempty"` // of cylinders, its own
	Instead  []Instead     `json:"instead,omitempty"`

	Paper  string       `json:"paper,omitempty"`  // in the office printers: Letter or A4
	Stocks []LabelStock `json:"stocks,omitempty"` // label paper of its own

	// CopiesTo names the age recipients the daily copies are encrypted to.
	CopiesTo []string `json:"copies_to,omitempty"`

	Company string `json:"gs1_company,omitempty"` // GS1 company prefix; empty: labels carry our tag
	Carries string `json:"carries,omitempty"`     // with one: GRAI and GIAI as "elements" or "link"

	// Billing names the system whose codes stand in sheets: HCPCS; empty: none.
	Billing string `json:"billing,omitempty"`

	Transport []TransportRule     `json:"transport"` // what is asked of a loaded vehicle
	VanParts  []inventory.Handful `json:"van_parts"` // parts every vehicle carries in case

	SpeedKmh float64     `json:"speed_kmh"`
	Detour   float64     `json:"detour"`          // road over great circle
	Roads    []RoadClass `json:"roads,omitempty"` // in the order they are driven
	Ferries  []Ferry     `json:"ferries"`
	// Slow is when all driving takes longer; the times don't overlap.
	Slow []SlowHours `json:"slow,omitempty"`

	Reserve      gas.Pressure  `json:"reserve"`
	Margin       float64       `json:"margin"` // of the bridge
	WardDelay    time.Duration `json:"ward_delay"`
	HomeLate     time.Duration `json:"home_late,omitempty"` // people come home so much later than the ward says: no vehicle waits at the door
	SetUp        time.Duration `json:"set_up"`
	WarmUp       time.Duration `json:"warm_up"`
	SwapTime     time.Duration `json:"swap_time"`
	Risk         float64       `json:"risk"`          // accepted chance of being without oxygen
	ReadingOpen  time.Duration `json:"reading_open"`  // oldest usable reading on the cylinder
	ReadingShut  time.Duration `json:"reading_shut"`  // oldest usable reading of a backup
	BackupHours  time.Duration `json:"backup_hours"`  // least cover of a backup
	BackupWithin time.Duration `json:"backup_within"` // a backup task falls due so long after it opens
	// CollectWait is for how long a collection may wait for a vehicle that comes
	// near; zero: it goes with the next plan.
	CollectWait time.Duration `json:"collect_wait,omitempty"`
	HelpWithin  time.Duration `json:"help_within"` // where the way to a home is not known
	TurnOut     time.Duration `json:"turn_out"`    // outside every shift: until who is on call stands at the vehicle
	// Parts are the small parts that go along, by kind; empty: those that come
	// with the program.
	Parts map[inventory.Kind][]string `json:"parts,omitempty"`
	// What concentrators take and bear: by the litre, and by model where it is known.
	Tariff     float64     `json:"tariff,omitempty"` // of a kilowatt-hour, in the money of the place; zero: asked
	WattsLeast gas.Watts   `json:"watts_least"`      // for each L/min
	WattsMost  gas.Watts   `json:"watts_most"`
	Warmest    gas.Celsius `json:"warmest"`           // room
	Highest    float64     `json:"highest,omitempty"` // home above the sea, in metres; zero: not said
	Machines   []Machine   `json:"machines,omitempty"`
	// Bench is what the bench looks at, by kind; empty: the steps that come
	// with the program.
	Bench map[inventory.Kind][]string `json:"bench,omitempty"`

	Chase []ChaseStep `json:"chase,omitempty"` // empty: the steps that come with the program
	// Upkeep is the maintenance things need, by hours and by date.
	Upkeep     []UpkeepRule `json:"upkeep,omitempty"`
	LoanReview int          `json:"loan_review,omitempty"` // days after which a loan is looked at; zero: usualLoanReview
	Amnesty    Amnesty      `json:"amnesty,omitzero"`
	// Held is for how many days what came back is kept before it is lent again, by
	// kind; none: not held.
	Held map[inventory.Kind]int `json:"held,omitempty"`
	// DepotLanguage is what tags and slips of the depot speak; empty is English.
	DepotLanguage string `json:"depot_language,omitempty"`
	// ReadyTags prints the tag of a thing when the bench releases it.
	ReadyTags bool `json:"ready_tags,omitempty"`
	// LockAfter is how many minutes without a key the window locks, where names
	// are asked for; zero: usualLock.
	LockAfter int `json:"lock_after,omitempty"`
	// Shortage is the chance of running short of a kind of thing on a day that
	// is accepted.
	Shortage   float64       `json:"shortage"`
	Lead       LeadTimes     `json:"lead"`
	Prices     Prices        `json:"prices,omitzero"`
	PlantTime  time.Duration `json:"plant_time"` // own cylinders are asked for by serial after so long at a plant
	FireMetres float64       `json:"fire_metres"`
	KeepYears  float64       `json:"keep_years"` // the record of a person, from the last service; 0: no period
	FirstCall  time.Duration `json:"first_call"` // after discharge
	Bands      Bands         `json:"bands"`
	Calls      CallRules     `json:"calls"`

	// rides are those of a file in force, and RidesFrom is its name: no setting,
	// but a list of the book.
	rides     map[[2]spot]Leg
	RidesFrom string `json:"-"`
}

// NewProgramme returns the defaults a new book starts from.
func NewProgramme() Programme {
	return Programme{
		Name:      "Home oxygen",
		Region:    "US",
		Emergency: "911",
		Paper:     PaperLetter,
		Kits: []Kit{{
			Name: "standard",
			Items: []Wanted{
				{Kind: inventory.Concentrator, Count: 1},
				{Kind: inventory.Cylinder, Size: "US-E", Count: 1},
				{Kind: inventory.Regulator, Count: 1},
				{Kind: inventory.Oximeter, Count: 1},
			},
			Supplies: []inventory.Handful{
				{Supply: "cannula", Count: 2},
				{Supply: "extension tubing", Count: 1},
				{Supply: "swivel connector", Count: 1},
			},
		}},
		Transport: usualTransport(),
		VanParts: []inventory.Handful{
			{Supply: "cannula", Count: 4}, {Supply: "seal washer", Count: 4}, {Supply: "cylinder key", Count: 2},
		},
		SpeedKmh:     40,
		Detour:       1.3,
		Reserve:      gas.UsualReserve,
		Margin:       1.5,
		WardDelay:    30 * time.Minute,
		SetUp:        15 * time.Minute,
		WarmUp:       20 * time.Minute,
		SwapTime:     10 * time.Minute,
		Risk:         0.01,
		ReadingOpen:  12 * time.Hour,
		ReadingShut:  14 * 24 * time.Hour,
		BackupHours:  4 * time.Hour,
		BackupWithin: 24 * time.Hour,
		HelpWithin:   2 * time.Hour,
		Shortage:     0.05,
		Lead:         LeadTimes{Bench: 24 * time.Hour, Exchange: 48 * time.Hour, Hire: 3 * 24 * time.Hour, Buy: 10 * 24 * time.Hour},
		TurnOut:      20 * time.Minute,
		WattsLeast:   55,
		WattsMost:    70,
		Warmest:      40,
		PlantTime:    5 * 24 * time.Hour,
		FireMetres:   3,
		KeepYears:    7,
		FirstCall:    12 * time.Hour,
		Bands:        Bands{Target: 92, Borderline: 3, Emergency: 4},
		Calls:        newCallRules(),
	}
}

// OnTheWall returns t on the programme's clocks, which know when they are
// changed. Without a zone, or with one this machine does not know, t stays on
// the clock it came with.
func (p Programme) OnTheWall(t time.Time) time.Time {
	if p.TimeZone == "" {
		return t
	}
	zone, err := wall.Zone(p.TimeZone)
	if err != nil {
		return t // Check refuses such a name; another machine may have a newer list
	}
	return t.In(zone)
}

// SizeOf returns the size of a cylinder with what it is marked with itself, and
// whether it is known.
func (p Programme) SizeOf(s inventory.Spec) (gas.Size, bool) {
	size, known := p.Sizes.LookUp(s.Size)
	if !known {
		return size, false
	}
	if own, err := size.Marked(s.Marked); err == nil {
		return own, true
	}
	return size, true // marks that can't be are refused where they are entered
}

// Duty returns who is on call at t, and whether anybody is.
func (p Programme) Duty(t time.Time) (Contact, bool) {
	for _, d := range p.OnCall {
		if !t.Before(d.From) && t.Before(d.Until) {
			return d.Contact, true
		}
	}
	return Contact{}, false
}

// Site returns the depot, ward or plant of a name.
func (p Programme) Site(name string) (Site, bool) {
	all := p.sites()
	i := slices.IndexFunc(all, func(s Site) bool { return s.Name == name })
	if i < 0 {
		return Site{}, false
	}
	return all[i], true
}

// Vehicle returns the vehicle of a name.
func (p Programme) Vehicle(name string) (Vehicle, bool) {
	i := slices.IndexFunc(p.Vehicles, func(v Vehicle) bool { return v.Name == name })
	if i < 0 {
		return Vehicle{}, false
	}
	return p.Vehicles[i], true
}

// sites returns every place of the programme that has a name.
func (p Programme) sites() []Site {
	return slices.Concat(p.Depots, p.Wards, p.Plants, []Site{p.Hospital})
}
