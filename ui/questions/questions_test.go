package questions_test

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/questions"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// clashing is the story with a meter that went down, a bridge cylinder that
// came back full, and a second record of somebody.
func clashing(t *testing.T) *uitest.Desk {
	t.Helper()
	d := uitest.New(t)
	d.Act(delivery.Read{Item: d.Things["CN00401"], Hours: new(3402.0)})
	d.Act(delivery.Read{Item: d.Things["CN00401"], Hours: new(12.0)})
	d.Act(delivery.Return{Item: d.Things["E-20108"], Depot: "harbour", Gauge: uitest.PSI(1990), Empty: true})
	odd := d.Page("Odd").Person
	d.Act(delivery.Register{Person: delivery.Person{Family: odd.Family, Given: "O.", Record: "9900017", Phones: odd.Phones}, Address: delivery.Address{Street: "Harbour Lane 9"}})
	return d
}

func TestRowsSayWhatAboutWhomWhoseAndWhen(t *testing.T) {
	d := clashing(t)
	m := questions.NewModel(d.Work)
	m.Load()
	by := map[string]questions.Row{}
	for _, r := range m.Rows {
		by[r.Title] = r
	}
	require.Len(t, by, 3)
	assert.Equal(t, "3 open", m.Title())
	full := by["Came back full"]
	assert.Equal(t, full, m.Rows[0], "first due, first shown")
	assert.Equal(t, "E-20108 · Odd F.", full.About)
	assert.Equal(t, "clinician", full.Owner)
	assert.Contains(t, full.Who, "555-01", "with whom to call")
	assert.Equal(t, "18:20", full.Due)
	hours := by["Hours went down"]
	assert.Equal(t, "CN00401 · Jory V.", hours.About)
	assert.Equal(t, "hours meter went down from 3402 to 12", hours.Says)
	assert.Equal(t, "warehouse", hours.Owner)
	evidence := m.Evidence(hours.Key)
	require.Len(t, evidence, 2)
	assert.Contains(t, evidence[0].Words, "hours meter 12")
	twins := by["Two records, perhaps one person"]
	assert.Equal(t, "Odd F. · O. F.", twins.About)
	assert.Equal(t, "same name and phone under two records", twins.Says)

	d.At(uitest.Now.Add(3 * time.Hour))
	m.Load()
	assert.True(t, m.Rows[0].Overdue)
	d.Clean()
}

// Enter, the choice by its letter, the reason: answered, with the next step told.
func TestAnsweredByKeys(t *testing.T) {
	d := clashing(t)
	v := questions.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Questions})
	uitest.Shoot(t, win, "questions")
	uitest.Press(win, fyne.KeyReturn)
	require.NotNil(t, win.Canvas().Overlays().Top())
	uitest.Press(win, fyne.KeyRight, fyne.KeyRight)
	uitest.Shoot(t, win, "questions-answer")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "the valve was never opened")
	uitest.Press(win, fyne.KeyReturn)
	require.Nil(t, win.Canvas().Overlays().Top())
	q := d.Thing("E-20108").Questions[0]
	require.NotNil(t, q.Answer)
	assert.Equal(t, "had no gas", q.Answer.Choice)
	assert.Equal(t, "the valve was never opened", q.Answer.Why)
	assert.Contains(t, d.Said[len(d.Said)-1], "Open an incident")
	assert.Equal(t, inventory.Dirty, d.Thing("E-20108").State, "nothing was put right by itself")

	uitest.Type(win, "2")
	uitest.Type(win, "3")
	require.Len(t, d.Opened, 2, "the keys lead to item and person of the next question")
	d.Offered()
	assert.Nil(t, d.Thing("E-20108").Questions[0].Answer, "and it can be taken back")
	d.Clean()
}

func TestAnsweredOnesStayToBeSeen(t *testing.T) {
	d := clashing(t)
	m := questions.NewModel(d.Work)
	m.Load()
	d.Act(delivery.Resolve{Question: m.Rows[0].Key, Choice: "had gas", Why: "breathed from E-20107"})
	m.SetAll(true)
	assert.Len(t, m.Rows, 3)
	assert.Equal(t, "2 open", m.Title())
	assert.Equal(t, "had gas: breathed from E-20107", m.Rows[0].Answer)
	_, open := m.Form(m.Rows[0].Key)
	assert.False(t, open)
}

func TestEmptyInboxSaysWhatWillComeHere(t *testing.T) {
	m := questions.NewModel(uitest.NewEmpty(t).Work)
	m.Load()
	assert.Empty(t, m.Rows)
	assert.Equal(t, "0 open", m.Title())
}
