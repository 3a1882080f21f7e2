package house_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fuzzed names for every parser of the program, as package.function, the fuzz
// target that drives it, as package.target; a parser of the same package needs
// the target's name alone.
var fuzzed = map[string]string{
	"delivery.ReadBreaks":                "FuzzReadBreaks",
	"delivery.ReadDepartures":            "FuzzReadDepartures",
	"delivery.ReadPoint":                 "FuzzReadPoint",
	"delivery.ReadSupplies":              "FuzzReadSupplies",
	"delivery.ReadWeekdays":              "FuzzReadDepartures",
	"delivery.readAngle":                 "FuzzReadPoint",
	"delivery.readHandful":               "FuzzReadSupplies",
	"delivery/intake.readMark":           "FuzzReadMark",
	"delivery/intake.readName":           "FuzzRow",
	"delivery/intake.Read":               "FuzzRow",
	"delivery/intake.ReadMapTable":       "FuzzMapTable",
	"delivery/intake.ReadPlaces":         "FuzzMapTable",
	"delivery/intake.ReadRides":          "FuzzMapTable",
	"delivery/outline.Read":              "FuzzRead",
	"delivery/passphrase.read":           "FuzzRead",
	"delivery/paperwork.readTongue":      "labels/tongue.FuzzRead",
	"delivery/route.ReadSolomon":         "FuzzReadSolomon",
	"delivery/route.solutionCost":        "FuzzSolutionCost",
	"inventory/gas.ParsePulse":           "FuzzParsePulse",
	"inventory/gas.bareReading":          "FuzzParsePressure",
	"inventory/gas.durationPart":         "FuzzParseDuration",
	"inventory/gas.plausibleFlow":        "FuzzParseFlow",
	"inventory/gas.plausibleTemperature": "FuzzParseTemperature",
	"inventory/sheet.splitClock":         "FuzzParseDay",
	"ui/atlas.written":                   "FuzzWritten",
	"ui/console.number":                  "FuzzFields",
	"ui/labels.whole":                    "FuzzWhole",
	"ui/person.coordinates":              "FuzzCoordinates",
	"ui/settings.amount":                 "FuzzValues",
	"ui/settings.clock":                  "FuzzValues",
	"ui/settings.counted":                "FuzzRows",
	"ui/settings.date":                   "FuzzRows",
	"ui/settings.point":                  "FuzzRows",
	"inventory/book.parseAddress":        "FuzzParseAddress",
	"inventory/book.readNote":            "FuzzReadNote",
	"inventory/gas.ParseDuration":        "FuzzParseDuration",
	"inventory/gas.ParseFlow":            "FuzzParseFlow",
	"inventory/gas.ParseGauge":           "FuzzParsePressure",
	"inventory/gas.ParseHours":           "FuzzParseHours",
	"inventory/gas.ParseKilograms":       "FuzzParseKilograms",
	"inventory/gas.ParseLitres":          "FuzzParseLitres",
	"inventory/gas.ParseMillilitres":     "FuzzParseLitres",
	"inventory/gas.ParsePressure":        "FuzzParsePressure",
	"inventory/gas.ParseSize":            "FuzzParseSize",
	"inventory/gas.ParseTemperature":     "FuzzParseTemperature",
	"inventory/gas.parseAmount":          "FuzzParseLitres",
	"inventory/gas.readNumeral":          "FuzzParsePressure",
	"inventory/requal.Parse":             "FuzzParse",
	"inventory/requal.ParseMonth":        "FuzzParse",
	"inventory/sheet.ParseDay":           "FuzzParseDay",
	"inventory/sheet.ParseNumber":        "FuzzParseNumber",
	"inventory/sheet.Read":               "FuzzReadCSV",
	"inventory/sheet.ReadFile":           "FuzzReadCSV",
	"inventory/sheet.parseArea":          "FuzzWorksheet",
	"inventory/sheet.parseDate":          "FuzzParseDay",
	"inventory/sheet.parseReference":     "FuzzWorksheet",
	"inventory/sheet.readDelimited":      "FuzzReadCSV",
	"inventory/sheet.readFormats":        "FuzzWorksheet",
	"inventory/sheet.readHTML":           "FuzzReadCSV",
	"inventory/sheet.readOpenDocument":   "FuzzOpenDocument",
	"inventory/sheet.readPacked":         "FuzzReadCSV",
	"inventory/sheet.readStrings":        "FuzzWorksheet",
	"inventory/sheet.readWorkbook":       "FuzzWorksheet",
	"inventory/wall.Parse":               "FuzzParse",
	"inventory/wall.parse":               "FuzzParse",
	"inventory/wall.ParseOn":             "FuzzParse",
	"labels/picture.Read":                "FuzzRead",
	"labels/tag.Read":                    "FuzzRead",
	"labels/tag.read":                    "FuzzRead",
	"labels/tag.readElements":            "FuzzRead",
	"labels/tag.readLink":                "FuzzRead",
	"labels/tag.readPaper":               "FuzzRead",
	"labels/tag.readPaperAs":             "FuzzRead",
	"labels/tag.readParentheses":         "FuzzRead",
	"labels/tag.readPlain":               "FuzzRead",
	"labels/tag.readSerial":              "FuzzRead",
	"labels/tag.readTag":                 "FuzzRead",
	"labels/tongue.read":                 "FuzzRead",
	"labels/tongue.Read":                 "FuzzRead",
	"ui/console.parseAsking":             "FuzzFields",
	"ui/console.parseMains":              "FuzzFields",
	"ui/console.parseTime":               "FuzzFields",
	"ui/console.readAnswers":             "FuzzReadAnswers",
	"ui/console.readRoute":               "delivery/route.FuzzReadSolomon",
	"ui/discharge.readBands":             "FuzzReadBands",
	"ui/discharge.readDay":               "FuzzFields",
	"ui/discharge.readHours":             "FuzzFields",
	"ui/discharge.readMinutes":           "FuzzFields",
	"ui/discharge.readPhones":            "FuzzFields",
	"ui/discharge.readSpot":              "FuzzFields",
	"ui/settings.readItems":              "FuzzRows",
	"ui/settings.readPair":               "FuzzRows",
	"ui/settings.readStock":              "FuzzRows",
	"ui/settings.readSupplies":           "FuzzRows",
	"ui/widgets.ParseQuantity":           "FuzzParseQuantity",
}

// reading is a function by whose name it makes something of what a person, a
// scanner or a file says; what is handed parsed values is none.
var reading = regexp.MustCompile(`(?m)^func (?:(?:[Pp]arse|[Rr]ead)(?:[A-Z]\w*)?\(|\w+\(text string[^)]*\) \([^)]*\berror\))`)

// notAParser are functions of such a name that read nothing from outside.
var notAParser = []string{
	"inventory/book.readSets",                          // our own migrations
	"labels/paper.readAdvances",                        // our own fonts
	"testdata/quillet.parseAway",                       // our own story
	"ui/atlas.read", "ui/returns.read", "ui/runs.read", // of the book
	"ui/console.readPassphrase", // a line, taken as it stands
	"ui/console.parse",          // flags, by the standard library
	"ui/ask.Read",               // only takes answers to hand; its methods are driven by FuzzReader
}

// TestEveryParserIsFuzzed holds the list of parsers complete: a new one fails
// here until a fuzz target drives it, and so does a target that is gone.
func TestEveryParserIsFuzzed(t *testing.T) {
	targets := map[string]bool{}
	var parsers []string
	sources(t, func(path string) {
		text, err := os.ReadFile("../../" + path)
		require.NoError(t, err)
		in := filepath.ToSlash(filepath.Dir(path))
		if strings.HasSuffix(path, "_test.go") {
			for _, m := range regexp.MustCompile(`(?m)^func (Fuzz\w+)\(`).FindAllStringSubmatch(string(text), -1) {
				targets[in+"."+m[1]] = true
			}
			return
		}
		for _, m := range reading.FindAllStringSubmatch(string(text), -1) {
			name, _, _ := strings.Cut(strings.TrimPrefix(m[0], "func "), "(")
			if !slices.Contains(notAParser, in+"."+name) {
				parsers = append(parsers, in+"."+name)
			}
		}
	})
	for _, p := range parsers {
		target := fuzzed[p]
		if !assert.NotEmpty(t, target, "%s has no fuzz target", p) {
			continue
		}
		if !strings.Contains(target, ".") {
			at := strings.LastIndex(p, ".")
			target = p[:at] + "." + target
		}
		assert.True(t, targets[target], "%s is to be driven by %s, which there is not", p, target)
	}
	for p := range fuzzed {
		assert.Contains(t, parsers, p, "is no parser any more")
	}
}
