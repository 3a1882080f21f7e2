package delivery_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// onDay returns a time of one afternoon.
func onDay(clock string) time.Time {
	t, _ := time.Parse("15:04", clock)
	return time.Date(2030, time.March, 8, t.Hour(), t.Minute(), 0, 0, time.FixedZone("", -3*3600))
}

func sizeOf(code gas.SizeCode) gas.Size {
	s, _ := gas.LookUp(code)
	return s
}

// friday is a discharge at five with 4 L/min at rest, 6 walking, one E, and
// the machine at half past eight. Its numbers are worked by hand with the
// textbook rule, (gauge - 200 psi) × 0.28 ÷ flow, as respiratory-therapy texts
// give it: 74 min at 6 L/min, 112 at 4.
func friday(psi float64) delivery.Bridge {
	return delivery.Bridge{
		Opens: onDay("17:00"), Leaves: onDay("17:00"), Flow: 6, Rest: 4,
		Gas:  []delivery.BridgeGas{{Tag: "E-20117", Size: sizeOf("US-E"), Gauge: new(gas.PSI(psi))}},
		Ride: 25 * time.Minute, WayKnown: true, Arrives: onDay("20:30"), SetUp: 15 * time.Minute,
		Margin: 1.5, Reserve: gas.PSI(200), Spare: "US-E",
	}
}

func TestBridgeOnFriday(t *testing.T) {
	a, err := friday(1800).Answer(delivery.NewProgramme())
	require.NoError(t, err)
	assert.Equal(t, depletion.Short, a.Verdict)
	assert.Equal(t, "1 h 14 min", a.Low)
	assert.Equal(t, "1 h 52 min", a.High)
	assert.Equal(t, 3*time.Hour+45*time.Minute, a.Needs, "20:30 and 15 min of set-up")
	assert.Contains(t, a.Title, "No: gas ends 2 h 31 min before")
	assert.Equal(t, []string{
		"Do not let them leave yet",
		"Add 2 full E (4 with the margin of 1.5)",
		"Or open the valve no earlier than 19:31 (19:56 with margin)",
		"Or bring the delivery forward to 17:59",
	}, a.Do)
}

// TestBridgeWays: each way that is offered is taken, and then the bridge holds.
func TestBridgeWays(t *testing.T) {
	p := delivery.NewProgramme()
	judge := func(b delivery.Bridge) depletion.Verdict {
		a, err := b.Answer(p)
		require.NoError(t, err)
		return a.Verdict
	}
	more := func(n int) delivery.Bridge {
		b := friday(1800)
		for range n {
			b.Gas = append(b.Gas, delivery.BridgeGas{Tag: "full", Size: sizeOf("US-E"), Gauge: new(gas.PSI(2015))})
		}
		return b
	}
	at := func(clock string) delivery.Bridge {
		b := friday(1800)
		b.Opens, b.Leaves = onDay(clock), onDay(clock)
		return b
	}
	forward := friday(1800)
	forward.Arrives = onDay("17:59")
	for name, c := range map[string]struct {
		bridge delivery.Bridge
		want   depletion.Verdict
	}{
		"one more E":           {more(1), depletion.Short},
		"two more E":           {more(2), depletion.Tight},
		"three more E":         {more(3), depletion.Tight},
		"four more E":          {more(4), depletion.Holds},
		"19:30":                {at("19:30"), depletion.Short},
		"19:31":                {at("19:31"), depletion.Tight},
		"19:55":                {at("19:55"), depletion.Tight},
		"19:56":                {at("19:56"), depletion.Holds},
		"delivery at 17:59":    {forward, depletion.Tight},
		"gas only just enough": {friday(200 + 225*6/0.28), depletion.Unknown},
	} {
		if c.want == depletion.Unknown {
			_, err := c.bridge.Answer(p)
			assert.Error(t, err, "%s: no E holds that much", name)
			continue
		}
		assert.Equal(t, c.want, judge(c.bridge), name)
	}
}

// TestBridgeNamesWhatIsReady: cylinders of the same size and of each larger
// size that is ready, with how many there are.
func TestBridgeNamesWhatIsReady(t *testing.T) {
	b := friday(1800)
	b.Ready = map[gas.SizeCode]int{"US-D": 9, "US-E": 1, "US-M": 3}
	a, err := b.Answer(delivery.NewProgramme())
	require.NoError(t, err)
	assert.Equal(t, []string{
		"Do not let them leave yet",
		"Add 2 full E (4 with the margin of 1.5); 1 ready",
		"Or add 1 full M (1 with the margin of 1.5); 3 ready",
		"Or open the valve no earlier than 19:31 (19:56 with margin)",
		"Or bring the delivery forward to 17:59",
	}, a.Do)
	assert.Equal(t, "concentrator running 20:45, in 3 h 45 min: ward 0 min, ride 25 min, wait 3 h 05 min, set-up 15 min, warm-up 0 min", a.Help)
}

// TestBridgeDoesNotAdviseToWaitInVain: where the gas does not last the way
// home, leaving later mends nothing.
func TestBridgeDoesNotAdviseToWaitInVain(t *testing.T) {
	far := friday(1800)
	far.Ride = 61 * time.Minute // with set-up 76 min, against 74 of gas
	near := friday(1800)
	near.Ride = 40 * time.Minute // with set-up 55 min; 74 ÷ 1.5 is 49
	for name, c := range map[string]struct {
		bridge delivery.Bridge
		want   string
	}{
		"the way is too long":        {far, ""},
		"too long with the margin":   {near, "Or open the valve no earlier than 19:31; that keeps no margin"},
		"waiting keeps gas and more": {friday(1800), "Or open the valve no earlier than 19:31 (19:56 with margin)"},
	} {
		a, err := c.bridge.Answer(delivery.NewProgramme())
		require.NoError(t, err, name)
		got := ""
		for _, way := range a.Do {
			if len(way) > 11 && way[:11] == "Or open the" {
				got = way
			}
		}
		assert.Equal(t, c.want, got, name)
	}
}

func TestBridgeUnknown(t *testing.T) {
	unplanned, pulse, noOrder := friday(1800), friday(1800), friday(1800)
	unplanned.Arrives = time.Time{}
	pulse.Setting = "2"
	noOrder.Flow, noOrder.Rest = 0, 0
	for name, b := range map[string]delivery.Bridge{"not planned": unplanned, "pulse": pulse, "no order": noOrder} {
		a, err := b.Answer(delivery.NewProgramme())
		require.NoError(t, err, name)
		assert.Equal(t, depletion.Unknown, a.Verdict, name)
		assert.Contains(t, a.Assumed, delivery.NoFlowAdvice, name)
		assert.NotEmpty(t, a.Do, name)
	}
	unread := friday(1800)
	unread.Gas[0].Gauge = nil
	a, err := unread.Answer(delivery.NewProgramme())
	require.NoError(t, err)
	assert.Equal(t, depletion.Short, a.Verdict)
	assert.Contains(t, a.Facts, "E E-20117: not read, counts as nothing")
}

// night is the call at ten past two: gauge 500 psi at 4 L/min, the driver 38
// minutes away.
func night(sizes ...gas.SizeCode) delivery.NightCall {
	return delivery.NightCall{
		At: onDay("02:10"), Gauge: gas.PSI(500), Flow: 4, Sizes: sizes,
		Help: 38 * time.Minute, Depot: "Harbour depot", Facts: []string{},
	}
}

// TestNightCall: (500 - 200) × 0.16 ÷ 4 is 12 min for a D, × 0.28 is 21 for an
// E: the planning rule of respiratory-therapy texts. The same pages give 35 and
// 43 min for the E without a reserve; those are never quoted alone.
func TestNightCall(t *testing.T) {
	p := delivery.NewProgramme()
	p.Clinician = []delivery.Contact{{Name: "Dr Holm", Role: "on call", Phone: "555-0101"}}
	for name, c := range map[string]struct {
		call    delivery.NightCall
		low     string
		verdict depletion.Verdict
		title   string
	}{
		"D":                   {night("US-D"), "12 min", depletion.Short, "plan on 12 min; help takes 38 min and will not make it"},
		"E":                   {night("US-E"), "21 min", depletion.Short, "plan on 21 min; help takes 38 min and will not make it"},
		"the smaller counts":  {night("US-E", "US-D"), "12 min", depletion.Short, "plan on 12 min (D) / 21 min (E); help takes 38 min and will not make it"},
		"help is near":        {with(night("US-E"), func(n *delivery.NightCall) { n.Help = 15 * time.Minute }), "21 min", depletion.Tight, "21 min of gas, help in 15 min"},
		"help is very near":   {with(night("US-E"), func(n *delivery.NightCall) { n.Help = 14 * time.Minute }), "21 min", depletion.Holds, "21 min of gas, help in 14 min"},
		"nobody knows":        {with(night("US-E"), func(n *delivery.NightCall) { n.Help = 0 }), "21 min", depletion.Unknown, "plan on 21 min: find out who is nearest"},
		"breathless":          {with(night("US-E"), func(n *delivery.NightCall) { n.Help, n.Worse = 14*time.Minute, true }), "21 min", depletion.Dry, "emergency first. 21 min of gas, help in 14 min"},
		"at the reserve":      {with(night("US-E"), func(n *delivery.NightCall) { n.Gauge = gas.PSI(200) }), "0 min", depletion.Dry, "the planning value has ended"},
		"at the reserve, far": {with(night("US-E"), func(n *delivery.NightCall) { n.Gauge, n.Help = gas.PSI(150), 0 }), "0 min", depletion.Dry, "the planning value has ended"},
	} {
		a, err := c.call.Answer(p)
		require.NoError(t, err, name)
		assert.Equal(t, c.low, a.Low, name)
		assert.Equal(t, c.verdict, a.Verdict, name)
		assert.Equal(t, c.title, a.Title, name)
		assert.Contains(t, a.Assumed, delivery.NoFlowAdvice, name)
		if c.verdict != depletion.Holds && c.verdict != depletion.Tight {
			assert.Equal(t, "Emergency number 911, then Dr Holm on call 555-0101", a.Do[0], name)
		}
	}
	a, err := night("US-E").Answer(p)
	require.NoError(t, err)
	assert.Equal(t, "40 min", a.High, "real gas down to zero: between the 35 and 43 min of the two pages")
	assert.Contains(t, a.Do[1], "with 2 full E")

	_, err = night().Answer(p)
	assert.Equal(t, refusal.Ask, refusal.KindOf(err), "which size? %v", err)
}

// A pulse device: 164 L in a full E last 497 min at 16.5 mL and 20 breaths, a
// published worked example; here (500 - 200) × 0.28 = 84 L are 254 min.
func TestNightCallOfAPulseDevice(t *testing.T) {
	p := delivery.NewProgramme()
	home := dark("A", 2, 500)
	home.Care.Order = &delivery.Ordered{Setting: "2", Bolus: 16.5, Breaths: 20, Hours: 24}
	pulse := func(setting string, told gas.Pulse) delivery.NightCall {
		n := night("US-E")
		n.Flow, n.Setting, n.Pulse = 0, setting, told
		return n.From(p, home)
	}
	a, err := pulse("setting 2", gas.Pulse{}).Answer(p)
	require.NoError(t, err)
	assert.Equal(t, "4 h 14 min", a.Low, "as it was ordered")
	assert.Contains(t, a.Assumed, "valve open since 02:10, a pulse of 16.5 mL, 20 a minute; faster breathing takes more")
	a, err = pulse("2", gas.Pulse{Bolus: 16.5, BreathsPerMinute: 40}).Answer(p)
	require.NoError(t, err)
	assert.Equal(t, "2 h 07 min", a.Low, "breathing faster, as told")
	_, err = pulse("3", gas.Pulse{}).Answer(p)
	require.Equal(t, refusal.Ask, refusal.KindOf(err))
	assert.ErrorContains(t, err, "A setting of a pulse device is not a flow", "not the one that is ordered")
	_, err = with(night("US-E"), func(n *delivery.NightCall) { n.Flow = 0 }).Answer(p)
	assert.ErrorContains(t, err, "The flow in use is not known")
}

// A home without mains has no bridge to a concentrator, however much gas goes
// along: 24 h at 6 L/min are 18 full E of (2015 - 200) × 0.28 ÷ 6 = 84 min.
func TestNoMainsIsNoBridge(t *testing.T) {
	b := friday(1800)
	b.NoMains = "Moor Hut 1"
	a, err := b.Answer(delivery.NewProgramme())
	require.NoError(t, err)
	assert.Equal(t, depletion.Short, a.Verdict)
	assert.Equal(t, "No: Moor Hut 1 has no mains, and a concentrator can't run there", a.Title)
	assert.Equal(t, "Do not let them leave yet", a.Do[0])
	assert.Contains(t, a.Do[1], "18 full E a day at 6 L/min")
	b.NoMains, b.Unasked = "", true
	a, err = b.Answer(delivery.NewProgramme())
	require.NoError(t, err)
	assert.Contains(t, a.Assumed, "mains power at the home, which nobody asked about: ask")
}

// One home machine of four fell from 93 to 89 % at 2,438 m (Bunel et al., High Alt
// Med Biol 2016;17:370); lower down nothing is said.
func TestThinAirIsSaid(t *testing.T) {
	p := delivery.NewProgramme()
	assert.Empty(t, p.Thin())
	p.Highest = 2437
	assert.Empty(t, p.Thin())
	p.Highest = 2600
	b := friday(1800)
	b.Thin = p.Thin()
	a, err := b.Answer(p)
	require.NoError(t, err)
	assert.Contains(t, a.Assumed, "homes lie up to 2600 m high: at 2438 m one machine of four fell from 93 to 89 % oxygen (High Alt Med Biol 2016); measure at the door, the manual says how high it may stand")
	for _, metres := range []float64{math.NaN(), -501, 6001} {
		p.Highest = metres
		assert.ErrorContains(t, p.Check(), "m above the sea", metres)
	}
}

func with(n delivery.NightCall, change func(*delivery.NightCall)) delivery.NightCall {
	change(&n)
	return n
}
