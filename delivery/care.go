package delivery

import (
	"fmt"
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

	Gauge *inventory.Seen[gas.Pressure] `json:"gauge,omitempty"`
	Hours *inventory.Seen[float64]      `json:"hours,omitempty"`
	// Breathed is how long the cylinder was breathed from since its reading,
	// up to the last switch away from it.
	Breathed time.Duration `json:"breathed,omitempty"`
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

	Discharge *Discharged     `json:"discharge,omitempty"`
	Kit       []Holding       `json:"kit,omitempty"` // in order of use
	Tasks     []OpenTask      `json:"tasks,omitempty"`
	LastCall  *Check          `json:"last_call,omitempty"`
	Tried     int             `json:"tried,omitempty"` // calls without an answer since
	Consents  map[string]bool `json:"consents,omitempty"`
	StoppedBy string          `json:"stopped_by,omitempty"`
	Doubts    []string        `json:"doubts,omitempty"`

	// read is what was last read on things not in the kit, while folding: a
	// cylinder is left with the reading it has.
	read map[inventory.ItemID]*inventory.Seen[gas.Pressure]
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

// Observed returns the flow last heard of in use after the order in force was
// given, and when; zero when there is none.
func (c Care) Observed() (gas.Flow, time.Time) {
	if c.LastCall == nil || c.LastCall.Flow == nil || c.LastCall.At.Before(c.OrderedAt) {
		return 0, time.Time{}
	}
	return *c.LastCall.Flow, c.LastCall.At
}

// Flow returns the flow of rest in force, and the highest credible flow: the
// highest of what was ordered and what was seen in use.
func (c Care) Flow() (rest, highest gas.Flow) {
	if c.Order == nil {
		seen, _ := c.Observed()
		return seen, seen
	}
	seen, _ := c.Observed()
	return max(c.Order.Rest, seen), max(c.Order.Rest, c.Order.Exertion, c.Order.Asleep, seen)
}

// FoldCare returns what the facts about one person, and about every item the
// person ever had, say of the person, whatever order they come in.
func FoldCare(id inventory.PersonID, facts []inventory.Fact) Care {
	c := Care{Person: id, Phase: Known, read: make(map[inventory.ItemID]*inventory.Seen[gas.Pressure])}
	for _, f := range inventory.Standing(facts) {
		if f.Person == id {
			c.apply(f)
		} else if f.Item != "" {
			c.kit(f)
		}
	}
	c.read = nil
	return c
}

func (c *Care) apply(f inventory.Fact) {
	switch s := f.Statement.(type) {
	case *Settled:
		c.Address = s.Address
	case *Consented:
		if c.Consents == nil {
			c.Consents = make(map[string]bool)
		}
		c.Consents[s.To] = s.Given
	case *Ordered:
		c.Order, c.OrderedAt = s, f.Happened
	case *Discharged:
		c.discharge(s)
	case *Switched:
		c.change(s, f)
	case *Called:
		c.hear(s, f)
	case *Tasked:
		if c.Phase != Over || s.Task == Collect { // after a stop nothing more is brought
			c.Tasks = append(c.Tasks, OpenTask{ID: f.ID, Opened: f.Happened, Tasked: *s})
		}
	case *Done:
		c.done(s)
	case *Stopped:
		c.become(Over, f.Happened)
		c.StoppedBy = s.OrderedBy
		c.breathe(FromNothing, f.Happened)
	default:
		c.kit(f)
	}
}

// kit applies the statements about items on loan to the person.
func (c *Care) kit(f inventory.Fact) {
	switch s := f.Statement.(type) {
	case *inventory.Lent:
		c.drop(f)
		if f.Person == c.Person {
			c.Kit = append(c.Kit, Holding{Item: f.Item, Spec: s.Spec, Role: s.Role, Since: f.Happened, Gauge: c.read[f.Item]})
		}
	case *inventory.Serving:
		if h := c.holding(f.Item); h != nil && f.Person == c.Person {
			h.Role = s.As
		}
	case *inventory.Observed:
		c.observe(s, f)
	case *inventory.Filled:
		delete(c.read, f.Item)
	case *inventory.Collected, *inventory.Returned, *inventory.Cleared, *inventory.Moved:
		c.drop(f)
	}
}

func (c *Care) become(p Phase, at time.Time) {
	if c.Phase != p {
		c.Phase, c.Since = p, at
	}
}

func (c *Care) discharge(s *Discharged) {
	c.Discharge, c.StoppedBy = s, ""
	c.become(OnBridge, s.Opened)
	c.breathe(FromCylinder, s.Opened)
}

// change records a switch. Only a discharge brings a person back once oxygen
// was stopped.
func (c *Care) change(s *Switched, f inventory.Fact) {
	if c.Phase == Over {
		c.doubt(f, "was "+switched(s.To)+" after the stop")
		return
	}
	c.breathe(s.To, f.Happened)
	if s.To == FromCylinder && c.Phase == OnBridge { // no concentrator is awaited
		c.become(CylinderNow, f.Happened)
	}
}

func (c *Care) doubt(f inventory.Fact, what string) {
	c.Doubts = append(c.Doubts, fmt.Sprintf("%s (%s)", what, f.Happened.Format("Mon 2 Jan 15:04")))
}

// breathe switches what the person breathes from, and books the time
// breathed from the cylinder in use until now.
func (c *Care) breathe(from Breathes, at time.Time) {
	c.bookBreathing(at)
	switch {
	case from == FromConcentrator:
		c.become(Running, at)
	case from == FromCylinder && c.Phase == Running:
		c.become(CylinderNow, at)
	}
	c.Breathes, c.Switched = from, at
}

// bookBreathing adds the time since the last switch to the cylinder in use.
func (c *Care) bookBreathing(until time.Time) {
	if c.Breathes != FromCylinder {
		return
	}
	for i := range c.Kit {
		h := &c.Kit[i]
		if h.Spec.Kind != inventory.Cylinder {
			continue
		}
		since := later(c.Switched, h.Opened)
		if h.Gauge != nil {
			since = later(since, h.Gauge.At)
		}
		if until.After(since) {
			h.Breathed += until.Sub(since)
		}
		return // one cylinder is breathed from at a time
	}
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

func (c *Care) hear(s *Called, f inventory.Fact) {
	if !s.Answered {
		c.Tried++
		return
	}
	c.Tried = 0
	c.LastCall = &Check{At: f.Happened, Called: *s}
}

func (c *Care) observe(s *inventory.Observed, f inventory.Fact) {
	h := c.holding(f.Item)
	if s.Gauge != nil {
		seen := &inventory.Seen[gas.Pressure]{Value: *s.Gauge, At: f.Happened, Told: s.Told, Fact: f.ID}
		if c.read != nil {
			c.read[f.Item] = seen
		}
		if h != nil {
			h.Gauge, h.Breathed = seen, 0
		}
	}
	if h == nil {
		return
	}
	if s.Hours != nil {
		h.Hours = &inventory.Seen[float64]{Value: *s.Hours, At: f.Happened, Told: s.Told, Fact: f.ID}
	}
}

func (c *Care) done(s *Done) {
	i := slices.IndexFunc(c.Tasks, func(t OpenTask) bool { return t.ID == s.Task })
	if i < 0 {
		return
	}
	if s.Failed != "" {
		c.Tasks[i].Tries = append(c.Tasks[i].Tries, s.Failed)
		if !s.Next.IsZero() {
			c.Tasks[i].From = s.Next
		}
		return
	}
	c.Tasks = slices.Delete(c.Tasks, i, i+1)
}

func (c *Care) holding(id inventory.ItemID) *Holding {
	for i := range c.Kit {
		if c.Kit[i].Item == id {
			return &c.Kit[i]
		}
	}
	return nil
}

// drop takes a thing out of the kit. The next cylinder is breathed from when
// the one in use goes; where the machine in use goes, it is not known any more
// what the person breathes from.
func (c *Care) drop(f inventory.Fact) {
	i := slices.IndexFunc(c.Kit, func(h Holding) bool { return h.Item == f.Item })
	if i < 0 {
		return
	}
	used, gone := inUse(*c), c.Kit[i]
	c.Kit = slices.Delete(c.Kit, i, i+1)
	switch {
	case c.Breathes == FromCylinder && i == used:
		if next := inUse(*c); next >= 0 {
			c.Kit[next].Opened = f.Happened
		}
	case c.Breathes == FromConcentrator && gone.Spec.Kind == inventory.Concentrator:
		if _, other := c.Concentrator(); !other {
			c.doubt(f, "the concentrator went and none was left")
			c.Breathes, c.Switched = FromNothing, f.Happened
		}
	}
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
