package delivery

import (
	"maps"
	"slices"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// Phase is where a person stands on the way from discharge to return.
type Phase string

// The phases of a person.
const (
	Known       Phase = "known"       // in the book, no oxygen of ours yet
	OnBridge    Phase = "bridge"      // on the cylinder until the concentrator runs
	Running     Phase = "running"     // on the concentrator
	CylinderNow Phase = "on cylinder" // after the bridge: power or machine gone, or no concentrator
	Over        Phase = "stopped"     // oxygen is not needed any more
	InHospital  Phase = "in hospital" // what is at home is held
	Joined      Phase = "joined"      // the record of a person who is kept under another
)

// Holding is one item a person has on loan, as the person's facts tell it.
type Holding struct {
	Item  inventory.ItemID `json:"item"`
	Spec  inventory.Spec   `json:"spec"`
	Role  inventory.Role   `json:"role"`
	Since time.Time        `json:"since"`
	// Opened is when a cylinder came to be breathed from because the one used
	// before it was taken away.
	Opened time.Time `json:"opened,omitzero"`
	Proven time.Time `json:"proven,omitzero"` // its delivery was signed for

	Gauge *inventory.Seen[gas.Pressure] `json:"gauge,omitempty"`
	Hours *inventory.Seen[float64]      `json:"hours,omitempty"`
	// Oxygen is what a concentrator was last found to give, in percent.
	Oxygen *inventory.Seen[float64] `json:"oxygen,omitempty"`
	// Weight of a liquid vessel with what is in it.
	Weight *inventory.Seen[gas.Kilograms] `json:"weight,omitempty"`
	// From is the first reading of the hours meter on this loan.
	From *inventory.Seen[float64] `json:"from,omitempty"`
	// Breathed is how long the cylinder was breathed from since its reading,
	// up to the last switch away from it.
	Breathed time.Duration `json:"breathed,omitempty"`
	// Emptied is how it stood before it was read empty while it was breathed from.
	Emptied *Stood `json:"emptied,omitempty"`
}

// lastRead is what was last read on something that holds gas.
type lastRead struct {
	gauge  *inventory.Seen[gas.Pressure]
	weight *inventory.Seen[gas.Kilograms]
}

// Stood is a reading of a cylinder with how long it was breathed from since, up
// to the last switch away from it.
type Stood struct {
	Gauge    inventory.Seen[gas.Pressure] `json:"gauge"`
	Breathed time.Duration                `json:"breathed,omitempty"`
}

// Breathed is what two readings of one cylinder show of a person's use: how
// far the gauge fell in the time it was breathed from.
type Breathed struct {
	Size   gas.SizeCode                 `json:"size"`
	Marked gas.Marks                    `json:"marked,omitzero"`
	Before inventory.Seen[gas.Pressure] `json:"before"`
	After  inventory.Seen[gas.Pressure] `json:"after"`
	Took   time.Duration                `json:"took"`
}

// OpenTask is a task that waits to be done.
type OpenTask struct {
	ID     inventory.FactID `json:"id"`
	Opened time.Time        `json:"opened"`
	Tasked
	Tries []string `json:"tries,omitempty"` // why earlier visits failed
}

// brings reports whether a kind of thing is to be brought.
func (t OpenTask) brings(kind inventory.Kind) bool {
	return slices.ContainsFunc(t.Bring, func(w Wanted) bool { return w.Kind == kind })
}

// Check is what one call or visit heard, with its time.
type Check struct {
	At time.Time `json:"at"`
	Called
}

// Care is what the facts say of a person: the fold of the person's facts.
type Care struct {
	Person  inventory.PersonID  `json:"person"`
	Address inventory.AddressID `json:"address,omitempty"`
	Phase   Phase               `json:"phase"`
	Since   time.Time           `json:"since,omitzero"` // in this phase

	Order     *Ordered  `json:"order,omitempty"`
	OrderedAt time.Time `json:"ordered_at,omitzero"`
	Breathes  Breathes  `json:"breathes,omitempty"`
	Switched  time.Time `json:"switched,omitzero"`

	Discharge *Discharged `json:"discharge,omitempty"`
	Kit       []Holding   `json:"kit,omitempty"` // in order of use
	Tasks     []OpenTask  `json:"tasks,omitempty"`
	Uses      []Breathed  `json:"uses,omitempty"` // under the order in force, the newest last
	LastCall  *Check      `json:"last_call,omitempty"`
	Tried     int         `json:"tried,omitempty"` // calls without an answer since
	FirstTry  time.Time   `json:"first_try,omitzero"`
	LastTry   time.Time   `json:"last_try,omitzero"`
	Heard     int         `json:"heard,omitempty"`  // answered calls since the discharge
	Checks    []Check     `json:"checks,omitempty"` // the last of them, and older ones nobody was told of
	Bands     *Banded     `json:"bands,omitempty"`
	// Told is when somebody was last told of a matter.
	Told      map[Matter]time.Time `json:"told,omitempty"`
	InCut     *CutContact          `json:"in_cut,omitempty"` // the calls about the last power cut
	Consents  map[string]bool      `json:"consents,omitempty"`
	StoppedBy string               `json:"stopped_by,omitempty"`
	Doubts    []string             `json:"doubts,omitempty"`
	Died      *Death               `json:"died,omitempty"`
	Hold      *Hold                `json:"hold,omitempty"`
	Refusals  []Refusal            `json:"refusals,omitempty"`
	Stays     []Stay               `json:"stays,omitempty"`
	Trips     []Trip               `json:"trips,omitempty"`  // booked, on the cylinder
	Tubing    float64              `json:"tubing,omitempty"` // metres; zero: not told
	Chases    []Attempt            `json:"chases,omitempty"` // to get back what is not needed
	// Questions are what the facts about the person leave open, each with its
	// answer once somebody gave one.
	Questions []inventory.Question `json:"questions,omitempty"`
	// Answers are those to questions that do not come from the person's own
	// facts, by their keys: whether two records are one person.
	Answers map[string]*inventory.Answer `json:"answers,omitempty"`

	// read is what was last read on things not in the kit, while folding: a
	// cylinder is left with the reading it has.
	read map[inventory.ItemID]lastRead
	turn inventory.Fact // the last start, switch or stop, while folding
}

// Watched reports whether the watch list shows the person.
func (c Care) Watched() bool {
	return c.Phase == OnBridge || c.Phase == Running || c.Phase == CylinderNow
}

// Holding returns the person's holding of an item.
func (c Care) Holding(id inventory.ItemID) (Holding, bool) {
	i := slices.IndexFunc(c.Kit, func(h Holding) bool { return h.Item == id })
	if i < 0 {
		return Holding{}, false
	}
	return c.Kit[i], true
}

// Concentrator returns the person's concentrator.
func (c Care) Concentrator() (Holding, bool) {
	i := slices.IndexFunc(c.Kit, func(h Holding) bool { return h.Spec.Kind == inventory.Concentrator })
	if i < 0 {
		return Holding{}, false
	}
	return c.Kit[i], true
}

// Task returns the open task of an id.
func (c Care) Task(id inventory.FactID) (OpenTask, bool) {
	i := slices.IndexFunc(c.Tasks, func(t OpenTask) bool { return t.ID == id })
	if i < 0 {
		return OpenTask{}, false
	}
	return c.Tasks[i], true
}

// Has reports whether a task of a kind is open.
func (c Care) Has(task Task) bool {
	return slices.ContainsFunc(c.Tasks, func(t OpenTask) bool { return t.Tasked.Task == task })
}

// Observed returns the flow at rest last heard of in use after the order in
// force was given, and when; zero when there is none.
func (c Care) Observed() (gas.Flow, time.Time) {
	k := c.flowHeard()
	if k == nil || k.Flow == nil {
		return 0, time.Time{}
	}
	return *k.Flow, k.At
}

// flowHeard returns the last call under the order in force that told a flow.
func (c Care) flowHeard() *Check {
	told := func(k *Check) bool { return k.highest() > 0 && !k.At.Before(c.OrderedAt) }
	if c.LastCall != nil && told(c.LastCall) {
		return c.LastCall
	}
	for i := range slices.Backward(c.Checks) {
		if told(&c.Checks[i]) {
			return &c.Checks[i]
		}
	}
	return nil
}

// Flow returns the flow of rest in force, and the highest credible flow: the
// highest of what was ordered and what was seen in use.
func (c Care) Flow() (rest, highest gas.Flow) {
	if k := c.flowHeard(); k != nil {
		rest, _ = c.Observed()
		highest = k.highest()
	}
	if c.Order == nil {
		return rest, highest
	}
	return max(c.Order.atRest(), rest), max(c.Order.atRest(), c.Order.Exertion, c.Order.Asleep, highest)
}

// Consented returns what the person said yes to, sorted.
func (c Care) Consented() []string {
	yes := make([]string, 0, len(c.Consents))
	for _, to := range slices.Sorted(maps.Keys(c.Consents)) {
		if c.Consents[to] {
			yes = append(yes, to)
		}
	}
	return yes
}
