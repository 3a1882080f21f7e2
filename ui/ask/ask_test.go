package ask_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/ui/ask"
)

var now = time.Date(2030, time.March, 5, 16, 20, 0, 0, time.FixedZone("", -3*3600))

func TestGauge(t *testing.T) {
	for _, tc := range []struct {
		text  string
		psi   float64
		wrong string
	}{
		{"", -1, ""},
		{"1400", 1400, ""},
		{"1,400 psi", 1400, ""},
		{"100 bar", 1450.4, ""}, // NIST SP 811: 1 bar is 14.5038 psi
		{"full", 0, "what does the gauge show?"},
		{"-5", 0, "below zero"},
		{"1400 cats", 0, "not a unit"},
	} {
		r := ask.Read(ask.Answers{"gauge": tc.text})
		got := r.Gauge("gauge")
		switch {
		case tc.wrong != "":
			require.Error(t, r.Wrong()["gauge"], "%q", tc.text)
			assert.Contains(t, r.Wrong()["gauge"].Error(), tc.wrong, "%q", tc.text)
		case tc.psi < 0:
			assert.Nil(t, got, "%q", tc.text)
		default:
			require.NotNil(t, got, "%q: %v", tc.text, r.Wrong())
			assert.InDelta(t, tc.psi, got.PSI(), 0.1, "%q", tc.text)
		}
	}
}

func TestFlow(t *testing.T) {
	for _, tc := range []struct {
		text  string
		lpm   float64
		wrong string
	}{
		{"2", 2, ""}, {"0.5 L/min", 0.5, ""}, {"1/8", 0.125, ""},
		{"2-3", 0, "which flow is in use?"},
		{"setting 3", 0, "a setting is not a flow"},
	} {
		r := ask.Read(ask.Answers{"flow": tc.text})
		got := r.Flow("flow")
		if tc.wrong != "" {
			require.Error(t, r.Wrong()["flow"], "%q", tc.text)
			assert.Contains(t, r.Wrong()["flow"].Error(), tc.wrong, "%q", tc.text)
			continue
		}
		require.NotNil(t, got, "%q: %v", tc.text, r.Wrong())
		assert.InDelta(t, tc.lpm, float64(*got), 1e-9, "%q", tc.text)
	}
}

func TestNumber(t *testing.T) {
	for _, tc := range []struct {
		text  string
		want  float64
		wrong string
	}{
		{"92", 92, ""}, {"92.5 %", 92.5, ""}, {"101", 0, "not between 0 and 100 %"}, {"NaN", 0, "not between"}, {"high", 0, "is not a number"},
	} {
		r := ask.Read(ask.Answers{"spo2": tc.text})
		got := r.Number("spo2", "%", 0, 100)
		if tc.wrong != "" {
			require.Error(t, r.Wrong()["spo2"], "%q", tc.text)
			assert.Contains(t, r.Wrong()["spo2"].Error(), tc.wrong, "%q", tc.text)
			continue
		}
		require.NotNil(t, got, "%q", tc.text)
		assert.InDelta(t, tc.want, *got, 1e-9, "%q", tc.text)
	}
}

func TestPast(t *testing.T) {
	read := func(t time.Time) (time.Time, ask.Wrong) {
		r := ask.Read(ask.Answers{"when": t.Format(time.RFC3339)})
		return r.Past("when", now), r.Wrong()
	}
	got, wrong := read(now.Add(-49 * time.Hour))
	assert.Empty(t, wrong)
	assert.Equal(t, now.Add(-49*time.Hour), got)
	_, wrong = read(now.Add(time.Minute))
	assert.ErrorContains(t, wrong["when"], "lies ahead")
}

func TestNeedSaysWhatToWrite(t *testing.T) {
	r := ask.Read(ask.Answers{"why": "  "})
	assert.Empty(t, r.Need("why", "write the reason"))
	assert.EqualError(t, r.Wrong()["why"], "write the reason")
}

// Whatever is written, reading it ends in a value or in words, never both.
func TestReadersNeverPanic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		r := ask.Read(ask.Answers{"g": text, "f": text, "n": text, "t": text})
		g, f, n := r.Gauge("g"), r.Flow("f"), r.Number("n", "%", 0, 100)
		r.Time("t", time.UTC)
		for key, none := range map[string]bool{"g": g == nil, "f": f == nil, "n": n == nil} {
			if err := r.Wrong()[key]; err != nil {
				assert.True(t, none && err.Error() != "", "%q", text)
			}
		}
	})
}
