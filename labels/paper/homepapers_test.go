package paper_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/paper"
	"lungwort/labels/tongue"
)

func quilletProof(t tongue.Tongue) paper.DeliveryProof {
	return paper.DeliveryProof{
		Head: head("QIP120"), Tongue: t, Name: "Ines Achterberg", Identifiers: []string{"born 4 Mar 1951, programme no. 1182"},
		Address: []string{"Gull Row 14, flat 3", "Upper Quay"},
		Things: []paper.ProvenThing{
			{Item: paper.Item{What: "concentrator 5 L/min", Tag: "QI-0417-3", Serial: "CN00417"}, Left: at(17, 20), Signed: at(17, 40), SignedBy: "Bo Achterberg, son"},
			{Item: paper.Item{What: "oxygen cylinder US-E", Tag: "QI-0201-T", Serial: "E-20117"}, Left: at(15, 20)},
		},
	}
}

// quilletLetter is the letter of a recall, or of what can come home.
func quilletLetter(t tongue.Tongue, sort string) paper.HomeLetter {
	l := paper.HomeLetter{
		Head: head("QIL120"), Tongue: t, Name: "Ines Achterberg", Address: []string{"Gull Row 14, flat 3", "Upper Quay"}, Phone: "555-0110",
		Title:  t.Say(sort + ".title"),
		Things: []paper.LeafletThing{{Key: "concentrator", More: "5 L/min", Item: paper.Item{Tag: "QI-0417-3", Serial: "CN00417"}}},
	}
	if sort == "recall" {
		l.Before = []string{t.Say("recall.why", "notice", "QS-2026-04")}
		l.After = []string{t.Say("recall.ring"), t.Say("recall.never")}
		l.Reply = []string{t.Say("recall.use"), t.Say("recall.rests"), t.Say("recall.gone")}
		return l
	}
	l.Before, l.Valued = []string{t.Say(sort + ".why")}, sort == "value"
	if l.Valued {
		l.Before = append(l.Before, t.Say("value.worth"))
		l.Things[0].Worth = "900"
		l.Things = append(l.Things, paper.LeafletThing{Key: "regulator", Item: paper.Item{Tag: "QI-0418-1", Serial: "RG-5101"}}) // worth nobody knows
	}
	l.After = []string{t.Say("collect.come"), t.Say("collect.need"), t.Say("collect.lost"), t.Say("collect.safe")}
	l.Reply = []string{t.Say("collect.day"), t.Say("collect.keep"), t.Say("collect.gone")}
	return l
}

func quilletHold() paper.ItemTag {
	return paper.ItemTag{
		Head: head("QIT417"), Word: "HOLD", Says: "not to be lent, filled or used", Held: true,
		Thing: paper.Item{What: "concentrator 5 L/min", Tag: "QI-0417-3", Serial: "CN00417", Code: "QI04173"},
		Facts: []paper.TagFact{{Word: "why", Value: "recall QS-2026-04"}, {Word: "since", Value: "Tue 24 Nov 09:10"}, {Word: "next", Value: "back to its owner"}},
		Sign:  "Released, or sent away, by",
	}
}

func quilletBench() paper.ItemTag {
	tag := quilletHold()
	tag.Word, tag.Says, tag.Held = "BENCH", "to be cleaned and tested first", false
	tag.Facts = []paper.TagFact{{Word: "came back", Value: "Mon 23 Nov 16:05, soiled: bagged"}, {Word: "lacks", Value: "filter, cord"}}
	tag.Steps = []string{"flow", "alarms with power failure", "filters", "cord", "hours"}
	tag.Blank = []string{"oxygen %, after 20 min", "at L/min", "hours"}
	tag.Sign = "Ready to be lent again"
	return tag
}

func quilletSlip(cylinders int) paper.ExchangeSlip {
	slip := paper.ExchangeSlip{
		Head: head("QIX031"), Plant: "Skerry Gas, filling plant", Depot: "Slipway depot", Driver: "Tam Oyelaran", By: "Ode Marl", Theirs: "SG-8841", At: at(9, 30),
		Lines: []paper.SlipLine{{Owner: "Skerry Gas", Size: "US-E", Out: 12, In: 10}, {Owner: "own", Size: "US-D", Out: 4, In: 4}},
		Notes: []paper.SlipNote{{Says: "2 US-E of Skerry Gas short", Next: "They bring them with the next truck; asked for by the slip."}},
	}
	for i := range cylinders {
		slip.Went = append(slip.Went, cylinder(fmt.Sprintf("QI-%04d-T", i), fmt.Sprintf("E-%05d", 20100+i), ""))
		slip.Came = append(slip.Came, cylinder(fmt.Sprintf("QI-%04d-T", 500+i), fmt.Sprintf("E-%05d", 30100+i), ""))
	}
	return slip
}

// tongues are the languages that come with the program.
func tongues() []tongue.Tongue { return []tongue.Tongue{tongue.English(), tongue.Spanish()} }

// TestHouseholdPapersSpeakBothLanguages: each fits its page or pages in English
// and Spanish, on Letter and A4, and says in full what the language has for it.
func TestHouseholdPapersSpeakBothLanguages(t *testing.T) {
	for _, spoken := range tongues() {
		back, out := quilletReturn(), quilletHandOver()
		back.Tongue, out.Tongue = spoken, spoken
		for name, p := range map[string]printer{
			"proof": quilletProof(spoken), "return": back, "hand-over": out,
			"recall": quilletLetter(spoken, "recall"), "collect": quilletLetter(spoken, "collect"), "value": quilletLetter(spoken, "value"),
		} {
			t.Run(name+" "+spoken.Name, func(t *testing.T) {
				pdf, result := mustPrint(t, p)
				words := said(t, pdf)
				assert.LessOrEqual(t, result.Pages, 2)
				for key, want := range map[string][]string{
					"proof":     {spoken.Say("proof.staff"), "CN00417", "Bo Achterberg", spoken.Say("proof.sign"), spoken.Say("sign.relationship")},
					"return":    {spoken.Say("return.came"), "CN00399", spoken.Say("return.found"), spoken.Say("sign.gives")},
					"hand-over": {"E-20117", spoken.Say("hand.sign"), spoken.Say("teach.gas"), spoken.Say("hand.caution", "distance", "3 m")},
					"recall":    {"QS-2026-04", "CN00417", "555-0110", spoken.Say("recall.rests"), spoken.Say("sign.name")},
					"collect":   {"CN00417", "555-0110", spoken.Say("collect.keep")},
					"value":     {"CN00417", spoken.Say("letter.worth"), spoken.Say("collect.keep")},
				}[name] {
					assert.Contains(t, words, want, key)
				}
				assert.Contains(t, words, spoken.Say("frame.page", "page", "1", "pages", fmt.Sprint(result.Pages)))
			})
		}
	}
}

// TestLettersAskAndNeverDemand: no word of debt, law or police stands in a
// letter about what can come home. Common practice, no source.
func TestLettersAskAndNeverDemand(t *testing.T) {
	for _, spoken := range tongues() {
		spoken.Reviewed = "M. Reyes, 1 Nov 2026" // without the banner that it is not approved
		for _, sort := range []string{"collect", "value", "recall"} {
			pdf, _ := mustPrint(t, quilletLetter(spoken, sort))
			words := strings.ToLower(said(t, pdf))
			for _, hard := range []string{"must", "demand", "police", "legal", "lawyer", "overdue", "owe ", "charge", "debe devolver", "exigi", "polic", "abogad", "deuda", "multa"} {
				assert.NotContains(t, words, hard, "%s %s", sort, spoken.Name)
			}
		}
	}
}

func TestItemTagsAreReadAcrossTheRoom(t *testing.T) {
	pdf, result := mustPrint(t, quilletHold())
	require.Equal(t, 1, result.Pages)
	words := said(t, pdf)
	for _, want := range []string{"HOLD", "not to be lent, filled or used", "QI-0417-3", "CN00417", "recall QS-2026-04", "Released, or sent away, by"} {
		assert.Contains(t, words, want)
	}
	assert.ElementsMatch(t, []string{"QIT417", "QI04173"}, scanned(t, pages(t, pdf, 200)[0]), "the paper's own code, and the thing's")

	pdf, result = mustPrint(t, paper.ItemTags{Head: head(""), Tongue: tongue.Spanish(), Tags: []paper.ItemTag{quilletBench(), quilletHold()}})
	require.Equal(t, 2, result.Pages, "a page each")
	words = said(t, pdf)
	for _, want := range []string{"alarms with power failure", tongue.Spanish().Say("tag.steps"), tongue.Spanish().Say("tag.signature")} {
		assert.Contains(t, words, want)
	}
}

func TestExchangeSlipCountsAndLists(t *testing.T) {
	pdf, result := mustPrint(t, quilletSlip(4))
	require.Equal(t, 1, result.Pages)
	words := said(t, pdf)
	for _, want := range []string{"Skerry Gas, filling plant", "SG-8841", "12 10 –2", "4 4 even", "2 US-E of Skerry Gas short", "E-20103", "E-30103", "signature for the plant"} {
		assert.Contains(t, words, want)
	}
	spoken := quilletSlip(4)
	spoken.Tongue = tongue.Spanish()
	pdf, result = mustPrint(t, spoken)
	require.Equal(t, 1, result.Pages)
	words = said(t, pdf)
	for _, key := range []string{"slip.title", "slip.counted", "slip.even", "slip.exceptions", "slip.sign.plant", "slip.listed"} {
		assert.Contains(t, words, tongue.Spanish().Say(key), key)
	}
	_, result = mustPrint(t, quilletSlip(200))
	assert.Greater(t, result.Pages, 4, "two hundred cylinders run on")
}

// The letters of a recall are one file, each counted for itself, with its own
// code and language.
func TestLettersOfARecallAreOneFile(t *testing.T) {
	one, other := quilletLetter(tongue.English(), "recall"), quilletLetter(tongue.Spanish(), "recall")
	other.Name, other.Code = "Selma Quarrie", "LWP.RECALL.I000777.X"
	pdf, both := mustPrint(t, paper.HomeLetters{one, other})
	_, first := mustPrint(t, one)
	_, second := mustPrint(t, other)
	assert.Equal(t, first.Pages+second.Pages, both.Pages)
	words := said(t, pdf)
	assert.Contains(t, words, "page 1 of "+strconv.Itoa(first.Pages))
	assert.Contains(t, words, "página 1 de "+strconv.Itoa(second.Pages))
	assert.Contains(t, words, "Selma Quarrie")
	assert.Contains(t, scanned(t, pages(t, pdf, 200)[first.Pages]), "LWP.RECALL.I000777.X")
}
