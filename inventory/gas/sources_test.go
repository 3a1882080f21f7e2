package gas

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// minutes = litres × 1000 ÷ (bolus × breaths a minute).
func TestPulseMinutes(t *testing.T) {
	for _, c := range []struct {
		pulse Pulse
		want  int
	}{
		{Pulse{16.5, 20}, 496},
		{Pulse{35, 24}, 195},
	} {
		got, err := c.pulse.Minutes(164)
		require.NoError(t, err, "%+v", c)
		assert.Equal(t, c.want, got, "%+v", c)
	}
}

// Boluses at setting 2 of four conservers: Palwai et al., AJRCCM
// 2010;181:1061, table 2. One setting, ten times the time.
func TestOneSettingIsNotOneFlow(t *testing.T) {
	var minutes []int
	for _, bolus := range []Millilitres{3.2, 22.8, 23.4, 33.2} {
		m, err := Pulse{bolus, 20}.Minutes(164)
		require.NoError(t, err, "bolus %v", bolus)
		minutes = append(minutes, m)
	}
	assert.Equal(t, []int{2562, 359, 350, 246}, minutes)
}

// The same at setting 5, and the portable concentrators of Chatburn and Williams,
// Respir Care 2010;55:433, at setting 2 and 15 breaths: the one that gives most
// empties a cylinder twice as fast and more.
func TestHigherSettingsDifferAsMuch(t *testing.T) {
	spread := func(breaths float64, boluses ...Millilitres) float64 {
		low, high := math.MaxInt, 0
		for _, bolus := range boluses {
			m, err := Pulse{bolus, breaths}.Minutes(164)
			require.NoError(t, err, "bolus %v", bolus)
			low, high = min(low, m), max(high, m)
		}
		return float64(high) / float64(low)
	}
	assert.InDelta(t, 83.4/7.1, spread(20, 43.4, 7.1, 35.4, 83.4), 0.1)
	assert.InDelta(t, 40.8/18.2, spread(15, 18.2, 40.8), 0.02)
}

// On exertion a conserver took 211.4 mL a minute where continuous flow took
// 1,610.9: 7.6 to 1 (Tiep et al., demand oxygen delivery during exercise).
func TestSavingsOfAConserver(t *testing.T) {
	saving, err := Pulse{Bolus: 211.4 / 20, BreathsPerMinute: 20}.Uses()
	require.NoError(t, err)
	assert.InDelta(t, 7.6, 1.6109/float64(saving), 0.05)
}

func TestPulseRefusesWithoutBolusAndBreaths(t *testing.T) {
	for _, c := range []struct {
		pulse Pulse
		says  string
	}{
		{Pulse{0, 20}, "bolus is not known"},
		{Pulse{16.5, 0}, "breaths a minute are not known"},
		{Pulse{1650, 20}, "beyond any pulse device"},
	} {
		_, err := c.pulse.Minutes(164)
		assert.ErrorContains(t, err, c.says, "%+v", c.pulse)
	}
}

func vessel(lb float64) LiquidVessel { return LiquidVessel{Tare: Pounds(51), Holds: Pounds(lb)} }

// A consumer health page gives a home reservoir of 73 lb, 124 lb full, as
// 24,950 L, 208 h at 2 L/min with no loss.
func TestLiquidByWeight(t *testing.T) {
	litres, err := vessel(73).ByWeight(Pounds(124))
	require.NoError(t, err)
	assert.InEpsilon(t, 24_950, float64(litres), 0.001)

	minutes, err := vessel(73).Minutes(litres, 2, 24)
	require.NoError(t, err)
	assert.Equal(t, 208, minutes/60)
}

// Oxygen at 70 °F and 14.696 psia from its equation of state: 342.04 L a
// pound, 754.07 L a kilogram. Exam pages take 344 L a pound, which gives 860
// minutes for 5 lb at 2 L/min; the careful figure stays below.
func TestLiquidIsNotOverstated(t *testing.T) {
	assert.InDelta(t, 754.07, float64(gasPerKilogram), 0.02)

	litres, err := vessel(80).ByWeight(Pounds(51 + 5))
	require.NoError(t, err)
	minutes, err := vessel(80).Minutes(litres, 2, 24)
	require.NoError(t, err)
	assert.Equal(t, 855, minutes)
	assert.InEpsilon(t, 860, minutes, 0.01)
}

// An exam question: 80 lb at 3 L/min for 8 hours a day last 19 days.
func TestLiquidInPartTimeUse(t *testing.T) {
	litres, err := vessel(80).ByLevel(1)
	require.NoError(t, err)
	minutes, err := vessel(80).Minutes(litres, 3, 8)
	require.NoError(t, err)
	assert.Equal(t, 19, minutes/60/24)

	v := vessel(80)
	v.Loses = Pounds(1.5)
	withLoss, err := v.Minutes(litres, 3, 8)
	require.NoError(t, err)
	assert.Equal(t, 14, withLoss/60/24, "80 lb at 4.21 lb of use and 1.5 lb of loss a day")
}

// A home service page gives a reservoir of 41 L as 33,620 L of gas, another 40 L
// as more than 11 days at 2 L/min: liquid that vents at 20 psi has 1.0946 kg a
// litre (oxygen's equation of state), 825 L of gas. With no loss, as they count.
func TestLiquidByVolumeOfTheVessel(t *testing.T) {
	for _, c := range []struct{ litres, gas, days float64 }{{41, 33_620, 11.6}, {40, 32_800, 11}} {
		v := LiquidVessel{Tare: 30, Holds: Kilograms(c.litres * 1.0946)}
		in, err := v.ByLevel(1)
		require.NoError(t, err)
		assert.InEpsilon(t, c.gas, float64(in), 0.01)
		minutes, err := v.Minutes(in, 2, 24)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, float64(minutes)/60/24, c.days)
	}
}

func TestLiquidRefusesWhatCannotBe(t *testing.T) {
	v := vessel(73)
	_, err := v.ByWeight(Pounds(20))
	assert.ErrorContains(t, err, "is not between empty (23.1 kg) and full (56.2 kg)")
	_, err = v.ByLevel(1.5)
	assert.ErrorContains(t, err, "a level of 1.5")
	_, err = LiquidVessel{}.ByLevel(0.5)
	assert.ErrorContains(t, err, "not known")
	_, err = v.Minutes(1000, 0, 24)
	assert.ErrorContains(t, err, "a flow of 0 L/min")
	_, err = v.Minutes(1000, 2, 25)
	assert.ErrorContains(t, err, "25 hours a day")
}

// Under 70 W for each litre a minute: a UN supply sheet quoting WHO and
// UNICEF's specification of 2019. Typical draw from memory: 280 to 350 W for
// 5 L/min, 550 to 650 W for 10 L/min.
func TestConcentratorDraw(t *testing.T) {
	for _, c := range []struct{ rated, typical, most float64 }{{5, 280, 350}, {10, 550, 700}} {
		least, most := Concentrator{Rated: Flow(c.rated)}.Draw()
		assert.LessOrEqual(t, float64(least), c.typical, "least draw at %v L/min", c.rated)
		assert.InDelta(t, c.most, float64(most), 1e-9, "most draw at %v L/min", c.rated)
	}
	_, most := Concentrator{Rated: 5}.Energy(24 * time.Hour)
	assert.InDelta(t, 8.4, float64(most), 1e-9, "kWh a day of a 5 L/min machine")
}

func TestConcentratorIsNotDrivenBeyondItsRating(t *testing.T) {
	five := Concentrator{Rated: 5}
	assert.NoError(t, five.Supplies(5))
	assert.ErrorContains(t, five.Supplies(6), "6 L/min is above the concentrator's rating of 5 L/min")
	assert.ErrorContains(t, Concentrator{}.Supplies(2), "rating is not known")
}
