package wall_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/inventory/wall"
)

func zone(t testing.TB, name string) *time.Location {
	loc, err := wall.Zone(name)
	require.NoError(t, err)
	return loc
}

// The clock changes are those of the IANA time zone database: New York put its
// clocks forward on 8 March 2026 at 02:00 and back on 1 November at 02:00.
func TestParse(t *testing.T) {
	east := zone(t, "America/New_York")
	for _, tc := range []struct{ text, want, wrong string }{
		{"2026-11-24 16:20", "2026-11-24T16:20:00-05:00", ""},
		{" 2026-07-01   09:05 ", "2026-07-01T09:05:00-04:00", ""},
		{"2026-11-24T16:20", "2026-11-24T16:20:00-05:00", ""},
		{"2026-11-24 16:20 -08:00", "2026-11-24T19:20:00-05:00", ""},
		{"2026-03-08 01:59", "2026-03-08T01:59:00-05:00", ""},
		{"2026-03-08 02:30", "", "does not exist"},
		{"2026-03-08 03:00", "2026-03-08T03:00:00-04:00", ""},
		{"2026-11-01 01:30", "", "add -04:00 for the first or -05:00 for the second"},
		{"2026-11-01 01:30 -05:00", "2026-11-01T01:30:00-05:00", ""},
		{"2026-11-01 02:00", "2026-11-01T02:00:00-05:00", ""},
		{"", "", "missing"},
		{"11/24/2026 16:20", "", "write it as 2026-11-24 16:20"},
		{"2026-11-24", "", "write it as"},
		{"2026-02-30 10:00", "", "write it as"},
		{"2026-11-24 25:00", "", "write it as"},
	} {
		got, err := wall.Parse(tc.text, east)
		if tc.wrong != "" {
			assert.ErrorContains(t, err, tc.wrong, "%q", tc.text)
			continue
		}
		require.NoError(t, err, "%q", tc.text)
		assert.Equal(t, tc.want, got.Format(time.RFC3339), "%q", tc.text)
	}
}

// An hour alone is that of the day, and is asked about where the day has it
// twice.
func TestParseOn(t *testing.T) {
	now := time.Date(2026, 11, 1, 8, 0, 0, 0, zone(t, "America/New_York"))
	for text, want := range map[string]string{
		"07:15":            "2026-11-01T07:15:00-05:00",
		"00:50":            "2026-11-01T00:50:00-04:00",
		"01:30 -04:00":     "2026-11-01T01:30:00-04:00",
		"2026-10-31 23:50": "2026-10-31T23:50:00-04:00",
	} {
		got, err := wall.ParseOn(text, now)
		require.NoError(t, err, text)
		assert.Equal(t, want, got.Format(time.RFC3339), text)
	}
	_, err := wall.ParseOn("01:30", now)
	assert.ErrorContains(t, err, "came twice")
	assert.True(t, wall.Twice(time.Date(2026, 11, 1, 1, 30, 0, 0, now.Location())))
	assert.False(t, wall.Twice(now))
}

func TestZone(t *testing.T) {
	for _, name := range []string{"", "Local", "east", "+03:00"} {
		_, err := wall.Zone(name)
		assert.ErrorContains(t, err, "as Europe/Lisbon", name)
	}
}

// Every minute is read back from what the clock shows, with its offset where
// that hour comes twice.
func TestEveryMinuteIsReadBack(t *testing.T) {
	zones := []*time.Location{zone(t, "America/New_York"), zone(t, "America/St_Johns"), zone(t, "Australia/Lord_Howe"), time.UTC}
	rapid.Check(t, func(rt *rapid.T) {
		minute := time.Unix(rapid.Int64Range(1_700_000_000/60, 1_900_000_000/60).Draw(rt, "minute")*60, 0).In(rapid.SampledFrom(zones).Draw(rt, "zone"))
		layout := wall.Layout
		if wall.Twice(minute) {
			layout = wall.OffsetLayout
		}
		got, err := wall.Parse(minute.Format(layout), minute.Location())
		if err != nil || !got.Equal(minute) {
			rt.Fatalf("%s shown as %q came back as %s, %v", minute, minute.Format(layout), got, err)
		}
	})
}

func FuzzParse(f *testing.F) {
	east := zone(f, "America/New_York")
	for _, text := range []string{"2026-11-24 16:20", "2026-11-01 01:30", "2026-11-24 16:20 -08:00", "T", "0000-01-01 00:00", "17:05", "01:30 -04:00"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, err := wall.ParseOn(text, time.Date(2026, 11, 1, 8, 0, 0, 0, east))
		if err == nil && got.Second() != 0 {
			t.Errorf("%q gave seconds: %s", text, got)
		}
	})
}

func FuzzZone(f *testing.F) {
	for _, text := range []string{"Europe/Lisbon", "UTC", "Local", "../../etc/passwd", ""} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if loc, err := wall.Zone(text); err == nil && loc == time.Local {
			t.Errorf("%q is the zone of whatever machine reads it", text)
		}
	})
}
