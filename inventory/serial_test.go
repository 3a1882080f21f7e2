package inventory_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"lungwort/inventory"
)

// The spellings come from public reports of recalls and of general spreadsheet
// trouble: trailing and no-break spaces, composed and decomposed accents.
func TestSerialKey(t *testing.T) {
	for _, c := range []struct{ serial, want string }{
		{"ja 2312-000739 ", "JA2312000739"},
		{"E\u00a020119", "E20119"},
		{"e–20117", "E20117"},
		{"E\u201120117", "E20117"},
		{"E−20117", "E20117"},
		{"CN/004/17", "CN00417"},
		{"CN.004_17", "CN00417"},
		{"É12", "E12"},
		{"e\u030112", "E12"},
		{"\ufeffCN00417\u200b", "CN00417"},
		{"ＣＮ００４１７", "CN00417"},
		{"- ", ""},
		{"", ""},
	} {
		assert.Equal(t, c.want, inventory.SerialKey(c.serial), "SerialKey(%q)", c.serial)
	}
}

// TestNearKey: what is easily misread or lost makes a candidate to ask about.
// The two recall cases are from public recall notices: a range of JA serials
// (2024), and a list of ids that a sheet shows without leading zeros.
func TestNearKey(t *testing.T) {
	for _, c := range []struct {
		a, b string
		near bool
	}{
		{"JA23I2000740", "JA2312000740", true},
		{"001418", "1418", true},
		{"CN0O417", "CN00417", true},
		{"CNOO417", "CN417", true},
		{"CNl0417", "CN10417", true},
		{"S1200", "51200", true},
		{"L24O9A", "L2409A", true},
		{"000", "0", true},
		{"É0012", "e12", true},
		{"JA2312000741", "JA2312000740", false},
		{"1418", "14180", false},
		{"CN1000", "CN100", false},
	} {
		a, b := inventory.NearKey(c.a), inventory.NearKey(c.b)
		assert.Equal(t, c.near, a == b, "NearKey(%q) %q, NearKey(%q) %q", c.a, a, c.b, b)
	}
}

func FuzzSerialKey(f *testing.F) {
	for _, s := range []string{"ja 2312-000739 ", "É12", "e\u0301", "ＣＮ", "\xff", "00O1", "ſ", "ŉ"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		key := inventory.SerialKey(s)
		if again := inventory.SerialKey(key); again != key {
			t.Errorf("SerialKey(%q) is %q, and of that %q", s, key, again)
		}
		near := inventory.NearKey(s)
		if of := inventory.NearKey(key); of != near {
			t.Errorf("NearKey(%q) is %q, but of its key %q", s, near, of)
		}
		if again := inventory.NearKey(near); again != near {
			t.Errorf("NearKey(%q) is %q, and of that %q", s, near, again)
		}
		if (key == "") != (near == "") {
			t.Errorf("SerialKey(%q) is %q, NearKey %q", s, key, near)
		}
	})
}
