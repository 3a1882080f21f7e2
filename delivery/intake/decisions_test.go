package intake_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/inventory/sheet"
)

const march = "Date out,Name,MRN,Conc #,Tank #,LPM\n3/4/25,\"Okoro, T\",0051990,CN00419,E-20117,2\n2/4/25,\"Quist, P\",0052011,CN00420,E-20118,2\n"

// Everything is asked once: the same file taken in again, by whomever, asks
// nothing, and says who answered and when.
func TestAnswersAreKeptForTheFile(t *testing.T) {
	eachLedger(t, func(t *testing.T, d *desk, list sheet.Table) {
		d.take(answered(list), list)
		d.at = d.at.Add(72 * time.Hour)
		before := d.facts()
		r := d.take(nil, list)
		assert.Empty(t, r.Questions)
		assert.Equal(t, 9, r.Taken)
		assert.Equal(t, before, d.facts())
		require.NotEmpty(t, r.Reused)
		for _, k := range r.Reused {
			assert.Equal(t, "tester", k.By)
			assert.Equal(t, "2025-04-02", k.At.Format(time.DateOnly))
			assert.NotEmpty(t, k.Rows, k.Key)
		}
	})
}

// Next month's file of the same ledger is written by the same hands: what was
// answered about their writing serves it. What was about one file does not.
func TestAnswersServeLaterFilesOfTheSource(t *testing.T) {
	d := newDesk(t)
	d.at = d.at.AddDate(0, 2, 0)
	d.take(intake.Answers{"days:Ledger March 2025.csv": "month first", "size:E": "US-E"}, table(t, "Ledger March 2025.csv", march))
	april := "Date out,Name,MRN,Conc #,Tank #,LPM\n4/5/25,\"Rao, L\",0051777,CN00421,E-20119,2\n"
	r := d.read(nil, table(t, "ledger april 2025 (2).csv", april))
	assert.Empty(t, r.Questions)
	require.Len(t, r.Reused, 2)
	assert.Equal(t, "month first", r.Reused[0].Answer)
	assert.Equal(t, 1, r.Taken)

	other := d.read(nil, table(t, "ward six.csv", april))
	assert.Equal(t, 1, asked(other, "days:"), "another source writes as it likes")

	proof := april + "17/4/25,\"Rao, L\",0051777,CN00421,E-20119,2\n"
	changed := d.read(nil, table(t, "Ledger May 2025.csv", proof))
	assert.Equal(t, 0, asked(changed, "days:"), "the file proves its own order, whatever was answered before")
	assert.Equal(t, []int{2}, refusedRows(d.read(nil, table(t, "Ledger May 2025.csv", "Date out,Name,MRN,Conc #,Tank #,LPM\n4.5.25,\"Rao, L\",0051777,CN00421,9.01E+09,2\n"))))
	mixed := proof + "3.4.25,\"Rao, L\",0051777,CN00421,E-20119,2\n4/17/25,\"Rao, L\",0051777,CN00421,E-20119,2\n"
	assert.Equal(t, 1, asked(d.read(nil, table(t, "Ledger May 2025.csv", mixed)), "days:"), "dates that speak against the answer are asked about")
}

// The year of one file, the day of one hand-over and who is right about custody
// are not how a source writes: each file is asked anew.
func TestAnswersAboutOneFileServeThatOnly(t *testing.T) {
	d := newDesk(t)
	d.at = d.at.AddDate(0, 2, 0)
	head := "Date out,Name,MRN,Conc #,LPM\n"
	d.take(intake.Answers{"year:Ledger March.csv": "2025"}, table(t, "Ledger March.csv", head+"3-Mar,\"Okoro, T\",0051990,CN00419,2\n"))
	again := d.read(nil, table(t, "Ledger March.csv", head+"3-Mar,\"Okoro, T\",0051990,CN00419,2\n"))
	assert.Empty(t, again.Questions)
	later := d.read(nil, table(t, "Ledger April.csv", head+"3-Apr,\"Okoro, T\",0051990,CN00419,2\n"))
	assert.Equal(t, 1, asked(later, "year:"))
}

// One may think better of it: the later answer counts.
func TestAKeptAnswerCanBeRevised(t *testing.T) {
	d := newDesk(t)
	d.at = d.at.AddDate(0, 2, 0)
	list := table(t, "ledger.csv", march)
	answers := intake.Answers{"days:ledger.csv": "month first", "size:E": "US-D"}
	_, err := d.Do(context.Background(), d.hand(), delivery.AnswerSheet{Answers: d.read(answers, list).Decided()})
	require.NoError(t, err)
	assert.Equal(t, "US-D", reused(d.read(nil, list), "size:E"))
	assert.Empty(t, d.read(answers, list).Decided(), "it is kept already")
	answers["size:E"] = "US-E"
	_, err = d.Do(context.Background(), d.hand(), delivery.AnswerSheet{Answers: d.read(answers, list).Decided()})
	require.NoError(t, err)
	assert.Equal(t, "US-E", reused(d.read(nil, list), "size:E"))
	d.take(nil, list)
	assert.Equal(t, "US-E", string(d.item("E-20117").Spec.Size))
}

// Who a list names is erased with the person, from the answers too.
func TestAnswersAboutAPersonGoWithThePerson(t *testing.T) {
	d := newDesk(t)
	list := ledger(t)["csv"]
	r := d.take(answered(list), list)
	d.at = d.at.Add(time.Hour)
	require.NoError(t, d.back(r.TookIn))
	after := d.read(nil, list)
	assert.Empty(t, reused(after, "name:0052008"))
	assert.Equal(t, 1, asked(after, "name:0052008"))
	assert.Equal(t, "US-E", reused(after, "size:E"), "what names nobody stays")
}

func reused(r intake.Reading, key string) string {
	for _, k := range r.Reused {
		if k.Key == key {
			return k.Answer
		}
	}
	return ""
}

func refusedRows(r intake.Reading) (rows []int) {
	for _, no := range r.Refused {
		rows = append(rows, no.Row)
	}
	return rows
}
