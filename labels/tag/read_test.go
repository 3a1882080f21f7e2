package tag

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func day(year int, month time.Month, d int) time.Time {
	return time.Date(year, month, d, 0, 0, 0, 0, time.UTC)
}

const sample = "09521234543213" // the GTIN of GS1's own samples

// Element strings after GS1 General Specifications; the third and the fifth
// are published samples, the others follow the same rules and were parsed back
// by an independent parser.
func TestElementStrings(t *testing.T) {
	for _, c := range []struct {
		scanned string
		want    Reading
	}{
		{"01095212345432131726123110LOT42\x1d21SN0001", Reading{GTIN: sample, Expires: day(2026, 12, 31), Lot: "LOT42", Serial: "SN0001"}},
		{"01095212345432131124011521ABC123", Reading{GTIN: sample, Made: day(2024, 1, 15), Serial: "ABC123"}},
		{"010952123454321310ABC123\x1d17251231", Reading{GTIN: sample, Lot: "ABC123", Expires: day(2025, 12, 31)}},
		{"010952123454321310ABC123\x1d99TEST", Reading{GTIN: sample, Lot: "ABC123"}},
		{"01095212345432131724020021X1", Reading{GTIN: sample, Expires: day(2024, 2, 29), Serial: "X1"}},
		{"]C1010061414100001217281231\x1d10LOT42", Reading{GTIN: "00614141000012", Expires: day(2028, 12, 31), Lot: "LOT42"}},
		{"]d2\x1d010952123454321310ABC123\r\n", Reading{GTIN: sample, Lot: "ABC123"}},
		{"]E09501101530003", Reading{GTIN: "09501101530003"}},
		{"(01)09521234543213(17)261231(10)LOT42(21)SN0001", Reading{GTIN: sample, Expires: day(2026, 12, 31), Lot: "LOT42", Serial: "SN0001"}},
		{"(01) 09521234543213 (10) A(5)B", Reading{GTIN: sample, Lot: "A(5)B"}},
		{"]C1800309521234543213E20117", Reading{GRAI: "09521234543213E20117"}},
		{"]d28004952123400417", Reading{GIAI: "952123400417"}},
		{"(3103)001250(01)09521234543213", Reading{GTIN: sample}},
	} {
		got, err := Read(c.scanned)
		require.NoError(t, err, "Read(%q)", c.scanned)
		assert.Equal(t, GS1, got.Kind, "Read(%q)", c.scanned)
		assert.NotEmpty(t, got.Says, "Read(%q)", c.scanned)
		assert.Equal(t, c.want, got.fieldsOnly(), "Read(%q)", c.scanned)
	}
}

// fieldsOnly returns the reading without kind, words and raw text.
func (r Reading) fieldsOnly() Reading {
	r.Kind, r.Says, r.Ask, r.Raw = "", "", "", ""
	return r
}

// The published samples of the GS1 Digital Link standard, and host names and
// short GTINs the standard allows.
func TestDigitalLinks(t *testing.T) {
	for _, c := range []struct {
		scanned string
		want    Reading
	}{
		{"https://id.gs1.org/01/09521234543213", Reading{GTIN: sample}},
		{"https://id.gs1.org/01/09521234543213/10/ABC123/21/12345", Reading{GTIN: sample, Lot: "ABC123", Serial: "12345"}},
		{"https://id.gs1.org/01/09521234543213/10/ABC123?17=261231", Reading{GTIN: sample, Lot: "ABC123", Expires: day(2026, 12, 31)}},
		{"HTTPS://EXAMPLE.ORG/some/path/01/9521234543213/21/A%2F7?lang=en&11=240200", Reading{GTIN: sample, Serial: "A/7", Made: day(2024, 2, 29)}},
		{"https://example.org/8004/952123400417", Reading{GIAI: "952123400417"}},
	} {
		got, err := Read(c.scanned)
		require.NoError(t, err, "Read(%q)", c.scanned)
		assert.Equal(t, Link, got.Kind, "Read(%q)", c.scanned)
		assert.Equal(t, c.want, got.fieldsOnly(), "Read(%q)", c.scanned)
	}
}

func TestRefusedScans(t *testing.T) {
	for _, c := range []struct{ name, scanned, says string }{
		{"nothing", " \r\n", "Nothing was scanned"},
		{"wrong GTIN check digit", "(01)09521234543214", "check digit"},
		{"broken off", "]C10109521234", "breaks off"},
		{"month 13", "(01)09521234543213(17)251301", "no day of the calendar"},
		{"30 February", "(01)09521234543213(17)250230", "no day of the calendar"},
		{"lot too long: separators lost", "]C10109521234543213" + "10ABCDEFGHIJ21KLMNOPQRSTU", "separator was lost"},
		{"two GTINs", "(01)09521234543213(01)00614141000012", "two things"},
		{"an identifier GS1 does not assign", "]C1050952", "identifier GS1 knows"},
		{"parcel number only", "(00)106141411234567897", "names no product"},
		{"parentheses where the code has none", "]Q3(01)09521234543213", "identifier GS1 knows"},
		{"another link", "https://example.org/menu", "no GS1 Digital Link"},
		{"link with half a pair", "https://example.org/01/09521234543213/10", "no GS1 Digital Link"},
		{"GRAI check digit", "(8003)09521234543219X", "check digit"},
		{"serial eaten by a spreadsheet", "9.01E+09", "last digits are gone"},
		{"only dashes", "--- /", "can't be read"},
		{"not UTF-8", "CN\xff417", "can't be read"},
		{"control sign", "CN\x04417", "can't be read"},
	} {
		r, err := Read(c.scanned)
		require.Error(t, err, "%s: Read(%q)", c.name, c.scanned)
		assert.Contains(t, err.Error(), c.says, "%s: Read(%q)", c.name, c.scanned)
		assert.Equal(t, Unknown, r.Kind, c.name)
		assert.Equal(t, c.scanned, r.Raw, c.name)
	}
}

// A keyboard scanner that drops the separator leaves a text with two readings:
// it is read to the end and asked about.
func TestLostSeparatorIsAskedAbout(t *testing.T) {
	for _, c := range []struct {
		scanned string
		ask     bool
	}{
		{"010952123454321310LOT4221SN0001", true},
		{"010952123454321310ABC12317251231", true},
		{"01095212345432131726123110LOT42", false},
		{"010952123454321310LOT42\x1d21SN2110", false},
		{"010952123454321321SN2110", false},
		{"010952123454321321SN10A", true},
	} {
		r, err := Read(c.scanned)
		require.NoError(t, err, "Read(%q)", c.scanned)
		assert.Equal(t, c.ask, r.Ask != "", "Read(%q) asks %q", c.scanned, r.Ask)
	}
}

func TestBareSerials(t *testing.T) {
	for _, c := range []struct{ scanned, want string }{
		{"CN00417\r", "CN00417"},
		{"]A0E-20117", "E-20117"},
		{"\u00a0ja 2312-000739 ", "ja 2312-000739"},
		{"100E10", "100E10"},
		{"LWX", "LWX"},
		{"0123456789012345", "0123456789012345"},
		{"LW", "LW"},
	} {
		r, err := Read(c.scanned)
		require.NoError(t, err, "Read(%q)", c.scanned)
		assert.Equal(t, Serial, r.Kind, "Read(%q)", c.scanned)
		assert.Equal(t, c.want, r.Serial, "Read(%q)", c.scanned)
	}
	r, err := Read("9501101530003")
	require.NoError(t, err)
	assert.Equal(t, "09501101530003", r.GTIN, "thirteen digits with a good check digit may be a product")
	assert.NotEmpty(t, r.Ask)
}

// GS1 General Specifications, "Determination of century in dates": 51 or more
// years ahead lies in the century before, 50 or more back in the next.
func TestCenturyOfTwoDigitYears(t *testing.T) {
	for _, c := range []struct{ two, now, want int }{
		{26, 2026, 2026},
		{76, 2026, 2076}, // 50 ahead
		{77, 2026, 1977}, // 51 ahead
		{0, 2026, 2000},
		{99, 2026, 1999},
		{45, 2094, 2045}, // 49 back
		{44, 2094, 2144}, // 50 back
		{1, 1999, 2001},
	} {
		assert.Equal(t, c.want, century(c.two, c.now), "%02d seen from %d", c.two, c.now)
	}
}

func TestPaperCodes(t *testing.T) {
	code, err := PaperCode(PaperRun, "0417-b")
	require.NoError(t, err)
	r, err := Read(code + "\n")
	require.NoError(t, err, "Read(%q)", code)
	assert.Equal(t, Paper, r.Kind)
	assert.Equal(t, []string{"RUN", "0417-B"}, []string{r.PaperKind, r.PaperID})

	for _, wrong := range []string{"LWP.RUN.0418-B." + code[len(code)-1:], "LWP.RUN", "LWP...", code + "X"} {
		_, err := Read(wrong)
		assert.Error(t, err, "Read(%q)", wrong)
	}
	for _, id := range []string{"", "Ines A.", "é"} {
		_, err := PaperCode(PaperRun, id)
		assert.Error(t, err, "PaperCode(%q)", id)
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{
		"LW-00417-Y", "LW-OO417-Y", "01095212345432131726123110LOT42\x1d21SN0001", "]C10109521234543213",
		"(01)09521234543213(17)240200", "https://id.gs1.org/01/09521234543213/10/A?17=261231", "LWP.RUN.7.X", "9.01E+09", "\x1d", "CN0O417",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, scanned string) {
		r, err := Read(scanned)
		if (err != nil) != (r.Kind == Unknown) {
			t.Errorf("Read(%q) gives kind %q with error %v", scanned, r.Kind, err)
		}
		if r.Raw != scanned {
			t.Errorf("Read(%q) keeps %q as the raw text", scanned, r.Raw)
		}
		if err == nil && r.Says == "" {
			t.Errorf("Read(%q) says nothing", scanned)
		}
		if _, ok := r.Tag.Number(); ok != (r.Kind == OurTag) {
			t.Errorf("Read(%q) gives kind %q with tag %q", scanned, r.Kind, r.Tag)
		}
		if r.GTIN != "" && (len(r.GTIN) != 14 || !checked10(r.GTIN)) {
			t.Errorf("Read(%q) gives the GTIN %q", scanned, r.GTIN)
		}
		for _, l := range r.Likely {
			if _, ok := l.Number(); !ok {
				t.Errorf("Read(%q) asks about %q, which is no tag", scanned, l)
			}
		}
	})
}
