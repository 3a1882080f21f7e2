package tag

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// A second parser of element strings, written as the GS1 General
// Specifications print their table of application identifiers: one line an
// identifier, its format as the table gives it. It shares no code with the
// reader. There is no kept Go module for this to hold the reader to (none was
// to be had from the module proxy).
var formats = []struct {
	ai, format string // n6: six digits; x..20: up to 20 signs of set 82
}{
	{"00", "n18"}, {"01", "n14"}, {"02", "n14"}, {"10", "x..20"}, {"11", "n6"}, {"12", "n6"}, {"13", "n6"}, {"15", "n6"},
	{"16", "n6"}, {"17", "n6"}, {"20", "n2"}, {"21", "x..20"}, {"22", "x..20"}, {"240", "x..30"}, {"241", "x..30"},
	{"3103", "n6"}, {"37", "n..8"}, {"400", "x..30"}, {"410", "n13"}, {"8003", "n14x..16"}, {"8004", "x..30"}, {"91", "x..90"},
}

// set82 is the AI encodable character set 82.
const set82 = `[!"%&'()*+,\-./0-9:;<=>?A-Z_a-z]`

var atoms = regexp.MustCompile(`([nx])(\.\.)?([0-9]+)`)

// elementPattern is the pattern of one element with its separator.
func elementPattern(ai, format string) *regexp.Regexp {
	pattern := atoms.ReplaceAllStringFunc(format, func(atom string) string {
		p := atoms.FindStringSubmatch(atom)
		signs := map[string]string{"n": "[0-9]", "x": set82}[p[1]]
		if p[2] != "" {
			return signs + "{1," + p[3] + "}"
		}
		return signs + "{" + p[3] + "}"
	})
	end := "(?:\x1d|$)"
	if !strings.Contains(format, "..") && !strings.HasPrefix(ai, "8") && ai != "400" {
		end = "\x1d?"
	}
	return regexp.MustCompile("^" + ai + "(" + pattern + ")" + end)
}

// second parses a message; ok is false for one that does not follow the table.
func second(message string) (values map[string]string, ok bool) {
	values = map[string]string{}
next:
	for message != "" {
		for _, f := range formats {
			if m := elementPattern(f.ai, f.format).FindStringSubmatch(message); m != nil {
				values[f.ai] = m[1]
				message = message[len(m[0]):]
				continue next
			}
		}
		return nil, false
	}
	return values, true
}

// checkDigit is the rule of GS1 said another way: the weighted sum of all
// digits with their check digit is a multiple of ten.
func checkDigit(digits string) string {
	for d := range 10 {
		sum, weight := 0, 1
		for _, r := range reversed(digits + fmt.Sprint(d)) {
			sum += weight * int(r-'0')
			weight = 4 - weight
		}
		if sum%10 == 0 {
			return fmt.Sprint(d)
		}
	}
	return ""
}

func reversed(s string) string {
	var b strings.Builder
	for i := len(s) - 1; i >= 0; i-- {
		b.WriteByte(s[i])
	}
	return b.String()
}

// drawElement draws an element by the table.
func drawElement(t *rapid.T) (ai, value string, fixed bool) {
	f := rapid.SampledFrom(formats).Draw(t, "identifier")
	text := func(least, most int) string {
		return rapid.StringMatching(fmt.Sprintf(`[0-9A-Za-z./-]{%d,%d}`, least, most)).Draw(t, "text")
	}
	digits := func(n int) string {
		return rapid.StringMatching(fmt.Sprintf(`[0-9]{%d}`, n)).Draw(t, "digits")
	}
	switch {
	case f.ai == "01":
		n := digits(13)
		return f.ai, n + checkDigit(n), true
	case f.ai == "8003":
		n := digits(12)
		return f.ai, "0" + n + checkDigit(n) + text(1, 16), false
	case f.format == "n6" && f.ai != "3103":
		month := rapid.IntRange(1, 12).Draw(t, "month")
		return f.ai, digits(2) + fmt.Sprintf("%02d%02d", month, rapid.IntRange(0, 28).Draw(t, "day")), true
	case f.format == "n..8":
		return f.ai, digits(3), false
	case strings.HasPrefix(f.format, "x.."):
		return f.ai, text(1, 20), false
	}
	var n int
	_, _ = fmt.Sscanf(f.format, "n%d", &n)
	return f.ai, digits(n), true
}

// The reader and the second parser take the same messages and find the same
// values in them.
func TestElementStringsAgainstASecondParser(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		body, seen := "", map[string]bool{}
		for range rapid.IntRange(1, 5).Draw(t, "elements") {
			ai, value, fixed := drawElement(t)
			if seen[ai] {
				continue
			}
			seen[ai] = true
			body += ai + value
			if !fixed {
				body += separator
			}
		}
		if rapid.Bool().Draw(t, "cut") { // a scan that broke off
			body = body[:rapid.IntRange(1, len(body)).Draw(t, "at")]
		}
		want, follows := second(body)
		got, err := Read("]C1" + strings.TrimSuffix(body, separator))
		if err != nil {
			if follows {
				assert.False(t, readable(want), "%q was refused: %v", body, err)
			}
			return
		}
		if !follows {
			return // values longer than the table allows, in identifiers we make no use of
		}
		assert.Equal(t, want["01"], got.GTIN, "%q", body)
		assert.Equal(t, want["10"], got.Lot, "%q", body)
		assert.Equal(t, want["21"], got.Serial, "%q", body)
		assert.Equal(t, want["8003"], got.GRAI, "%q", body)
		assert.Equal(t, want["8004"], got.GIAI, "%q", body)
		assert.Equal(t, want["17"] == "", got.Expires.IsZero(), "%q", body)
		if want["11"] != "" {
			assert.Equal(t, want["11"][:4], got.Made.Format("0601"), "%q", body)
		}
	})
}

// readable reports whether values name something we use and pass their checks.
func readable(values map[string]string) bool {
	for ai, value := range values {
		switch ai {
		case "01":
			if checkDigit(value[:13]) != value[13:] {
				return false
			}
		case "8003":
			if value[0] != '0' || checkDigit(value[1:13]) != value[13:14] {
				return false
			}
		case "11", "17":
			if value[2:4] < "01" || value[2:4] > "12" || value[4:] > "28" {
				return false
			}
		}
	}
	return values["01"]+values["10"]+values["21"]+values["8003"]+values["8004"] != ""
}
