package passphrase

import (
	"encoding/hex"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The hashes of the reference implementation's own tests (phc-winner-argon2,
// src/test.c, "Argon2id, version number 0x13"). The test vector of RFC 9106,
// 5.3 has a secret and associated data, which the library does not take.
func TestReferenceHashes(t *testing.T) {
	for _, tc := range []struct {
		cost       cost
		text, salt string
		hash       string
		spelt      string
	}{
		{cost{65536, 2, 1}, "password", "somesalt", "09316115d5cf24ed5a15a31a3ba326e5cf32edc24702987c02b6566f61913cf7",
			"$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc"},
		{cost{262144, 2, 1}, "password", "somesalt", "78fe1ec91fb3aa5657d72e710854e4c3d9b9198c742f9616c2f085bed95b2e8c",
			"$argon2id$v=19$m=262144,t=2,p=1$c29tZXNhbHQ$eP4eyR+zqlZX1y5xCFTkw9m5GYx0L5YWwvCFvtlbLow"},
	} {
		got := tc.cost.hash(tc.text, []byte(tc.salt), 32)
		assert.Equal(t, tc.hash, hex.EncodeToString(got))
		assert.Equal(t, tc.spelt, tc.cost.spell([]byte(tc.salt), got))
		assert.True(t, Fits(tc.text, tc.spelt))
		assert.False(t, Fits(tc.text+"s", tc.spelt))
	}
}

// The cost is the second recommended option of RFC 9106, section 4: t=3, p=4,
// m=2^16 KiB, 128-bit salt, 256-bit tag.
func TestCostOfANewHash(t *testing.T) {
	hash := Hash("four words by the sea")
	c, salt, tag, err := read(hash)
	require.NoError(t, err)
	assert.Equal(t, cost{memory: 1 << 16, passes: 3, lanes: 4}, c)
	assert.Len(t, salt, 128/8)
	assert.Len(t, tag, 256/8)
	assert.True(t, Fits("four words by the sea", hash))
	assert.False(t, Fits("Four words by the sea", hash))
	assert.NotEqual(t, hash, Hash("four words by the sea"), "each hash has a salt of its own")
	assert.False(t, Fits("", Nobody))
}

// What looks the same is the same: é as one sign or as two (Unicode NFKC).
func TestComposedSignsAreOne(t *testing.T) {
	assert.True(t, Fits("caf\u00e9 by the grey harbour", Hash("cafe\u0301 by the grey harbour")))
}

func TestWhatIsNoHashFitsNothing(t *testing.T) {
	good := Hash("four words by the sea")
	for _, hash := range []string{
		"", "$", "four words by the sea", strings.Replace(good, "argon2id", "argon2i", 1), strings.Replace(good, "v=19", "v=16", 1),
		strings.Replace(good, "m=65536", "m=4194304", 1), strings.Replace(good, "t=3", "t=0", 1), strings.Replace(good, "p=4", "p=0", 1),
		good[:len(good)-30], good + "$", strings.Replace(good, "m=65536,t=3,p=4", "m=1", 1),
	} {
		assert.False(t, Fits("four words by the sea", hash), hash)
		assert.False(t, Fits("", hash), hash)
	}
}
