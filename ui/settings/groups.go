package settings

import (
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
)

// group is one page of settings: values first, then lists of rows.
type group struct {
	name   string
	about  string
	values []string // keys of values
	lists  []list
}

// users reports whether those who work in the book stand on the page.
func (g group) users() bool { return g.name == whoIsThere }

// groups are the pages in the order a new programme is set up.
func groups(now time.Time) []group {
	return []group{
		{"Numbers to ring", "What stands on every paper and label. The emergency number comes first everywhere.",
			[]string{"name", "emergency", "phone"}, []list{clinicians}},
		{"On call", "Who is rung in the night, turn by turn. The night pack prints it.", []string{"turn_out"}, []list{turns(now)}},
		{"Hospital and wards", "Where people are discharged from. Without a point, the way home is not known. All times are those of the clock on the wall there, also on the days it is changed.", []string{"time_zone"}, []list{hospital, wards}},
		{"Depots", "Where things stand ready and vehicles start.", nil, []list{depots}},
		{"Filling plants", "Where cylinders are filled.", nil, []list{plants}},
		{"Kits", "What a person is lent. The discharge begins with the first list that is for the ordered flow.", nil, []list{kits, substitutes}},
		{"Cylinders", "Sizes of your own, beside those that come with the program; one under a code of the program's takes its place.",
			nil, []list{sizes}},
		{"Supplies", "What is counted, not tagged, and under how many it is ordered anew. Kits hand them over.", nil, []list{supplyLevels}},
		{"Bench", "What is looked at before a thing is lent again, the small parts that go along with it, and its maintenance. Commas between.",
			slices.Concat([]string{"ready_tags", "held.oximeter"}, kindKeys("bench.", inventory.Kinds()...), kindKeys("parts.", inventory.Kinds()...)), []list{upkeepRules}},
		{"Coming home", "How people are asked for what they do not need any more, and what lost things are worth, in your own money. After a death nobody is asked by these.",
			slices.Concat([]string{"amnesty.from", "amnesty.until", "amnesty.where", "loan_review"}, kindKeys("worth.", inventory.Kinds()...)), []list{chaseSteps}},
		{"Vehicles", "What runs are planned for.", nil, []list{vehicles}},
		{"Transport", "What is asked of a vehicle with cylinders on board. These are examples of one country: local rules decide.",
			[]string{"van_parts"}, []list{transportRules}},
		{"Roads and ferries", "How rides are reckoned until the true ones are known.", []string{"speed_kmh", "detour"}, []list{roadClasses, slowHours, ferries}},
		{"Bridge", "From the valve opened on the ward to the concentrator confirmed running.",
			[]string{"margin", "ward_delay", "home_late", "set_up", "warm_up", "swap_time", "reserve", "help_within"}, nil},
		{"Watch", "When a home needs somebody.",
			[]string{"risk", "reading_open", "reading_shut", "backup_hours", "backup_within", "collect_wait", "plant_time"}, nil},
		{"Stock", "When the outlook says that a kind of thing runs short, and how soon more can be had; prices for the cost of a loan, in your own money.",
			[]string{"shortage", "lead.bench", "lead.exchange", "lead.hire", "lead.buy", "prices.visit", "prices.fill", "prices.rental_day"}, nil},
		{"Machines at home", "What concentrators take from the mains and what heat they bear: for the bill, and for a hot day. The plate and the manual of a model come first.",
			[]string{"tariff", "watts_least", "watts_most", "warmest", "highest"}, []list{machines}},
		{"Calls", "When people are called, and what is told the clinician of what they say.", []string{
			"first_call", "calls.latest", "calls.daily", "calls.every", "calls.from", "calls.until", "calls.retry", "calls.welfare_tries", "calls.welfare",
			"calls.use_days", "calls.use_share", "calls.review_days", "calls.review_spo2", "calls.review_flow"}, nil},
		{"Check-in bands", "What is done with a saturation and a flow heard on the phone. A clinician decides these.",
			[]string{"bands.target", "bands.borderline", "bands.emergency"}, nil},
		{"Paper and labels", "What lies in the printers. Label paper of your own is described by its dimensions; print its test page first.",
			[]string{"paper", "depot_language", "gs1_company", "carries"}, []list{stocks}},
		{"Spreadsheets", "HCPCS adds a column with what each thing is called on a bill. Which code is paid, and with which modifier, the payer's rules decide.",
			[]string{"billing"}, nil},
		{"Copies", "The book is copied once a day while the program runs, into the folder copies beside it. Encrypted copies open only with the key you keep elsewhere.",
			[]string{"copies_to"}, nil},
		{whoIsThere, "While sign-in is off, nobody is asked for a name. Open Sign-in to switch it on or off.", []string{"lock_after"}, nil},
		{"Records", "The record of a person is not erased before the period is over, unless the law asks for it.", []string{"keep_years"}, nil},
		{"Safety", "Printed on sheets and leaflets. Local fire code decides.", []string{"fire_metres"}, nil},
	}
}

func valueOf(key string) value {
	for _, v := range values {
		if v.key == key {
			return v
		}
	}
	return value{}
}

// standing are the places that facts refer to by their short names.
func standing(p delivery.Programme) map[inventory.Place]string {
	places := make(map[inventory.Place]string)
	for _, s := range p.Depots {
		places[inventory.At(inventory.AtDepot, s.Name)] = s.Title
	}
	for _, s := range p.Wards {
		places[inventory.At(inventory.AtWard, s.Name)] = s.Title
	}
	for _, s := range p.Plants {
		places[inventory.At(inventory.AtPlant, s.Name)] = s.Title
	}
	for _, v := range p.Vehicles {
		places[inventory.At(inventory.AtVehicle, v.Name)] = v.Name
	}
	return places
}
