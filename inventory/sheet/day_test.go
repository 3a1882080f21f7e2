package sheet_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/inventory/sheet"
)

func TestParseDay(t *testing.T) {
	for _, test := range []struct {
		text  string
		order sheet.DayOrder
		want  string
	}{
		{"3/4/25", sheet.MonthFirst, "2025-03-04"},
		{"3/4/25", sheet.DayFirst, "2025-04-03"},
		{"03/04/2025", sheet.MonthFirst, "2025-03-04"},
		{"04.03.2025", sheet.DayFirst, "2025-03-04"},
		{"4.3.25", sheet.DayFirst, "2025-03-04"},
		{"4-3-2025", sheet.MonthFirst, "2025-04-03"},
		{"17/3/25", sheet.OrderUnknown, "2025-03-17"},
		{"3/17/25", sheet.OrderUnknown, "2025-03-17"},
		{"4/4/25", sheet.OrderUnknown, "2025-04-04"},
		{"2025-03-09", sheet.OrderUnknown, "2025-03-09"},
		{"2025/3/9", sheet.OrderUnknown, "2025-03-09"},
		{"2025.03.09", sheet.DayFirst, "2025-03-09"},
		{"20250309", sheet.OrderUnknown, "2025-03-09"},
		{"2025-03-09 01:40", sheet.OrderUnknown, "2025-03-09 01:40"},
		{"2025-03-09T01:40:30", sheet.OrderUnknown, "2025-03-09 01:40:30"},
		{"2025-03-09T01:40:00-05:00", sheet.OrderUnknown, "2025-03-09 01:40:00-05:00"},
		{"2025-03-09T06:40Z", sheet.OrderUnknown, "2025-03-09 06:40:00+00:00"},
		{"2025-03-09 24:00", sheet.OrderUnknown, "2025-03-10 00:00"},
		{"3/17/25 1:40 pm", sheet.OrderUnknown, "2025-03-17 13:40"},
		{"3/17/25 12:05am", sheet.OrderUnknown, "2025-03-17 00:05"},
		{"3/17/25, 1:40 p.m.", sheet.OrderUnknown, "2025-03-17 13:40"},
		{"3/17/25 0140", sheet.OrderUnknown, "2025-03-17 01:40"},
		{"14 March 2025", sheet.OrderUnknown, "2025-03-14"},
		{"14-Mar-25", sheet.OrderUnknown, "2025-03-14"},
		{"14mar2025", sheet.OrderUnknown, "2025-03-14"},
		{"Mar 14, 2025", sheet.OrderUnknown, "2025-03-14"},
		{"March 14th 2025", sheet.OrderUnknown, "2025-03-14"},
		{"Fri, Mar. 14, 2025", sheet.OrderUnknown, "2025-03-14"},
		{"14 Sept 2025", sheet.OrderUnknown, "2025-09-14"},
		{"29/2/24", sheet.DayFirst, "2024-02-29"},
		{"45720", sheet.OrderUnknown, "2025-03-04"},
		{"45720.0694444444", sheet.OrderUnknown, "2025-03-04 01:40"},
		{"", sheet.OrderUnknown, ""},
	} {
		got, err := sheet.ParseDay(cell(test.text), test.order, false)
		if assert.NoError(t, err, test.text) {
			assert.Equal(t, test.want, got.String(), "%q, %s", test.text, test.order)
		}
	}
}

func TestParseDayDoubts(t *testing.T) {
	for _, test := range []struct {
		text       string
		order      sheet.DayOrder
		candidates []string
	}{
		{"3/4/25", sheet.OrderUnknown, []string{"2025-03-04", "2025-04-03"}},
		{"17/3/25", sheet.MonthFirst, []string{"2025-03-17"}},
		{"3/17/25", sheet.DayFirst, []string{"2025-03-17"}},
		{"14-Mar", sheet.OrderUnknown, nil},
		{"Mar-25", sheet.OrderUnknown, nil},
		{"March 2025", sheet.OrderUnknown, nil},
		{"3/13", sheet.MonthFirst, nil},
		{"Fri", sheet.OrderUnknown, nil},
		{"01:40", sheet.OrderUnknown, nil},
		{"31/2/25", sheet.DayFirst, nil},
		{"2025-13-01", sheet.OrderUnknown, nil},
		{"3/17/25 25:00", sheet.OrderUnknown, nil},
		{"3/17/25 13:40 pm", sheet.OrderUnknown, nil},
		{"3/4-25", sheet.MonthFirst, nil},
		{"MT", sheet.OrderUnknown, nil},
		{"?", sheet.OrderUnknown, nil},
		{"n/a", sheet.OrderUnknown, nil},
		{"99999", sheet.OrderUnknown, nil},
		{"12", sheet.OrderUnknown, nil},
		{"next week", sheet.OrderUnknown, nil},
	} {
		got, err := sheet.ParseDay(cell(test.text), test.order, false)
		var doubt *sheet.Doubt
		if assert.ErrorAs(t, err, &doubt, test.text) {
			assert.Equal(t, test.candidates, doubt.Candidates, test.text)
			assert.Equal(t, test.text, doubt.Text)
			assert.NotEmpty(t, doubt.Asks, test.text)
			assert.True(t, got.IsZero(), test.text)
		}
	}
}

// The day numbers of both calendars: the 1904 one counts 1,462 days less for
// the same day (ECMA-376, part 1, 18.17.4).
func TestParseDayInBothCalendars(t *testing.T) {
	for _, test := range []struct {
		raw      string
		date1904 bool
		want     string
	}{
		{"45720", false, "2025-03-04"},
		{"44258", true, "2025-03-04"},
		{"45720.5", false, "2025-03-04 12:00"},
		{"45720.99999999", false, "2025-03-05"},
		{"61", false, "1900-03-01"},
	} {
		got, err := sheet.ParseDay(sheet.Cell{Text: "shown", Raw: test.raw, Serial: true}, sheet.OrderUnknown, test.date1904)
		if assert.NoError(t, err, test.raw) {
			assert.Equal(t, test.want, got.Time.Format("2006-01-02")+map[bool]string{true: got.Time.Format(" 15:04")}[got.Time.Hour() > 0], test.raw)
		}
	}
	for _, raw := range []string{"60", "0", "-5", "2958466", "1e300", "NaN", "x"} {
		_, err := sheet.ParseDay(sheet.Cell{Text: raw, Raw: raw, Serial: true}, sheet.OrderUnknown, false)
		assert.Error(t, err, raw)
	}
}

func TestTwoDigitYearOfABirth(t *testing.T) {
	born, err := sheet.ParseDay(cell("3/17/43"), sheet.MonthFirst, false)
	require.NoError(t, err)
	assert.True(t, born.ShortYear)
	assert.Equal(t, "1943-03-17", born.NotAfter(time.Date(2025, 3, 14, 0, 0, 0, 0, time.UTC)).String())
	full, err := sheet.ParseDay(cell("3/17/2043"), sheet.MonthFirst, false)
	require.NoError(t, err)
	assert.Equal(t, "2043-03-17", full.NotAfter(time.Date(2025, 3, 14, 0, 0, 0, 0, time.UTC)).String())
}

// In 2025 the clocks of New York went forward at 02:00 on 9 March and back at
// 02:00 on 2 November (15 U.S.C. 260a).
func TestClockChange(t *testing.T) {
	newYork, err := time.LoadLocation("America/New_York")
	require.NoError(t, err)
	in := func(text string) (time.Time, error) {
		when, err := sheet.ParseDay(cell(text), sheet.OrderUnknown, false)
		require.NoError(t, err)
		return when.In(newYork)
	}
	before, err := in("2025-03-09 01:40")
	require.NoError(t, err)
	assert.Equal(t, "2025-03-09T01:40:00-05:00", before.Format(time.RFC3339))

	var doubt *sheet.Doubt
	_, err = in("2025-03-09 02:30")
	require.ErrorAs(t, err, &doubt)
	assert.Contains(t, doubt.Asks, "skipped")

	_, err = in("2025-11-02 01:40")
	require.ErrorAs(t, err, &doubt)
	assert.Equal(t, []string{"2025-11-02 01:40 -04:00", "2025-11-02 01:40 -05:00"}, doubt.Candidates)

	zoned, err := in("2025-11-02T01:40:00-05:00")
	require.NoError(t, err)
	assert.Equal(t, "2025-11-02T01:40:00-05:00", zoned.Format(time.RFC3339))
}

func TestParseDayReadsWhatItWrites(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		moment := time.Unix(rapid.Int64Range(-1_000_000_000, 4_000_000_000).Draw(t, "seconds"), 0).UTC()
		want := sheet.When{Time: moment, Clock: true}.String()
		got, err := sheet.ParseDay(cell(want), sheet.OrderUnknown, false)
		if err != nil || got.String() != want {
			t.Fatalf("got %q, %v; want %q", got, err, want)
		}
		for _, layout := range []string{"2006-01-02", "Mon, Jan 2, 2006", "2 January 2006", "20060102"} {
			text := moment.Format(layout)
			got, err := sheet.ParseDay(cell(text), sheet.OrderUnknown, false)
			if err != nil || got.String() != moment.Format("2006-01-02") {
				t.Fatalf("%q: got %q, %v", text, got, err)
			}
		}
	})
}

func FuzzParseDay(f *testing.F) {
	for _, text := range []string{"3/4/25", "45720", "04.03.2025", "14-Mar", "2025-03-09 01:40", "Fri", "9.01E+09", "1/2/3 4:5 pm", "2025-03-09t1:2z"} {
		f.Add(text, 0)
	}
	f.Fuzz(func(t *testing.T, text string, order int) {
		when, err := sheet.ParseDay(cell(text), sheet.DayOrder(order%3), false)
		if err != nil {
			var doubt *sheet.Doubt
			require.ErrorAs(t, err, &doubt, "%q", text)
			return
		}
		if when.IsZero() {
			return
		}
		again, err := sheet.ParseDay(cell(when.String()), sheet.OrderUnknown, false)
		require.NoError(t, err, "%q was read as %q", text, when)
		require.True(t, again.Time.Equal(when.Time), "%q was read as %q, then as %q", text, when, again)
	})
}
