package inventory

import (
	"strings"
	"unicode"
)

// SerialKey returns a maker's serial as it is compared: upper case, letters
// and digits alone, without accents, full-width signs made plain. Two serials
// are the same only when their keys are.
func SerialKey(serial string) string {
	return strings.Map(func(r rune) rune {
		if r >= '！' && r <= '～' { // the full-width forms of ! to ~
			r -= '！' - '!'
		}
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			return -1
		}
		return withoutAccent(unicode.ToUpper(r))
	}, serial)
}

// accented are the letters that some keyboards compose and others send as a
// letter and a mark.
var accented = func() map[rune]rune {
	letters := map[rune]rune{}
	for plain, with := range map[rune]string{
		'A': "ÀÁÂÃÄÅĀĂĄ", 'C': "ÇĆČ", 'E': "ÈÉÊËĒĖĘĚ", 'I': "ÌÍÎÏĪĮİ", 'N': "ÑŃŇ",
		'O': "ÒÓÔÕÖŌŐ", 'S': "ŚŠŞ", 'U': "ÙÚÛÜŪŮŰ", 'Y': "ÝŸ", 'Z': "ŹŻŽ",
	} {
		for _, r := range with {
			letters[r] = plain
		}
	}
	return letters
}()

func withoutAccent(r rune) rune {
	if plain, ok := accented[r]; ok {
		return plain
	}
	return r
}

// lookAlikes makes one of what is easily misread for the other.
var lookAlikes = strings.NewReplacer("O", "0", "I", "1", "L", "1", "S", "5")

// NearKey returns a serial folded further, for what is easily misread or
// lost: O and 0, I, L and 1, S and 5, leading zeros of each run of digits.
// Equal near keys make a candidate to ask about, never a match.
func NearKey(serial string) string {
	key := lookAlikes.Replace(SerialKey(serial))
	var b strings.Builder
	number := false // within a run of digits, past its leading zeros
	for i, r := range key {
		if r == '0' && !number && i+1 < len(key) && isDigit(key[i+1]) {
			continue
		}
		number = r < unicode.MaxASCII && isDigit(byte(r))
		b.WriteRune(r)
	}
	return b.String()
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
