package tag

import (
	"regexp"
	"strings"
	"unicode"
)

// NormalSerial returns the form in which two spellings of one serial are equal:
// upper case, without spaces of any kind, dashes and slashes, without accents,
// and with full-width signs made plain. It is for comparing; keep the serial as
// it was written for showing.
func NormalSerial(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= '！' && r <= '～' { // full-width forms of ! to ~
			r -= '！' - '!'
		}
		switch {
		case r == '/' || unicode.IsSpace(r) || unicode.In(r, unicode.Pd, unicode.Mn, unicode.Cf, unicode.Cc, unicode.Z):
			return -1
		case r == '\u2212': // the minus sign
			return -1
		}
		return plainLetter(unicode.ToUpper(r))
	}, s)
}

// plainLetters takes the accent off the letters that some keyboards compose
// and others send as a letter and a mark.
var plainLetters = func() map[rune]rune {
	letters := map[rune]rune{}
	for plain, accented := range map[rune]string{
		'A': "ÀÁÂÃÄÅĀĂĄ", 'C': "ÇĆČ", 'E': "ÈÉÊËĒĖĘĚ", 'I': "ÌÍÎÏĪĮİ", 'N': "ÑŃŇ",
		'O': "ÒÓÔÕÖŌŐ", 'S': "ŚŠŞ", 'U': "ÙÚÛÜŪŮŰ", 'Y': "ÝŸ", 'Z': "ŹŻŽ",
	} {
		for _, r := range accented {
			letters[r] = plain
		}
	}
	return letters
}()

func plainLetter(r rune) rune {
	if plain, ok := plainLetters[r]; ok {
		return plain
	}
	return r
}

// NearSerials reports whether two serials may be the same one: equal after the
// look-alikes O and 0, I and 1, S and 5 are made one and leading zeros of every
// number in them are dropped. It names a candidate to ask about, never a match.
// A damaged serial is near to nothing.
func NearSerials(a, b string) bool {
	if Damaged(a) || Damaged(b) {
		return false
	}
	folded := foldedSerial(a)
	return folded != "" && folded == foldedSerial(b)
}

var (
	lookAlikes   = strings.NewReplacer("O", "0", "I", "1", "S", "5")
	leadingZeros = regexp.MustCompile(`(^|[^0-9])0+([0-9])`)
)

func foldedSerial(s string) string {
	return leadingZeros.ReplaceAllString(lookAlikes.Replace(NormalSerial(s)), "$1$2")
}

// numberWithExponent is how a spreadsheet shows a serial it took for a large
// number. The sign or the decimal point gives it away: a serial like 100E10,
// still text, has neither and is whole.
var numberWithExponent = regexp.MustCompile(`^[0-9]+([.,][0-9]+E[+-]?|E[+-])[0-9]+$`)

// Damaged reports whether a serial was destroyed by a spreadsheet that took it
// for a number, as 9.01E+09: its last digits are gone, and nothing may be
// matched with it.
func Damaged(s string) bool {
	bare := strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return unicode.ToUpper(r)
	}, s)
	return numberWithExponent.MatchString(bare)
}

// exponentLike is a serial that a spreadsheet would take for a number.
var exponentLike = regexp.MustCompile(`^[0-9]+E[0-9]+$`)

// Fragile reports whether a serial is whole but would be destroyed by a
// spreadsheet that reads it as a number: 100E10, 0503E000, numbers with leading
// zeros or more than fifteen digits. It must go into sheets as text.
func Fragile(s string) bool {
	bare := strings.ToUpper(strings.TrimSpace(s))
	if exponentLike.MatchString(bare) {
		return true
	}
	return allDigits(bare) && (len(bare) > 15 || len(bare) > 1 && bare[0] == '0')
}
