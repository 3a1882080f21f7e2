package delivery

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"lungwort/inventory"
)

// The ways in which an hours meter comes to stand lower.
const (
	mixedSerial = "mixed serial"
	newBoard    = "new board"
	misread     = "misread"
)

// Meter is what the question about an hours meter rests on: the reading before,
// the one that is lower, and what else the book has that may explain it.
type Meter struct {
	Before, Now inventory.Seen[float64]
	Repairs     []inventory.Fact          // of the item, between the two
	Others      []inventory.Item          // other machines
	Beside      map[inventory.ItemID]bool // of these, those in the same hands or place then
}

// Expected returns what the meter may stand at: at least what it stood at, at
// most one hour more for each that went by.
func (m Meter) Expected() (least, most float64) {
	return m.Before.Value, m.Before.Value + math.Ceil(max(0, m.Now.At.Sub(m.Before.At).Hours()))
}

// Because returns what speaks for each answer, by the answer.
func (m Meter) Because() map[string]string {
	return map[string]string{mixedSerial: m.mixed(), newBoard: m.board(), misread: m.slip()}
}

// mixed names the machines whose own meter fits the reading.
func (m Meter) mixed() string {
	type fit struct {
		item   inventory.Item
		beside bool
		far    float64
	}
	var fits []fit
	for _, i := range m.Others {
		if i.Hours == nil {
			continue
		}
		hours := m.Now.At.Sub(i.Hours.At).Hours()
		far := m.Now.Value - i.Hours.Value
		if near := far >= min(0, hours)-1 && far <= max(0, hours)+1; near {
			fits = append(fits, fit{i, m.Beside[i.ID], math.Abs(far)})
		}
	}
	if len(fits) == 0 {
		return "no other machine of ours stands near " + figureOf(m.Now.Value) + " h"
	}
	slices.SortStableFunc(fits, func(a, b fit) int {
		if a.beside != b.beside {
			return map[bool]int{true: -1, false: 1}[a.beside]
		}
		return cmp.Or(cmp.Compare(a.far, b.far), cmp.Compare(a.item.Tag, b.item.Tag))
	})
	const named = 3
	var words []string
	for _, f := range fits[:min(named, len(fits))] {
		one := fmt.Sprintf("%s stood at %s h %s", f.item.Label(), figureOf(f.item.Hours.Value), Clock(f.item.Hours.At, m.Now.At))
		if f.beside {
			one += ", in the same hands"
		}
		words = append(words, one)
	}
	return strings.Join(words, "; ")
}

// board names the repairs between the two readings.
func (m Meter) board() string {
	if len(m.Repairs) == 0 {
		return "no repair is in the book since " + figureOf(m.Before.Value) + " h were read"
	}
	var words []string
	for _, f := range m.Repairs {
		words = append(words, Clock(f.Happened, m.Now.At)+": "+Sentence(f))
	}
	return strings.Join(words, "; ")
}

// slip says which slip of one figure would make the reading fit.
func (m Meter) slip() string {
	least, most := m.Expected()
	for _, s := range slipsOf(figureOf(m.Now.Value)) {
		if v, err := strconv.ParseFloat(s.text, 64); err == nil && v >= least && v <= most {
			return fmt.Sprintf("%s h would fit: %s", s.text, s.how)
		}
	}
	return fmt.Sprintf("no slip of one figure makes it fit %s to %s h", figureOf(least), figureOf(most))
}

type slip struct{ text, how string }

// slipsOf returns what may have stood there if one figure was left out, two were
// turned round, or one was read for another.
func slipsOf(read string) []slip {
	var all []slip
	for i := range len(read) + 1 {
		for d := '0'; d <= '9'; d++ {
			all = append(all, slip{read[:i] + string(d) + read[i:], "a " + string(d) + " was left out"})
		}
	}
	for i := range len(read) - 1 {
		turned := []byte(read)
		turned[i], turned[i+1] = turned[i+1], turned[i]
		all = append(all, slip{string(turned), fmt.Sprintf("%c and %c were turned round", read[i], read[i+1])})
	}
	for i := range len(read) {
		for d := byte('0'); d <= '9'; d++ {
			all = append(all, slip{read[:i] + string(d) + read[i+1:], fmt.Sprintf("a %c was read for a %c", read[i], d)})
		}
	}
	return all
}

func figureOf(hours float64) string { return strconv.FormatFloat(math.Round(hours), 'f', 0, 64) }

// MeterOf returns the meter a question about hours is of, from the facts about
// the item; false when it is no such question.
func MeterOf(q Inquiry, history []inventory.Fact) (Meter, bool) {
	if q.Clash != inventory.HoursDown || len(q.Facts) < 2 {
		return Meter{}, false
	}
	before, down := q.Facts[0], q.Facts[len(q.Facts)-1]
	was, isWas := before.Statement.(*inventory.Observed)
	now, isNow := down.Statement.(*inventory.Observed)
	if !isWas || !isNow || was.Hours == nil || now.Hours == nil {
		return Meter{}, false
	}
	m := Meter{
		Before: inventory.Seen[float64]{Value: *was.Hours, At: before.Happened},
		Now:    inventory.Seen[float64]{Value: *now.Hours, At: down.Happened},
	}
	for _, f := range inventory.Standing(history) {
		if _, mended := f.Statement.(*inventory.Mended); mended && between(f.Happened, before.Happened, down.Happened) {
			m.Repairs = append(m.Repairs, f)
		}
	}
	return m, true
}

func between(t, from, until time.Time) bool { return !t.Before(from) && !t.After(until) }
