package discharge

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory/gas"
)

// Field names one thing asked for at a discharge.
type Field string

// The fields, in the order in which they are asked.
const (
	Family   Field = "family"
	Given    Field = "given"
	Born     Field = "born"
	Record   Field = "record"
	Phones   Field = "phones"
	Language Field = "language"

	Street Field = "street"
	Town   Field = "town"
	Area   Field = "area"
	Spot   Field = "spot" // on the map
	Access Field = "access"
	Mains  Field = "mains"
	Smoker Field = "smoker"
	Stairs Field = "stairs"

	Sharing Field = "data sharing"
	Notice  Field = "fire service notice"
	Risk    Field = "risk form"

	Rest       Field = "rest"
	Exertion   Field = "exertion"
	Asleep     Field = "asleep"
	Hours      Field = "hours"
	Setting    Field = "setting"
	Bolus      Field = "bolus" // of a pulse device, with the breaths a minute
	Review     Field = "review"
	Prescriber Field = "prescriber"
	OwnBands   Field = "own bands" // asked for where the programme's say nothing

	Ward    Field = "ward"
	Leaves  Field = "leaves"
	Arrives Field = "arrives"
	Ride    Field = "ride" // these three where somebody knows better than the book
	SetUp   Field = "set-up"
	WarmUp  Field = "warm-up"

	Parts    Field = "parts"    // small ones that go along: comma between
	Supplies Field = "supplies" // that go along, with their lots

	Kit Field = "kit" // stands for the list of things
	Who Field = "who" // stands for the list of those who wait
)

// consents are what is asked about on the ward; both answers are recorded.
var consents = []Field{Sharing, Notice, Risk}

// The answers to a consent.
const (
	Yes = "given"
	No  = "declined"
)

// fill puts what the book knows of a person into the fields.
func (m *Model) fill(p delivery.Person, a delivery.Address, care delivery.Care) {
	t := map[Field]string{
		Family: p.Family, Given: p.Given, Born: p.Born, Record: p.Record, Phones: spellPhones(p.Phones), Language: p.Language,
		Street: a.Street, Town: a.Town, Area: a.Point.Area, Access: a.Access, Mains: string(a.Mains), Smoker: a.Smoker,
	}
	if a.Point.Known() {
		t[Spot] = fmt.Sprintf("%.4f, %.4f", a.Point.Lat, a.Point.Lon)
	}
	if a.Stairs > 0 {
		t[Stairs] = strconv.Itoa(a.Stairs)
	}
	for _, c := range consents {
		if given, asked := care.Consents[string(c)]; asked {
			t[c] = map[bool]string{true: Yes, false: No}[given]
		}
	}
	if o := care.Order; o != nil {
		t[Rest], t[Exertion], t[Asleep] = spellFlow(o.Rest), spellFlow(o.Exertion), spellFlow(o.Asleep)
		t[Hours], t[Setting], t[Prescriber] = strconv.FormatFloat(o.Hours, 'g', -1, 64), o.Setting, o.Prescriber
		t[Bolus] = gas.Pulse{Bolus: o.Bolus, BreathsPerMinute: o.Breaths}.String()
		if !o.Review.IsZero() {
			t[Review] = o.Review.Format(time.DateOnly)
		}
	}
	m.texts = t
}

func spellFlow(f gas.Flow) string {
	if f == 0 {
		return ""
	}
	return strconv.FormatFloat(float64(f), 'g', -1, 64)
}

func spellPhones(phones []delivery.Phone) string {
	list := make([]string, len(phones))
	for i, p := range phones {
		list[i] = strings.TrimSpace(p.Whose + " " + p.Number)
	}
	return strings.Join(list, ", ")
}

var phoneNumber = regexp.MustCompile(`^(.*?)\s*(\+?[0-9][0-9 ()/-]{2,})$`)

// readPhones reads "555-0120, daughter 555-0177": a number, and before it
// whose it is.
func readPhones(text string) ([]delivery.Phone, error) {
	var phones []delivery.Phone
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' }) {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		found := phoneNumber.FindStringSubmatch(part)
		if found == nil {
			return nil, fmt.Errorf("“%s” has no number: write it as daughter 555-0177", part)
		}
		phones = append(phones, delivery.Phone{Whose: found[1], Number: found[2]})
	}
	return phones, nil
}

// readSpot reads a place on the map, "36.5210, -40.5020" or in degrees and
// minutes.
func readSpot(text string) (lat, lon float64, err error) {
	p, err := delivery.ReadPoint(text)
	return p.Lat, p.Lon, err
}

// readDay reads a date in the desk's zone.
func readDay(text string, zone *time.Location) (time.Time, error) {
	day, err := time.ParseInLocation(time.DateOnly, text, zone)
	if err != nil {
		return day, fmt.Errorf("“%s” is not a date: write it as 2030-04-02", text)
	}
	return day, nil
}

// readHours reads hours a day.
func readHours(text string) (float64, error) {
	h, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(text, "h")), 64)
	if err != nil || !(h > 0 && h <= 24) {
		return 0, errors.New("hours a day are more than 0 and at most 24")
	}
	return h, nil
}

// readMinutes reads how long a part of the way home takes, in minutes: "25",
// "25 min". An empty text leaves it as the book has it.
func readMinutes(text string) (*time.Duration, error) {
	if text == "" {
		return nil, nil
	}
	n, err := strconv.Atoi(strings.TrimSpace(strings.TrimSuffix(text, "min")))
	if err != nil || n < 0 || n > 24*60 {
		return nil, errors.New("write minutes, as 25")
	}
	return new(time.Duration(n) * time.Minute), nil
}

// areaOf returns the one area a text begins, or the text as it is.
func areaOf(text string, areas []string) string {
	found := text
	for _, a := range areas {
		if text == "" || !strings.HasPrefix(strings.ToLower(a), strings.ToLower(text)) {
			continue
		}
		if found != text {
			return text // begins more than one
		}
		found = a
	}
	return found
}

// areas are those the programme knows of.
func areas(p delivery.Programme) []string {
	var all []string
	add := func(area string) {
		for _, a := range all {
			if a == area {
				return
			}
		}
		if area != "" {
			all = append(all, area)
		}
	}
	add(p.Hospital.Point.Area)
	for _, d := range p.Depots {
		add(d.Point.Area)
	}
	for _, f := range p.Ferries {
		add(f.Between[0])
		add(f.Between[1])
	}
	return all
}
