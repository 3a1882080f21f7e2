package paper

import (
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestCleanShowsWhatTheFontHoldsAndMarksTheRest(t *testing.T) {
	for _, c := range []struct{ text, want, unshown string }{
		{"Kelp Street 22", "Kelp Street 22", ""},
		{"Đà Nẵng, Ēriks, Łódź, straße", "Đà Nẵng, Ēriks, Łódź, straße", ""},
		{"Ա. Մինասյան · Борис · Αθήνα", "Ա. Մինասյան · Борис · Αθήνα", ""},
		{"e\u0301", "é", ""},
		{"✓ ☐ ☎ → ≥", "✓ ☐ ☎ → ≥", ""},
		{"a\x00b\x07c", "abc", ""},
		{"two\nlines\tand a tab", "two lines and a tab", ""},
		{"turn\u202Eed", "turned", ""},
		{"zero\u200Bwidth\uFEFF", "zerowidth", ""},
		{"😀", "□", "😀"},
		{"𨫎", "□", "𨫎"},
		{"氧气", "□□", "氧气"},
		{"مرحبا", "□□□□□", "مرحبا"},
		{"a\v\u030c", "\u01ce", ""},
		{"bad\xffbyte", "bad□byte", "\uFFFD"},
	} {
		got, unshown := clean(c.text)
		assert.Equal(t, c.want, got, "%q", c.text)
		assert.Equal(t, c.unshown, string(unshown), "%q", c.text)
	}
}

func TestCleanTwiceIsCleanOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		once, _ := clean(text)
		twice, unshown := clean(once)
		assert.Equal(t, once, twice)
		assert.Empty(t, unshown)
		assert.True(t, utf8.ValidString(once))
	})
}

func TestWrapLosesNoSignAndKeepsTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, _ := clean(rapid.StringMatching(`([A-Za-zé]{1,30} ?){0,20}`).Draw(t, "text"))
		width := MM(rapid.Float64Range(1, 80).Draw(t, "width"))
		lines := wrap(body, text, width, 0)
		assert.Equal(t, strings.ReplaceAll(text, " ", ""), strings.ReplaceAll(strings.Join(lines, ""), " ", ""))
		for _, line := range lines {
			if utf8.RuneCountInString(line) > 1 {
				assert.LessOrEqual(t, body.width(line), width, "%q", line)
			}
		}
	})
}

func TestWrapShowsThatMoreWasThere(t *testing.T) {
	long := strings.Repeat("gate code at the lodge ", 400)
	lines := wrap(body, long, 60, 3)
	assert.Len(t, lines, 3)
	assert.True(t, strings.HasSuffix(lines[2], cut), "%q", lines[2])
	assert.LessOrEqual(t, body.width(lines[2]), MM(60))

	whole := wrap(body, "short enough", 60, 3)
	assert.Equal(t, []string{"short enough"}, whole)
}

// The advances of DejaVu Sans 2.37 in units of 2048 to the em, as its own
// metrics table gives them: space 651, digits 1303, A 1401.
func TestFaceMeasuresByTheFontsAdvances(t *testing.T) {
	for text, units := range map[string]float64{" ": 651, "7": 1303, "A": 1401, "A 7": 3355} {
		want := units / 2048 * 10 / pointsPerMM
		assert.InDelta(t, want, float64(face{size: 10}.width(text)), 0.005, "%q", text)
	}
}

func TestTimesReadAsPeopleSayThem(t *testing.T) {
	zone := time.FixedZone("Quillet", -4*3600)
	tuesday := time.Date(2026, 11, 24, 16, 20, 0, 0, zone)
	assert.Equal(t, "Tue 24 Nov 16:20", moment(tuesday))
	assert.Equal(t, "17:05", momentBeside(tuesday.Add(45*time.Minute), tuesday))
	assert.Equal(t, "Wed 25 Nov 01:20", momentBeside(tuesday.Add(9*time.Hour), tuesday))
	assert.Equal(t, "–", momentBeside(time.Time{}, tuesday))
	assert.Equal(t, "59 min", span(59*time.Minute+59*time.Second))
	assert.Equal(t, "26 h 05 min", span(26*time.Hour+5*time.Minute))
	assert.Equal(t, "30 min old", age(tuesday, tuesday.Add(30*time.Minute)))
	assert.Equal(t, "7 h old", age(tuesday, tuesday.Add(7*time.Hour+10*time.Minute)))
	assert.Equal(t, "3 days old", age(tuesday, tuesday.Add(80*time.Hour)))
	assert.Equal(t, "age not known", age(time.Time{}, tuesday))
	assert.Equal(t, "dated later than this paper", age(tuesday.Add(time.Hour), tuesday))
}
