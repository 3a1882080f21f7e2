package delivery_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// homeWithFull is a home with so many full cylinders more, read just now.
func homeWithFull(home delivery.Home, count int, size gas.SizeCode, now time.Time) delivery.Home {
	full, _ := gas.LookUp(size)
	for n := range count {
		home.Care.Kit = append(home.Care.Kit, delivery.Holding{
			Item: inventory.ItemID(fmt.Sprint("full", n)), Spec: inventory.Spec{Kind: inventory.Cylinder, Size: size}, Since: now,
			Gauge: &inventory.Seen[gas.Pressure]{Value: full.Service, At: now},
		})
	}
	return home
}

func TestTripSaysHowManyToBring(t *testing.T) {
	now := told.Add(time.Hour)
	for name, c := range map[string]struct {
		away time.Duration
		want string
	}{
		// A full E lasts some 4 h at 2 L/min above the reserve; a trip may take 1.7
		// times as long as was said.
		"lasts":        {2 * time.Hour, ""},
		"one more":     {4 * time.Hour, "1 full E"},
		"two more":     {6 * time.Hour, "2 full E"},
		"no cylinders": {10 * 24 * time.Hour, "gas"},
	} {
		trip := &delivery.TripBooked{From: told.Add(24 * time.Hour), Until: told.Add(24*time.Hour + c.away)}
		w := delivery.WatchHome(delivery.NewProgramme(), delivery.Person{ID: "p1"}, homeWith(trip), now)
		if c.want == "" {
			assert.Zero(t, w.More, name)
			continue
		}
		assert.Equal(t, c.want, w.More.InWords(), name)
	}
}

// What is to be brought is enough, and one less is not.
func TestMoreGasIsTheLeastThatLasts(t *testing.T) {
	p := delivery.NewProgramme()
	rapid.Check(t, func(t *rapid.T) {
		now := told.Add(time.Duration(rapid.IntRange(0, 600).Draw(t, "minutes later")) * time.Minute)
		said := []inventory.Statement{
			&inventory.Observed{Gauge: new(gas.PSI(700 + float64(rapid.IntRange(0, 1300).Draw(t, "psi"))))},
			&delivery.Ordered{Rest: gas.Flow(rapid.IntRange(1, 4).Draw(t, "flow")), Hours: 24},
		}
		if rapid.Bool().Draw(t, "trip") {
			from := now.Add(time.Duration(rapid.IntRange(1, 20).Draw(t, "from")) * time.Hour)
			said = append(said, &delivery.TripBooked{From: from, Until: from.Add(time.Duration(rapid.IntRange(1, 12).Draw(t, "away")) * time.Hour)})
		}
		if rapid.Bool().Draw(t, "cylinder") {
			said = append(said, &delivery.Switched{To: delivery.FromCylinder})
		}
		home := homeWith(said...)
		w := delivery.WatchHome(p, delivery.Person{ID: "p1"}, home, now)
		if w.More.Count == 0 {
			return
		}
		lasts := func(count int) bool {
			_, f := homeWithFull(home, count, w.More.Size, now).Forecast(p, now)
			return f.Known && (f.ActBy.IsZero() || f.ActBy.After(now.Add(72*time.Hour)))
		}
		assert.True(t, lasts(w.More.Count), "%v", w.More)
		assert.False(t, lasts(w.More.Count-1), "%v", w.More)
	})
}
