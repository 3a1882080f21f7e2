package intake

import (
	"fmt"
	"strings"

	"lungwort/inventory"
)

// noughts is from how many noughts at its end on a serial of digits may be
// what a spreadsheet made of another one: 9.01E+09 or 901E7 becomes
// 9010000000. Of serials that count up, one in 100,000 ends like this.
const noughts = 5

// The answers about a serial that ends in noughts, besides what the plate says.
const (
	onThePlate = "plate"
	shortening = "shortened"
)

// rounded asks about serials that may have been shortened by a spreadsheet
// although nothing of it shows any more. What the book has needs no question.
func (r *reader) rounded(t twins, all []mention, inBook map[string]bool) {
	for m := range each(r, all) {
		key := inventory.SerialKey(m.text)
		if !endsInNoughts(key) || inBook[key] {
			continue
		}
		answer, ok := r.ask(m.line, Question{
			Key:  "noughts:" + key,
			Asks: fmt.Sprintf("Serial %s ends in noughts, as a number does that a spreadsheet made of a serial (9.01E+09, 12E7). What does the plate say?", m.text),
			Choices: []Choice{
				{onThePlate, "exactly " + m.text},
				{shortening, "another serial; leave these rows until it is read"},
			},
			free: true, group: "noughts",
			means: map[string]string{onThePlate: "these are the serials on the plates", shortening: "they were shortened; leave their rows"},
		}, m.text)
		switch {
		case !ok:
			t.open[key] = true
		case answer == shortening:
			m.line.refuse("Serial “%s” was shortened to a number by the spreadsheet. Read it from the plate and write it as text.", m.text)
		case answer != onThePlate:
			t.of[key] = inventory.SerialKey(answer)
		}
	}
}

func endsInNoughts(key string) bool {
	return strings.HasSuffix(key, strings.Repeat("0", noughts)) && strings.Trim(key, "0123456789") == "" && strings.Trim(key, "0") != ""
}
