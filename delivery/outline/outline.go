// Package outline reads what a map is drawn from, coast, water, roads and
// towns, out of a GeoJSON file (RFC 7946). Pure.
package outline

import (
	"encoding/json"
	"fmt"
	"math"
)

// Position is a place on the earth in degrees, north and east positive. In
// JSON it is [latitude, longitude], to a metre.
type Position struct{ Lat, Lon float64 }

// MarshalJSON writes the position short: a coast has thousands.
func (p Position) MarshalJSON() ([]byte, error) {
	return fmt.Appendf(nil, "[%s,%s]", degrees(p.Lat), degrees(p.Lon)), nil
}

// degrees writes degrees to five places, which is about a metre.
func degrees(v float64) []byte {
	text, _ := json.Marshal(math.Round(v*1e5) / 1e5) // a finite number never fails
	return text
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (p *Position) UnmarshalJSON(body []byte) error {
	var pair [2]float64
	err := json.Unmarshal(body, &pair)
	p.Lat, p.Lon = pair[0], pair[1]
	return err
}

// Town is a place with a name.
type Town struct {
	At   Position `json:"at"`
	Name string   `json:"name"`
}

// Outline is what a map is drawn from. Land and Water are closed rings whose
// last position is not the first again; the others are open lines.
type Outline struct {
	Land    [][]Position `json:"land,omitempty"`
	Water   [][]Position `json:"water,omitempty"`
	Roads   [][]Position `json:"roads,omitempty"`
	Ferries [][]Position `json:"ferries,omitempty"`
	Towns   []Town       `json:"towns,omitempty"`
}

// Empty reports whether there is nothing to draw.
func (o Outline) Empty() bool {
	return len(o.Land)+len(o.Water)+len(o.Roads)+len(o.Ferries)+len(o.Towns) == 0
}

// Size counts the positions.
func (o Outline) Size() int {
	n := len(o.Towns)
	for _, lines := range [][][]Position{o.Land, o.Water, o.Roads, o.Ferries} {
		for _, line := range lines {
			n += len(line)
		}
	}
	return n
}

// Dry reports whether a position lies on land. An outline without land is of a
// country without a coast: everything is.
func (o Outline) Dry(p Position) bool {
	if len(o.Land) == 0 {
		return true
	}
	for _, lake := range o.Water {
		if within(p, lake) {
			return false
		}
	}
	for _, land := range o.Land {
		if within(p, land) {
			return true
		}
	}
	return false
}

// within reports whether a ring encloses a position: a ray to the east crosses
// it an odd number of times.
func within(p Position, ring []Position) (inside bool) {
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Lat > p.Lat) != (b.Lat > p.Lat) && p.Lon < (b.Lon-a.Lon)*(p.Lat-a.Lat)/(b.Lat-a.Lat)+a.Lon {
			inside = !inside
		}
	}
	return inside
}

// Within reports whether a closed line drawn on the map encloses a position.
func Within(p Position, ring []Position) bool { return len(ring) >= 3 && within(p, ring) }
