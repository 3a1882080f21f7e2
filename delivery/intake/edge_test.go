package intake_test

import (
	"fmt"
	"strings"
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

// Edge case 34, where a workbook shows nothing of it any more: a program that
// opened 9.01E+09 keeps the number 9010000000. The plate is asked about.
func TestEdge34ASerialThatEndsInNoughtsIsAskedAbout(t *testing.T) {
	list := stock(t, map[string]string{"Serial": "9010000000"})
	const key = "noughts:9010000000"
	d := newDesk(t)
	r := d.read(nil, list)
	require.Len(t, r.Questions, 1)
	assert.Equal(t, key, r.Questions[0].Key)

	r = d.read(intake.Answers{key: "shortened"}, list)
	require.Len(t, r.Refused, 1)
	assert.Contains(t, r.Refused[0].Why, "Read it from the plate")

	assert.Equal(t, 1, d.take(intake.Answers{key: "9010000417"}, list).Taken)
	assert.NotEmpty(t, d.item("9010000417").ID)

	d = newDesk(t)
	assert.Equal(t, 1, d.take(intake.Answers{key: "plate"}, list).Taken)
	assert.NotEmpty(t, d.item("9010000000").ID)
	for _, q := range d.read(nil, stock(t, map[string]string{"Serial": "9010000000", "Depot": "slipway"})).Questions {
		assert.NotEqual(t, key, q.Key, "what the book has needs no question")
	}
}

func TestManySerialsInNoughtsAreOneQuestion(t *testing.T) {
	var rows strings.Builder
	rows.WriteString("Serial,Kind,Size,Depot,Status\n")
	for i := range 6 {
		fmt.Fprintf(&rows, "90%d0000000,cylinder,US-E,harbour,dirty\n", i)
	}
	list := table(t, "items.csv", rows.String())
	r := newDesk(t).read(nil, list)
	require.Len(t, r.Questions, 1)
	assert.Equal(t, "all:noughts", r.Questions[0].Key)
	assert.Len(t, r.Questions[0].Rows, 6)
	assert.Len(t, newDesk(t).read(intake.Answers{"all:noughts": r.Questions[0].Choices[1].Value}, list).Refused, 6)
}
