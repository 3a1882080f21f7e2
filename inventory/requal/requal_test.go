package requal_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/requal"
)

func day(text string) time.Time {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		panic(err)
	}
	return t
}

// The forms of stamps are those of an equipment maker's article on
// requalification marks and 49 CFR 180.213.
func TestStamps(t *testing.T) {
	now := day("2026-03-06")
	for text, want := range map[string]requal.Stamp{
		"04-19":        {Month: requal.Month{Year: 2019, Month: time.April}},
		"4/2019":       {Month: requal.Month{Year: 2019, Month: time.April}},
		"10 A123 23 +": {Month: requal.Month{Year: 2023, Month: time.October}, Tester: "A123", Plus: true},
		"10a12323+*":   {Month: requal.Month{Year: 2023, Month: time.October}, Tester: "A123", Plus: true, Star: true},
		"05-98★":       {Month: requal.Month{Year: 1998, Month: time.May}, Star: true},
		"10A23+": {Month: requal.Month{Year: 2023, Month: time.October}, Tester: "A", Plus: true,
			Questions: []string{"the requalifier's number is one letter and three figures: read it again"}},
		"07-27": {Month: requal.Month{Year: 2027, Month: time.July}, Questions: []string{"the stamp lies ahead: a due month, or misread?"}},
	} {
		got, err := requal.Parse(text, now)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for text, says := range map[string]string{
		"13A22": "there are twelve", "00-19": "there are twelve", "": "no requalification stamp", "A123": "no requalification stamp", "10-123": "no requalification stamp",
	} {
		_, err := requal.Parse(text, now)
		assert.ErrorContains(t, err, says, text)
	}
}

// Due months: 49 CFR 180.209(a) and (b), PHMSA interpretations 11-0131,
// 09-0148 and 16-0147; the dates are derived from these rules.
func TestDueMonthsAndFilling(t *testing.T) {
	for _, c := range []struct {
		spec, stamp, due, on string
		fill                 bool
	}{
		{"3AL", "06-21", "2026-06", "2026-06-30", true},
		{"3AL", "06-21", "2026-06", "2026-07-01", false},
		{"3AL", "06-21", "2026-06", "2026-06-20", true},
		{"3AA", "05-18", "2023-05", "2023-05-31", true},
		{"3AA", "05-18*", "2028-05", "2027-11-01", true},
		{"3AA", "05-18", "2023-05", "2024-01-01", false},
		{"3AL", "03-19*", "2024-03", "2025-01-01", false}, // the star of 3A and 3AA only
		{"3AA", "09-12", "2017-09", "2017-09-30", true},
		{"DOT-3HT", "01-23", "2026-01", "2026-01-31", true},
		{"", "10-20", "2025-10", "2025-10-12", true},
		{"", "09-14", "2019-09", "2020-05-12", true},  // eight months past due, under the leave of 2020
		{"", "09-14", "2019-09", "2021-05-12", false}, // the leave has ended
		{"", "04-14", "2019-04", "2020-05-12", false}, // more than twelve months past due
	} {
		s, err := requal.Parse(c.stamp, day(c.on))
		require.NoError(t, err)
		due, _ := requal.Due(c.spec, s, day(c.on))
		assert.Equal(t, c.due, due.String(), "%+v", c)
		fill, _ := requal.MayFill(due, day(c.on))
		assert.Equal(t, c.fill, fill, "%+v", c)
	}
	s, err := requal.Parse("03-19*", day("2025-01-01"))
	require.NoError(t, err)
	_, questions := requal.Due("3AL", s, day("2025-01-01"))
	assert.Contains(t, questions[0], "aluminium")
	none, _ := requal.Due("4L", s, day("2025-01-01"))
	assert.Zero(t, none, "liquid vessels: no test is required")
	ok, _ := requal.MayFill(none, day("2099-01-01"))
	assert.True(t, ok)
}

// Every rule names where it is from.
func TestRulesNameTheirSource(t *testing.T) {
	for _, r := range requal.Rules {
		assert.NotEmpty(t, r.Source, r.Spec)
	}
	for _, g := range requal.Graces {
		assert.NotEmpty(t, g.Source)
		assert.True(t, g.Until.After(g.From))
	}
}

func FuzzParse(f *testing.F) {
	for _, text := range []string{"04-19", "10 A123 23 +", "10A23+", "13A22", "★", "99-99", "1 2"} {
		f.Add(text)
	}
	now := day("2026-03-06")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := requal.Parse(text, now)
		if err != nil {
			return
		}
		if s.Month.Month < time.January || s.Month.Month > time.December || s.Month.Year < 1900 || s.Month.Year > 9999 {
			t.Fatalf("%q became %+v", text, s)
		}
		again, ok := requal.ParseMonth(s.Month.String())
		if !ok || again != s.Month {
			t.Fatalf("%s does not read back", s.Month)
		}
	})
}

// What was filled in time may be used until it is empty (PHMSA 09-0148).
func TestPastDueBlocksFillingNotUse(t *testing.T) {
	due := requal.Month{Year: 2026, Month: time.March}
	assert.Equal(t, "by the end of March 2026", requal.InWords(due, time.Date(2026, time.March, 31, 23, 0, 0, 0, time.UTC)))
	assert.Equal(t, "was due by the end of March 2026: may be used until empty; do not refill", requal.InWords(due, time.Date(2026, time.April, 1, 0, 0, 0, 0, time.UTC)))
}
