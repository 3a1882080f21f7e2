package settings

import (
	"cmp"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/gas"
	"lungwort/inventory/wall"
	"lungwort/labels/tag"
)

// value is one setting written as one text.
type value struct {
	key   string // its name in delivery.Notes
	label string
	get   func(delivery.Programme) string
	set   func(*delivery.Programme, string) error
}

// values are the settings of one text, by key.
var values = []value{
	word("name", "Name of the programme", func(p *delivery.Programme) *string { return &p.Name }),
	word("emergency", "Emergency number", func(p *delivery.Programme) *string { return &p.Emergency }),
	word("phone", "Return phone, on labels", func(p *delivery.Programme) *string { return &p.Phone }),
	{"time_zone", "Time zone", func(p delivery.Programme) string { return p.TimeZone }, setTimeZone},

	number("margin", "Bridge margin", func(p *delivery.Programme) *float64 { return &p.Margin }, unit{"", 1}),
	stretch("ward_delay", "Ward delay", func(p *delivery.Programme) *time.Duration { return &p.WardDelay }),
	stretch("home_late", "Home later than the ward says", func(p *delivery.Programme) *time.Duration { return &p.HomeLate }),
	stretch("set_up", "Set-up at home", func(p *delivery.Programme) *time.Duration { return &p.SetUp }),
	stretch("warm_up", "Concentrator warm-up", func(p *delivery.Programme) *time.Duration { return &p.WarmUp }),
	stretch("swap_time", "At the door for a swap", func(p *delivery.Programme) *time.Duration { return &p.SwapTime }),
	{"reserve", "Reserve left in a cylinder", func(p delivery.Programme) string { return p.Reserve.String() }, setReserve},
	stretch("help_within", "Help where the way is not known", func(p *delivery.Programme) *time.Duration { return &p.HelpWithin }),
	number("tariff", "Price of a kWh", func(p *delivery.Programme) *float64 { return &p.Tariff }, unit{"", 1}),
	number("watts_least", "A concentrator takes, for each L/min, at the least", func(p *delivery.Programme) *float64 { return (*float64)(&p.WattsLeast) }, unit{"W", 1}),
	number("watts_most", "and at the most", func(p *delivery.Programme) *float64 { return (*float64)(&p.WattsMost) }, unit{"W", 1}),
	number("warmest", "Warmest room for a concentrator", func(p *delivery.Programme) *float64 { return (*float64)(&p.Warmest) }, unit{"°C", 1}),
	number("highest", "Highest home above the sea", func(p *delivery.Programme) *float64 { return &p.Highest }, unit{"m", 1}),
	stretch("turn_out", "On call: until at the vehicle", func(p *delivery.Programme) *time.Duration { return &p.TurnOut }),

	chance("risk", "Accepted chance without oxygen", func(p *delivery.Programme) *float64 { return &p.Risk }),
	stretch("reading_open", "Oldest reading on the cylinder", func(p *delivery.Programme) *time.Duration { return &p.ReadingOpen }),
	stretch("reading_shut", "Oldest reading of a backup", func(p *delivery.Programme) *time.Duration { return &p.ReadingShut }),
	stretch("backup_hours", "Least backup cover", func(p *delivery.Programme) *time.Duration { return &p.BackupHours }),
	stretch("backup_within", "Backup task due within", func(p *delivery.Programme) *time.Duration { return &p.BackupWithin }),
	stretch("collect_wait", "Collections may wait for a vehicle nearby", func(p *delivery.Programme) *time.Duration { return &p.CollectWait }),
	stretch("plant_time", "Own cylinders at the plant", func(p *delivery.Programme) *time.Duration { return &p.PlantTime }),
	chance("shortage", "Accepted chance of running short", func(p *delivery.Programme) *float64 { return &p.Shortage }),
	stretch("lead.bench", "Bench, when hurried", func(p *delivery.Programme) *time.Duration { return &p.Lead.Bench }),
	stretch("lead.exchange", "Exchange at the plant takes", func(p *delivery.Programme) *time.Duration { return &p.Lead.Exchange }),
	stretch("lead.hire", "Hired equipment comes after", func(p *delivery.Programme) *time.Duration { return &p.Lead.Hire }),
	stretch("lead.buy", "Bought equipment comes after", func(p *delivery.Programme) *time.Duration { return &p.Lead.Buy }),
	number("prices.visit", "Price of a visit", func(p *delivery.Programme) *float64 { return &p.Prices.Visit }, unit{"", 1}),
	number("prices.fill", "Price of a fill", func(p *delivery.Programme) *float64 { return &p.Prices.Fill }, unit{"", 1}),
	number("prices.rental_day", "Price of a rental day", func(p *delivery.Programme) *float64 { return &p.Prices.RentalDay }, unit{"", 1}),
	stretch("first_call", "First call after", func(p *delivery.Programme) *time.Duration { return &p.FirstCall }),

	stretch("calls.latest", "First call at the latest", func(p *delivery.Programme) *time.Duration { return &p.Calls.Latest }),
	whole("calls.daily", "Daily calls after the first", func(p *delivery.Programme) *int { return &p.Calls.Daily }),
	whole("calls.every", "Then every so many days", func(p *delivery.Programme) *int { return &p.Calls.Every }),
	hour("calls.from", "No planned call before", func(p *delivery.Programme) *string { return &p.Calls.From }),
	hour("calls.until", "No planned call after", func(p *delivery.Programme) *string { return &p.Calls.Until }),
	stretch("calls.retry", "Try again after no answer", func(p *delivery.Programme) *time.Duration { return &p.Calls.Retry }),
	whole("calls.welfare_tries", "Welfare step after tries", func(p *delivery.Programme) *int { return &p.Calls.WelfareTries }),
	word("calls.welfare", "The welfare step", func(p *delivery.Programme) *string { return &p.Calls.Welfare }),
	number("calls.use_days", "Judge the meter over", func(p *delivery.Programme) *float64 { return &p.Calls.UseDays }, unit{"days", 1}),
	number("calls.use_share", "Tell of use under this share", func(p *delivery.Programme) *float64 { return &p.Calls.UseShare }, unit{"", 1}),
	whole("calls.review_days", "Tell of high readings after days", func(p *delivery.Programme) *int { return &p.Calls.ReviewDays }),
	number("calls.review_spo2", "High reading from", func(p *delivery.Programme) *float64 { return &p.Calls.ReviewSpO2 }, unit{"%", 1}),
	flow("calls.review_flow", "On this flow or less", func(p *delivery.Programme) *gas.Flow { return &p.Calls.ReviewFlow }),

	number("bands.target", "Saturation to hold", func(p *delivery.Programme) *float64 { return &p.Bands.Target }, unit{"%", 1}),
	flow("bands.borderline", "Tell the clinician from", func(p *delivery.Programme) *gas.Flow { return &p.Bands.Borderline }),
	flow("bands.emergency", "Emergency department from", func(p *delivery.Programme) *gas.Flow { return &p.Bands.Emergency }),

	{"van_parts", "Spare parts in every vehicle", func(p delivery.Programme) string { return writeSupplies(p.VanParts) }, setVanParts},
	number("speed_kmh", "Driving speed", func(p *delivery.Programme) *float64 { return &p.SpeedKmh }, unit{"km/h", 1}, unit{"mph", 1.609344}),
	number("detour", "Road over great circle", func(p *delivery.Programme) *float64 { return &p.Detour }, unit{"", 1}),
	{"paper", "Paper in the printers", func(p delivery.Programme) string { return p.OfficePaper() }, setPaper},
	depotLanguage,
	{"gs1_company", "GS1 company prefix", func(p delivery.Programme) string { return p.Company }, setCompany},
	{"carries", "Codes on labels", func(p delivery.Programme) string { return carried(p.Carries) }, setCarries},
	{"billing", "Billing codes in sheets", func(p delivery.Programme) string { return cmp.Or(p.Billing, noCodes) }, setBilling},
	benchSteps(inventory.Concentrator), benchSteps(inventory.Cylinder), benchSteps(inventory.Regulator), benchSteps(inventory.Oximeter),
	benchSteps(inventory.Vessel), benchSteps(inventory.Cart),
	smallParts(inventory.Concentrator), smallParts(inventory.Cylinder), smallParts(inventory.Regulator), smallParts(inventory.Oximeter),
	smallParts(inventory.Vessel), smallParts(inventory.Cart),
	{"loan_review", "Look at a loan after", func(p delivery.Programme) string { return fmt.Sprintf("%d days", p.LoanReviewDays()) }, setLoanReview},
	day("amnesty.from", "Amnesty from", func(p *delivery.Programme) *string { return &p.Amnesty.From }),
	day("amnesty.until", "Amnesty until", func(p *delivery.Programme) *string { return &p.Amnesty.Until }),
	word("amnesty.where", "Left with no questions at", func(p *delivery.Programme) *string { return &p.Amnesty.Where }),
	heldDays(inventory.Oximeter), readyTags,
	worthOf(inventory.Concentrator), worthOf(inventory.Cylinder), worthOf(inventory.Regulator), worthOf(inventory.Oximeter),
	worthOf(inventory.Vessel), worthOf(inventory.Cart),

	{"lock_after", "Lock the window after", lockAfter, setLockAfter},
	{"copies_to", "Encrypt daily copies to", func(p delivery.Programme) string { return strings.Join(p.CopiesTo, " ") }, setCopiesTo},
	number("keep_years", "Records of a person are kept for", func(p *delivery.Programme) *float64 { return &p.KeepYears }, unit{"years", 1}),
	number("fire_metres", "Distance from flames", func(p *delivery.Programme) *float64 { return &p.FireMetres }, unit{"m", 1}, unit{"ft", 0.3048}),
}

// word is a setting in words.
func word(key, label string, at func(*delivery.Programme) *string) value {
	return value{key, label,
		func(p delivery.Programme) string { return *at(&p) },
		func(p *delivery.Programme, text string) error {
			*at(p) = strings.TrimSpace(text)
			return nil
		}}
}

// whole is a setting that is counted.
func whole(key, label string, at func(*delivery.Programme) *int) value {
	return value{key, label,
		func(p delivery.Programme) string { return strconv.Itoa(*at(&p)) },
		func(p *delivery.Programme, text string) error {
			n, err := strconv.Atoi(strings.TrimSpace(text))
			if err != nil || n < 0 || n > 1000 {
				return fmt.Errorf("“%s” is not a count: write it as 3", strings.TrimSpace(text))
			}
			*at(p) = n
			return nil
		}}
}

// hour is a setting of a time of day.
func hour(key, label string, at func(*delivery.Programme) *string) value {
	return value{key, label,
		func(p delivery.Programme) string { return *at(&p) },
		func(p *delivery.Programme, text string) error {
			read, err := clock(text)
			if err == nil {
				*at(p) = read
			}
			return err
		}}
}

// stretch is a setting that lasts.
func stretch(key, label string, at func(*delivery.Programme) *time.Duration) value {
	return value{key, label,
		func(p delivery.Programme) string { return spell(*at(&p)) },
		func(p *delivery.Programme, text string) error {
			d, err := gas.ParseDuration(text)
			if err == nil {
				*at(p) = d
			}
			return err
		}}
}

// number is a setting of a number with its unit, the first where there are
// several.
func number(key, label string, at func(*delivery.Programme) *float64, units ...unit) value {
	return value{key, label,
		func(p delivery.Programme) string { return strings.TrimSpace(decimals(*at(&p)) + " " + units[0].name) },
		func(p *delivery.Programme, text string) error {
			n, err := amount(text, units...)
			if err == nil && n < 0 {
				err = fmt.Errorf("%s is under zero", strings.TrimSpace(text))
			}
			if err == nil {
				*at(p) = n
			}
			return err
		}}
}

func flow(key, label string, at func(*delivery.Programme) *gas.Flow) value {
	return value{key, label,
		func(p delivery.Programme) string { return at(&p).String() },
		func(p *delivery.Programme, text string) error {
			f, err := gas.ParseFlow(text)
			if err == nil {
				*at(p) = f
			}
			return err
		}}
}

func setTimeZone(p *delivery.Programme, text string) (err error) {
	p.TimeZone = strings.TrimSpace(text)
	if p.TimeZone != "" {
		_, err = wall.Zone(p.TimeZone)
	}
	return err
}

func setReserve(p *delivery.Programme, text string) error {
	reserve, err := gas.ParsePressure(text)
	if err == nil {
		p.Reserve = reserve
	}
	return err
}

func percent(share float64) string { return decimals(share*100) + " %" }

// chance is a setting written in percent.
func chance(key, label string, at func(*delivery.Programme) *float64) value {
	return value{key, label,
		func(p delivery.Programme) string { return percent(*at(&p)) },
		func(p *delivery.Programme, text string) error {
			if !strings.HasSuffix(strings.TrimSpace(text), "%") {
				return errors.New("write it in percent, as 1 %")
			}
			n, err := amount(text, unit{"%", 0.01})
			if err == nil {
				*at(p) = n
			}
			return err
		}}
}

func setPaper(p *delivery.Programme, text string) error {
	for _, paper := range offered["paper"] {
		if strings.EqualFold(strings.TrimSpace(text), paper) {
			p.Paper = paper
			return nil
		}
	}
	return errors.New("choose Letter or A4")
}

func setCompany(p *delivery.Programme, text string) error {
	text = strings.TrimSpace(text)
	if text != "" {
		if err := tag.CheckCompany(text); err != nil {
			return err
		}
	}
	p.Company = text
	return nil
}

// The words for the forms of a code.
const (
	asElements = "GS1 element string"
	asLink     = "GS1 Digital Link"
)

// carried says the form of the codes on labels, where there is a GS1 prefix.
func carried(form string) string {
	if form == tag.AsLink {
		return asLink
	}
	return asElements
}

func setCarries(p *delivery.Programme, text string) error {
	switch {
	case strings.EqualFold(text, asElements):
		p.Carries = tag.AsElements
	case strings.EqualFold(text, asLink):
		p.Carries = tag.AsLink
	default:
		return errors.New("choose " + asElements + " or " + asLink)
	}
	return nil
}

// noCodes is the answer of a programme that bills nobody.
const noCodes = "none"

func setBilling(p *delivery.Programme, text string) error {
	switch text = strings.TrimSpace(text); {
	case strings.EqualFold(text, noCodes):
		p.Billing = ""
	case strings.EqualFold(text, delivery.HCPCS):
		p.Billing = delivery.HCPCS
	default:
		return errors.New("choose " + delivery.HCPCS + " or " + noCodes)
	}
	return nil
}

// offered are the answers to settings that have only a few, by key.
var offered = map[string][]string{
	"paper":   {delivery.PaperLetter, delivery.PaperA4},
	"carries": {asElements, asLink},
	"billing": {noCodes, delivery.HCPCS},
}

func setVanParts(p *delivery.Programme, text string) error {
	list, err := readSupplies(text)
	if err == nil {
		p.VanParts = list
	}
	return err
}

// setCopiesTo reads age recipients, blanks between.
func setCopiesTo(p *delivery.Programme, text string) error {
	to := strings.Fields(text)
	if _, err := book.Recipients(to); err != nil {
		return errors.New("write age recipients with a blank between, as age-keygen prints them: age1…")
	}
	p.CopiesTo = to
	return nil
}
