package paper_test

import (
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/paper"
)

func head(code string) paper.Head {
	return paper.Head{
		Programme: "Quillet Home Oxygen", Emergency: "555-0100", OnCall: "555-0110, night desk",
		Format: paper.A4, Printed: at(16, 20), FactsAsOf: at(16, 5), Code: code,
	}
}

func cylinder(tag, serial, code string) paper.Item {
	return paper.Item{What: "oxygen cylinder US-E, full", Tag: tag, Serial: serial, Code: code}
}

// quilletRun is a run of four kinds of stop.
func quilletRun() paper.RunSheet {
	return paper.RunSheet{
		Head: head("QIR3X7"), Run: "Run 3", Vehicle: "Van 2", Driver: "Wen Tarrant, with Ode Marl",
		Depot: "Slipway depot", Depart: at(16, 45), Back: at(20, 10), FireDistance: "3 m",
		Load: paper.Load{
			Cylinders: []paper.CylinderCount{{Size: "US-E", FullOut: 5, BackOld: 3}, {Size: "US-D", FullOut: 2, BackOld: 1}},
			Weighs:    "46 kg of cylinders at most, under the 200 kg of materials of trade",
			Rules:     []string{"materials of trade, over 200 kg: 49 CFR 173.6(a)"},
			Spares:    []paper.Spare{{Name: "crush washer", Quantity: 10}, {Name: "cylinder key", Quantity: 2}, {Name: "adult cannula", Quantity: 6}, {Name: "15 m tubing", Quantity: 3}},
		},
		Stops: []paper.Stop{bridgeStop(), coupleStop(), collectStop()},
	}
}

// bridgeStop is a person who came home on a cylinder and waits for the machine.
func bridgeStop() paper.Stop {
	return paper.Stop{
		Number: 1, Planned: at(17, 10), PromisedFrom: at(16, 30), PromisedTo: at(18, 0), ActBy: at(17, 25), Allowed: 35 * time.Minute,
		Name: "Ines Achterberg", Identifiers: []string{"born 4 Mar 1951", "programme no. 1182"},
		Address: []string{"Gull Row 14, flat 3", "Upper Quay, Quillet"}, Place: "Gull Row 14, Upper Quay",
		Phones:   []paper.Phone{{Whose: "herself", Number: "555-0117"}, {Whose: "daughter, Maud", Number: "555-0118"}, {Whose: "neighbour, flat 2", Number: "555-0119"}},
		Order:    "2 L/min at rest, 4 walking, 2 asleep; 24 h a day",
		Language: "Portuguese; interpreter booked by phone 17:15, 555-0133", Access: "third floor, lift out since Monday; gate code 0415; park at the chapel",
		Pets: "two cats, one bites tubing", Smoker: "son smokes on the balcony; firebreak fitted (told 20 Nov)",
		Note: "Came home by ambulance at 15:50 on one E at 1,400 psi.",
		Tasks: []paper.Task{
			{Work: paper.Drop, Leave: paper.Item{What: "concentrator 5 L/min", Tag: "QI-0440-W", Serial: "CN00440", Code: "QI0440W"}},
			{Work: paper.Drop, Leave: cylinder("QI-0201-T", "E-20117", "QI0201T")},
			{Work: paper.Drop, Leave: paper.Item{What: "adult cannula", Quantity: 2}},
		},
	}
}

// coupleStop is the household of two: one machine is swapped, the other stays.
func coupleStop() paper.Stop {
	return paper.Stop{
		Number: 2, Planned: at(18, 5), PromisedFrom: at(17, 30), PromisedTo: at(19, 0),
		Name: "Tobin Kettleby", Identifiers: []string{"born 19 Aug 1944", "programme no. 1007"},
		Address: []string{"Slip House 3", "Kelp Street, Quillet"}, Place: "Slip House 3, Kelp Street",
		Phones: []paper.Phone{{Whose: "home", Number: "555-0121"}}, Order: "3 L/min at rest and asleep",
		Access: "ground floor, ramp", Smoker: "nobody smokes (asked 2 Nov)",
		Tasks: []paper.Task{{
			Work:  paper.Swap,
			Leave: paper.Item{What: "concentrator 10 L/min", Tag: "QI-0431-C", Serial: "CN00431", Code: "QI0431C"},
			Take:  paper.Item{What: "concentrator 5 L/min, recalled", Tag: "QI-0418-M", Serial: "CN00418", Code: "QI0418M"},
		}},
		DoNotTouch: []paper.OtherItem{{
			Item: paper.Item{What: "concentrator 5 L/min", Tag: "QI-0420-8", Serial: "CN00420"},
			Why:  "belongs to his wife, 3 L/min, running now",
		}},
	}
}

// collectStop is a home where oxygen has ended.
func collectStop() paper.Stop {
	return paper.Stop{
		Number: 3, Planned: at(19, 0), Name: "Selma Quarrie", Identifiers: []string{"programme no. 0988"},
		Address: []string{"Kiln Brae 1", "Ness, Quillet"}, Place: "Kiln Brae 1, Ness",
		Phones: []paper.Phone{{Whose: "brother, Anders", Number: "555-0144"}},
		Note:   "She died on Friday. The brother expects you; speak to him only.",
		Tasks: []paper.Task{
			{Work: paper.Collect, Take: paper.Item{What: "oxygen cylinder US-E", Tag: "QI-0207-6", Serial: "E-20171", Code: "QI02076"}},
			{Work: paper.Collect, Take: paper.Item{What: "concentrator 5 L/min", Tag: "QI-0399-D", Serial: "CN00399", Code: "QI0399D"}},
		},
	}
}

func TestRunSheetCodesAreReadOnTheRenderedPages(t *testing.T) {
	pdf, result := mustPrint(t, quilletRun())
	require.Empty(t, result.Unshown)
	found := map[string]bool{}
	for _, file := range pages(t, pdf, 150) {
		codes := scanned(t, file)
		assert.Contains(t, codes, "QIR3X7", "every page carries the run's own code")
		for _, code := range codes {
			found[code] = true
		}
	}
	for _, want := range []string{"QI0440W", "QI0418M", "QI0201T", "QI0431C", "QI02076", "QI0399D"} {
		assert.True(t, found[want], "%s isn't read from any page", want)
	}
}

// said returns the words of a paper with every run of white space as one space.
func said(t testing.TB, pdf []byte) string {
	return strings.Join(strings.Fields(run(t, pdf, "pdftotext", "-raw", "-", "-")), " ")
}

func TestRunSheetHoldsWhatADriverNeeds(t *testing.T) {
	pdf, result := mustPrint(t, quilletRun())
	words := said(t, pdf)
	for _, want := range []string{
		"Run 3 · Van 2 · Tuesday 24 November 2026", "Wen Tarrant, with Ode Marl", "No smoking, vaping, flame or heater within 3 m",
		"under the 200 kg of materials of trade", "10 × crush washer",
		"ACT BY 17:25", "16:30–18:00", "35 min", "Ines Achterberg", "born 4 Mar 1951", "programme no. 1182", "Gull Row 14, flat 3",
		"555-0117", "daughter, Maud", "2 L/min at rest, 4 walking", "Portuguese; interpreter booked", "gate code 0415", "one bites tubing",
		"firebreak fitted", "QI-0440-W", "serial CN00440", "opened the valve", "set the flow", "felt the gas come",
		"oxygen %", "DO NOT TOUCH", "QI-0420-8 · CN00420", "belongs to his wife, 3 L/min, running now", "SWAP: leave", "SWAP: take",
		"staff may not sign", "printed name", "relationship", "nobody home", "gas left there, minutes",
		"printed Tue 24 Nov 16:20, facts as of Tue 24 Nov 16:05",
	} {
		assert.Contains(t, words, want)
	}
	assert.Equal(t, result.Pages, strings.Count(words, "Emergency 555-0100"), "the emergency number opens every page")
	assert.Contains(t, words, fmt.Sprintf("page %d of %d", result.Pages, result.Pages))
}

func TestTheLoadListNamesNobody(t *testing.T) {
	pdf, _ := mustPrint(t, quilletRun())
	first := run(t, pdf, "pdftotext", "-l", "1", "-layout", "-", "-")
	for _, name := range []string{"Ines", "Achterberg", "Kettleby", "Quarrie", "born", "1182"} {
		assert.NotContains(t, first, name)
	}
}

// The longest heading of a stop once ran off the page.
func TestNoLineRunsOffThePage(t *testing.T) {
	pdf, _ := mustPrint(t, quilletRun())
	boxes := run(t, pdf, "pdftotext", "-bbox", "-", "-")
	for _, box := range regexp.MustCompile(`xMax="([0-9.]+)"`).FindAllStringSubmatch(boxes, -1) {
		right, err := strconv.ParseFloat(box[1], 64)
		require.NoError(t, err)
		assert.LessOrEqual(t, right, (210-9)*72/25.4, "a word ends beyond the white edge of A4")
	}
}

func TestAnOverweightLoadIsSaidInWords(t *testing.T) {
	sheet := quilletRun()
	sheet.Load.Weighs = "500 kg of cylinders at most, over the 453 kg of placards"
	sheet.Load.Wrong, sheet.Load.Papers = []string{"missing: OXYGEN placards"}, []string{"shipping paper", "OXYGEN placards"}
	sheet.Breaks = []string{"12:30–13:00"}
	pdf, _ := mustPrint(t, sheet)
	for _, words := range []string{"over the 453 kg of placards", "DO NOT DRIVE before the desk has decided: missing: OXYGEN placards", "12:30–13:00"} {
		assert.Contains(t, said(t, pdf), words)
	}
}

func TestPapersWithoutAnEmergencyNumberOrASizeAreRefused(t *testing.T) {
	for name, spoil := range map[string]func(*paper.Head){
		"no emergency number": func(h *paper.Head) { h.Emergency = "" },
		"no size":             func(h *paper.Head) { h.Format = paper.Format{} },
		"no time of printing": func(h *paper.Head) { h.Printed = time.Time{} },
		"no time of facts":    func(h *paper.Head) { h.FactsAsOf = time.Time{} },
	} {
		sheet := quilletRun()
		spoil(&sheet.Head)
		_, err := sheet.Print(io.Discard)
		assert.Error(t, err, name)
	}
}
