package delivery

// Note says where the default of a setting comes from.
type Note struct {
	Setting string // the JSON name of the field, with a point before one inside it
	Label   string
	Source  string
}

const practice = "common practice, no source"

// Notes lists the settings with a number, in the order of the settings
// screen.
func Notes() []Note {
	return []Note{
		{"emergency", "Emergency number", "set your own; 911 is the number in North America"},
		{"reserve", "Reserve left in a cylinder", "200 psi safe residual, as respiratory-therapy texts give it"},
		{"margin", "Bridge margin", practice},
		{"ward_delay", "Ward delay", practice},
		{"home_late", "Home later than the ward says", practice},
		{"set_up", "Set-up at home", practice},
		{"warm_up", "Concentrator warm-up", "20 min at 5 L/min in one maker's service manual; use your model's"},
		{"swap_time", "Minutes at the door for a swap", practice},
		{"risk", "Accepted chance without oxygen", "programme's choice, 1 %"},
		{"reading_open", "Oldest reading on the cylinder", practice},
		{"reading_shut", "Oldest reading of a backup", practice},
		{"backup_hours", "Least backup cover", "users ask for 5 to 6 h; 38 % had 2 h or less (Ann Am Thorac Soc 2021)"},
		{"backup_within", "Backup task due within", practice},
		{"collect_wait", "Collections may wait for a vehicle nearby", practice},
		{"help_within", "Help where the way is not known", practice},
		{"shortage", "Accepted chance of running short", practice},
		{"prices.visit", "Price of a visit", "a delivery costs $50 to $75 on a home-health trade site (undated)"},
		{"prices.fill", "Price of a fill", practice},
		{"prices.rental_day", "Price of a rental day", practice},
		{"lead.bench", "Bench, when hurried", practice},
		{"lead.exchange", "Exchange at the plant takes", practice},
		{"lead.hire", "Hired equipment comes after", practice},
		{"lead.buy", "Bought equipment comes after", practice},
		{"turn_out", "On call: until at the vehicle", practice},
		{"tariff", "Price of a kWh", "of your power company; blank: it is asked"},
		{"watts_least", "A concentrator takes, for each L/min, at the least", "from memory of machines rated 5 and 10 L/min; the plate decides"},
		{"watts_most", "and at the most", "under 70 W for each L/min is required by WHO and UNICEF (technical specifications for oxygen therapy devices, 2019)"},
		{"warmest", "Warmest room for a concentrator", practice + "; the manual of the model decides"},
		{"highest", "Highest home above the sea", "your map; from 2,438 m (8,000 ft) on one of four machines gave less oxygen (High Alt Med Biol 2016;17:370)"},
		{"plant_time", "Own cylinders at the plant", practice},
		{"fire_metres", "Distance from flames", "3 m (10 ft) in fire-service leaflets; others say 1.5 to 4.5 m: local fire code decides"},
		{"keep_years", "Records of a person are kept for", "7 years from the date of service for a supplier of Medicare (42 CFR 424.516(f)), 3 years after a batch of medical gas went out (21 CFR 213.180); the law here decides"},
		{"first_call", "First call after", "12 to 18 h in published discharge protocols (JAMA Netw Open 2021)"},
		{"calls.latest", "First call at the latest", "12 to 18 h in published discharge protocols (JAMA Netw Open 2021)"},
		{"calls.daily", "Daily calls after the first", "daily for three days in one published protocol (COVID-19 home oxygen protocol, 2020)"},
		{"calls.every", "Then every so many days", "every three days in the same protocol; others call on days 3, 7, 14 and 28 (Acad Emerg Med 2017)"},
		{"calls.from", "No planned call before", practice},
		{"calls.until", "No planned call after", practice},
		{"calls.retry", "Try again after no answer", practice},
		{"calls.welfare_tries", "Welfare step after tries", practice + "; your local rule decides"},
		{"calls.welfare", "The welfare step", practice + "; your local rule decides"},
		{"calls.use_days", "Judge the meter over days", practice},
		{"calls.use_share", "Tell of use under this share", practice + "; a clinician decides"},
		{"calls.review_days", "Tell of high readings after days", practice + "; a clinician decides"},
		{"calls.review_spo2", "High reading from", practice + "; a clinician decides"},
		{"calls.review_flow", "On this flow or less", practice + "; a clinician decides"},
		{"bands.target", "Saturation to hold", practice + "; a clinician decides"},
		{"bands.borderline", "Tell the clinician from", practice + "; a clinician decides"},
		{"bands.emergency", "Emergency department from", practice + "; a clinician decides"},
		{"van_parts", "Spare parts in every vehicle", practice},
		{"speed_kmh", "Driving speed", practice},
		{"paper", "Paper in the printers", "Letter in North America, A4 (ISO 216) elsewhere"},
		{"carries", "Codes on labels", "with a prefix: GRAI for cylinders, GIAI for devices (GS1 General Specifications)"},
		{"lock_after", "Lock the window after", practice},
		{"detour", "Road over great circle", "1.2 to 1.4 in transport studies (Newell 1980; O'Sullivan & Morrall 1996)"},
	}
}
