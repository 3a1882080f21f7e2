package quillet

import (
	"encoding/csv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var isles = time.FixedZone("", -3*3600)

func TestScriptTimes(t *testing.T) {
	s := At(time.Date(2026, time.November, 24, 16, 20, 41, 0, isles))
	at := func(day, hour, minute int) time.Time {
		return time.Date(2026, time.November, day, hour, minute, 0, 0, isles)
	}
	for text, want := range map[string]time.Time{
		"-35m": at(24, 15, 45), "+1h10m": at(24, 17, 30), "-2d": at(22, 16, 20), "-1d3h20m": at(23, 13, 0),
		"18:00": at(24, 18, 0), "16:20": at(25, 16, 20), "09:00": at(25, 9, 0), "18:00+5h": at(24, 23, 0),
	} {
		got, err := s.when(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "soon", "-xd", "-2d3", "18:00+x"} {
		_, err := s.when(text)
		assert.Error(t, err, "%q", text)
	}
}

func TestSplit(t *testing.T) {
	words, err := split(`-5m  act --why "no mains: two words" --to ward:6B  # a remark`)
	require.NoError(t, err)
	assert.Equal(t, []string{"-5m", "act", "--why", "no mains: two words", "--to", "ward:6B"}, words)
	_, err = split(`-5m act --why "open`)
	assert.Error(t, err)
}

// TestDaysMove: the files' days move with the day asked for, months with its
// month, clocks keep their time in its offset, and birthdays stay.
func TestDaysMove(t *testing.T) {
	s := At(time.Date(2027, time.January, 1, 0, 40, 0, 0, isles))
	for text, want := range map[string]string{
		"2025-03-04": "2027-01-01", "2025-03-03": "2026-12-31", "2024-12-31": "2026-10-30",
		"2027-05": "2029-03", "2025-03-04T19:00:00Z": "2027-01-01T19:00:00-03:00",
	} {
		assert.Equal(t, want, s.shift(text), text)
	}
	moved := dated.ReplaceAllStringFunc("1951-06-23,2025-03-04 09:20,0048200", s.shift)
	assert.Equal(t, "1951-06-23,2027-01-01 09:20,0048200", moved)
}

// TestScriptKeepsItsOwn: what the script hands over is left to it; what it
// only recalls, or whom it only calls, has a history.
func TestScriptKeepsItsOwn(t *testing.T) {
	kept := owned([]Line{
		{Args: []string{"discharge", "--person", "0057015", "--items", "E-1,RG-2"}},
		{Args: []string{"recall", "--items", "RG-3"}},
		{Args: []string{"call", "--person", "0050001"}},
	})
	for name, want := range map[string]bool{"0057015": true, "E-1": true, "RG-2": true, "RG-3": false, "0050001": false} {
		assert.Equal(t, want, kept[name], name)
	}
}

// TestPeopleComeInTheOrderOfTheirDays: each list holds one day, all of them
// hold everybody, and each is taken in after its orders were given.
func TestPeopleComeInTheOrderOfTheirDays(t *testing.T) {
	s := At(time.Date(2026, time.November, 24, 16, 20, 0, 0, isles))
	lists, err := s.People()
	require.NoError(t, err)
	var before time.Time
	people := 0
	for _, list := range lists {
		assert.True(t, list.At.After(before), "%s after %s", list.At, before)
		assert.True(t, list.At.Before(s.Now()))
		before = list.At
		rows, err := csv.NewReader(strings.NewReader(string(list.CSV))).ReadAll()
		require.NoError(t, err)
		for _, row := range rows[1:] {
			people++
			ordered, err := time.ParseInLocation("2006-01-02 15:04", row[23], isles)
			require.NoError(t, err)
			assert.True(t, ordered.Before(list.At) && list.At.Sub(ordered) < 12*time.Hour, "%s ordered %s", row[0], row[23])
		}
	}
	assert.Equal(t, 253, people)
}
