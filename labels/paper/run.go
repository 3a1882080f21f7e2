package paper

import (
	"fmt"
	"io"
	"time"
)

// RunSheet is one vehicle's trip on paper: what to load, then every stop in
// order, with room to write what happened. It holds only what its driver needs.
type RunSheet struct {
	Head
	Run          string    // the run's name, "Run 3"
	Vehicle      string    // "Van 2"
	Driver       string    // who drives, and who comes along
	Depot        string    // where it starts
	Depart       time.Time // planned
	Back         time.Time // planned; may be zero
	Breaks       []string  // "12:30–13:00"
	FireDistance string    // the programme's distance from flame and heat, "3 m"
	Load         Load
	Stops        []Stop
}

// Load is what the vehicle carries, beside the items the stops name.
type Load struct {
	Cylinders []CylinderCount
	Weighs    string   // the gross weight of cylinders against the limits of the programme
	Wrong     []string // why the vehicle may not leave as it is loaded
	Papers    []string // papers and signs asked for with this load
	Rules     []string // where the limits stand
	Spares    []Spare
}

// CylinderCount is how many cylinders of one size go out full and should come
// back.
type CylinderCount struct {
	Size             string
	FullOut, BackOld int
}

// Spare is a counted part carried in case: washers, keys, cannulas.
type Spare struct {
	Name     string
	Quantity int
}

// Stop is one address with the tasks for one person. Two persons at one
// address are two stops with the same number.
type Stop struct {
	Number       int       // in the order of the run, from 1
	Planned      time.Time // arrival
	PromisedFrom time.Time // the window that was promised; both zero for none
	PromisedTo   time.Time
	ActBy        time.Time // by when gas must be there; zero for none
	Allowed      time.Duration
	Name         string
	Identifiers  []string // what is asked besides the name: "born 4 Mar 1951", "programme no. 1182"
	Address      []string // lines
	Place        string   // street and house for the list of stops; names nobody
	Phones       []Phone  // in the order to ring them
	Order        string   // the ordered flows, as the clinician wrote them
	Language     string   // and the interpreter, if one is booked
	Access       string   // stairs, lift, gate code, parking
	Pets         string
	Smoker       string // smoking, vaping, flame in the home, and since when it is known
	Note         string
	Tasks        []Task
	DoNotTouch   []OtherItem
}

// Phone is a number and whose it is.
type Phone struct{ Whose, Number string }

// Work is what a task does.
type Work string

// The three kinds of work.
const (
	Drop    Work = "drop"
	Swap    Work = "swap"
	Collect Work = "collect"
)

// Task is one piece of work at a stop: Drop leaves, Collect takes, Swap does
// both.
type Task struct {
	Work  Work
	Leave Item // of drop and swap
	Take  Item // of collect and swap
}

// Item is a thing on a paper.
type Item struct {
	What     string // "oxygen cylinder US-E, full"
	Tag      string // our label, as printed; empty for supplies
	Serial   string // the maker's
	Code     string // what the tag's code says; empty for no code
	Quantity int    // 0 counts as 1
}

// quantity is how many of the item, at least one.
func (i Item) quantity() int { return max(i.Quantity, 1) }

// OtherItem is a thing in the house that stays as it is.
type OtherItem struct {
	Item
	Why string // whose it is and that it is in use
}

// Print writes the run sheet: load list first, then the stops.
func (r RunSheet) Print(w io.Writer) (Result, error) {
	title := fmt.Sprintf("%s  ·  %s  ·  %s", r.Run, r.Vehicle, longDay(r.Depart))
	s, err := newSheet(r.Head, r.Format, "Run sheet", title)
	if err != nil {
		return Result{}, err
	}
	last := 0
	for _, stop := range r.Stops {
		last = max(last, stop.Number)
	}
	s.loadList(r)
	for _, stop := range r.Stops {
		s.stop(stop, last, r)
	}
	return s.finish(w)
}

// cautions is what protects the driver and the street.
func cautions(fireDistance string) string {
	if fireDistance == "" {
		fireDistance = "the distance of the local fire code"
	}
	return "No smoking, vaping, flame or heater within " + fireDistance +
		" of oxygen; the local fire code decides. Cylinders secured, upright in the house. " +
		"No oil, grease or petroleum products on hands, valves or fittings."
}
