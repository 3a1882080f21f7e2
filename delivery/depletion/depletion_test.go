package depletion

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/gas"
)

var night = time.Date(2031, 3, 4, 2, 10, 0, 0, time.FixedZone("isles", 3600))

func size(t testing.TB, code gas.SizeCode) gas.Size {
	s, ok := gas.LookUp(code)
	require.True(t, ok, code)
	return s
}

func cylinder(t testing.TB, code gas.SizeCode, psi float64, age time.Duration) Cylinder {
	return Cylinder{Size: size(t, code), Gauge: gas.PSI(psi), ReadAt: night.Add(-age), Known: true}
}

var usual = Limits{WithoutOxygen: 0.01, Reserve: gas.UsualReserve, Temperature: gas.Room}

// A call at night: an E at 500 psi and 4 L/min plans on 21 minutes
// (respiratory-therapy teaching: (500 − 200) × 0.28 ÷ 4).
func TestNightCall(t *testing.T) {
	h := Household{Now: night, Source: OnCylinder, Flow: 4, ValveOpen: true,
		Cylinders: []Cylinder{cylinder(t, "US-E", 500, 0)}}
	f := Predict(h, usual)
	assert.True(t, f.Known, f.Status)
	assert.Equal(t, night.Add(21*time.Minute), f.PlanningDry)
	assert.False(t, f.ActBy.After(f.PlanningDry))
	t.Log(f.Low, f.Mid, f.High, f.ActBy, f.ActByCause, f.Litres, f.CoverLow, f.CoverMid, f.CoverHigh, f.Assumptions())
	assert.Equal(t, Short, Judge(h, f, night.Add(38*time.Minute), 1.5))
}

// BenchmarkProgramme forecasts a programme of 100,000 people, one in ten on
// the cylinder. The aim is under two seconds on one core.
func BenchmarkProgramme(b *testing.B) {
	const people = 100_000
	r := rand.New(rand.NewPCG(7, 14))
	homes := make([]Household, 1000)
	for i := range homes {
		if i%10 == 0 {
			homes[i] = ordinary.onCylinder(r).Household
		} else {
			homes[i] = ordinary.onConcentrator(r).Household
		}
	}
	for b.Loop() {
		for i := range people {
			Predict(homes[i%len(homes)], usual)
		}
	}
}
