package person_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/uitest"
)

func TestNewOrderReplacesTheWholeOrder(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Anwen")
	form := m.OrderForm()
	assert.Contains(t, form.Before, "2 L/min at rest")
	wrong, _ := answered(form, ask.Answers{"exertion": "3"})
	assert.ErrorContains(t, wrong["rest"], "no flow is assumed")
	assert.ErrorContains(t, wrong["hours"], "how many hours")
	wrong, done := answered(form, ask.Answers{"rest": "3", "hours": "24", "prescriber": "ward 6B"})
	require.Empty(t, wrong)
	require.True(t, done)
	order := d.Page("Anwen").Care.Order
	assert.Equal(t, 3.0, float64(order.Rest))
	assert.Zero(t, order.Exertion, "nothing of the old order is kept")
}

func TestSwitchToCylinderShowsAtOnce(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Jory")
	_, done := answered(m.SwitchForm(), ask.Answers{"to": "cylinder", "why": "power out"})
	require.True(t, done)
	assert.Equal(t, delivery.CylinderNow, d.Page("Jory").Care.Phase)
	assert.NotEmpty(t, m.Page.Chart.ActBy)
	assert.Equal(t, "E-20101: gauge 1,900 psi, told", m.Page.Facts[1].Words)
	assert.Equal(t, "on the cylinder: power out", m.Page.Facts[0].Words)
}

func TestTask(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Jory")
	wrong, _ := answered(m.TaskForm(), ask.Answers{"task": "swap"})
	assert.Error(t, wrong["bring"])
	assert.Error(t, wrong["why"])
	wrong, _ = answered(m.TaskForm(), ask.Answers{"task": "collect", "why": "spare", "from": uitest.Now.Format(time.RFC3339)})
	assert.ErrorContains(t, wrong["until"], "a beginning and an end")
	wrong, done := answered(m.TaskForm(), ask.Answers{"task": "swap", "why": "holiday", "bring": "US-E", "count": "2"})
	require.Empty(t, wrong)
	require.True(t, done)
	assert.Equal(t, []delivery.Wanted{{Kind: inventory.Cylinder, Size: "US-E", Count: 2}}, d.Page("Jory").Care.Tasks[0].Bring)
	assert.Equal(t, []string{"swap: holiday"}, detail(m, "to do"))
}

func TestStopWarnsAndNamesWhoOrderedIt(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Jory")
	form := m.StopForm()
	assert.True(t, form.Danger)
	assert.Contains(t, form.Before, "2 things count as not needed")
	wrong, done := answered(form, ask.Answers{"reason": "recovered"})
	assert.False(t, done)
	assert.ErrorContains(t, wrong["ordered"], "name the clinician")
	_, done = answered(form, ask.Answers{"reason": "recovered", "ordered": "clinic"})
	require.True(t, done)
	assert.False(t, m.Page.Watched)
	assert.Equal(t, []string{"collect: oxygen stopped: recovered"}, detail(m, "to do"))
	assert.Equal(t, inventory.Idle, d.Thing("CN00401").State)
	d.Clean()
}

func TestTakeBack(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Jory")
	newest := m.Page.Facts[0]
	require.Equal(t, "E-20101: gauge 1,900 psi, told", newest.Words)
	require.True(t, newest.MayGo())
	wrong, _ := answered(m.TakeBackForm(newest), nil)
	assert.ErrorContains(t, wrong["why"], "write the reason")
	_, done := answered(m.TakeBackForm(newest), ask.Answers{"why": "other cylinder"})
	require.True(t, done)
	again := m.Page.Facts[0]
	assert.True(t, again.Corrected)
	assert.False(t, again.MayGo())
	assert.Contains(t, again.Detail, "taken back by desk: other cylinder")
	assert.InDelta(t, 1940, d.Thing("E-20101").Gauge.Value.PSI(), 0.1, "the reading before counts again")
	d.Clean()
}

// What a slip of the key did is taken back whole, by new facts.
func TestStopIsUndoneWhole(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Jory")
	before := d.Page("Jory").Care
	_, done := answered(m.StopForm(), ask.Answers{"reason": "recovered", "ordered": "clinic"})
	require.True(t, done)
	require.NotNil(t, d.Offered)
	d.Offered()
	assert.Equal(t, before, d.Page("Jory").Care)
	assert.True(t, m.Page.Watched, "the page shows it at once")
	assert.Equal(t, inventory.AtWork, d.Thing("CN00401").State)
	d.Clean()
}

// While the order is written, the form says what it means for what is in the
// house; nothing has moved yet.
func TestOrderFormShowsTheChangeBeforeSaving(t *testing.T) {
	d := uitest.New(t)
	form := open(d, "Jory").OrderForm()
	says, _ := form.Live(form.Answered())
	assert.Empty(t, says, "nothing is written yet")
	says, alarm := form.Live(ask.Answers{"rest": "12", "hours": "24"})
	assert.True(t, alarm)
	assert.Contains(t, says, "short: not met: the concentrator gives ")
	assert.Contains(t, says, "backup falls from ")
	assert.Zero(t, d.Changes)
	d.Clean()
}
