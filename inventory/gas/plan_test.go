package gas

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func estimate(t require.TestingT, plan Plan, method string) Estimate {
	for _, e := range plan.Methods {
		if e.Method == method {
			return e
		}
	}
	require.Fail(t, "no estimate by method "+method)
	return Estimate{}
}

// Worked examples of the textbook rule. Sources: a web calculator, a state
// ambulance service's remaining-oxygen table, a how-to page (it takes 3 for
// H), a page quoting Nagelhout and Zaglaniczyk, Nurse Anesthesia, 2nd ed. 2001,
// table 14-1 (660 L at 1,900 psi), a page citing a 200 psi residual, and an
// ambulance agency's guidance of 2010, whose posted 392 psi for an M is a
// third of a psi short of its 30 minutes. The two at 2,000 psi are classics of
// the textbooks, from memory.
func TestTextbookRuleOnPublishedExamples(t *testing.T) {
	for _, c := range []struct {
		source  string
		code    SizeCode
		factor  float64 // 0: the size's own
		gauge   float64
		reserve float64
		flow    Flow
		want    int
	}{
		{"calculator", "US-E", 0, 1200, 200, 4, 70},
		{"ambulance table", "US-M", 0, 500, 0, 6, 130},
		{"how-to page", "US-E", 0, 2200, 0, 2, 308},
		{"how-to page", "US-H", 3, 1100, 0, 5, 660},
		{"Nagelhout 2001", "US-E", 660.0 / 1900, 500, 0, 6, 28},
		{"residual page", "US-D", 0, 2000, 200, 0.5, 576},
		{"agency guidance, 15 min", "US-D", 0, 1150, 200, 10, 15},
		{"agency guidance, 15 min", "US-E", 0, 750, 200, 10, 15},
		{"agency guidance, 30 min", "US-M", 0, 392, 200, 10, 29},
		{"agency guidance, 30 min", "US-H", 0, 300, 200, 10, 31},
		{"classic", "US-E", 0, 2000, 0, 2, 280},
		{"classic", "US-E", 0, 2000, 200, 2, 252},
		{"arithmetic", "US-E", 0, 2200, 0, 10, 61},
		{"arithmetic, 25 psi × 0.16 exactly", "US-D", 0, 225, 200, 1, 4},
	} {
		s := size(t, c.code)
		if c.factor > 0 {
			s.Factor = c.factor
		}
		plan, err := PlanMinutes(s, PSI(c.gauge), PSI(c.reserve), c.flow, Room)
		require.NoError(t, err, "%+v", c)
		assert.Equal(t, c.want, estimate(t, plan, Textbook).Minutes, "%+v", c)
	}
}

func TestTextbookLitres(t *testing.T) {
	plan, err := PlanMinutes(size(t, "US-D"), PSI(2000), PSI(200), 0.5, Room)
	require.NoError(t, err)
	assert.InDelta(t, 288, float64(estimate(t, plan, Textbook).Litres), 1e-6, "D from 2,000 to 200 psi: a page citing a 200 psi residual")
}

// Common practice, no source: cylinders at 2,000 psi down to the reserve.
func TestFullishCylinders(t *testing.T) {
	for code, want := range map[SizeCode][]int{
		"US-D": {288, 144, 96, 72, 48},
		"US-E": {504, 252, 168, 126, 84},
	} {
		for i, flow := range []Flow{1, 2, 3, 4, 6} {
			plan, err := PlanMinutes(size(t, code), PSI(2000), UsualReserve, flow, Room)
			require.NoError(t, err)
			assert.Equal(t, want[i], plan.Minutes, "%s at %v", code, flow)
		}
	}
}

// Three published methods give 21, 35 and 43 minutes for one E at 500 psi and
// 4 L/min; 21 is the one to plan with.
func TestPlanningValueIsTheSmallest(t *testing.T) {
	plan, err := PlanMinutes(size(t, "US-E"), PSI(500), UsualReserve, 4, Room)
	require.NoError(t, err)
	assert.Equal(t, 21, plan.Minutes)
	assert.Equal(t, 21, estimate(t, plan, Textbook).Minutes)
	assert.Equal(t, 24, estimate(t, plan, RealGas).Minutes, "682 L × (0.2384 - 0.0941) ÷ 4")
	assert.Empty(t, plan.Skipped)
}

// The textbook factor of an M is its contents in proportion to the gauge,
// which overstates a part-used cylinder: there the real gas decides.
func TestRealGasDecidesWhereTheFactorIsHigh(t *testing.T) {
	plan, err := PlanMinutes(size(t, "US-M"), PSI(1000), UsualReserve, 2, Room)
	require.NoError(t, err)
	assert.Equal(t, estimate(t, plan, RealGas).Minutes, plan.Minutes)
	assert.Less(t, plan.Minutes, estimate(t, plan, Textbook).Minutes)
}

func TestTextbookIsLeftOutAndSaid(t *testing.T) {
	plan, err := PlanMinutes(size(t, "UK-CD"), Bar(100), UsualReserve, 2, Room)
	require.NoError(t, err)
	require.Len(t, plan.Methods, 1)
	assert.Equal(t, RealGas, plan.Methods[0].Method)
	assert.Contains(t, plan.Skipped, "no factor is published for UK-CD")
}

func TestNothingAboveTheReserve(t *testing.T) {
	for _, gauge := range []Pressure{0, PSI(30), PSI(200)} {
		plan, err := PlanMinutes(size(t, "US-E"), gauge, UsualReserve, 2, Room)
		require.NoError(t, err, "gauge %v", gauge)
		assert.Zero(t, plan.Minutes, "gauge %v", gauge)
		for _, m := range plan.Methods {
			assert.Zero(t, m.Litres, "gauge %v, %s", gauge, m.Method)
		}
	}
}

func TestPlanRefusesWhatCannotBe(t *testing.T) {
	e := size(t, "US-E")
	noService := e
	noService.Service = 0
	for _, c := range []struct {
		says           string
		size           Size
		gauge, reserve Pressure
		flow           Flow
		celsius        Celsius
	}{
		{"a flow of 0 L/min", e, PSI(500), UsualReserve, 0, Room},
		{"a flow of -2 L/min", e, PSI(500), UsualReserve, -2, Room},
		{"a flow of NaN", e, PSI(500), UsualReserve, Flow(math.NaN()), Room},
		{"a flow of 500 L/min", e, PSI(500), UsualReserve, 500, Room},
		{"a gauge of 2,600 psi is more than US-E holds", e, PSI(2600), UsualReserve, 2, Room},
		{"a gauge of -5 psi", e, PSI(-5), UsualReserve, 2, Room},
		{"a gauge of NaN", e, Pressure(math.NaN()), UsualReserve, 2, Room},
		{"a reserve of 2,100 psi", e, PSI(500), PSI(2100), 2, Room},
		{"a reserve of -1 psi", e, PSI(500), PSI(-1), 2, Room},
		{"70 °C is outside", e, PSI(500), UsualReserve, 2, 70},
		{"US-E: a full pressure of 0 psi", noService, PSI(500), UsualReserve, 2, Room},
	} {
		_, err := PlanMinutes(c.size, c.gauge, c.reserve, c.flow, c.celsius)
		assert.ErrorContains(t, err, c.says)
	}
}

func TestPlanIsOnTheSafeSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, celsius := anySize.Draw(t, "size"), anyCelsius.Draw(t, "temperature")
		gauge := anyGauge(t, s, "gauge")
		reserve := s.Service * Pressure(rapid.Float64Range(0, 0.9).Draw(t, "reserve"))
		flow := Flow(rapid.Float64Range(0.01, 60).Draw(t, "flow"))
		plan, err := PlanMinutes(s, gauge, reserve, flow, celsius)
		require.NoError(t, err)
		for _, m := range plan.Methods {
			if plan.Minutes > m.Minutes || float64(m.Minutes)*float64(flow) > float64(m.Litres)+1e-4 {
				t.Fatalf("%s: %d min planned, %s gives %v", s.Code, plan.Minutes, m.Method, m)
			}
		}
		more, err := PlanMinutes(s, gauge, reserve, min(60, flow*1.5), celsius)
		require.NoError(t, err)
		higherReserve, err := PlanMinutes(s, gauge, reserve*1.1, flow, celsius)
		require.NoError(t, err)
		if more.Minutes > plan.Minutes || higherReserve.Minutes > plan.Minutes {
			t.Fatalf("%s: %d min, %d at a higher flow, %d with a higher reserve", s.Code, plan.Minutes, more.Minutes, higherReserve.Minutes)
		}
	})
}
