package takein

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/intake/messy"
)

// answersAtMost is how many questions a person answers for a list of any
// length.
const answersAtMost = 20

// A ledger of 5,000 rows with everything wrong goes through the screen with
// few answers; nothing is lost, and the book is sound.
func TestAMessyLedgerNeedsFewAnswers(t *testing.T) {
	d, m := newModel(t)
	m.Add(file(t, t.TempDir(), "equipment out.csv", messy.Ledger(5000, 7)))
	require.Empty(t, d.Refused)
	answers := 0
	for len(m.Reading.Questions) > 0 {
		answers++
		require.Less(t, answers, answersAtMost, "%d still open: %q", len(m.Reading.Questions), m.Reading.Questions[0].Asks)
		q := m.Reading.Questions[0]
		value := "2025-03-01"
		if len(q.Choices) > 0 {
			value = q.Choices[0].Value
		}
		t.Logf("%3d rows: %s: %s", len(q.Rows), q.Asks, value)
		m.Answer(q.Key, value)
	}
	r := m.Reading
	t.Logf("%d rows: %d taken, %d refused, %d left out", r.Rows, r.Taken, len(r.Refused), r.LeftOut)
	assert.Equal(t, r.Rows, r.Taken+len(r.Refused)+r.LeftOut)
	assert.Greater(t, r.Taken, 4500)
	m.TakeIn()
	require.Empty(t, d.Refused)
	d.Clean()
}
