// Package delivery is the people and the promises: who is on oxygen, where
// they sleep, what was ordered for them, what was promised and what was done.
package delivery

import (
	"strings"
	"time"

	"lungwort/inventory"
)

// Phone is one number and whose it is.
type Phone struct {
	Number string `json:"number"`
	Whose  string `json:"whose,omitempty"` // empty: the person's own
}

// Person is what identifies a person. It lives in the book's one erasable
// table; facts hold the id alone.
type Person struct {
	ID       inventory.PersonID `json:"id"`
	Family   string             `json:"family"`
	Given    string             `json:"given"`
	Born     string             `json:"born,omitempty"` // 2006-01-02
	Record   string             `json:"record,omitempty"`
	Phones   []Phone            `json:"phones,omitempty"`
	Language string             `json:"language,omitempty"` // empty: the programme's
	Note     string             `json:"note,omitempty"`
	Contact  *Phone             `json:"contact,omitempty"` // after a death, the one person who may be called
	// Signatures are those who signed for what was delivered.
	Signatures []Signature    `json:"signatures,omitempty"`
	Erased     bool           `json:"erased,omitempty"`
	Earlier    []PersonChange `json:"earlier,omitempty"` // what lists changed
	Masked     bool           `json:"-"`                 // who this is was not shown
}

// Name returns the whole name, family name first.
func (p Person) Name() string {
	switch {
	case p.Erased:
		return "erased person " + string(p.ID)
	case p.Given == "":
		return p.Family
	}
	return p.Family + ", " + p.Given
}

// Short returns the name as lists show it: given name and initial.
func (p Person) Short() string {
	if p.Given == "" || p.Family == "" || p.Erased {
		return p.Name()
	}
	initial := []rune(p.Family)[0]
	return p.Given + " " + strings.ToUpper(string(initial)) + "."
}

// Point is a place on the earth in degrees, and the area of the programme
// it lies in. A zero point is unknown.
type Point struct {
	Lat  float64 `json:"lat"`
	Lon  float64 `json:"lon"`
	Area string  `json:"area,omitempty"`
}

// Known reports whether the point has been set.
func (p Point) Known() bool { return p.Lat != 0 || p.Lon != 0 }

// Mains says what power an address has.
type Mains string

// The kinds of mains power.
const (
	MainsYes     Mains = "mains"
	MainsPrepaid Mains = "prepaid meter"
	MainsNo      Mains = "no mains"
	MainsUnknown Mains = ""
)

// Address is a home: where it is, how to get in, what it has. It is kept with
// the identifying fields, because a street and a door identify people.
type Address struct {
	ID     inventory.AddressID `json:"id"`
	Street string              `json:"street"`
	Town   string              `json:"town,omitempty"`
	// Postcode stands apart from the town; a US one is looked up on the map.
	Postcode string    `json:"postcode,omitempty"`
	Point    Point     `json:"point"`
	Access   string    `json:"access,omitempty"` // gate code, parking, dog
	Mains    Mains     `json:"mains,omitempty"`
	Line     string    `json:"line,omitempty"`   // power line or feeder, for outages
	Stairs   int       `json:"stairs,omitempty"` // floors to climb without a lift
	Smoker   string    `json:"smoker,omitempty"` // yes, no, asked and not told
	Heater   string    `json:"heater,omitempty"` // open fire, gas stove
	Pets     string    `json:"pets,omitempty"`
	Checked  time.Time `json:"checked,omitzero"`  // address confirmed as tonight's; what is asked of the home is as old
	Cooling  string    `json:"cooling,omitempty"` // yes, no; empty: not asked
	// Registered says whether the power company knows of the machine: yes, no;
	// empty: not asked.
	Registered string          `json:"registered,omitempty"`
	Rough      bool            `json:"rough,omitempty"`   // the point is only about right
	Earlier    []AddressChange `json:"earlier,omitempty"` // what lists changed
	Masked     bool            `json:"-"`                 // where this is was not shown
}

// Where returns street and town in one line.
func (a Address) Where() string {
	if a.Town == "" {
		return a.Street
	}
	return a.Street + ", " + a.Town
}
