package tag

import "strings"

// alphabet gives the value of a check character's signs: 0 to 9, A to Z.
const alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"

// checkMod37 returns the check character of ISO/IEC 7064 MOD 37,36 for a text
// of digits and upper-case letters. A sign outside the alphabet counts as zero;
// callers pass none.
func checkMod37(text string) byte {
	product := 36
	for i := range len(text) {
		sum := (product + max(strings.IndexByte(alphabet, text[i]), 0)) % 36
		if sum == 0 {
			sum = 36
		}
		product = sum * 2 % 37
	}
	return alphabet[(37-product)%36]
}

// checkMod10 returns the check digit that GS1 numbers (GTIN, SSCC, GRAI) end
// in, for the digits before it: weights 3 and 1 from the right, filled up to
// the next ten.
func checkMod10(digits string) byte {
	sum := 0
	for i := range len(digits) {
		weight := 1
		if (len(digits)-i)%2 == 1 {
			weight = 3
		}
		sum += weight * int(digits[i]-'0')
	}
	return byte('0' + (10-sum%10)%10)
}

// checked10 reports whether a number of digits ends in its GS1 check digit.
func checked10(number string) bool {
	last := len(number) - 1
	return last > 0 && allDigits(number) && checkMod10(number[:last]) == number[last]
}

func allDigits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}
