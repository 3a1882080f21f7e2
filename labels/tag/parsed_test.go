package tag

import (
	_ "embed"
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// parsed are 200 element strings of random values with what a library of other
// people, in another language, found in them: gs1-barcode-parser-mod 1.2.1 (npm,
// MIT), run on 26 November 2026. Its date of day 00 differs by design; no such
// day is among them.
//
//go:embed testdata/parsed.json
var parsed []byte

func TestElementStringsAgainstAParserOfOthers(t *testing.T) {
	var all []struct {
		Scan   string
		Values map[string]string // by application identifier; days as 2006-01-02
	}
	require.NoError(t, json.Unmarshal(parsed, &all))
	require.Len(t, all, 200)
	day := func(at time.Time) string {
		if at.IsZero() {
			return ""
		}
		return at.Format(time.DateOnly)
	}
	for _, c := range all {
		got, err := Read(c.Scan)
		require.NoError(t, err, "%q", c.Scan)
		assert.Equal(t, c.Values, present(map[string]string{
			"01": got.GTIN, "10": got.Lot, "21": got.Serial, "8003": got.GRAI, "8004": got.GIAI, "11": day(got.Made), "17": day(got.Expires),
		}), "%q", c.Scan)
	}
}

func present(values map[string]string) map[string]string {
	for ai, value := range values {
		if value == "" {
			delete(values, ai)
		}
	}
	return values
}
