package paper_test

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/paper"
	"lungwort/labels/tongue"
)

func quilletLeaflet(t tongue.Tongue, format paper.Format) paper.Leaflet {
	l := paper.Leaflet{
		Head: head("QIL118"), Tongue: t, Name: "Ines Achterberg", Rest: "2", Exertion: "4", Asleep: "2",
		Phone: "555-0110", Numbers: []paper.Phone{{Whose: "Dr Osk Thorne", Number: "555-0112"}},
		Kit: []paper.LeafletThing{
			{Key: "concentrator", More: "5 L/min", Item: paper.Item{Tag: "QI-0440-W", Serial: "CN00440"}},
			{Key: "cylinder", More: "US-E", Item: paper.Item{Tag: "QI-0201-T", Serial: "E-20117"}},
			{Key: "regulator", Item: paper.Item{Tag: "QI-0633-4", Serial: "R-0633"}},
			{Key: "oximeter", Item: paper.Item{Tag: "QI-0711-Y", Serial: "P-0711"}},
			{Key: "cannula", Item: paper.Item{Quantity: 2}},
			{More: "carry bag", Item: paper.Item{Quantity: 1}},
		},
		WarmUp: "20 min", FireDistance: "3 m (10 ft)", Lasts: "4 h 10 min", LastsAt: "2", Counted: at(15, 15),
		Target: "92", Borderline: "3", High: "4",
	}
	l.Format = format
	return l
}

func TestLeaflet(t *testing.T) {
	for _, format := range []paper.Format{paper.A4, paper.Letter} {
		for _, own := range []tongue.Tongue{tongue.English(), tongue.Spanish()} {
			t.Run(own.Name+format.Name, func(t *testing.T) {
				pdf, result := mustPrint(t, quilletLeaflet(own, format))
				assert.Empty(t, result.Unshown)
				words := said(t, pdf)
				for _, want := range []string{
					"Ines Achterberg", "555-0100", "555-0110", "555-0112", "CN00440", "QI-0201-T", "R-0633", "carry bag",
					own.Say("title"), own.Say("kit.concentrator"), own.Say("over.4"), own.Say("back.5"), own.Say("outage.2"), own.Say("line.3"),
					own.Say("flow.rest", "flow", "2"), own.Say("numbers.high", "flow", "4"), own.Say("fire.3"), "4 h 10 min", "3 m (10 ft)", "92 %",
				} {
					assert.Contains(t, words, want)
				}
				assert.Equal(t, !own.Approved(), strings.Contains(words, "A qualified reviewer must approve"))
				for i, page := range strings.Split(strings.TrimRight(text(t, pdf), "\f"), "\f") {
					assert.Contains(t, page, "555-0100", "page %d", i+1)
				}
			})
		}
	}
}

func TestLeafletLeavesOutWhatNobodyKnows(t *testing.T) {
	l := quilletLeaflet(tongue.English(), paper.A4)
	l.Rest, l.Exertion, l.Asleep, l.Lasts, l.Borderline, l.High = "", "", "", "", "", ""
	pdf, _ := mustPrint(t, l)
	words := said(t, pdf)
	assert.Contains(t, words, "Ask your clinician. It is not on this paper.")
	assert.Contains(t, words, "Ask us how long your cylinders last")
	assert.NotContains(t, words, "emergency department")
}

func TestALanguageTheFontsLackIsRefused(t *testing.T) {
	raw, err := tongue.Template()
	require.NoError(t, err)
	own, err := tongue.Read(strings.NewReader(strings.Replace(string(raw), "Move the tube from", "把管子", 1)))
	require.NoError(t, err)
	_, err = quilletLeaflet(own, paper.A4).Print(io.Discard)
	assert.ErrorContains(t, err, "don't hold the letters")
}

func TestDoorSignNamesNobodyAndIsOnePage(t *testing.T) {
	for _, format := range []paper.Format{paper.A4, paper.Letter} {
		sign := paper.DoorSign{Head: head(""), Tongues: []tongue.Tongue{tongue.Spanish(), tongue.English()}, FireDistance: "3 m (10 ft)"}
		sign.Format = format
		pdf, result := mustPrint(t, sign)
		assert.Equal(t, 1, result.Pages)
		words := said(t, pdf)
		for _, want := range []string{"Oxígeno en uso", "No fumar", "Oxygen in use", "No smoking", "555-0100", "3 m (10 ft)"} {
			assert.Contains(t, words, want)
		}
	}
}
