package paper_test

import (
	"encoding/xml"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/paper"
	"lungwort/labels/tongue"
)

// word is one word of a page with its box, in points from the top left corner.
type word struct {
	XMin float64 `xml:"xMin,attr"`
	YMin float64 `xml:"yMin,attr"`
	XMax float64 `xml:"xMax,attr"`
	YMax float64 `xml:"yMax,attr"`
	Text string  `xml:",chardata"`
}

// laidOut is a page with its words.
type laidOut struct {
	Width  float64 `xml:"width,attr"`
	Height float64 `xml:"height,attr"`
	Words  []word  `xml:"word"`
}

// layout returns where each word of a PDF stands.
func layout(t testing.TB, pdf []byte) []laidOut {
	t.Helper()
	var doc struct {
		Pages []laidOut `xml:"body>doc>page"`
	}
	require.NoError(t, xml.Unmarshal([]byte(run(t, pdf, "pdftotext", "-bbox", "-", "-")), &doc))
	return doc.Pages
}

// over reports whether one word stands on another.
func (w word) over(o word) bool {
	wide := min(w.XMax, o.XMax) - max(w.XMin, o.XMin)
	tall := min(w.YMax, o.YMax) - max(w.YMin, o.YMin)
	return wide > 1.5 && tall > 0.6*min(w.YMax-w.YMin, o.YMax-o.YMin)
}

// TestNothingRunsOverAnythingElse: with forty stops, twelve things and the longer
// language, every word stays within the borders of its page and on no other word.
func TestNothingRunsOverAnythingElse(t *testing.T) {
	const edge, slack = 10 / 25.4 * 72, 1.5
	for name, p := range crowded() {
		t.Run(name, func(t *testing.T) {
			pdf, _ := mustPrint(t, p)
			all := layout(t, pdf)
			require.NotEmpty(t, all)
			for n, page := range all {
				require.NotEmpty(t, page.Words, "page %d", n+1)
				for i, w := range page.Words {
					require.GreaterOrEqual(t, w.XMin, edge-slack, "page %d: %q runs out on the left", n+1, w.Text)
					require.LessOrEqual(t, w.XMax, page.Width-edge+slack, "page %d: %q runs out on the right", n+1, w.Text)
					require.LessOrEqual(t, w.YMax, page.Height-edge+slack, "page %d: %q runs out at the bottom", n+1, w.Text)
					for _, o := range page.Words[i+1:] {
						require.False(t, w.over(o), "page %d: %q stands on %q", n+1, w.Text, o.Text)
					}
				}
			}
		})
	}
}

// crowded are papers with more on them than a day ever has.
func crowded() map[string]printer {
	const things = 12
	long := strings.Repeat("gate code at the lodge, then left ", 6)
	all := map[string]printer{}
	sheet := quilletRun()
	sheet.Stops = nil
	for i := range 40 {
		stop := bridgeStop()
		stop.Number, stop.Note, stop.Tasks = i+1, long, nil
		for k := range things {
			stop.Tasks = append(stop.Tasks, paper.Task{Work: paper.Drop, Leave: cylinder(fmt.Sprintf("QI-%02d%02d", i, k), "E-9", "")})
		}
		sheet.Stops = append(sheet.Stops, stop)
	}
	all["run of 40 stops"] = sheet
	all["slip"] = quilletSlip(60)
	for _, format := range []paper.Format{paper.A4, paper.Letter} {
		spoken := tongue.Spanish()
		leaflet, proof, back, out := quilletLeaflet(spoken, format), quilletProof(spoken), quilletReturn(), quilletHandOver()
		letters := []paper.HomeLetter{quilletLetter(spoken, "recall"), quilletLetter(spoken, "collect"), quilletLetter(spoken, "value")}
		back.Tongue, out.Tongue = spoken, spoken
		for i := range things {
			serial := fmt.Sprintf("E-%05d", 20100+i)
			leaflet.Kit = append(leaflet.Kit, paper.LeafletThing{Key: "concentrator", More: "5 L/min", Item: paper.Item{Tag: "QI-0440-W", Serial: serial}})
			proof.Things = append(proof.Things, paper.ProvenThing{Item: cylinder("QI-0201-T", serial, ""), Left: at(9, 0), Signed: at(9, 5), SignedBy: "Maximiliana Achterberg-Quarrie, daughter"})
			back.Returned = append(back.Returned, paper.KitItem{Item: cylinder("QI-0201-T", serial, "QI0201T"), Gauge: "1,600 psi", ReadAt: at(15, 0)})
			back.Missing = append(back.Missing, cylinder("QI-0201-T", serial, ""))
			out.Kit = append(out.Kit, paper.KitItem{Item: cylinder("QI-0201-T", serial, "QI0201T"), Gauge: "1,600 psi", ReadAt: at(15, 0)})
			for k := range letters {
				letters[k].Things = append(letters[k].Things, paper.LeafletThing{Key: "cylinder", More: "US-E", Item: paper.Item{Tag: "QI-0201-T", Serial: serial}})
			}
		}
		hold := quilletHold()
		hold.Facts[0].Value = long
		proof.Format, back.Format, out.Format, hold.Format = format, format, format, format
		for k, name := range []string{"recall", "collect", "value"} {
			letters[k].Format = format
			all[name+" letter, "+format.Name] = letters[k]
		}
		all["leaflet, "+format.Name], all["proof, "+format.Name], all["return, "+format.Name] = leaflet, proof, back
		all["hand-over, "+format.Name], all["hold, "+format.Name] = out, hold
		all["leaflet of a usual kit, "+format.Name] = quilletLeaflet(spoken, format)
	}
	return all
}

// TestTheKitOfALeafletIsNotTorn: a usual kit stands on one page in every language
// and format, with its picture.
func TestTheKitOfALeafletIsNotTorn(t *testing.T) {
	for _, spoken := range tongues() {
		for _, format := range []paper.Format{paper.A4, paper.Letter} {
			pdf, _ := mustPrint(t, quilletLeaflet(spoken, format))
			for _, page := range strings.Split(text(t, pdf), "\f") {
				assert.Equal(t, strings.Contains(page, "CN00440"), strings.Contains(page, "carry bag"), "%s, %s", spoken.Name, format.Name)
			}
		}
	}
}

// TestTheFootIsBlackOnEveryPage, whatever ground the page ended with: the number
// of the page and the age of the facts are read on all of them.
func TestTheFootIsBlackOnEveryPage(t *testing.T) {
	pdf, result := mustPrint(t, crowded()["collect letter, Letter"])
	require.Greater(t, result.Pages, 1)
	for n, file := range pages(t, pdf, 100) {
		img := picture(t, file)
		darkest := uint8(255)
		for y := img.Rect.Max.Y - 60; y < img.Rect.Max.Y-38; y++ { // where the foot's words are, under its rule
			for x := 40; x < img.Rect.Max.X/2; x++ {
				darkest = min(darkest, img.GrayAt(x, y).Y)
			}
		}
		assert.Less(t, darkest, uint8(90), "page %d", n+1)
	}
}
