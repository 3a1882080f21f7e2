package inventory

import "strings"

// SerialKey returns a maker's serial as it is compared: upper case, without
// blanks, hyphens, dots and slashes. Two serials are the same only when their
// keys are.
func SerialKey(serial string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return r - 'a' + 'A'
		case r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r > 127 && r != '\u00a0':
			return r
		}
		return -1
	}, serial)
}

// NearKey returns a serial folded further, for what is easily misread or
// lost: O and 0, I, L and 1, S and 5, leading zeros of each run of digits.
// Equal near keys make a candidate to ask about, never a match.
func NearKey(serial string) string {
	key := strings.NewReplacer("O", "0", "I", "1", "L", "1", "S", "5").Replace(SerialKey(serial))
	var b strings.Builder
	digits := false
	for i, r := range key {
		digit := r >= '0' && r <= '9'
		if r == '0' && !digits && i+1 < len(key) && key[i+1] >= '0' && key[i+1] <= '9' {
			continue // a leading zero
		}
		digits = digit
		b.WriteRune(r)
	}
	return b.String()
}
