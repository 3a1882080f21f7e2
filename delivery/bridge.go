package delivery

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// BridgeGas is one cylinder that goes along.
type BridgeGas struct {
	Tag   string // as a person reads it
	Size  gas.Size
	Gauge *gas.Pressure // nil: not read
}

// Bridge is the question before a person leaves the ward: does the gas that
// goes along last until the concentrator runs?
type Bridge struct {
	Opens   time.Time // the valve, on the ward
	Leaves  time.Time
	Flow    gas.Flow // the highest credible
	Rest    gas.Flow // at rest; zero: not told apart
	Setting string   // of a pulse device; empty: continuous flow
	Gas     []BridgeGas
	Ride    time.Duration
	// WayKnown is false when Ride is the programme's careful guess.
	WayKnown bool
	Arrives  time.Time // the delivery at the home; zero: not planned
	SetUp    time.Duration
	WarmUp   time.Duration
	Thin     string // what the machine may lack so high above the sea
	Margin   float64
	Reserve  gas.Pressure
	Sizes    gas.Table    // of the programme
	Spare    gas.SizeCode // the size that could be added
	// NoMains is where a concentrator would be brought that can't run there;
	// empty: it can. Unasked: nobody asked whether there is mains power.
	NoMains string
	Unasked bool
	// Ready counts the cylinders that could be added, by size; nil: not looked
	// up.
	Ready map[gas.SizeCode]int
}

// BridgeAnswer is the answer card with the numbers behind it.
type BridgeAnswer struct {
	Answer
	Has   time.Duration // planning minutes of the gas that goes along
	Most  time.Duration // by the most generous published method
	Needs time.Duration // from the valve opened to the concentrator running
	Wants time.Duration // needs times the margin
}

// Running returns when the concentrator runs: the later of the arrivals of
// person and delivery, then set-up and warm-up. Zero when no delivery is
// planned.
func (b Bridge) Running() time.Time {
	if b.Arrives.IsZero() {
		return time.Time{}
	}
	home := b.Leaves.Add(b.Ride)
	if b.Arrives.After(home) {
		home = b.Arrives
	}
	return home.Add(b.SetUp + b.WarmUp)
}

// Answer judges the bridge.
func (b Bridge) Answer(p Programme) (BridgeAnswer, error) {
	a := BridgeAnswer{}
	if why := b.unpredictable(); why != "" {
		a.Verdict = depletion.Unknown
		a.Title = why
		a.Help = "not judged"
		a.Do = []string{"Ask the prescriber for a continuous flow for the way home, or let the clinician decide how they travel"}
		a.Assumed = []string{NoFlowAdvice}
		return a, nil
	}
	var err error
	if a.Has, a.Most, a.Facts, err = b.minutes(b.Flow); err != nil {
		return a, err
	}
	high := a.Most
	if b.restsLower() {
		if high, _, _, err = b.minutes(b.Rest); err != nil {
			return a, err
		}
	}
	a.Low, a.Mid, a.High = Spell(a.Has), Spell((a.Has+high)/2), Spell(high)
	a.Assumed = []string{
		b.flowAssumed(),
		fmt.Sprintf("reserve of %s kept in each cylinder", b.Reserve),
	}
	if b.Unasked {
		a.Assumed = append(a.Assumed, "mains power at the home, which nobody asked about: ask")
	}
	if !b.WayKnown {
		a.Assumed = append(a.Assumed, fmt.Sprintf("the way home is not known: %s taken", Spell(b.Ride)))
	}
	if b.Thin != "" {
		a.Assumed = append(a.Assumed, b.Thin)
	}
	a.Assumed = append(a.Assumed, NoFlowAdvice)
	if b.NoMains != "" {
		b.unpowered(&a)
		return a, nil
	}
	running := b.Running()
	if running.IsZero() {
		a.Verdict = depletion.Unknown
		a.Title = "no delivery is planned"
		a.Help = "none planned"
		a.Do = []string{"Plan the delivery first, then judge the bridge"}
		return a, nil
	}
	a.Needs = running.Sub(b.Opens)
	a.Wants = time.Duration(float64(a.Needs) * b.Margin)
	a.Help = fmt.Sprintf("concentrator running %s, in %s: %s", Clock(running, b.Opens), Spell(a.Needs), b.Parts())
	b.judge(p, &a)
	return a, nil
}

// unpredictable says why nobody can say how long the gas lasts; empty when
// it can be said.
func (b Bridge) unpredictable() string {
	switch {
	case b.Setting != "":
		return fmt.Sprintf("no prediction: pulse setting %s is not litres a minute", b.Setting)
	case b.Flow <= 0:
		return "no prediction: no flow is ordered"
	}
	return ""
}

// unpowered answers for a home where the concentrator can't run: there is no
// bridge to it, only a plan with cylinders, and that is the clinician's.
func (b Bridge) unpowered(a *BridgeAnswer) {
	a.Verdict = depletion.Short
	a.Title = fmt.Sprintf("No: %s has no mains, and a concentrator can't run there", b.NoMains)
	a.Help = "no concentrator will run there"
	a.Do = []string{
		"Do not let them leave yet",
		fmt.Sprintf("Ask the clinician for a plan with cylinders: %d full %s a day at %s, brought every day", b.more(b.Spare, 24*time.Hour), letter(b.Spare), b.Flow),
		"Or ask where else they could sleep, where there is mains power",
	}
}

// restsLower reports whether less is used at rest than is counted on: the
// range of the answer is then between the two flows.
func (b Bridge) restsLower() bool { return b.Rest > 0 && b.Rest < b.Flow }

func (b Bridge) flowAssumed() string {
	words := fmt.Sprintf("continuous flow of %s, the highest ordered or seen", b.Flow)
	if b.restsLower() {
		words += fmt.Sprintf("; the longer times at %s, at rest all the way", b.Rest)
	}
	return words
}

// minutes returns the planning time at a flow and the time by the most
// generous published method, over all cylinders one after another.
func (b Bridge) minutes(flow gas.Flow) (low, high time.Duration, facts []string, err error) {
	for _, g := range b.Gas {
		size := g.Size
		if size.Code == "" {
			return 0, 0, nil, refusal.New(refusal.Invalid, fmt.Sprintf("Cylinder %s has no known size.", g.Tag), "Set the size of the cylinder first.")
		}
		if g.Gauge == nil {
			facts = append(facts, fmt.Sprintf("%s %s: not read, counts as nothing", size.Letter, g.Tag))
			continue
		}
		plan, err := gas.PlanMinutes(size, *g.Gauge, b.Reserve, flow, gas.Room)
		if err != nil {
			return 0, 0, nil, notPlanned(err)
		}
		most := plan.Minutes
		for _, m := range plan.Methods {
			most = max(most, m.Minutes)
		}
		low += time.Duration(plan.Minutes) * time.Minute
		high += time.Duration(most) * time.Minute
		facts = append(facts, fmt.Sprintf("%s %s: %s", size.Letter, g.Tag, *g.Gauge))
	}
	return low, high, facts, nil
}

func (b Bridge) judge(p Programme, a *BridgeAnswer) {
	short := a.Needs - a.Has
	switch {
	case a.Has < a.Needs:
		a.Verdict = depletion.Short
		a.Title = fmt.Sprintf("No: gas ends %s before the concentrator runs", Spell(short+59*time.Second))
		a.Do = append(a.Do, "Do not let them leave yet")
		a.Do = append(a.Do, b.ways(a.Has, a.Needs, a.Wants)...)
	case a.Has < a.Wants:
		a.Verdict = depletion.Tight
		a.Title = fmt.Sprintf("Tight: %s of gas for %s, margin of %.1f not kept", Spell(a.Has), Spell(a.Needs), b.Margin)
		a.Do = append(a.Do, b.ways(a.Has, a.Needs, a.Wants)...)
	default:
		a.Verdict = depletion.Holds
		a.Title = fmt.Sprintf("Yes: %s of gas for %s", Spell(a.Has), Spell(a.Needs))
		a.Do = []string{"Read the gauge with the nurse, open the valve, set the flow, feel the gas"}
	}
}

// ways returns what would fix a bridge that does not hold: more gas, leaving
// later, or an earlier delivery, each computed.
func (b Bridge) ways(has, needs, wants time.Duration) []string {
	ways := b.moreGas(needs-has, wants-has)
	ways = append(ways, b.laterWay(has)...)
	home := b.Leaves.Add(b.Ride)
	need := b.Opens.Add(has - b.SetUp - b.WarmUp)
	if b.Arrives.After(home) && need.After(home) {
		ways = append(ways, "Or bring the delivery forward to "+need.Format("15:04"))
	}
	return ways
}

// laterWay returns when the valve can be opened at the earliest, where waiting
// on the ward helps: not when the gas does not even last the way home.
func (b Bridge) laterWay(has time.Duration) []string {
	kept := time.Duration(float64(has) / b.Margin)
	least := b.Leaves.Sub(b.Opens) + b.Ride + b.SetUp + b.WarmUp
	latest := b.Running().Add(-has)
	switch {
	case has < least:
		return nil
	case kept < least:
		if latest.After(b.Opens) {
			return []string{fmt.Sprintf("Or open the valve no earlier than %s; that keeps no margin", ceilClock(latest))}
		}
		return nil
	case latest.After(b.Opens):
		return []string{fmt.Sprintf("Or open the valve no earlier than %s (%s with margin)", ceilClock(latest), ceilClock(b.Running().Add(-kept)))}
	}
	return []string{"Or open the valve no earlier than " + ceilClock(b.Running().Add(-kept))}
}

// moreGas returns what more gas would do, with what is ready of it: cylinders
// of the spare size, and of each larger size that is ready.
func (b Bridge) moreGas(short, wanted time.Duration) []string {
	ways := b.add(b.Spare, short, wanted)
	spare, _ := b.Sizes.LookUp(b.Spare)
	for _, code := range slices.Sorted(maps.Keys(b.Ready)) {
		size, ok := b.Sizes.LookUp(code)
		if !ok || size.Contents <= spare.Contents || b.Ready[code] == 0 {
			continue
		}
		for _, way := range b.add(code, short, wanted) {
			ways = append(ways, "Or a"+way[1:])
		}
	}
	return ways
}

// add says how many full cylinders of a size are to be added.
func (b Bridge) add(code gas.SizeCode, short, wanted time.Duration) []string {
	more, margin, words := b.more(code, short), b.more(code, wanted), ""
	switch {
	case more > 0:
		words = fmt.Sprintf("Add %d full %s (%d with the margin of %.1f)", more, letter(code), margin, b.Margin)
	case margin > 0:
		words = fmt.Sprintf("Add %d full %s to keep the margin of %.1f", margin, letter(code), b.Margin)
	default:
		return nil
	}
	if b.Ready != nil {
		words += fmt.Sprintf("; %d ready", b.Ready[code])
	}
	return []string{words}
}

// more returns how many full cylinders of a size cover a time.
func (b Bridge) more(code gas.SizeCode, short time.Duration) int {
	size, ok := b.Sizes.LookUp(code)
	if !ok || short <= 0 {
		return 0
	}
	plan, err := gas.PlanMinutes(size, size.Service, b.Reserve, b.Flow, gas.Room)
	if err != nil || plan.Minutes == 0 {
		return 0
	}
	return int(math.Ceil(short.Minutes() / float64(plan.Minutes)))
}

// BySize counts cylinders by size.
func BySize(items []inventory.Item) map[gas.SizeCode]int {
	count := make(map[gas.SizeCode]int)
	for _, i := range items {
		if i.Spec.Kind == inventory.Cylinder && !i.Spec.Foreign {
			count[i.Spec.Size]++
		}
	}
	return count
}

// Parts says of what the time is made from the valve opened to the
// concentrator running.
func (b Bridge) Parts() string {
	words := fmt.Sprintf("ward %s, ride %s", Spell(max(0, b.Leaves.Sub(b.Opens))), Spell(b.Ride))
	if wait := b.Arrives.Sub(b.Leaves.Add(b.Ride)); wait >= time.Minute {
		words += ", wait " + Spell(wait)
	}
	return words + fmt.Sprintf(", set-up %s, warm-up %s", Spell(b.SetUp), Spell(b.WarmUp))
}

// notPlanned puts a sentence of the arithmetic of gas, which says what to do,
// as a refusal.
func notPlanned(err error) error {
	return refusal.New(refusal.Invalid, "No time can be told: "+err.Error()+".", "").Because(err)
}

func letter(code gas.SizeCode) string { return code.Letter() }

func ceilClock(t time.Time) string {
	if up := t.Truncate(time.Minute); up.Before(t) {
		t = up.Add(time.Minute)
	}
	return t.Format("15:04")
}

// TooSmall reports why an item can't serve an order: a concentrator rated
// under the highest ordered flow.
func TooSmall(spec inventory.Spec, o Ordered) (string, bool) {
	highest := max(o.Rest, o.Exertion, o.Asleep)
	if spec.Kind == inventory.Concentrator && spec.Rated > 0 && spec.Rated < highest {
		return fmt.Sprintf("gives %s at most, %s is ordered", spec.Rated, highest), true
	}
	return "", false
}
