// Package messy makes ledgers as people keep them, with everything wrong that
// such ledgers have, for the tests of the intake. The same seed makes the same
// ledger. All of it is invented.
package messy

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"time"
)

// Headings are those of a ledger kept by hand.
var Headings = []string{"DATE OUT", "Pt Name", "MRN", "Ph", "Conc #", "Tank #", "Lot", "PSI", "LPM", "Hrs out", "Date in", "Hrs in", "Notes"}

// The columns of a row.
const (
	Out = iota
	Name
	Record
	Phone
	Machine
	Tank
	Lot
	Gauge
	Flow
	Hours
	In
	HoursIn
	Notes
)

// Row is one row of a ledger, by column.
type Row []string

// Clean returns the nth row of a ledger without anything wrong in it. Each
// person has a machine and a cylinder in two rows, one after the other.
func Clean(n int) Row {
	day := time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, n%60)
	who := n / 2
	return Row{
		day.Format("2006-01-02"), fmt.Sprintf("%s, %s", families[who%len(families)]+suffix(who/len(families)), given[who%len(given)]),
		fmt.Sprintf("%07d", 40_000+who), fmt.Sprintf("555-01%02d", who%100), fmt.Sprintf("CN%06d", 30_000+n), fmt.Sprintf("E-%06d", 70_000+n),
		fmt.Sprintf("L%04dA", 2400+n%9), "2000", "2", fmt.Sprint(1000 + n%700), "", "", "",
	}
}

var (
	families = []string{"Abara", "Okoro", "Diaz-Lopez", "Quist", "Rao", "Wold", "Tamm", "Ferreira", "Nakamura", "Ólafsdóttir", "Kwan", "Brandt", "Oduya"}
	given    = []string{"Ines", "Tunde", "Mei", "Per", "Lal", "Zoë", "Aino"}
)

// suffix makes many families of few: "Abara", "Abaraba", …
func suffix(n int) string {
	const syllables = "babebibobudadedidodu"
	if n == 0 {
		return ""
	}
	at := n % 10
	return syllables[2*at:2*at+2] + suffix(n/10)
}

// Wrong is one thing that is wrong with rows.
type Wrong struct {
	What  string
	Often bool // it belongs to how the list is written; else it is a slip now and then
	Spoil func(Row, *rand.Rand)
}

func set(column int, values ...string) func(Row, *rand.Rand) {
	return func(r Row, random *rand.Rand) { r[column] = values[random.IntN(len(values))] }
}

func change(column int, to func(string) string) func(Row, *rand.Rand) {
	return func(r Row, _ *rand.Rand) { r[column] = to(r[column]) }
}

// day writes the row's day another way.
func day(layout string) func(Row, *rand.Rand) {
	return change(Out, func(s string) string {
		t, err := time.Parse("2006-01-02", s)
		if err != nil {
			return s
		}
		return t.Format(layout)
	})
}

// All is everything that is wrong with such ledgers.
var All = []Wrong{
	{"day and month in either order", true, day("2/1/06")},
	{"days with points", true, day("02.01.2006")},
	{"days as numbers", true, change(Out, func(s string) string {
		t, err := time.Parse("2006-01-02", s)
		if err != nil {
			return s
		}
		return fmt.Sprint(int(t.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours() / 24))
	})},
	{"days without a year", true, day("2-Jan")},
	{"names in capitals", true, change(Name, strings.ToUpper)},
	{"names without a comma", true, change(Name, func(s string) string { return strings.Replace(s, ",", "", 1) })},
	{"names with blanks at the end", true, change(Name, func(s string) string { return s + " \u00a0 " })},
	{"accents taken apart", true, change(Name, func(s string) string {
		return strings.NewReplacer("Ó", "O\u0301", "ó", "o\u0301", "ë", "e\u0308").Replace(s)
	})},
	{"accents left out", true, change(Name, func(s string) string { return strings.NewReplacer("Ó", "O", "ó", "o", "ë", "e").Replace(s) })},
	{"a phone in the name", true, change(Name, func(s string) string { return s + " (son Ben 555 0177)" })},
	{"lost zeros", true, change(Record, func(s string) string { return strings.TrimLeft(s, "0") })},
	{"no phone", true, set(Phone, "n/a", "unknown", "-", "?", "tbc")},
	{"two phones", true, change(Phone, func(s string) string { return s + " / 555-0100" })},
	{"O for 0", true, change(Machine, func(s string) string { return strings.Replace(s, "0", "O", 2) })},
	{"I for 1", true, change(Machine, func(s string) string { return strings.Replace(s, "1", "I", 1) })},
	{"serials in small letters", true, change(Machine, strings.ToLower)},
	{"serials without a dash", true, change(Tank, func(s string) string { return strings.Replace(s, "-", " ", 1) })},
	{"two cylinders in a cell", true, func(r Row, _ *rand.Rand) {
		r[Tank] += " / " + strings.Replace(r[Tank], "E-", "E-9", 1)
		r[Gauge] = "2000, 1900"
	}},
	{"shortened serials", false, set(Machine, "9.01E+09", "1E+12")},
	{"O in a lot", true, change(Lot, func(s string) string { return strings.Replace(s, "0", "O", 1) })},
	{"a gauge in words", true, set(Gauge, "full", "MT")},
	{"units in cells", true, set(Gauge, "140 bar", "kPa 13800", "1900psi", "13.8 MPa", "1,850")},
	{"a gauge as a fraction", true, set(Gauge, "1/4", "1/2", "3/4")},
	{"a gauge nobody read", true, set(Gauge, "?", "")},
	{"a gauge that can't be", false, set(Gauge, "20000", "-5", "many")},
	{"flows as ranges", true, set(Flow, "2-4", "2-3", "1-2", "3-5", "4-6", "1 to 3")},
	{"flows with units", true, set(Flow, "2 LPM", "2 L/min", "125 mL", "0.5l")},
	{"flows that are none", false, set(Flow, "O", "PRN", "two")},
	{"flows unknown", true, set(Flow, "", "?")},
	{"hours parted in thousands", true, set(Hours, "1 204", "1,204.5", "1'204")},
	{"in before out", false, set(In, "2024-12-20")},
	{"back with hours that went down", true, func(r Row, _ *rand.Rand) { r[In], r[HoursIn] = "2025-03-28", "12" }},
	{"back", true, func(r Row, _ *rand.Rand) { r[In], r[HoursIn] = "2025-03-28", "1900" }},
	{"a test row", false, set(Name, "TEST PATIENT")},
	{"a ward", false, set(Name, "loaner Ward 6B", "Ward 3")},
	{"deceased", false, change(Name, func(s string) string { return "Deceased - " + s })},
	{"ditto", true, func(r Row, _ *rand.Rand) { r[Name], r[Record] = "ditto", "" }},
	{"a day ahead", false, set(Out, "2031-01-01")},
	{"no day", true, set(Out, "")},
	{"a formula", true, set(Notes, "=1+1", "@home", "-call", "+dog")},
	{"notes over lines", true, set(Notes, "call first\nthen ring", "\"dog\"")},
	{"too many commas", true, func(r Row, _ *rand.Rand) { r[Notes] = "called; gauge low,\u200b" }},
	{"no name", false, func(r Row, _ *rand.Rand) { r[Name], r[Record] = "", "" }},
}

// Ledger returns a ledger as csv: a title, headings, rows, a total. Of its rows
// about one in three has something wrong, a few have slips that only a person
// can mend.
func Ledger(rows int, seed uint64) string {
	random := rand.New(rand.NewPCG(seed, 1))
	var b strings.Builder
	b.WriteString("Equipment out 2025,,,\n,,,\n")
	line(&b, Headings)
	slips := 0
	for n := range rows {
		row := Clean(n)
		if wrong := All[random.IntN(len(All))]; random.IntN(3) == 0 {
			if !wrong.Often {
				slips++
			}
			if wrong.Often || slips <= rows/100 {
				wrong.Spoil(row, random)
			}
		}
		line(&b, row)
		if n%500 == 499 {
			line(&b, Headings) // as repeated for printing
		}
	}
	fmt.Fprintf(&b, "TOTAL,%d,,\n", rows)
	return b.String()
}

func line(b *strings.Builder, cells []string) {
	for i, c := range cells {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(`"` + strings.ReplaceAll(c, `"`, `""`) + `"`)
	}
	b.WriteByte('\n')
}
