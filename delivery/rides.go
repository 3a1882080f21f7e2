package delivery

import (
	"fmt"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// MostRides is how many rides of a file are kept.
const MostRides = 40_000

// fastestKmh is what no vehicle on a road drives, in km/h: beyond it the units of
// a file are mixed up.
const fastestKmh = 200

// GivenRide is a row of a file of rides: how long one drives from one place to
// another as a rule, the way there only.
type GivenRide struct {
	Row      int
	From, To string // short name or title of a site, street and town of a home or its id, a listed place
	Minutes  float64
	Km       float64
}

// TakeRides puts the travel times of a file in force: they stand before the
// straight way and its detour. A ride that is not listed is reckoned as before,
// and a ferry with a timetable keeps it.
type TakeRides struct {
	File  string // its name alone
	Rides []GivenRide
}

// Ends of a listed ride, as the book keeps them. A home goes by its id, so that
// nothing tells who lives where.
const (
	siteEnd = "site:"
	homeEnd = "home:"
	spotEnd = "at:" // latitude and longitude of a listed place
)

// Decide finds every place the file names and keeps the rides, or refuses the
// file for the first row that can't be.
func (a TakeRides) Decide(v View) (Change, error) {
	if len(a.Rides) == 0 {
		return Change{}, refusal.New(refusal.Invalid, "The file lists no ride.", "It needs the columns From, To, Minutes and Km.")
	}
	if n := len(a.Rides); n > MostRides {
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("The file lists %d rides; %d can be kept.", n, MostRides), "Cut it to the places you drive to.")
	}
	names, err := namesOfPlaces(v)
	if err != nil {
		return Change{}, err
	}
	listed := RidesListed{File: a.File}
	index, rows := make(map[string]int), make(map[[2]int]int)
	for _, r := range a.Rides {
		ride, err := r.ride(names, index, &listed.Places)
		if err == nil {
			ends := [2]int{ride[0], ride[1]}
			if row, twice := rows[ends]; twice {
				err = fmt.Errorf("the ride from %s to %s stands in row %d already", r.From, r.To, row)
			}
			rows[ends] = r.Row
		}
		if err != nil {
			return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("%s, row %d: %s.", a.File, r.Row, err), "Put it right in the file, then take it in again; nothing was kept.")
		}
		listed.Rides = append(listed.Rides, ride)
	}
	says := fmt.Sprintf("%s between %s of %s are in force. What is not listed is reckoned by the roads as before.",
		count(len(listed.Rides), "ride"), count(len(listed.Places), "place"), a.File)
	return Change{Facts: []inventory.Fact{{Statement: &listed}}, Says: says}, nil
}

// ride returns the row as the book keeps it.
func (r GivenRide) ride(names map[string][]string, index map[string]int, places *[]string) (ride [4]int, err error) {
	switch hours := r.Minutes / 60; {
	case r.Minutes <= 0 || hours > longestRide.Hours():
		return ride, fmt.Errorf("%g min can't be a ride", r.Minutes)
	case r.Km < 0:
		return ride, fmt.Errorf("%g km can't be a way", r.Km)
	case r.Km/hours > fastestKmh:
		return ride, fmt.Errorf("%g km in %g min is over %d km/h, so a column is in another unit", r.Km, r.Minutes, fastestKmh)
	}
	for side, name := range []string{r.From, r.To} {
		ends := names[placeKey(name)]
		switch {
		case len(ends) == 0:
			return ride, fmt.Errorf("%q is no depot, ward, plant, home or listed place", name)
		case len(ends) > 1:
			return ride, fmt.Errorf("%q may be %d places: write street and town", name, len(ends))
		}
		at, known := index[ends[0]]
		if !known {
			at = len(*places)
			index[ends[0]] = at
			*places = append(*places, ends[0])
		}
		ride[side] = at
	}
	if ride[0] == ride[1] {
		return ride, fmt.Errorf("%s and %s are one place", r.From, r.To)
	}
	ride[2], ride[3] = int(r.Minutes*60+0.5), int(r.Km*1000+0.5)
	return ride, nil
}

func placeKey(name string) string {
	return strings.ToLower(strings.Join(strings.Fields(name), " "))
}

// namesOfPlaces returns what each name may mean: sites, homes and listed places.
func namesOfPlaces(v View) (map[string][]string, error) {
	p, err := v.Programme()
	if err != nil {
		return nil, err
	}
	homes, err := v.Addresses()
	if err != nil {
		return nil, err
	}
	g, err := v.Gazetteer()
	if err != nil {
		return nil, err
	}
	names := make(map[string][]string)
	add := func(end string, called ...string) {
		for _, name := range called {
			if key := placeKey(name); key != "" {
				names[key] = with(names[key], end)
			}
		}
	}
	for _, s := range p.sites() {
		add(siteEnd+s.Name, s.Name, s.Title)
	}
	for _, h := range homes {
		add(homeEnd+string(h.ID), string(h.ID), h.Where(), h.Street)
	}
	for _, l := range g.Places {
		if key := placeKey(l.Where()); len(names[key]) == 0 { // a home of that address lies where it lies
			add(fmt.Sprintf("%s%g,%g", spotEnd, l.Lat, l.Lon), l.Where())
		}
	}
	return names, nil
}

// spot is a point without its area.
type spot struct{ lat, lon float64 }

func (p Point) spot() spot { return spot{p.Lat, p.Lon} }

// WithRides returns the programme with listed rides in force. At says where an
// address lies; what lies nowhere is left out.
func (p Programme) WithRides(l RidesListed, at func(inventory.AddressID) Point) Programme {
	points := make([]Point, len(l.Places))
	for i, end := range l.Places {
		switch id, rest, _ := strings.Cut(end, ":"); id + ":" {
		case siteEnd:
			site, _ := p.Site(rest)
			points[i] = site.Point
		case homeEnd:
			points[i] = at(inventory.AddressID(rest))
		case spotEnd:
			points[i], _ = ReadPoint(rest)
		}
	}
	p.rides, p.RidesFrom = make(map[[2]spot]Leg, len(l.Rides)), l.File
	for _, r := range l.Rides {
		if from, to := points[r[0]], points[r[1]]; from.Known() && to.Known() {
			p.rides[[2]spot{from.spot(), to.spot()}] = Leg{Takes: time.Duration(r[2]) * time.Second, Metres: int64(r[3]), Known: true}
		}
	}
	return p
}
