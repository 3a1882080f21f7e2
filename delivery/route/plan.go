package route

import "fmt"

// Plan is an answer: who drives where and when, and what could not be kept.
type Plan struct {
	Routes   []Route    // one for each vehicle used, in the order of the vehicles
	Unserved []Unserved // stops on no route, most endangered first
	Late     []Late     // stops visited after their act-by, most endangered first
	Distance int64      // of all routes
	Duration int64      // from departure to return, of all routes
	Cost     int64      // what the search minimised, in the unit of Weights
	Steps    int        // search steps done
	Stopped  bool       // cut short by the time limit or the caller; the plan is the best so far
}

// Route is what one vehicle does.
type Route struct {
	Vehicle   int
	Departure int64 // as late as starts no visit later
	Return    int64
	Out       Load // on board at departure
	Visits    []Visit
	Rests     []Rest
	Distance  int64
	Duration  int64
}

// Visit is one stop on a route.
type Visit struct {
	Stop    int
	Arrival int64
	Start   int64 // the visit begins: at arrival, or when the window opens
	Wait    int64
	Leave   int64
	After   Load // on board on leaving
}

// Rest is a break as planned: it starts after the visit with index After (-1 for before the first), at Start.
type Rest struct {
	After  int
	Start  int64
	Length int64
}

// Cause says why a stop is not visited, or not in time.
type Cause int

// The causes, from the one nothing but a different vehicle can mend to the one a little time mends.
const (
	NoVehicle  Cause = iota // there is no vehicle at all, or none the stop is locked to
	NoSkill                 // no vehicle has what the stop needs
	TooLarge                // the load exceeds every vehicle that may come, even empty
	OpensLate               // its window opens after its act-by
	TooFar                  // no vehicle could come inside window and shift, even going there first
	NoRoom                  // it would fit in time, but the vehicles are full
	NoTime                  // the other visits leave no time for it
	ActByFirst              // a more pressing act-by was kept instead
	OtherDay                // leaving it for another day costs less than going there
)

var causes = map[Cause]string{
	NoVehicle:  "no vehicle is planned for it",
	NoSkill:    "no vehicle has the skills or equipment it needs",
	TooLarge:   "its load is larger than any vehicle that may come",
	OpensLate:  "its window opens after its act-by",
	TooFar:     "no vehicle can be there in time, even going there first",
	NoRoom:     "the vehicles that could come in time are full",
	NoTime:     "the other visits leave no time for it",
	ActByFirst: "more pressing visits come first",
	OtherDay:   "going there another day costs less",
}

func (c Cause) String() string { return causes[c] }

// Unserved is a stop no route visits.
type Unserved struct {
	Stop    int
	Cause   Cause
	Forced  bool     // it could be squeezed in past its window or act-by with every other visit in time
	LateBy  int64    // how far past, when Forced
	Reliefs []Relief // what would let it be visited, cheapest first; empty when nothing tried here would
}

// Late is a stop visited after its act-by.
type Late struct {
	Stop    int
	Vehicle int
	LateBy  int64 // start of the visit less act-by
	Cause   Cause
	Reliefs []Relief // what would bring gas in time, cheapest first
}

// ReliefKind says what would have to change.
type ReliefKind int

// The kinds of relief.
const (
	LaterWindow   ReliefKind = iota // the stop accepts a visit until At
	LongerShift                     // the vehicle returns as late as At
	EarlierWindow                   // the stop accepts a visit from At on
	EarlierShift                    // the vehicle leaves as early as At
	ExtraVehicle                    // one more vehicle like this one
)

// Relief is one change that would mend one stop while all else is kept.
type Relief struct {
	Kind    ReliefKind
	Vehicle int   // the vehicle that comes, or whose like is added; -1 for EarlierWindow, which any may use
	At      int64 // see the kind; for ExtraVehicle the start of the visit
	Price   int64 // seconds asked of somebody: the window's or the shift's extension, or the whole trip of the extra vehicle
}

// Says tells the relief in words, with times as seconds turned into hours and minutes since the day start.
func (r Relief) Says(p Problem) string {
	name := fmt.Sprintf("vehicle %d", r.Vehicle+1)
	if r.Vehicle >= 0 && r.Vehicle < len(p.Vehicles) && p.Vehicles[r.Vehicle].Name != "" {
		name = p.Vehicles[r.Vehicle].Name
	}
	switch r.Kind {
	case LaterWindow:
		return fmt.Sprintf("a window until %s, with %s", clock(r.At), name)
	case EarlierWindow:
		return fmt.Sprintf("a window from %s", clock(r.At))
	case LongerShift:
		return fmt.Sprintf("%s out until %s", name, clock(r.At))
	case EarlierShift:
		return fmt.Sprintf("%s leaving at %s", name, clock(r.At))
	default:
		return fmt.Sprintf("one more vehicle like %s, there at %s", name, clock(r.At))
	}
}

func clock(seconds int64) string {
	sign, m := "", (seconds+59)/60
	if seconds < 0 {
		sign, m = "-", -seconds/60
	}
	return fmt.Sprintf("%s%02d:%02d", sign, m/60, m%60)
}
