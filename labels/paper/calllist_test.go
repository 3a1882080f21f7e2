package paper_test

import (
	"fmt"
	"io"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/paper"
	"lungwort/labels/scene"
)

// dueCalls is a list as it stands at ten in the morning.
func dueCalls(n int) paper.CallList {
	list := paper.CallList{
		Head: head(""), Name: "Calls due",
		Asks:  []string{"How are you? Short of breath sitting still?", "Sit five minutes: which saturation, on which flow?"},
		Bands: "hold 92 %; tell from 3 L/min; emergency from 4 L/min or under 92 %",
	}
	for i := range n {
		list.Calls = append(list.Calls, paper.CallLine{
			Verdict: scene.Tight, Name: fmt.Sprintf("Achterberg, Ines %d", i+1), Phones: []paper.Phone{{Number: "555-0142"}, {Whose: "daughter", Number: "555-0177"}},
			Language: "Welsh", Why: "first call after discharge", By: list.Printed.Add(90 * time.Minute),
			Ask: "the gauge: 14 h old", Ordered: "2 L/min at rest, 4 on exertion",
		})
	}
	return list
}

// Whoever rings has the number, the language, the reason and room to write.
func TestCallList(t *testing.T) {
	pdf, result := mustPrint(t, dueCalls(30))
	assert.Greater(t, result.Pages, 1)
	words := said(t, pdf)
	for _, part := range []string{
		"Calls due", "Achterberg, Ines 30", "555-0142", "daughter", "speaks Welsh", "first call after discharge", "the gauge: 14 h old",
		"Short of breath sitting still?", "emergency number first", "SpO2 on flow", "told whom, when",
	} {
		assert.Contains(t, words, part)
	}
}

// The clinician reads what was seen and since when, never what to do.
func TestConcernList(t *testing.T) {
	list := paper.ConcernList{Head: head(""), Clinicians: []paper.Phone{{Whose: "Dr Holm on call", Number: "555-0101"}}}
	list.Concerns = []paper.ConcernLine{
		{Name: "Okoro, Taio", Ordered: "4 L/min at rest", Says: "6 L/min in use, 4 L/min ordered at most; gas is counted at 6 L/min", Since: list.Printed.Add(-time.Hour), Now: true},
		{Name: "Abara, Ines", Ordered: "1 L/min at rest", Says: "possible review candidate: 3 days at 96 % or more on 1 L/min or less; nothing is booked", Facts: "97 % on 1 L/min", Since: list.Printed.Add(-26 * time.Hour)},
	}
	pdf, _ := mustPrint(t, list)
	words := said(t, pdf)
	for _, part := range []string{"Dr Holm on call", "now: 6 L/min in use", "possible review candidate", "not what to do", "told whom", "reply"} {
		assert.Contains(t, words, part)
	}
	none, err := paper.ConcernList{Head: head("")}.Print(io.Discard)
	require.NoError(t, err)
	assert.Positive(t, none.Pages)
}
