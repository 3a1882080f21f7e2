// Package answercard puts the answer to an urgent question on its card: the
// same on every screen.
package answercard

import (
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/ui/widgets"
)

// Of returns what the card of an answer shows.
func Of(a delivery.Answer) widgets.AnswerData {
	data := widgets.AnswerData{
		Verdict: string(a.Verdict), Title: a.Title, Low: a.Low, Do: a.Do, Facts: a.Facts, Foot: delivery.NoFlowAdvice,
		Assumed: slices.DeleteFunc(slices.Clone(a.Assumed), func(s string) bool { return s == delivery.NoFlowAdvice }),
	}
	data.Help, data.HelpNote, _ = strings.Cut(a.Help, ", ")
	if a.Low != "" {
		data.Range = a.Low + " to " + a.High + ", middle " + a.Mid
	}
	return data
}
