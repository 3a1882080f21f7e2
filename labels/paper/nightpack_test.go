package paper_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/paper"
	"lungwort/labels/scene"
)

// quilletNight is a pack of so many homes, the urgent ones first.
func quilletNight(homes int) paper.NightPack {
	pack := paper.NightPack{
		Head: head("QIN24"), Horizon: 16 * time.Hour,
		Duty: []paper.Duty{
			{What: "coordinator", Who: "Ada Wick", Phone: "555-0110", From: at(18, 0), To: at(31, 0)},
			{What: "clinician", Who: "Dr Osk Thorne", Phone: "555-0112", From: at(18, 0), To: at(31, 0)},
			{What: "driver, van 2", Who: "Wen Tarrant", Phone: "555-0115", From: at(20, 0), To: at(30, 0)},
		},
		Stock: []paper.SpareStock{
			{Where: "Slipway depot, key with the porter", What: "31 E full, 12 D full, 9 concentrators", Phone: "555-0150"},
			{Where: "Ness depot", What: "6 E full, 2 concentrators", Phone: "555-0151"},
			{Where: "van 2, at Wen Tarrant's", What: "4 E full", Phone: "555-0115"},
		},
	}
	pack.Ring = ringCard("D", "E", "M60", "H", "QI-BIG")
	steps := make([]string, 15)
	for i := range steps {
		steps[i] = fmt.Sprintf("Call home %d", i+1)
	}
	pack.Cards = []paper.AnswerCard{
		{About: "Calls", Verdict: "short", Says: "15 calls due, 2 overdue", Help: "the first: Ines A.", Do: steps, Facts: []string{"tell the clinician of Odd F."}},
		{About: "If power failed everywhere for 8 h", Verdict: "tight", Says: "every home lasts 8 h", Low: "9 h", High: "14 h", Help: "14 E ready"},
	}
	random := rand.New(rand.NewPCG(24, 11))
	streets := []string{"Gull Row", "Kelp Street", "Slip House", "Upper Ness", "Harbour Lane", "Kiln Brae", "Chapel Steps", "Mill Croft"}
	first := []string{"Ines", "Tobin", "Rhea", "Odd", "Selma", "Jory", "Pell", "Anwen", "Maud", "Ishbel"}
	last := []string{"Achterberg", "Kettleby", "Marl", "Fenn", "Quarrie", "Voss", "Dunnock", "Rake", "Thrift", "Skerry", "Plover"}
	urgent := []string{scene.Dry, scene.Short, scene.Short, scene.Unknown, scene.Unknown, scene.Tight, scene.Tight, scene.Tight}
	for i := range homes {
		verdict := scene.Holds
		if i < len(urgent) {
			verdict = urgent[i]
		}
		pack.Households = append(pack.Households, household(i, verdict,
			first[random.IntN(len(first))]+" "+last[random.IntN(len(last))],
			fmt.Sprintf("%s %d", streets[random.IntN(len(streets))], 1+random.IntN(40))))
	}
	return pack
}

// ringCard is a card with a table for each size.
func ringCard(sizes ...string) paper.RingCard {
	card := paper.RingCard{
		Reserve: "200 psi", Bands: "hold 92 %; tell from 3 L/min; emergency from 4 L/min or under 90 %",
		Line:   []string{"Nose: prongs in", "Along the tubing", "Every joint", "Humidifier", "Machine"},
		Causes: []paper.AlarmCause{{Asks: "Is there light?", Told: "street dark", Is: "power is out", Do: "to the cylinder now"}, {Asks: "Is there light?", Told: "home dark", Is: "out in this home alone", Do: "somebody else there looks"}},
	}
	for _, size := range sizes {
		card.Minutes = append(card.Minutes, paper.GaugeTable{Size: size, Flows: []string{"1", "2", "4"}, Gauges: []string{"500 psi", "2,000 psi"}, Minutes: [][]int{{84, 42, 21}, {504, 252, 640}}})
	}
	return card
}

func TestNightPackHasAPageToAnswerCallsFrom(t *testing.T) {
	pdf, _ := mustPrint(t, quilletNight(12))
	words := said(t, pdf)
	for _, want := range []string{"Somebody rings: gas is ending", "emergency number first, whatever the gauge shows", "200 psi kept", "M60", "QI-BIG", "0:21", "8:24", "10 h",
		"home dark", "somebody else there looks", "2 Along the tubing.", "hold 92 %"} {
		assert.Contains(t, words, want)
	}
}

func TestNightPackAnswersForAllHomesTogether(t *testing.T) {
	pdf, _ := mustPrint(t, quilletNight(12))
	words := said(t, pdf)
	for _, want := range []string{"short: 15 calls due, 2 overdue", "12. Call home 12", "and 3 more: ask the desk", "tell the clinician of Odd F.", "plan on 9 h, 9 h to 14 h; help: 14 E ready"} {
		assert.Contains(t, words, want)
	}
	assert.NotContains(t, words, "Call home 13")
}

func household(i int, verdict, name, street string) paper.Household {
	cover := 3*time.Hour + time.Duration(i)*7*time.Minute
	h := paper.Household{
		Verdict: verdict, Name: name, Street: street,
		Phones: []paper.Phone{{Whose: "home", Number: fmt.Sprintf("555-01%02d", i%100)}, {Whose: "daughter", Number: "555-0199"}},
		Flow:   "2 L/min at rest, 3 walking", There: "concentrator running, 1 E", Reading: "E 1,800 psi", ReadAt: at(9, 10),
		Cover: cover, CoverFar: cover + 2*time.Hour, Nearest: "Slipway depot, 11 min", Do: "call at 08:00",
		Ribbon: scene.RibbonData{Hollow: true, CoverLow: cover, CoverMid: cover + time.Hour, CoverHigh: cover + 2*time.Hour},
	}
	if verdict == scene.Holds {
		return h
	}
	low := at(17, 30).Add(time.Duration(i) * 40 * time.Minute)
	h.There, h.ActBy, h.NextVisit, h.VisitBy, h.Do = "on the cylinder, 1 E", low.Add(-10*time.Minute), low.Add(time.Hour), "run 3, stop 2", "call now: add 2 E, or van 2 first"
	h.Ribbon = scene.RibbonData{Low: low, Mid: low.Add(time.Hour), High: low.Add(2 * time.Hour), ActBy: h.ActBy, Visits: []time.Time{h.NextVisit}}
	switch verdict {
	case scene.Dry:
		h.Cover, h.CoverFar, h.Do = 0, 20*time.Minute, "emergency number and clinician now"
		h.ActBy = at(16, 0)
		h.Ribbon = scene.RibbonData{Low: at(16, 0), Mid: at(16, 25), High: at(16, 40), ActBy: h.ActBy}
	case scene.Unknown:
		h.NoCover, h.ReadAt, h.Do = true, time.Time{}, "ask for a reading"
		h.Ribbon.Unknown, h.Ribbon.Outages = true, []scene.Span{{From: at(14, 5), To: at(23, 0)}}
	}
	return h
}

func TestNightPackPutsTheEmergencyNumberFirstOnEveryPage(t *testing.T) {
	pdf, result := mustPrint(t, quilletNight(180))
	require.LessOrEqual(t, result.Pages, 18, "180 homes are a few pages")
	sides := strings.Split(strings.TrimRight(text(t, pdf), "\f"), "\f")
	require.Len(t, sides, result.Pages)
	for i, words := range sides {
		assert.True(t, strings.HasPrefix(strings.TrimSpace(words), "Emergency 555-0100"), "page %d: %.80s", i+1, words)
	}
}

func TestNightPackTellsEachHomeInWords(t *testing.T) {
	pack := quilletNight(12)
	pdf, _ := mustPrint(t, pack)
	words := said(t, pdf)
	for _, want := range []string{
		"12 homes, 1 dry, 2 short, 2 unknown, 3 tight, 4 holds", "coordinator, Ada Wick", "31 E full",
		"emergency number and clinician now", "cover not known: ask for a reading", "lasts 0 min to 20 min",
		"E 1,800 psi, 7 h old", "act by 16:00", "visit 19:10, run 3, stop 2", "Slipway depot, 11 min", "Tue 18:00 to Wed 07:00",
		"never ours", "What happened tonight",
	} {
		assert.Contains(t, words, want)
	}
	for _, h := range pack.Households {
		assert.Contains(t, words, h.Street)
		assert.Contains(t, words, h.Phones[0].Number)
	}
}

func TestNightPackFindsEveryNameByNumber(t *testing.T) {
	pack := quilletNight(60)
	pdf, _ := mustPrint(t, pack)
	words := text(t, pdf)
	finder := words[strings.Index(words, "Names in order"):]
	for i, h := range pack.Households {
		name := strings.Fields(h.Name)
		want := regexp.MustCompile(fmt.Sprintf(`\b%d +%s, %s\b`, i+1, name[1], name[0]))
		assert.Regexp(t, want, finder)
	}
}
