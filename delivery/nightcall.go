package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// NightCall is the question at two in the morning: the gauge shows so much at
// this flow; how long, and who can be there?
type NightCall struct {
	At    time.Time
	Gauge gas.Pressure
	Flow  gas.Flow
	// Setting is what stands on the dial of a pulse device, in place of a flow,
	// and Pulse what the device gives there; without it the order's counts where
	// the setting is the ordered one.
	Setting string
	Pulse   gas.Pulse
	Worse   bool // breathless, blue, confused: the number first, whatever the gauge shows
	// Sizes are the sizes the cylinder may have: one when it is known, the
	// sizes of the house when it is not. The smallest counts.
	Sizes []gas.SizeCode
	house []gas.Size    // of the cylinders there, as they are marked
	Help  time.Duration // until help is at the door; zero: not known
	Depot string        // where help comes from
	Facts []string      // what the question rests on

	Driver  string   // who could drive: on call now, with the number
	Rescues []Rescue // where gas is ready, the soonest first
	Spares  []Spare  // in other homes, the nearest first
	Others  []string // what else the caller has
}

// Lettered returns the question with the sizes as the programme knows them, in
// place of what the caller read off the label: a letter, a name of its own.
func (n NightCall) Lettered(p Programme) (NightCall, error) {
	n.Sizes = slices.Clone(n.Sizes)
	for i, code := range n.Sizes {
		size, err := p.Sizes.Parse(string(code), p.Region)
		if err != nil {
			return n, notPlanned(err)
		}
		n.Sizes[i] = size.Code
	}
	return n, nil
}

// Around returns the question with what is ready near the caller and who is on
// call: help is what can be there soonest.
func (n NightCall) Around(p Programme, ready []inventory.Item, homes []Watch, caller inventory.PersonID, at Point) NightCall {
	n.Rescues, n.Spares = p.Rescues(ready, at, n.At), p.Spares(homes, caller, at, n.At)
	n.Help, n.Depot = 0, ""
	if len(n.Sizes) > 0 {
		n.Rescues = worthWaiting(n.Rescues, n.largest(p.Sizes))
	}
	if len(n.Rescues) > 0 {
		n.Help, n.Depot = n.Rescues[0].Takes, n.Rescues[0].From
	}
	if who, on := p.Duty(n.At); on {
		n.Driver = strings.TrimSpace(who.Name + " " + who.Phone)
	}
	return n
}

// From returns the question with what the book knows of the home: the sizes
// there, what else is there, and the facts it rests on.
func (n NightCall) From(p Programme, w Watch) NightCall {
	told := len(n.Sizes) > 0 // the caller read it out: that counts
	seen := make(map[gas.SizeCode]bool)
	for _, h := range w.Care.Kit {
		if size, known := p.SizeOf(h.Spec); known && h.Spec.Kind == inventory.Cylinder {
			n.house = append(n.house, size)
		}
		if !told && h.Spec.Kind == inventory.Cylinder && !seen[h.Spec.Size] {
			seen[h.Spec.Size] = true
			n.Sizes = append(n.Sizes, h.Spec.Size)
		}
	}
	n.Facts = append(n.Facts, "in the house: "+w.Gas)
	if o := w.Care.Order; o != nil {
		n.Facts = append(n.Facts, fmt.Sprintf("%s since %s", o.inForce(), Clock(w.Care.OrderedAt, n.At)))
		if n.Pulse == (gas.Pulse{}) && !o.untold() && n.Setting != "" && gas.Dial(n.Setting) == gas.Dial(o.Setting) {
			n.Pulse = o.pulse()
		}
	}
	if flow, err := n.breathed(); err == nil {
		n.Others = w.Care.others(p, flow, n.At)
	}
	return n
}

// inForce says what an order has at rest.
func (o Ordered) inForce() string {
	if o.Setting != "" {
		return "order pulse setting " + o.Setting
	}
	return fmt.Sprintf("order %s at rest", o.Rest)
}

// breathed returns the oxygen in use a minute. A setting on a dial is no flow:
// without what the device gives there, nothing is said.
func (n NightCall) breathed() (gas.Flow, error) {
	switch {
	case n.Setting == "" && n.Pulse == (gas.Pulse{}) && n.Flow == 0:
		return 0, refusal.New(refusal.Ask, "The flow in use is not known.", "Ask what the flow meter shows; of a pulse device, its setting.")
	case n.Setting == "" && n.Pulse == (gas.Pulse{}):
		return n.Flow, nil
	}
	flow, err := n.Pulse.Uses()
	if err != nil {
		return 0, refusal.New(refusal.Ask, "A setting of a pulse device is not a flow, and what the device gives at it is not known.",
			"Its papers say the mL a breath; let them count the breaths for a minute.").Because(err)
	}
	return flow, nil
}

// Answer answers the call, lower bound first. When gas ends before help, the
// emergency number and the clinician come before any dispatch.
func (n NightCall) Answer(p Programme) (Answer, error) {
	m, err := n.minutes(p)
	if err != nil {
		return Answer{}, err
	}
	low := time.Duration(m.least) * time.Minute
	a := Answer{
		Low: Spell(low), Mid: Spell(time.Duration((m.least+m.most)/2) * time.Minute), High: Spell(time.Duration(m.most) * time.Minute),
		Help:    "nobody knows who is near",
		Assumed: append(m.methods, n.assumes(), NoFlowAdvice),
		Facts:   n.Facts,
	}
	if n.Help > 0 {
		a.Help = fmt.Sprintf("%s from %s", Spell(n.Help), n.Depot)
	}
	send := append(slices.Clone(n.Others), n.send(p.Sizes))
	switch {
	case low == 0:
		a.Verdict, a.Title = depletion.Dry, "the planning value has ended"
		a.Do = append(p.emergencyFirst(), send...)
	case n.Help == 0:
		a.Verdict, a.Title = depletion.Unknown, fmt.Sprintf("plan on %s: find out who is nearest", m.bySize())
		a.Do = append(p.emergencyFirst(), send...)
	case low < n.Help:
		a.Verdict, a.Title = depletion.Short, fmt.Sprintf("plan on %s; help takes %s and will not make it", m.bySize(), Spell(n.Help))
		a.Do = append(p.emergencyFirst(), send...)
	case time.Duration(float64(n.Help)*p.Margin) > low:
		a.Verdict, a.Title = depletion.Tight, fmt.Sprintf("%s of gas, help in %s", m.bySize(), Spell(n.Help))
		a.Do = append(send, "Call again in 10 min and ask for the gauge")
	default:
		a.Verdict, a.Title = depletion.Holds, fmt.Sprintf("%s of gas, help in %s", m.bySize(), Spell(n.Help))
		a.Do = append(send, "Ask for the gauge on arrival")
	}
	if n.Worse {
		if a.Verdict == depletion.Tight || a.Verdict == depletion.Holds {
			a.Do = append(p.emergencyFirst(), a.Do...)
		}
		a.Verdict, a.Title = bandVerdicts[Emergency], "emergency first. "+strings.ToUpper(a.Title[:1])+a.Title[1:]
	}
	a.Do = append(a.Do, n.nearer(low)...)
	return a, nil
}

// assumes says what is taken for granted of the valve and the flow.
func (n NightCall) assumes() string {
	words := fmt.Sprintf("valve open since %s, ", n.At.Format("15:04"))
	if n.Pulse == (gas.Pulse{}) {
		return words + "flow as told"
	}
	return words + fmt.Sprintf("a pulse of %s; faster breathing takes more", n.Pulse)
}

// send says who brings what.
func (n NightCall) send(sizes gas.Table) string {
	words := fmt.Sprintf("Send %s with %d full %s", orSomebody(n.Depot), sentAlong, letter(n.largest(sizes)))
	if len(n.Rescues) > 0 {
		words = fmt.Sprintf("Send %s now with %s; ready there: %s", orSomebody(n.Depot), n.Rescues[0].load(n.largest(sizes), sizes), n.Rescues[0].Holds)
		if phone := n.Rescues[0].Phone; phone != "" {
			words += ", " + phone
		}
	}
	if n.Driver != "" {
		words += "; on call " + n.Driver
	}
	return words
}

// largest returns the size to bring where the house may hold several.
func (n NightCall) largest(sizes gas.Table) gas.SizeCode {
	return slices.MaxFunc(n.Sizes, func(a, b gas.SizeCode) int {
		least, _ := sizes.LookUp(a)
		most, _ := sizes.LookUp(b)
		return cmp.Compare(least.Contents, most.Contents)
	})
}

// mostAsked is how many other homes an answer names.
const mostAsked = 2

// nearer says what else there is: other homes where gas ends before help, then
// the next stock.
func (n NightCall) nearer(low time.Duration) []string {
	var list []string
	if n.Help == 0 || low < n.Help {
		for _, s := range n.Spares[:min(len(n.Spares), mostAsked)] {
			list = append(list, s.asked())
		}
	}
	if len(n.Rescues) > 1 {
		r := n.Rescues[1]
		list = append(list, fmt.Sprintf("Else %s, %s: %s", r.From, Spell(r.Takes), r.Holds))
	}
	return append(list, "Does the concentrator run? Then back to it, and the cylinder closed")
}

func orSomebody(from string) string {
	if from == "" {
		return "whoever is nearest"
	}
	return "help from " + from
}

// lasting is how long the gas lasts over the sizes the cylinder may have.
type lasting struct {
	least   int // planning minutes of the smallest
	most    int // by the most generous published method
	methods []string
	planned []sized
}

// sized is the planning minutes of one size.
type sized struct {
	letter  string
	minutes int
}

// bySize says the planning minutes, size by size where several may be meant:
// "12 min (D) / 21 min (E)".
func (l lasting) bySize() string {
	if len(l.planned) == 1 {
		return Spell(time.Duration(l.least) * time.Minute)
	}
	slices.SortStableFunc(l.planned, func(a, b sized) int { return cmp.Compare(a.minutes, b.minutes) })
	words := make([]string, len(l.planned))
	for i, s := range l.planned {
		words[i] = fmt.Sprintf("%s (%s)", Spell(time.Duration(s.minutes)*time.Minute), s.letter)
	}
	return strings.Join(words, " / ")
}

// minutes counts each size the cylinder may have.
func (n NightCall) minutes(p Programme) (l lasting, err error) {
	if len(n.Sizes) == 0 {
		return l, refusal.New(refusal.Ask, "The size of the cylinder is not known.", "Ask for the letter on its label.")
	}
	if n.Flow, err = n.breathed(); err != nil {
		return l, err
	}
	for _, code := range n.Sizes {
		size, err := p.Sizes.Parse(string(code), p.Region)
		if err != nil {
			return l, notPlanned(err)
		}
		for _, marked := range n.marked(size) {
			if err := l.count(marked, n, p.Reserve); err != nil {
				return l, err
			}
		}
	}
	return l, nil
}

// marked returns the different cylinders of a size in the house, or the size as
// it stands in the table.
func (n NightCall) marked(size gas.Size) []gas.Size {
	var all []gas.Size
	for _, h := range n.house {
		same := func(s gas.Size) bool { return s.Contents == h.Contents && s.Service == h.Service }
		if h.Code == size.Code && !slices.ContainsFunc(all, same) {
			all = append(all, h)
		}
	}
	if len(all) == 0 {
		return []gas.Size{size}
	}
	return all
}

// count takes in what a cylinder may be.
func (l *lasting) count(size gas.Size, n NightCall, reserve gas.Pressure) error {
	plan, err := gas.PlanMinutes(size, n.Gauge, reserve, n.Flow, gas.Room)
	if err != nil {
		return notPlanned(err)
	}
	toZero, err := gas.PlanMinutes(size, n.Gauge, 0, n.Flow, gas.Room)
	if err != nil {
		return notPlanned(err)
	}
	words := make([]string, len(plan.Methods))
	for i, m := range plan.Methods {
		l.most = max(l.most, m.Minutes, toZero.Methods[i].Minutes)
		words[i] = fmt.Sprintf("%s %d min", m.Method, m.Minutes)
	}
	l.methods = append(l.methods, fmt.Sprintf("size %s: %s, %s kept", size.Letter, strings.Join(words, ", "), reserve))
	if len(l.planned) == 0 || plan.Minutes < l.least {
		l.least = plan.Minutes
	}
	l.planned = append(l.planned, sized{size.Letter, plan.Minutes})
	return nil
}
