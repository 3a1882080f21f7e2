package runs_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory"
	"lungwort/ui/runs"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// TestAreaDrawnIsPlannedAlone: homes chosen on the map keep the list of what
// waits, and the plan, to themselves, until the area is let go.
func TestAreaDrawnIsPlannedAlone(t *testing.T) {
	d := uitest.New(t)
	v := runs.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Runs})
	m := v.Model()
	all := len(m.Waiting)
	require.Greater(t, all, 1)
	chosen := m.Waiting[1].Person
	v.Open(work.Target{Room: work.Runs, Homes: []inventory.PersonID{chosen}})
	require.Len(t, m.Waiting, 1)
	assert.Equal(t, fmt.Sprintf("1 of %d", all), m.WaitingTitle())
	m.Plan()
	uitest.Shoot(t, win, "runs-area")
	for _, r := range m.Proposed {
		assert.Contains(t, []inventory.PersonID{"", chosen}, r.Person)
	}
	require.True(t, m.Proposing())
	m.Everywhere()
	assert.False(t, m.Proposing(), "what was planned for the area alone is dropped")
	assert.Len(t, m.Waiting, all)

	nobody := inventory.PersonID("p99999")
	v.Open(work.Target{Room: work.Runs, Homes: []inventory.PersonID{nobody}})
	m.Plan()
	assert.Contains(t, d.Refusal().Says, "No task waits for a run in the area drawn")
}
