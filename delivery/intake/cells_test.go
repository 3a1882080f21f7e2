package intake_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/inventory/sheet"
)

// person returns a person list of one row: a person who is clear in every
// cell but those given.
func person(t *testing.T, cells map[string]string) sheet.Table {
	t.Helper()
	return one(t, "people.csv", [][2]string{
		{"Record number", "0048213"}, {"Family name", "Abara"}, {"Given name", "Ines"}, {"Phone", "555-0142"},
		{"Street", "Kelp Street 22"}, {"Town", "Quillet Harbour"}, {"Mains", "mains"}, {"Rest (L/min)", "2"},
		{"Hours a day", "24"}, {"Discharged", "2025-03-04 14:00"}, {"Breathes", "concentrator"},
	}, cells)
}

// stock returns an item list of one row: a cylinder that is clear in every
// cell but those given.
func stock(t *testing.T, cells map[string]string) sheet.Table {
	t.Helper()
	return one(t, "items.csv", [][2]string{
		{"Serial", "E-20117"}, {"Kind", "cylinder"}, {"Size", "US-E"}, {"Gauge (psi)", "2000"}, {"Read at", "2025-03-30 10:00"},
		{"Lot", "L2409A"}, {"Filled", "2025-03-01"}, {"Depot", "harbour"}, {"Status", "ready"},
	}, cells)
}

func one(t *testing.T, file string, row [][2]string, cells map[string]string) sheet.Table {
	t.Helper()
	quoted := func(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }
	var headings, values []string
	left := map[string]bool{}
	for heading := range cells {
		left[heading] = true
	}
	for _, cell := range row {
		value, given := cells[cell[0]]
		if !given {
			value = cell[1]
		}
		delete(left, cell[0])
		headings, values = append(headings, quoted(cell[0])), append(values, quoted(value))
	}
	for _, heading := range slices.Sorted(maps.Keys(left)) {
		headings, values = append(headings, quoted(heading)), append(values, quoted(cells[heading]))
	}
	return table(t, file, strings.Join(headings, ",")+"\n"+strings.Join(values, ",")+"\n")
}

// outcome is what becomes of the one row of a list.
type outcome struct {
	asks    string // begin of the question's key
	refuses string // part of the reason
	finds   string // part of a finding
}

func (want outcome) check(t *testing.T, d *desk, list sheet.Table) {
	t.Helper()
	r := d.read(nil, list)
	dump(r)
	switch {
	case want.asks != "":
		require.Len(t, r.Questions, 1, "questions; refused: %v", r.Refused)
		assert.True(t, strings.HasPrefix(r.Questions[0].Key, want.asks), "%s", r.Questions[0].Key)
		assert.Equal(t, []int{2}, r.Questions[0].Rows)
		assert.Empty(t, r.Acts(), "a row with a question waits")
	case want.refuses != "":
		require.Len(t, r.Refused, 1, "questions: %v", r.Questions)
		assert.Contains(t, r.Refused[0].Why, want.refuses)
		assert.Empty(t, r.Acts())
	default:
		assert.Equal(t, 1, r.Taken, "asked %v, refused %v", r.Questions, r.Refused)
	}
	if want.finds != "" {
		assert.True(t, finds(r.Findings, want.finds), "%v", r.Findings)
	}
}

func TestNastyCellsOfPersons(t *testing.T) {
	for _, c := range []struct {
		heading, cell string
		want          outcome
	}{
		{"Rest (L/min)", "O", outcome{refuses: "letter O"}},
		{"Rest (L/min)", "2-4", outcome{asks: "flow:people.csv:2-4"}},
		{"Rest (L/min)", "PRN", outcome{refuses: "PRN"}},
		{"Rest (L/min)", "setting 2", outcome{refuses: "setting"}},
		{"Rest (L/min)", "2,5", outcome{}},
		{"Rest (L/min)", "1/8", outcome{}},
		{"Rest (L/min)", "125 mL", outcome{}},
		{"Rest (L/min)", "1/8 litre per hour", outcome{asks: "rest:"}},
		{"Rest (L/min)", "40", outcome{refuses: "more than home kit gives"}},
		{"Rest (L/min)", "two", outcome{refuses: "not a flow"}},
		{"Rest (L/min)", "?", outcome{}},
		{"Hours a day", "25", outcome{refuses: "outside 0 to 24"}},
		{"Hours a day", "15-16", outcome{refuses: "more than one number"}},
		{"Hours a day", "16 h", outcome{}},
		{"Discharged", "03/04/2025", outcome{asks: "days:people.csv"}},
		{"Discharged", "3/13", outcome{asks: "year:people.csv"}},
		{"Discharged", "4.3.25", outcome{asks: "days:people.csv"}},
		{"Discharged", "13.3.25", outcome{}},
		{"Discharged", "45678", outcome{}},
		{"Discharged", "Fri", outcome{refuses: "weekday"}},
		{"Discharged", "2025-02-30", outcome{refuses: "no such day"}},
		{"Discharged", "2026-03-04", outcome{refuses: "lies ahead"}},
		{"Discharged", "last week", outcome{refuses: "can't be read as a day"}},
		{"Discharged", "", outcome{}},
		{"Born", "4.4.52", outcome{}},
		{"Mains", "Yes", outcome{}},
		{"Mains", "maybe", outcome{asks: "word:mains:maybe"}},
		{"Mains", "", outcome{}},
		{"Smoker", "sometimes", outcome{asks: "word:smoker:sometimes"}},
		{"Floors", "2nd floor", outcome{refuses: "not known"}},
		{"Floors", "2 flights", outcome{}},
		{"Latitude", "36.5", outcome{refuses: "belong together"}},
		{"Breathes", "air", outcome{asks: "word:breathes:air"}},
		{"Record number", "0", outcome{}},
		{"Phone", "5.55E+09", outcome{refuses: "shortened"}},
		{"Phone", "555 0142 / 555-0177 (son Ben)", outcome{}},
		{"Family name", "TEST PATIENT", outcome{}},
		{"Family name", "Ward", outcome{}},
		{"Family name", "Deceased - Rao", outcome{asks: "deceased:"}},
		{"Items lent", "E-20117", outcome{asks: "thing:E"}},
		{"Items lent", "9.01E+09", outcome{refuses: "no serial"}},
		{"Items lent", "1E+12", outcome{refuses: "no serial"}},
		{"Items lent", "100E10", outcome{asks: "thing:"}},
		{"Items lent", "0503E000", outcome{asks: "thing:"}},
		{"Items lent", "90100004170000000000", outcome{refuses: "fifteenth"}},
		{"Concentrator", "CN00417", outcome{}},
		{"Regulator", "n/a", outcome{}},
		{"Cylinder", "E-20117", outcome{asks: "size:E"}},
		{"Last call", "2025-03-05 09:00", outcome{}},
		{"SpO2 (%)", "94", outcome{finds: "without the time of the call"}},
		{"Stopped", "2025-03-20", outcome{asks: "stopped by:people.csv"}},
		{"Dx", "=cmd|'/C calc'!A0", outcome{}},
	} {
		t.Run(c.heading+" "+c.cell, func(t *testing.T) {
			if c.cell == "TEST PATIENT" {
				r := newDesk(t).read(nil, person(t, map[string]string{c.heading: c.cell}))
				assert.Equal(t, 1, r.LeftOut)
				return
			}
			c.want.check(t, newDesk(t), person(t, map[string]string{c.heading: c.cell}))
		})
	}
}

func TestNastyCellsOfThings(t *testing.T) {
	for _, c := range []struct {
		heading, cell string
		want          outcome
	}{
		{"Serial", "", outcome{refuses: "no serial"}},
		{"Serial", "9.01E+09", outcome{refuses: "shortened"}},
		{"Serial", "100E10", outcome{}},
		{"Serial", "0503E000", outcome{}},
		{"Serial", "E-20117 / E-20118", outcome{refuses: "one thing in a row"}},
		{"Kind", "tank", outcome{}},
		{"Kind", "gadget", outcome{asks: "word:kind:gadget"}},
		{"Size", "E", outcome{}},
		{"Size", "Q", outcome{refuses: "not a size"}},
		{"Size", "", outcome{asks: "size:E"}},
		{"Owner", "rent", outcome{asks: "owner:items.csv"}},
		{"Owner", "own", outcome{}},
		{"Gauge (psi)", "full", outcome{asks: "gauge:items.csv:full"}},
		{"Gauge (psi)", "MT", outcome{asks: "gauge:items.csv:mt"}},
		{"Gauge (psi)", "140 bar", outcome{}},
		{"Gauge (psi)", "kPa 13800", outcome{}},
		{"Gauge (psi)", "13.8 MPa", outcome{}},
		{"Gauge (psi)", "1,900", outcome{}},
		{"Gauge (psi)", "1/4", outcome{}},
		{"Gauge (psi)", "20000", outcome{refuses: "above the filling"}},
		{"Gauge (psi)", "2700", outcome{refuses: "more than this cylinder holds"}},
		{"Gauge (psi)", "-5", outcome{refuses: "below zero"}},
		{"Gauge (psi)", "?", outcome{finds: "no gauge reading"}},
		{"Read at", "", outcome{asks: "read at:items.csv"}},
		{"Read at", "2025-05-01", outcome{refuses: "lies ahead"}},
		{"Depot", "", outcome{}},
		{"Depot", "slipway", outcome{}},
		{"Status", "Full", outcome{asks: "word:status:full"}},
		{"Status", "scrapped", outcome{}},
		{"Status", "at plant", outcome{}},
		{"Status", "not ours", outcome{refuses: "no owner"}},
		{"Requalify by", "10A23+", outcome{finds: "no month"}},
		{"Requalify by", "05/2027", outcome{}},
	} {
		t.Run(c.heading+" "+c.cell, func(t *testing.T) {
			c.want.check(t, newDesk(t), stock(t, map[string]string{c.heading: c.cell}))
		})
	}
}

func TestGaugeWithoutUnitIsAskedAbout(t *testing.T) {
	list := table(t, "tanks.csv", "Serial,Size,Pressure,Read at,Depot,Status\nE-1,E,2000,2025-03-30,harbour,ready\nE-2,E,1900,2025-03-30,harbour,ready\n")
	r := newDesk(t).read(nil, list)
	require.Len(t, r.Questions, 1)
	assert.Equal(t, "unit:tanks.csv:Pressure", r.Questions[0].Key)
	assert.Equal(t, []int{2, 3}, r.Questions[0].Rows)
	d := newDesk(t)
	d.take(map[string]string{"unit:tanks.csv:Pressure": "psi"}, list)
	assert.InDelta(t, 2000, d.item("E-1").Gauge.Value.PSI(), 0.01)
}

func TestAnswerThatIsNoChoiceIsAskedForAgain(t *testing.T) {
	r := newDesk(t).read(map[string]string{"word:mains:maybe": "perhaps"}, person(t, map[string]string{"Mains": "maybe"}))
	require.Len(t, r.Questions, 1)
	assert.Contains(t, r.Questions[0].Asks, "“perhaps” is no answer")
}

// anyLedger draws a ledger with anything in its cells.
var anyLedger = rapid.Custom(func(rt *rapid.T) string {
	words := []string{"", "?", "O", "2", "2-4", "3/4/25", "17/3/25", "4.3.25", "2025-03-09 01:40", "45720", "14-Mar", "Fri",
		"E-20117", "E 20117 / E-20118", "CN0O417", "CNOO417", "9.01E+09", "full", "MT", "1/4", "2000, 1900", "kPa 13800",
		"ABARA, Ines", "Abara Ines", "Ines Abara", "OKORO, T. (son Ben 555 0177)", "^ same house: wife", "ditto", "TEST PATIENT",
		"loaner Ward 6B", "Deceased - Rao", "0048213", "48213", "n/a", "1 204", "1,204", "harbour", "ready", "yes", "\u00a0", "ﬁ"}
	headings := []string{"Date out", "Pt Name", "MRN", "Ph", "Conc #", "Tank #", "Lot", "PSI", "LPM", "Hrs out", "Date in", "Hrs in", "Notes"}
	fits := map[string][]string{
		"Date out": {"2025-03-09", "45720", "13.3.25", "3/4/25"}, "Pt Name": {"ABARA, Ines", "OKORO, T.", "Quist P", "loaner Ward 6B"},
		"Conc #": {"CN00417", "CNOO417", "CN00418"}, "Tank #": {"", "E-20117"}, "LPM": {"2", "3"}, "Hrs out": {"1 204", "88"},
		"Date in": {"", "2025-03-17"}, "Hrs in": {"", "1611"}, "PSI": {"", "2000"}, "Lot": {"", "L2409A"},
		"Ph": {"555-0142"}, "Notes": {""},
	}
	records := map[string][]string{"ABARA, Ines": {"0048213", "48213", ""}, "OKORO, T.": {"0051990", ""}, "Quist P": {"0052011", ""}}
	var b strings.Builder
	b.WriteString(strings.Join(headings, ","))
	nasty := rapid.IntRange(0, 3).Draw(rt, "nasty")
	for range rapid.IntRange(1, 8).Draw(rt, "rows") {
		b.WriteString("\n")
		name := ""
		for i, heading := range headings {
			from := fits[heading]
			if heading == "MRN" {
				if from = records[name]; from == nil {
					from = []string{""}
				}
			}
			if rapid.IntRange(0, 9).Draw(rt, "nasty cell") < nasty {
				from = words
			}
			if i > 0 {
				b.WriteString(",")
			}
			cell := rapid.SampledFrom(from).Draw(rt, heading)
			if heading == "Pt Name" {
				name = cell
			}
			b.WriteString(`"` + cell + `"`)
		}
	}
	return b.String()
})

// anyAnswers answers every question with its first choice, or a text.
func anyAnswers(r intake.Reading) intake.Answers {
	answers := intake.Answers{}
	for _, q := range r.Questions {
		answers[q.Key] = "Abara, Somebody"
		if len(q.Choices) > 0 {
			answers[q.Key] = q.Choices[0].Value
		}
	}
	return answers
}

func TestEachRowHasOneFate(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		text := anyLedger.Draw(rt, "list")
		var answers intake.Answers
		for range 4 { // an answer may raise a question
			r, err := readAlone(table(t, "any.csv", text), delivery.NewProgramme(), answers)
			require.NoError(rt, err)
			require.Equal(rt, r.Rows, r.Taken+r.Waiting+len(r.Refused)+r.LeftOut, text)
			waiting := map[int]bool{}
			for _, q := range r.Questions {
				require.NotEmpty(rt, q.Rows, q.Key)
				require.NotContains(rt, answers, q.Key, "asked only once: %s\n%s", q.Asks, text)
				for _, row := range q.Rows {
					waiting[row] = true
				}
			}
			require.Len(rt, waiting, r.Waiting, "only rows with a question wait: %s", text)
			for _, no := range r.Refused {
				require.False(rt, waiting[no.Row], "row %d is refused and asked about: %s", no.Row, text)
				require.NotEmpty(rt, no.Why)
			}
			if answers == nil {
				answers = intake.Answers{}
			}
			for key, answer := range anyAnswers(r) {
				answers[key] = answer
			}
		}
	})
}

// Whatever stands in the cells: what is clear goes in whole, leaves the book
// sound, and adds nothing when it is taken in again.
func TestAnyLedgerGoesInOnce(t *testing.T) {
	for seed := range 12 {
		text := anyLedger.Example(seed)
		d := newDesk(t)
		list := table(t, "any.csv", text)
		answers := anyAnswers(d.take(nil, list))
		d.take(answers, list)
		d.audit()
		before := d.facts()
		dump(d.take(answers, list))
		require.Equal(t, before, d.facts(), text)
	}
}

func FuzzRow(f *testing.F) {
	f.Add("ABARA, Ines", "0048213", "CN0O417", "E-20117 / E-20118", "2000, 1900", "2", "3/4/25")
	f.Add("OKORO, T. (son Ben 555 0177)", "", "9.01E+09", "e 20119", "140 bar", "2-4", "45720")
	f.Add("^ same house: wife", "0", "", "", "?", "O", "14-Mar")
	f.Fuzz(func(t *testing.T, name, record, machine, tank, gauge, flow, day string) {
		cell := func(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }
		text := "Name,MRN,Conc #,Tank #,PSI,LPM,Date out\n"
		for _, s := range []string{name, record, machine, tank, gauge, flow} {
			text += cell(s) + ","
		}
		tables, err := readText("any.csv", text+cell(day)+"\n")
		if err != nil || len(tables) != 1 {
			return
		}
		r, err := readAlone(tables[0], delivery.NewProgramme(), nil)
		if err != nil {
			return
		}
		if r.Rows != r.Taken+r.Waiting+len(r.Refused)+r.LeftOut {
			t.Fatalf("%q: %d rows, %d taken, %d waiting, %d refused, %d left out", text, r.Rows, r.Taken, r.Waiting, len(r.Refused), r.LeftOut)
		}
	})
}
