package delivery

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// PlacedBy says where the place of an address comes from.
type PlacedBy string

// The sources of a place.
const (
	OnTheMap    PlacedBy = "map"
	ByTyping    PlacedBy = "typed"
	ByPlaceFile PlacedBy = "place file"
	ByPostcode  PlacedBy = "postcode"
)

// Place says where an address lies.
type Place struct {
	Person  inventory.PersonID
	Address inventory.AddressID
	At      Point // its area counts where the address has none
	By      PlacedBy
	Rough   bool // only about right: nobody confirmed it
}

// Decide keeps the place with the address, and the fact where it comes from.
func (a Place) Decide(v View) (Change, error) {
	home, err := v.Address(a.Address)
	if err != nil {
		return Change{}, err
	}
	if !a.At.Known() || !(math.Abs(a.At.Lat) <= 90 && math.Abs(a.At.Lon) <= 180) {
		return Change{}, refusal.New(refusal.Invalid, "That is no place on the earth.", "Write latitude and longitude, as 36.512, -40.521.")
	}
	home.Point.Lat, home.Point.Lon, home.Rough = a.At.Lat, a.At.Lon, a.Rough
	home.Point.Area = cmp.Or(home.Point.Area, a.At.Area)
	c := Change{Addresses: []Address{home}, Says: home.Where() + " has its place on the map."}
	if a.Rough {
		c.Says = home.Where() + " has a place that is only about right: confirm it at the next visit."
	}
	c.person(a.Person, &Placed{Address: a.Address, By: a.By, Rough: a.Rough})
	return c, nil
}

// angle is one of the two angles of a typed point: 36.512, 36° 30.7', 36 30 43
// N; at the start or the end a letter of the compass.
var angle = regexp.MustCompile(`^([NSEW])?\s*([+-]?\d+(?:\.\d+)?)(?:\s*[°d ]\s*(?:(\d+(?:\.\d+)?)\s*['′m]?\s*(?:(\d+(?:\.\d+)?)\s*(?:"|″|'')?)?)?)?\s*([NSEW])?$`)

// ReadPoint reads latitude and longitude, in decimals or in degrees, minutes
// and seconds: "36.512, -40.521", "36° 30.72' N, 40° 31.26' W".
func ReadPoint(text string) (Point, error) {
	north, east, ok := strings.Cut(strings.ToUpper(strings.TrimSpace(text)), ",")
	lat, err1 := readAngle(north, "NS")
	lon, err2 := readAngle(east, "EW")
	if !ok || err1 != nil || err2 != nil || math.Abs(lat) > 90 || math.Abs(lon) > 180 {
		return Point{}, fmt.Errorf("“%.60s” is not a point: write latitude, longitude, as 36.512, -40.521 or 36° 30.72' N, 40° 31.26' W", text)
	}
	return Point{Lat: lat, Lon: lon}, nil
}

func readAngle(text, compass string) (float64, error) {
	part := angle.FindStringSubmatch(strings.TrimSpace(text))
	if part == nil || part[1] != "" && part[5] != "" {
		return 0, strconv.ErrSyntax
	}
	degrees, err := strconv.ParseFloat(part[2], 64)
	sum, small := math.Abs(degrees), 60.0
	for _, fraction := range part[3:5] {
		if fraction == "" {
			continue
		}
		v, bad := strconv.ParseFloat(fraction, 64)
		if bad != nil || v >= 60 || sum != math.Trunc(sum) && small == 60 {
			return 0, strconv.ErrSyntax
		}
		sum += v / small
		small *= 60
	}
	letter := part[1] + part[5]
	if err != nil || letter != "" && (!strings.Contains(compass, letter) || strings.ContainsAny(part[2], "+-")) {
		return 0, strconv.ErrSyntax
	}
	if strings.HasPrefix(part[2], "-") || letter == "S" || letter == "W" {
		sum = -sum
	}
	return sum, nil
}
