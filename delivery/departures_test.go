package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
)

func TestReadDepartures(t *testing.T) {
	for text, want := range map[string]string{
		"":                                    "",
		" ; ":                                 "",
		"daily 08:00 12:30":                   "daily 08:00 12:30",
		"08:00":                               "daily 08:00",
		"12:30, 8:00":                         "daily 08:00 12:30",
		"Mon-Fri 07:30 12:00; Sat, Sun 09:00": "Mon-Fri 07:30 12:00; Sat-Sun 09:00",
		"monday wed 07:30":                    "Mon Wed 07:30",
		"mon-tue fri-sun 07:30":               "Mon-Tue Fri-Sun 07:30",
		"Sat 09:00 09:00\nMon 10:00":          "Mon 10:00; Sat 09:00",
	} {
		got, err := delivery.ReadDepartures(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, delivery.Departures(got), text)
	}
	for text, says := range map[string]string{
		"daily":         "names no time",
		"daily 25:00":   "not a time of day",
		"Fri-Mon 08:00": "not days of the week",
		"Moonday 08:00": "not days of the week",
		"08:00 noon":    "not a time of day",
	} {
		_, err := delivery.ReadDepartures(text)
		assert.ErrorContains(t, err, says, text)
	}
}

// Whatever is read is written so that it is read the same.
func FuzzReadDepartures(f *testing.F) {
	f.Add("Mon-Fri 07:30 12:00; Sat Sun 09:00")
	f.Add("daily 8:00, 9:00\nSun 10:00")
	f.Fuzz(func(t *testing.T, text string) {
		got, err := delivery.ReadDepartures(text)
		if err != nil {
			return
		}
		again, err := delivery.ReadDepartures(delivery.Departures(got))
		require.NoError(t, err)
		assert.Equal(t, got, again)
	})
}

func TestReadWeekdays(t *testing.T) {
	days, err := delivery.ReadWeekdays("Tue, Sun")
	require.NoError(t, err)
	assert.Equal(t, []time.Weekday{time.Tuesday, time.Sunday}, days)
	days, err = delivery.ReadWeekdays("daily")
	require.NoError(t, err)
	assert.Empty(t, days)
	assert.Equal(t, "daily", delivery.Weekdays(days))
	_, err = delivery.ReadWeekdays("Someday")
	assert.Error(t, err)
}
