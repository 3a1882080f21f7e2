package intake

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/sheet"
)

// shortened is a number that a spreadsheet made of a code: one digit, then
// decimals or a signed exponent of two digits, or both. "123E4" is a code.
var shortened = regexp.MustCompile(`^\d(?:[.,]\d+E[+-]?\d+|E[+-]\d{2,3})$`)

// digitsKept is how many digits a spreadsheet keeps of a number.
const digitsKept = 15

// damaged says why a cell's text can't be a serial any more; empty: it can.
func damaged(c sheet.Cell, text string) string {
	key := strings.ToUpper(text)
	switch {
	case c.Serial:
		return "was made a date"
	case shortened.MatchString(key):
		return "was shortened to a number"
	case len(key) > digitsKept && strings.Trim(key, "0123456789") == "" && strings.Trim(key[digitsKept:], "0") == "":
		return "lost the digits after the fifteenth"
	}
	return ""
}

// betweenSerials parts several serials in one cell.
var betweenSerials = regexp.MustCompile(`\s*[,;\n&+]\s*|\s+/\s+|\s+and\s+|\s{2,}`)

// serials parts a cell into serials as written. One that a spreadsheet
// damaged refuses the row: it is never matched.
func (l *line) serials(key string) []string {
	cell := l.cell(key)
	if cell.Blank() {
		return nil
	}
	if damaged(cell, cell.Text) != "" {
		l.refuseDamaged(key, cell, cell.Text)
		return nil
	}
	var all []string
	for _, part := range betweenSerials.Split(cell.Text, -1) {
		for _, text := range partTight(part) {
			switch {
			case inventory.SerialKey(text) == "" || unknown(text):
			case !strings.ContainsAny(text, "0123456789"):
				l.refuse("%s “%s” is no serial: it has no digit. Read it from the plate.", l.heading(key), text)
			case damaged(cell, text) != "":
				l.refuseDamaged(key, cell, text)
			case !slices.ContainsFunc(all, func(s string) bool { return inventory.SerialKey(s) == inventory.SerialKey(text) }):
				all = append(all, text)
			}
		}
	}
	return all
}

func (l *line) refuseDamaged(key string, cell sheet.Cell, text string) {
	l.refuse("%s “%s” is no serial: it %s by the spreadsheet. Read it from the plate and write it as text.", l.heading(key), text, damaged(cell, text))
}

// partTight parts two whole serials with a bare slash between them; a slash
// may also stand within one serial.
func partTight(text string) []string {
	parts := strings.Split(text, "/")
	if len(parts) != 2 {
		return []string{text}
	}
	for _, p := range parts {
		if len(inventory.SerialKey(p)) < 4 || !strings.ContainsAny(p, "0123456789") {
			return []string{text}
		}
	}
	return parts
}

// mention is one serial on one line.
type mention struct {
	line *line
	text string
}

// twins are the serials, or lots, of the lists that are easily taken for one
// another, with what was answered about them.
type twins struct {
	of   map[string]string // key as written to the key it stands for
	open map[string]bool   // keys still asked about
}

// key returns the key a serial as written stands for.
func (t twins) key(text string) string {
	key := inventory.SerialKey(text)
	if to, ok := t.of[key]; ok {
		return to
	}
	return key
}

// pair finds the serials that differ only in what is easily misread, and asks
// one question for each group. What the book has, as it is written, needs no
// question.
func (r *reader) pair(what string, all []mention, known []string) twins {
	t := twins{of: map[string]string{}, open: map[string]bool{}}
	inBook := map[string]string{}
	groups := map[string]map[string]string{} // near key to key to text
	order := []string{}
	like := r.shapes(all)
	add := func(text string) {
		near := inventory.NearKey(text)
		if near == "" {
			return
		}
		if groups[near] == nil {
			groups[near] = map[string]string{}
			order = append(order, near)
		}
		if key := inventory.SerialKey(text); groups[near][key] == "" {
			groups[near][key] = text
		}
	}
	for _, text := range known {
		inBook[inventory.SerialKey(text)] = text
		add(text)
	}
	byNear := map[string][]mention{}
	for m := range each(r, all) {
		add(m.text)
		near := inventory.NearKey(m.text)
		byNear[near] = append(byNear[near], m)
	}
	for _, near := range order {
		if len(groups[near]) > 1 {
			r.askTwins(what, t, groups[near], inBook, byNear[near], like)
		}
	}
	return t
}

const (
	different  = "different"
	withDigits = "with digits where the others have digits"
)

func (r *reader) askTwins(what string, t twins, group, inBook map[string]string, mentions []mention, like map[shape][]string) {
	choices := []Choice{}
	asked := map[string]bool{}
	means := map[string]string{different: different}
	plate := likelyPlate(sortedKeys(group)[0], like)
	for _, key := range sortedKeys(group) {
		says := "as written in the list"
		if inBook[key] != "" {
			says = "as it stands in the book"
			means[group[key]] = says
		} else {
			asked[key] = true
		}
		choices = append(choices, Choice{group[key], says})
	}
	if group[plate] == "" {
		choices = append(choices, Choice{plate, withDigits})
	}
	if means[cmp.Or(group[plate], plate)] == "" {
		means[cmp.Or(group[plate], plate)] = withDigits
	}
	choices = append(choices, Choice{different, "they are different, each as written"})
	asks := fmt.Sprintf("These %ss are easily taken for one another: %s. Which is right? Read the plate.", what, strings.Join(texts(group), ", "))
	for _, m := range mentions {
		key := inventory.SerialKey(m.text)
		if !asked[key] {
			continue
		}
		answer, ok := r.ask(m.line, Question{
			Key: what + ":" + inventory.NearKey(m.text), Asks: asks, Choices: choices, free: true, group: what, means: means,
		}, m.text)
		switch {
		case !ok:
			t.open[key] = true
		case answer != different:
			t.of[key] = inventory.SerialKey(answer)
		}
	}
}

// shape is what serials of one maker have in common.
type shape struct {
	first  byte
	length int
}

func shapeOf(key string) shape { return shape{key[0], len(key)} }

// shapes sorts the different keys of serials by their shape.
func (r *reader) shapes(all []mention) map[shape][]string {
	like := map[shape][]string{}
	seen := map[string]bool{}
	for m := range each(r, all) {
		if key := inventory.SerialKey(m.text); key != "" && !seen[key] {
			seen[key] = true
			like[shapeOf(key)] = append(like[shapeOf(key)], key)
		}
	}
	return like
}

var digitFor = map[byte]byte{'O': '0', 'I': '1', 'L': '1', 'S': '5'}

// likelyPlate writes digits where all other serials of the same shape have
// digits.
func likelyPlate(key string, like map[shape][]string) string {
	plate := []byte(key)
	for i := 1; i < len(plate); i++ {
		if digit := digitFor[plate[i]]; digit != 0 && othersHaveDigit(key, i, like[shapeOf(key)]) {
			plate[i] = digit
		}
	}
	return string(plate)
}

func othersHaveDigit(key string, at int, others []string) bool {
	near, any := inventory.NearKey(key), false
	for _, other := range others {
		if inventory.NearKey(other) == near {
			continue
		}
		if other[at] < '0' || other[at] > '9' {
			return false
		}
		any = true
	}
	return any
}

func sortedKeys[K ~string, V any](m map[K]V) []K {
	keys := make([]K, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

func texts(group map[string]string) []string {
	all := make([]string, 0, len(group))
	for _, key := range sortedKeys(group) {
		all = append(all, group[key])
	}
	return all
}
