package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
)

func TestQuestionsAnswer(t *testing.T) {
	none := delivery.QuestionsAnswer(nil, told)
	assert.Equal(t, depletion.Holds, none.Verdict)
	assert.Equal(t, "no facts clash", none.Title)
	asked := func(opened time.Time) delivery.Inquiry {
		return delivery.Inquiry{
			Question: inventory.Question{Clash: inventory.HoursDown, Opened: opened, Says: "the meter went from 400 to 12 h"},
			Item:     &inventory.Item{Spec: inventory.Spec{Kind: inventory.Concentrator, Serial: "CN-1"}},
		}
	}
	a := delivery.QuestionsAnswer([]delivery.Inquiry{asked(told.Add(-1000 * time.Hour)), asked(told)}, told)
	assert.Equal(t, depletion.Unknown, a.Verdict)
	assert.Equal(t, "2 questions open, 1 overdue", a.Title)
	assert.Len(t, a.Do, 2)
	assert.Contains(t, a.Do[1], "CN-1")
	assert.Contains(t, a.Do[1], "the meter went from 400 to 12 h")
}
