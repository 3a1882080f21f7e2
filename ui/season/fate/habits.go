package fate

// The numbers of the world. Where no source is named the number is invented to
// be plausible: nobody publishes how often a valve is forgotten at home. None
// was fitted to what a policy makes of it.
const (
	// Weekly is how many people a week leave the ward on oxygen.
	Weekly = 40

	// How long oxygen is needed: a median of 10 days, half of the people within
	// 6 to 16, after an admission (van den Berg et al., Journal of Clinical
	// Medicine, 2022); medians of 6 to 13 days elsewhere (Flett et al.,
	// Pediatrics, 2014; Hänninen et al., BMC Infectious Diseases, 2023), all with
	// a long tail. Log-normal: the spread is that of the two quartiles,
	// ln(16/6) / (2 × 0.6745).
	needMedian = 10.0
	needSpread = 0.727

	// Of 621 people at home on oxygen 8.5 % were readmitted and 1.3 % died
	// (JAMA Network Open, 2021).
	readmitted = 0.085
	dies       = 0.013
	movesAway  = 0.02 // goes to relatives, and the kit along

	// Of 234 infants at home 7 had a failed delivery or broken parts in a median
	// of 6 days (Flett et al., 2014): 3 % a week.
	machineFails = 0.03 / 7 // a day

	// The mean flow at home was 1.7 L/min in one programme (Journal of Community
	// Hospital Internal Medicine Perspectives 13(3), 2023).
	cylinderOnly = 0.05 // homes without mains power

	// A power cut at a home: once or twice a year in a good net; here the nets
	// of a windy island.
	cutsYearly  = 5.0 // of one power line
	cutMedian   = 2.5 // hours
	cutSpread   = 1.0
	cutForetold = 0.3 // announced the day before

	// Of 599 people in a long power cut 64 turned the flow down by themselves
	// (Respiratory Investigation, 2013).
	saves = 64.0 / 599

	trips        = 1.0 / 6 // a day, once at home for some days
	tripMedian   = 2.5     // hours
	tripForetold = 0.6     // told on a call before

	stopsUntold = 0.25 // the clinician's stop does not reach supply
)

// What people do. The chances are of one occasion.
const (
	Forgets     = 0.015 // a valve stays open after the cylinder was used
	Answers     = 0.75  // a call by day
	AnswersCut  = 0.85  // a call in a power cut: they wait for it
	ReadsGauge  = 0.8   // of those who answer
	Misreads    = 0.03  // by one printed number, 500 psi, of a gauge told on the phone
	MisreadsUs  = 0.01  // of one read by us
	WrongSerial = 0.03  // two digits of a thing that came back change places
	ReadsOther  = 0.03  // reads the gauge of the cylinder beside the one asked for
	NotHome     = 0.06  // nobody opens the door for a visit that is no delivery
	CallsDry    = 0.9   // who runs dry calls
	CallsLow    = 0.5   // who sees the gauge at a quarter calls
	CallsFault  = 0.9   // whose machine stops calls
	CallsCut    = 0.45  // whose power is out calls, by day
	CallsNight  = 0.3   // and at night
	TellsFlow   = 0.9   // says at which flow they are, truly
)

// What others do to the programme: of one cylinder at a filling plant, and of one
// vehicle on one day.
const (
	PlantKeeps = 0.01 // does not come with the truck it should come with
	PlantShort = 0.01 // comes back with about half a filling
	VanOut     = 0.01 // broken down, or its driver ill
)
