package gas

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func size(t require.TestingT, code SizeCode) Size {
	s, found := LookUp(code)
	require.True(t, found, "size %s", code)
	return s
}

// What an aluminium cylinder filled to 2,015 psi still holds at 70 °F, as a
// share of full: Schmidt and Wagner's equation, worked out independently. The
// gauge in proportion would say 0.7444, 0.4963, 0.2481 and 0.0993.
func TestContentsFallFasterThanTheGauge(t *testing.T) {
	e := size(t, "US-E")
	for psi, want := range map[float64]float64{2015: 1, 1500: 0.7385, 1000: 0.4857, 500: 0.2384, 200: 0.0941, 0: 0} {
		share := float64(e.ContentsAt(PSI(psi), Room) / e.Contents)
		assert.InDelta(t, want, share, 0.0001, "share left at %v psi", psi)
		assert.LessOrEqual(t, share, psi/2015+1e-9, "share left at %v psi against the gauge", psi)
	}
}

// Published pairs of water volume and contents. EU 50 L: a supplier's 10.7 m³
// for 50 L at 200 bar. UK: Emergency Medicine Journal 2006, with water volumes
// from memory; CD's label is volume times pressure, 5.5 % under the real gas.
func TestLabelContentsMatchWaterVolume(t *testing.T) {
	for _, c := range []struct {
		code      SizeCode
		label     Litres
		reference Celsius
		tolerance float64
	}{
		{"EU-50", 10_700, 15, 0.01},
		{"UK-D", 340, 15, 0.02},
		{"UK-F", 1360, 15, 0.02},
		{"UK-CD", 460, 15, 0.06},
		{"US-H", 6909, Room, 0.02},
	} {
		s := size(t, c.code)
		assert.Equal(t, c.label, s.Contents, "label contents of %s", c.code)
		byVolume := s.WaterVolume * Density(s.Service.Absolute(), c.reference) / Density(101325, c.reference)
		assert.InEpsilon(t, byVolume, float64(s.Contents), c.tolerance, "contents of %s", c.code)
	}
}

// Litres of gas at 70 °F and 14.696 psia for each litre of water volume, by
// gauge at 70 °F: Schmidt and Wagner's equation, worked out independently.
func TestGasPerLitreOfWater(t *testing.T) {
	for psi, want := range map[float64]float64{2216: 161.79, 2200: 160.62, 2015: 147.03, 1900: 138.53, 1800: 131.12} {
		got := Density(PSI(psi).Absolute(), Room) / Density(101325, Room)
		assert.InDelta(t, want, got, 0.01, "litres per litre at %v psi", psi)
	}
}

// An H cylinder's filling: 244 ft³ by its label, about 20 lb by a published
// weight; two sources that know nothing of each other.
func TestFillingOfAnH(t *testing.T) {
	h := size(t, "US-H")
	assert.InDelta(t, 244*28.316846592, float64(h.Contents), 1, "litres in 244 ft³")
	assert.InDelta(t, 20, (h.GrossMass-h.EmptyMass)/0.45359237, 0.5, "pounds of gas")
}

// A closed cylinder at 2,015 psi and 70 °F in heat and cold: Schmidt and
// Wagner's equation, worked out independently.
func TestClosedCylinderInHeatAndCold(t *testing.T) {
	for celsius, want := range map[Celsius]float64{-20: 1620, 0: 1813, 10: 1909, 30: 2100, 40: 2195, 50: 2290, Fahrenheit(130): 2332} {
		got := AtTemperature(PSI(2015), Room, celsius).PSI()
		assert.InDelta(t, want, got, 1, "gauge at %v", celsius)
	}
}

// 2,000 psi at 21 °C became 1,705 psi at -10 °C with the valve closed. An
// ideal gas would show 1,790 psi and make 85 psi look like a leak.
func TestColdIsNoLeak(t *testing.T) {
	assert.InDelta(t, 1705, AtTemperature(PSI(2000), 21, -10).PSI(), 1)

	e := size(t, "US-E")
	before, after := e.ContentsAt(PSI(2000), 21), e.ContentsAt(PSI(1705), -10)
	assert.InDelta(t, float64(before), float64(after), 1, "litres before and after the cold night")
	back := e.ContentsAt(AtTemperature(PSI(1705), -10, 21), 21)
	assert.InDelta(t, float64(before), float64(back), 1, "litres after warming again")
}

// Regulated as compressed gas above 40.6 psi absolute: 30 psig is over it,
// 20 psig under.
func TestAbsolutePressure(t *testing.T) {
	const psi = 6894.757293168
	assert.InDelta(t, 44.7, PSI(30).Absolute()/psi, 0.05)
	assert.InDelta(t, 34.7, PSI(20).Absolute()/psi, 0.05)
}

func TestReserveBelowZeroIsNone(t *testing.T) {
	e := size(t, "US-E")
	assert.Equal(t, e.ContentsAt(PSI(500), Room), e.Usable(PSI(500), PSI(-10), Room))
	assert.Zero(t, e.Usable(PSI(-5), PSI(-10), Room))
}

func TestSizeWithoutServicePressureHoldsNothing(t *testing.T) {
	assert.Zero(t, Size{Contents: 682}.ContentsAt(PSI(2000), Room))
	assert.Zero(t, Size{Contents: 682}.GaugeFor(300, Room))
}

var (
	anySize    = rapid.SampledFrom(Table(nil).All())
	anyCelsius = rapid.Custom(func(t *rapid.T) Celsius { return Celsius(rapid.Float64Range(-40, 60).Draw(t, "°C")) })
)

func anyGauge(t *rapid.T, s Size, label string) Pressure {
	return s.Service * Pressure(rapid.Float64Range(0, 1.25).Draw(t, label))
}

func TestContentsRiseWithTheGauge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, celsius := anySize.Draw(t, "size"), anyCelsius.Draw(t, "temperature")
		a, b := anyGauge(t, s, "gauge"), anyGauge(t, s, "other gauge")
		low, high := min(a, b), max(a, b)
		if s.ContentsAt(low, celsius) > s.ContentsAt(high, celsius) {
			t.Fatalf("%s holds more at %v than at %v, both at %v", s.Code, low, high, celsius)
		}
	})
}

func TestWarmerHoldsLessAtTheSameGauge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySize.Draw(t, "size")
		gauge := anyGauge(t, s, "gauge")
		a, b := anyCelsius.Draw(t, "temperature"), anyCelsius.Draw(t, "other temperature")
		cold, warm := min(a, b), max(a, b)
		if s.ContentsAt(gauge, warm) > s.ContentsAt(gauge, cold)+1e-6 {
			t.Fatalf("%s at %v holds more at %v than at %v", s.Code, gauge, warm, cold)
		}
	})
}

func TestWarmingAddsNoGas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySize.Draw(t, "size")
		gauge := s.Service * Pressure(rapid.Float64Range(0.05, 1).Draw(t, "gauge"))
		from, to := anyCelsius.Draw(t, "from"), anyCelsius.Draw(t, "to")
		before := s.ContentsAt(gauge, from)
		after := s.ContentsAt(AtTemperature(gauge, from, to), to)
		// What stays behind at zero gauge differs a little with temperature.
		if diff := after - before; diff > s.Contents*0.003 || diff < -s.Contents*0.003 {
			t.Fatalf("%s at %v: %v at %v became %v at %v", s.Code, gauge, before, from, after, to)
		}
	})
}

func TestGaugeForUndoesContentsAt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, celsius := anySize.Draw(t, "size"), anyCelsius.Draw(t, "temperature")
		gauge := anyGauge(t, s, "gauge")
		got := s.GaugeFor(s.ContentsAt(gauge, celsius), celsius)
		if diff := (got - gauge).PSI(); diff > 0.01 || diff < -0.01 {
			t.Fatalf("%s at %v: %v came back as %v", s.Code, celsius, gauge.PSI(), got.PSI())
		}
	})
}

func TestReserveIsNeverUsable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, celsius := anySize.Draw(t, "size"), anyCelsius.Draw(t, "temperature")
		gauge, reserve := anyGauge(t, s, "gauge"), anyGauge(t, s, "reserve")
		usable := s.Usable(gauge, reserve, celsius)
		want := max(0, s.ContentsAt(gauge, celsius)-s.ContentsAt(reserve, celsius))
		if diff := usable - want; usable < 0 || diff > 1e-6 || diff < -1e-6 {
			t.Fatalf("%s %v above %v at %v: usable %v, want %v", s.Code, gauge, reserve, celsius, usable, want)
		}
	})
}
