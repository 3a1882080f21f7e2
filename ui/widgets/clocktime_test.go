package widgets_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/inventory/wall"
	"lungwort/ui/widgets"
)

func zone(t testing.TB, name string) *time.Location {
	loc, err := wall.Zone(name)
	require.NoError(t, err)
	return loc
}

// Every minute can be shown by a When and comes back as itself, also in zones
// with half hours and around changes of the clocks.
func TestWhenKeepsEveryMinute(t *testing.T) {
	app(t)
	zones := []*time.Location{zone(t, "America/New_York"), zone(t, "America/St_Johns"), zone(t, "Australia/Lord_Howe"), time.UTC}
	rapid.Check(t, func(rt *rapid.T) {
		loc := rapid.SampledFrom(zones).Draw(rt, "zone")
		minute := time.Unix(rapid.Int64Range(1_700_000_000/60, 1_900_000_000/60).Draw(rt, "minute")*60, 0)
		w := widgets.NewWhen(loc)
		w.SetTime(minute)
		got, err := w.Time()
		if err != nil || !got.Equal(minute) {
			rt.Fatalf("%s shown as %q came back as %s, %v", minute.In(loc), w.Text.Text, got, err)
		}
	})
}

func TestParseQuantity(t *testing.T) {
	for _, tc := range []struct {
		text   string
		amount float64
		unit   string
		wrong  string
	}{
		{"500 psi", 500, "psi", ""},
		{"500psi", 500, "psi", ""},
		{" 500 PSI ", 500, "psi", ""},
		{"35 bar", 35, "bar", ""},
		{"1,400", 1400, "psi", ""},
		{"1,234,567.5", 1234567.5, "psi", ""},
		{"2.5", 2.5, "psi", ""},
		{"0", 0, "psi", ""},
		{"1,4", 0, "", "two ways"},
		{"1,40", 0, "", "two ways"},
		{"1.400,5", 0, "", "two ways"},
		{"1..4", 0, "", "two ways"},
		{"500 kPa", 0, "", "use psi or bar"},
		{"-3", 0, "", "not an amount"},
		{"", 0, "", "missing"},
		{"psi", 0, "", "write it as 2.5 psi"},
	} {
		amount, unit, err := widgets.ParseQuantity(tc.text, "psi", "bar")
		if tc.wrong != "" {
			assert.ErrorContains(t, err, tc.wrong, "%q", tc.text)
			continue
		}
		assert.NoError(t, err, "%q", tc.text)
		assert.Equal(t, tc.amount, amount, "%q", tc.text)
		assert.Equal(t, tc.unit, unit, "%q", tc.text)
	}
	_, unit, err := widgets.ParseQuantity("4 L / min", "L/min")
	assert.NoError(t, err)
	assert.Equal(t, "L/min", unit)
	_, _, err = widgets.ParseQuantity("4")
	assert.NoError(t, err, "a count has no unit")
}

func FuzzParseQuantity(f *testing.F) {
	for _, text := range []string{"500 psi", "1,400", "1,4", ".5", "9e9"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		amount, unit, err := widgets.ParseQuantity(text, "psi", "bar")
		if err == nil && (amount < 0 || unit == "") {
			t.Errorf("%q gave %v %q", text, amount, unit)
		}
	})
}

// TestHourAlone: the hour is that of the day the desk is at, and the weekday
// beside it says so.
func TestHourAlone(t *testing.T) {
	zone := time.FixedZone("", -3*3600)
	w := widgets.NewWhen(zone)
	w.SetText("17:05")
	_, err := w.Time()
	assert.Error(t, err, "which day?")
	w.ClockOn(func() time.Time { return time.Date(2030, 3, 5, 23, 50, 0, 0, zone) })
	at, err := w.Time()
	require.NoError(t, err)
	assert.Equal(t, time.Date(2030, 3, 5, 17, 5, 0, 0, zone), at)
}
