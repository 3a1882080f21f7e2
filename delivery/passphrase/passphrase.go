// Package passphrase keeps passphrases as argon2id hashes, in the usual text
// form: $argon2id$v=19$m=65536,t=3,p=4$salt$hash. It is pure but for the salt.
package passphrase

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"fmt"
	"strings"

	"golang.org/x/crypto/argon2"
	"golang.org/x/text/unicode/norm"
)

// The cost of a new hash: the second recommended option of RFC 9106, section
// 4: 3 passes over 64 MiB in 4 lanes, a salt of 128 bits, a hash of 256.
var usual = cost{memory: 64 * 1024, passes: 3, lanes: 4}

const (
	saltBytes = 16
	hashBytes = 32
)

// cost is what one hash takes.
type cost struct {
	memory uint32 // KiB
	passes uint32
	lanes  uint8
}

// The most a kept hash may ask for, so that a tampered one can't stop the
// program.
const (
	mostMemory = 1024 * 1024 // KiB
	mostPasses = 64
)

var encoding = base64.RawStdEncoding

// Hash returns the hash of a passphrase with a new salt.
func Hash(text string) string {
	salt := make([]byte, saltBytes)
	if _, err := rand.Read(salt); err != nil {
		panic("passphrase: the machine gives no random numbers: " + err.Error()) // the library itself ends the program before
	}
	return usual.spell(salt, usual.hash(text, salt, hashBytes))
}

// Fits reports whether a passphrase is the one of a hash. A hash that can't be
// read fits nothing.
func Fits(text, hash string) bool {
	c, salt, want, err := read(hash)
	if err != nil {
		return false
	}
	return subtle.ConstantTimeCompare(c.hash(text, salt, uint32(len(want))), want) == 1
}

// Nobody is a hash that no passphrase fits; to try one against it takes as long
// as against any other.
var Nobody = usual.spell(make([]byte, saltBytes), make([]byte, hashBytes))

// hash computes the hash of a text. What looks the same is the same, however a
// keyboard composes it.
func (c cost) hash(text string, salt []byte, size uint32) []byte {
	return argon2.IDKey([]byte(norm.NFKC.String(text)), salt, c.passes, c.memory, c.lanes, size)
}

func (c cost) spell(salt, hash []byte) string {
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s",
		argon2.Version, c.memory, c.passes, c.lanes, encoding.EncodeToString(salt), encoding.EncodeToString(hash))
}

func read(text string) (c cost, salt, hash []byte, err error) {
	parts := strings.Split(text, "$")
	if len(parts) != 6 || parts[0] != "" || parts[1] != "argon2id" {
		return c, nil, nil, fmt.Errorf("not an argon2id hash")
	}
	version := 0
	if _, err := fmt.Sscanf(parts[2], "v=%d", &version); err != nil || version != argon2.Version {
		return c, nil, nil, fmt.Errorf("version %q of argon2 is not known", parts[2])
	}
	if _, err := fmt.Sscanf(parts[3], "m=%d,t=%d,p=%d", &c.memory, &c.passes, &c.lanes); err != nil {
		return c, nil, nil, fmt.Errorf("cost %q: %w", parts[3], err)
	}
	if c.memory > mostMemory || c.passes > mostPasses || c.passes == 0 || c.lanes == 0 {
		return c, nil, nil, fmt.Errorf("cost %q is out of reason", parts[3])
	}
	if salt, err = encoding.DecodeString(parts[4]); err != nil {
		return c, nil, nil, fmt.Errorf("salt: %w", err)
	}
	if hash, err = encoding.DecodeString(parts[5]); err != nil || len(hash) < hashBytes/2 {
		return c, nil, nil, fmt.Errorf("hash of %d bytes: %w", len(hash), err)
	}
	return c, salt, hash, nil
}
