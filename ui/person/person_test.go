package person_test

import (
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/person"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func open(d *uitest.Desk, given string) *person.Model {
	m := person.NewModel(d.Work)
	m.Open(d.Persons[given])
	return m
}

// answered submits a form with answers, and returns what was wrong with them
// and whether the form was closed.
func answered(f ask.Form, more ask.Answers) (wrong ask.Wrong, done bool) {
	wrong = f.Submit(f.Answered().With(more), func(err error) { done = err == nil })
	return wrong, done
}

func detail(m *person.Model, label string) (texts []string) {
	for _, d := range m.Page.Details {
		if d.Label == label {
			texts = append(texts, d.Text)
		}
	}
	return texts
}

func TestPageSaysWhoWhereAndWhat(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Anwen")
	for label, want := range map[string]string{
		"person":  "record Q-E417 · born 1971-04-12",
		"phones":  "555-0124 · daughter 555-0177",
		"home":    "Mill Croft 7, Quillet Town",
		"way in":  "gate code 4417, park behind the mill · 2 floors by stairs · dog",
		"there":   "mains (Mill line) · nobody smokes",
		"speaks":  "Welsh",
		"run":     "van 1 stops there 17:25",
		"stopped": "",
	} {
		got := detail(m, label)
		if want == "" {
			assert.Empty(t, got, label)
			continue
		}
		assert.Equal(t, []string{want}, got, label)
	}
	require.Len(t, m.Page.Things, 4)
	assert.Equal(t, "E-20105", m.Page.Things[0].Label)
	assert.Equal(t, "900 psi, 77 h old", m.Page.Things[0].Read)
	for _, other := range m.Page.Things[2:] {
		assert.True(t, other.Theirs)
		assert.Equal(t, "do not touch: Bram R.", other.Stands)
	}
	assert.Equal(t, "tight", string(m.Page.Answer.Verdict))
	d.Clean()
}

func TestWhatIsMissingIsSaid(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Cai")
	assert.Equal(t, []string{"no address yet"}, detail(m, "home"))
	assert.Equal(t, []string{"no order"}, detail(m, "ordered"))
	m = open(d, "Ines")
	assert.Equal(t, []string{"mains · smoking not asked"}, detail(m, "there"))
}

// One form serves every call: the page leads to it.
func TestCallIsMadeInCalls(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Jory")
	m.Call()
	assert.Equal(t, work.Target{Room: work.Calls, Person: d.Persons["Jory"]}, d.Opened[len(d.Opened)-1])
}

func TestReadingOfTheThingInHand(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Odd")
	second := d.Things["E-20108"]
	form := m.ReadingForm(second)
	assert.Equal(t, string(second), form.Answered().Text("item"))
	wrong, done := answered(form, ask.Answers{"gauge": "1900", "told": "read"})
	require.Empty(t, wrong)
	require.True(t, done)
	assert.InDelta(t, 1900, d.Thing("E-20108").Gauge.Value.PSI(), 0.1)
	wrong, _ = answered(m.ReadingForm(""), ask.Answers{"told": "told"})
	assert.ErrorContains(t, wrong["gauge"], "write a gauge, hours or oxygen")
}

// A reading keyed in later takes its place in time.
func TestReadingOfYesterday(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Jory")
	yesterday := uitest.Now.Add(-24 * time.Hour)
	_, done := answered(m.ReadingForm(""), ask.Answers{"gauge": "1880", "told": "read", "when": yesterday.Format(time.RFC3339)})
	require.True(t, done)
	assert.Equal(t, yesterday.Unix(), d.Thing("E-20101").Gauge.At.Unix())
	assert.Contains(t, m.Page.Facts[0].Detail, "recorded 16:20")
}

func TestImpossibleGaugeIsRefusedInTheForm(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Jory")
	var refused error
	form := m.ReadingForm("")
	form.Submit(form.Answered().With(ask.Answers{"gauge": "4500", "told": "read"}), func(err error) { refused = err })
	assert.ErrorContains(t, refused, "not possible on E-20101")
	assert.Zero(t, d.Changes)
}

func TestDetailsAreCorrected(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Anwen")
	wrong, _ := answered(m.DetailsForm(), ask.Answers{"family": "", "born": "12/04/1971"})
	assert.ErrorContains(t, wrong["family"], "family name")
	assert.ErrorContains(t, wrong["born"], "1941-04-12")
	_, done := answered(m.DetailsForm(), ask.Answers{"second": "555-0188", "whose": "neighbour"})
	require.True(t, done)
	assert.Equal(t, "555-0124 · neighbour 555-0188", detail(m, "phones")[0])
	assert.Equal(t, "Rowe, Anwen", m.Page.Name, "what was not touched stays")
	d.Clean()
}

func TestHomeIsTheSameForAllWhoLiveThere(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Anwen")
	form := m.HomeForm()
	assert.Contains(t, form.Before, "Bram R.")
	wrong, _ := answered(form, ask.Answers{"point": "here"})
	assert.ErrorContains(t, wrong["point"], "36.512, -40.521")
	_, done := answered(form, ask.Answers{"smoker": "yes", "cooling": "no", "registered": "yes"})
	require.True(t, done)
	assert.Equal(t, "yes", d.Page("Bram").Address.Smoker)
	assert.Equal(t, "no", d.Page("Bram").Address.Cooling)
	assert.Equal(t, "yes", d.Page("Bram").Address.Registered)
	assert.Equal(t, uitest.Now.Unix(), d.Page("Bram").Address.Checked.Unix())
	d.Clean()
}

func TestMovingLeavesTheOthersWhereTheyAre(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Anwen")
	assert.Empty(t, m.MovedForm().Answered().Text("access"), "nothing of the old home is kept")
	wrong, done := answered(m.MovedForm(), ask.Answers{"street": "Fern Lane 1", "mains": "mains"})
	require.Empty(t, wrong)
	require.True(t, done)
	assert.Equal(t, "Fern Lane 1", detail(m, "home")[0])
	assert.Equal(t, "Mill Croft 7", d.Page("Bram").Address.Street)
	assert.Len(t, m.Page.Things, 2, "the others' kit is not in this house any more")
	d.Clean()
}

// A gauge is written with the temperature of its cylinder, never a temperature
// alone; a bare number is asked about.
func TestReadingWithTemperature(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Ines")
	wrong, _ := answered(m.ReadingForm(""), ask.Answers{"temp": "5C", "oxygen": "93", "told": "read"})
	assert.ErrorContains(t, wrong["temp"], "write the gauge")
	wrong, _ = answered(m.ReadingForm(""), ask.Answers{"gauge": "800", "temp": "50", "told": "read"})
	assert.Error(t, wrong["temp"], "50 of which degrees?")
	_, done := answered(m.ReadingForm(""), ask.Answers{"gauge": "800", "temp": "41F", "told": "read"})
	require.True(t, done)
	for _, f := range d.Page("Ines").Facts {
		if s, is := f.Statement.(*inventory.Observed); is && s.Temperature != nil {
			assert.InDelta(t, 5, float64(*s.Temperature), 0.01)
			return
		}
	}
	t.Error("no reading has a temperature")
}

func TestGasSheetNamesNobodyInItsFile(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Ines")
	m.PrintGas()
	require.Len(t, d.Shown, 1)
	assert.Equal(t, "gas-sheet-"+uitest.Now.Format("2006-01-02-1504")+".pdf", filepath.Base(d.Shown[0]))
	assert.FileExists(t, d.Shown[0])
}
