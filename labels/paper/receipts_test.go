package paper_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/paper"
)

func quilletHandOver() paper.HandOver {
	return paper.HandOver{
		Head: head("QIH118"), Name: "Ines Achterberg", Identifiers: []string{"born 4 Mar 1951, programme no. 1182"},
		Address: []string{"Gull Row 14, flat 3, Upper Quay"}, Place: "ward 4 West", At: at(15, 20), HandedBy: "Lio Fenn, nurse",
		Order: "2 L/min at rest, 4 walking, 2 asleep", FlowSet: "2 L/min", Next: "concentrator, today 17:10", NextBy: at(17, 25),
		Kit: []paper.KitItem{
			{Item: cylinder("QI-0201-T", "E-20117", "QI0201T"), Gauge: "1,900 psi", ReadAt: at(15, 15)},
			{Item: paper.Item{What: "regulator, CGA 870", Tag: "QI-0633-4", Serial: "R-0633", Code: "QI06334"}},
			{Item: paper.Item{What: "oximeter", Tag: "QI-0711-Y", Serial: "P-0711", Code: "QI0711Y"}},
			{Item: paper.Item{What: "adult cannula", Quantity: 2}},
		},
		Numbers:      []paper.Phone{{Whose: "programme, any hour: equipment, questions", Number: "555-0110"}, {Whose: "ward 4 West", Number: "555-0160"}},
		FireDistance: "3 m",
	}
}

func quilletReturn() paper.ReturnReceipt {
	return paper.ReturnReceipt{
		Head: head("QIB077"), Name: "Selma Quarrie", Identifiers: []string{"programme no. 0988"}, Address: []string{"Kiln Brae 1, Ness"},
		Place: "Slipway depot, returns bay", At: at(16, 0), TakenBy: "Ode Marl",
		Returned: []paper.KitItem{
			{Item: paper.Item{What: "oxygen cylinder US-E", Tag: "QI-0207-6", Serial: "E-20171", Code: "QI02076"}, Gauge: "1,600 psi", ReadAt: at(15, 58)},
			{Item: paper.Item{What: "concentrator 5 L/min", Tag: "QI-0399-D", Serial: "CN00399", Code: "QI0399D"}},
		},
		Missing: []paper.Item{{What: "oximeter", Tag: "QI-0715-A", Serial: "P-0715"}},
		NotOurs: []paper.OtherItem{{Item: paper.Item{What: "concentrator, other owner's plate", Serial: "ZK-11"}, Why: "quarantine; its owner is told"}},
	}
}

func TestHandOverNamesTheKitAndWhomToRing(t *testing.T) {
	pdf, result := mustPrint(t, quilletHandOver())
	require.Equal(t, 1, result.Pages, "a receipt is one page")
	words := said(t, pdf)
	for _, want := range []string{
		"Hand-over receipt · Tue 24 Nov 15:20", "Ines Achterberg", "E-20117", "1,900 psi 15:15", "R-0633", "2 adult cannula", "2 L/min", "17:25",
		"555-0100 You cannot breathe", "555-0110 programme, any hour", "opened the valve", "set the flow", "felt the gas come",
		"signature of the person", "relationship", "No smoking, vaping", "Lent, not given",
	} {
		assert.Contains(t, words, want)
	}
	assert.ElementsMatch(t, []string{"QIH118", "QI0201T", "QI06334", "QI0711Y"}, scanned(t, pages(t, pdf, 200)[0]))
}

func TestReturnReceiptSaysWhatIsStillOut(t *testing.T) {
	receipt := quilletReturn()
	pdf, _ := mustPrint(t, receipt)
	words := said(t, pdf)
	for _, want := range []string{"Selma Quarrie", "1,600 psi 15:58", "CN00399", "P-0715", "found later", "ZK-11", "quarantine", "counts as empty only when its gauge was read"} {
		assert.Contains(t, words, want)
	}
	receipt.Missing, receipt.NotOurs = nil, nil
	pdf, _ = mustPrint(t, receipt)
	assert.Contains(t, said(t, pdf), "Nothing: this loan is closed.")
}
