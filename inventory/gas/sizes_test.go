package gas

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Contents: a consumer table of litres by size and drug-code package lists
// (US), Emergency Medicine Journal 2006 (UK).
func TestPublishedContents(t *testing.T) {
	for code, want := range map[SizeCode]Litres{
		"US-M4": 113, "US-M6": 164, "US-ML6": 165, "US-M9": 255, "US-D": 425, "US-E": 682, "US-M60": 1738, "US-H": 6909,
		"UK-D": 340, "UK-CD": 460, "UK-F": 1360,
	} {
		assert.Equal(t, want, size(t, code).Contents, "contents of %s", code)
	}
}

// Factors from five respiratory-therapy pages. Each is contents over service
// pressure of a steel cylinder at 2,200 psi, so for the aluminium D and E it
// lies 17 to 25 % under the label.
func TestPublishedFactors(t *testing.T) {
	for code, want := range map[SizeCode]float64{"US-D": 0.16, "US-E": 0.28, "US-M": 1.56, "US-G": 2.41, "US-H": 3.14, "US-K": 3.14} {
		s := size(t, code)
		assert.Equal(t, want, s.Factor, "factor of %s", code)
		assert.LessOrEqual(t, want*s.Service.PSI(), float64(s.Contents)*1.001, "factor of %s at full against its label", code)
	}
	for _, s := range Table(nil).All() {
		if s.Region != "US" {
			assert.Zero(t, s.Factor, "factor of %s, where none is published", s.Code)
		}
	}
}

func TestEverySizeIsSound(t *testing.T) {
	seen := map[SizeCode]bool{}
	for _, s := range Table(nil).All() {
		assert.NoError(t, s.Check())
		assert.False(t, seen[s.Code], "%s twice", s.Code)
		seen[s.Code] = true
		for figure, is := range map[string]struct {
			known  bool
			status Status
		}{
			"contents": {true, s.Figures.Contents}, "full pressure": {true, s.Figures.Service}, "water volume": {s.WaterVolume > 0, s.Figures.Volume},
			"mass": {s.EmptyMass > 0, s.Figures.Mass}, "factor": {s.Factor > 0, s.Figures.Factor},
		} {
			if is.known {
				assert.NotEmpty(t, is.status, "status of the %s of %s", figure, s.Code)
				assert.Contains(t, s.Sources(), string(is.status))
			}
		}
		assert.NotEmpty(t, s.Valve, "valve of %s", s.Code)
		for _, letter := range append([]string{s.Letter}, s.Also...) {
			assert.Equal(t, s.Code, size(t, SizeCode(s.Region+"-"+letter)).Code, "%s by letter %s", s.Code, letter)
		}
		if s.EmptyMass > 0 {
			assert.Greater(t, s.GrossMass, s.EmptyMass, "full mass of %s", s.Code)
		}
	}
	assert.Equal(t, Table(nil).All(), Table(nil).All(), "the order of sizes")
}

// TSANZ guideline on domiciliary oxygen (2014), as a handbook quotes it: 0.55,
// 1.5, 3.8 and 7.6 m³, about 3, 11 and 30 hours at 2 L/min; the hours are
// rounded, and of a C they keep more back.
func TestAustralianSizes(t *testing.T) {
	for code, want := range map[SizeCode]struct {
		litres Litres
		hours  float64
	}{"AU-C": {550, 3}, "AU-D": {1500, 11}, "AU-E": {3800, 30}, "AU-G": {7600, 0}} {
		s := size(t, code)
		assert.Equal(t, want.litres, s.Contents, "%s", code)
		assert.Equal(t, Published, s.Figures.Contents)
		assert.Equal(t, Recalled, s.Figures.Service, "the full pressure is not in the source")
		assert.GreaterOrEqual(t, float64(s.Contents)/2/60, want.hours, "%s at 2 L/min", code)
	}
}

// One letter, different cylinders: a UK D holds four fifths of a US D.
func TestLetterNeedsARegion(t *testing.T) {
	_, err := ParseSize("D", "")
	var q *Question
	require.ErrorAs(t, err, &q)
	require.Len(t, q.Candidates, 3)
	assert.Equal(t, SizeCode("UK-D"), q.Candidates[q.Careful].Size, "the smaller is the careful one")
	assert.ErrorContains(t, err, "US-D (425 L at 2,015 psi) or UK-D (340 L at 1,987 psi) or AU-D (1,500 L at 2,176 psi)")
}

func TestParseSize(t *testing.T) {
	for _, c := range []struct {
		text, region string
		want         SizeCode
	}{
		{"US-E", "", "US-E"}, {" us-e ", "", "US-E"}, {"US–E", "UK", "US-E"}, {"US-MD", "", "US-D"},
		{"E", "US", "US-E"}, {"e", "us", "US-E"}, {"E", "UK", "UK-E"}, {"K", "US", "US-H"}, {"M24", "US", "US-E"},
		{"E cylinder", "US", "US-E"}, {"size D", "US", "US-D"}, {"B", "US", "US-M6"}, {"10 L", "EU", "EU-10"}, {"50L", "EU", "EU-50"},
	} {
		got, err := ParseSize(c.text, c.region)
		require.NoError(t, err, "%q in %q", c.text, c.region)
		assert.Equal(t, c.want, got.Code, "%q in %q", c.text, c.region)
	}
}

func TestParseSizeRefuses(t *testing.T) {
	for _, c := range []struct{ text, region, says string }{
		{"Q", "US", `"Q" is not a size known in US`},
		{"CD", "US", `"CD" is not a size known in US`},
		{"Q", "", `"Q" is not a known cylinder size`},
		{"", "US", "no cylinder size is given"},
		{"  ", "", "no cylinder size is given"},
		{"M60", "", "in which region?"},
	} {
		_, err := ParseSize(c.text, c.region)
		assert.ErrorContains(t, err, c.says, "%q in %q", c.text, c.region)
	}
}

// A hand-out in circulation lists an E filled to 6,000 psi and a D to 4,000.
func TestCheckRefusesImplausibleSizes(t *testing.T) {
	for _, c := range []struct {
		code   SizeCode
		change func(*Size)
		says   string
	}{
		{"US-E", func(s *Size) { s.Service = PSI(6000) }, "US-E: a full pressure of 6,000 psi"},
		{"US-D", func(s *Size) { s.Service = PSI(4000) }, "US-D: a full pressure of 4,000 psi is far above the usual 2,015 psi"},
		{"US-E", func(s *Size) { s.Service = 0 }, "US-E: a full pressure of 0 psi"},
		{"US-E", func(s *Size) { s.Contents = 6820 }, "US-E: contents of 6,820 L"},
		{"US-E", func(s *Size) { s.Contents = 0 }, "US-E: contents of 0 L"},
		{"US-E", func(s *Size) { s.Contents, s.Code = 682, ""; s.WaterVolume = 46.4 }, "cylinder: 682 L do not fit 46.4 L of water"},
		{"US-E", func(s *Size) { s.WaterVolume = 0.464 }, "US-E: 682 L do not fit 0.46 L of water"},
		{"US-E", func(s *Size) { s.Factor = 3.14 }, "US-E: a factor of 3.14 L/psi"},
		{"US-E", func(s *Size) { s.GrossMass = 1 }, "US-E: the full mass is below the empty mass"},
	} {
		s := size(t, c.code)
		c.change(&s)
		assert.ErrorContains(t, s.Check(), c.says)
	}
}

// Figures quoted by Nagelhout 2001 from NFPA 99 (1990) and ASTM F1161-88.
func TestCylinderMayCarryItsOwnFigures(t *testing.T) {
	s := size(t, "US-E")
	s.Service, s.Contents = PSI(1900), 660
	require.NoError(t, s.Check())
	assert.Equal(t, Litres(660), s.ContentsAt(PSI(1900), Room))
}

// Nagelhout and Zaglaniczyk, Nurse Anesthesia, 2nd ed. 2001, table 14-1: an E
// of 660 L at 1,900 psi.
func TestOneCylinderByItsLabel(t *testing.T) {
	e := size(t, "US-E")
	own, err := e.Marked(Marks{Contents: 660, Service: PSI(1900), Water: 0})
	require.NoError(t, err)
	assert.Equal(t, Litres(660), own.ContentsAt(PSI(1900), Room))
	assert.Equal(t, OnLabel, own.Figures.Contents)
	assert.Equal(t, Recalled, e.Figures.Service, "the size itself stays")
	_, err = e.Marked(Marks{Contents: 0, Service: PSI(6000), Water: 0})
	assert.ErrorContains(t, err, "6,000 psi")
	_, err = e.Marked(Marks{Contents: 3800, Service: 0, Water: 0})
	assert.ErrorContains(t, err, "far above the usual")
	small, err := e.Marked(Marks{Contents: 400, Service: 0, Water: 0})
	require.NoError(t, err)
	assert.Zero(t, small.Factor, "0.28 L/psi would be more than the label")
}

// Litres for each psi of cylinders of today, worked out from their published
// contents and service pressures; the textbook factors of steel cylinders lie
// under them.
func TestFactorsOfTodaysCylinders(t *testing.T) {
	for code, factor := range map[SizeCode]float64{"US-E": 0.338, "US-D": 0.211, "US-M6": 0.0745, "US-M9": 0.1266, "US-M60": 0.784} {
		s, ok := LookUp(code)
		require.True(t, ok, "%s", code)
		assert.InEpsilon(t, factor, float64(s.Contents)/s.Service.PSI(), 0.01, "%s", code)
		assert.Less(t, s.Factor, factor, "%s", code)
	}
}
