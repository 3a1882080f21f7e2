package tongue_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/tongue"
)

func english(t testing.TB) string {
	t.Helper()
	raw, err := tongue.Template()
	require.NoError(t, err)
	return string(raw)
}

func TestEveryLanguageOfOursIsWhole(t *testing.T) {
	for _, own := range []tongue.Tongue{tongue.English(), tongue.Spanish()} {
		for _, text := range own.Texts() {
			assert.NotContains(t, text, "  ", own.Name)
		}
	}
	spanish := tongue.Spanish()
	assert.Len(t, spanish.Texts(), len(tongue.English().Texts()))
	assert.False(t, spanish.Approved(), "nobody has approved ours")
	assert.True(t, tongue.English().Approved())
}

// Spanish passes the check any file of a programme passes.
func TestOwnFilesAreHeldToTheSameRules(t *testing.T) {
	for _, c := range []struct{ name, from, to, says string }{
		{"as it is", "", "", ""},
		{"approved", "also = en", "reviewed = A. Reader, 2026-11-02\nalso = en", ""},
		{"a text left out", "over.4 = Move the tube from the cylinder to the machine.", "", "lacks over.4"},
		{"a text left empty", "Move the tube from the cylinder to the machine.", "", "lacks over.4"},
		{"a key nobody asks for", "over.4 =", "over.4 = x\nover.44 =", "over.44"},
		{"a number lost", "ring {emergency} and say", "ring them and say", "fire.6"},
		{"a word in braces translated", "{distance}", "{distancia}", "braces"},
		{"no name", "language = English", "", "which language"},
		{"no equals sign", "over.4 =", "over.4", "no “=”"},
		{"twice", "over.4 =", "over.4 = x\nover.4 =", "second time"},
		{"six weekdays", "Fri Sat", "Fri", "seven weekdays"},
		{"Arabic", "Move the tube from", "انقل الأنبوب", "written in Arabic"},
		{"Devanagari", "Move the tube from", "नली को", "written in Devanagari"},
		{"Hebrew", "Move the tube from", "העבר", "written in Hebrew"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := english(t)
			require.Contains(t, text, c.from)
			read, err := tongue.Read(strings.NewReader(strings.Replace(text, c.from, c.to, 1)))
			if c.says == "" {
				require.NoError(t, err)
				assert.Equal(t, "English", read.Name)
				return
			}
			assert.ErrorContains(t, err, c.says)
		})
	}
}

func TestManyMissingAreNamedAndCounted(t *testing.T) {
	_, err := tongue.Read(strings.NewReader("language = Kriol\ntitle = Yu oksijen\n"))
	assert.ErrorContains(t, err, "back.1, back.2, back.3, back.4, back.5, back.6 and ")
}

func TestALanguageGoesByItsNames(t *testing.T) {
	for _, name := range []string{"Spanish", "español", " ES ", "Castellano"} {
		assert.True(t, tongue.Spanish().Goes(name), name)
	}
	for _, name := range []string{"", "Portuguese", "e"} {
		assert.False(t, tongue.Spanish().Goes(name), name)
	}
}

func TestSayFillsInOnce(t *testing.T) {
	said := tongue.English().Say("ring.title")
	assert.Equal(t, "Who to ring, day or night", said)
	said = tongue.English().Say("numbers.by", "programme", "{programme} {flow}")
	assert.True(t, strings.HasPrefix(said, "{programme} {flow} has set"), "what is filled in stays as it is: %s", said)
	at := time.Date(2026, 11, 24, 16, 5, 0, 0, time.UTC)
	assert.Equal(t, "Tue 24 Nov 16:05", tongue.English().Moment(at))
	assert.Equal(t, "mar 24 nov 16:05", tongue.Spanish().Moment(at))
}

func FuzzRead(f *testing.F) {
	f.Add(english(f))
	f.Add("language = X\nalso = ,,\n=\n# \n\ufeffweekdays = a")
	f.Fuzz(func(t *testing.T, text string) {
		read, err := tongue.Read(strings.NewReader(text))
		if err != nil {
			return
		}
		assert.NotEmpty(t, read.Moment(time.Unix(0, 0)))
		assert.NotEmpty(t, read.Say("title"))
	})
}
