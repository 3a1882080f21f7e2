package intake_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/intake"
)

// Edge case 33: a spreadsheet's day number, two orders of day and month, a
// weekday and a blank in one column. One answer decides the file; a weekday is
// no day, and the blank stays unknown.
func TestEdge33DaysOfEveryKindInOneColumn(t *testing.T) {
	list := table(t, "people.csv", "Record number,Family name,Given name,Rest (L/min),Hours a day,Ordered\n"+
		"1,Abara,Ines,2,24,45678\n2,Okoro,Tunde,2,24,03/04/2025\n3,Rao,Lal,2,24,4.3.25\n4,Quist,Mia,2,24,Fri\n5,Sund,Ole,,,\n")
	d := newDesk(t)
	r := d.read(nil, list)
	require.Len(t, r.Questions, 1)
	assert.Equal(t, "days:people.csv", r.Questions[0].Key)
	assert.Equal(t, []int{3, 4}, r.Questions[0].Rows, "the only rows that can be read in two ways")
	assert.Equal(t, []intake.Refusal{{Row: 5, Why: `Ordered "Fri": This names a weekday only. Which day was it?`}}, r.Refused)

	d.take(intake.Answers{"days:people.csv": "day first with points, month first with slashes"}, list)
	for name, day := range map[string]string{"Abara": "2025-01-21", "Okoro": "2025-03-04", "Rao": "2025-03-04"} {
		assert.Equal(t, day, d.page(name).Care.OrderedAt.Format("2006-01-02"), name)
	}
	assert.Nil(t, d.page("Sund").Care.Order)
	assert.True(t, d.page("Sund").Care.OrderedAt.IsZero(), "a blank is unknown")
}
