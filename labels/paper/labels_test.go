package paper_test

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
)

func labels(n int) []paper.Label {
	made := make([]paper.Label, n)
	for i := range made {
		made[i] = paper.Label{
			Tag:         fmt.Sprintf("QI-%04d-K", i+1),
			Payload:     fmt.Sprintf("QI%04dK", i+1),
			Kind:        "oxygen cylinder",
			Size:        "US-E",
			Owner:       "Quillet Home Oxygen",
			RequalifyBy: time.Date(2029, 11, 1, 0, 0, 0, 0, time.UTC),
			ReturnPhone: "555-0142",
		}
		if i%3 == 1 {
			made[i].Kind, made[i].Size = "concentrator 5 L/min", ""
			made[i].RequalifyBy = time.Time{}
			made[i].Note = "own socket, air all round"
		}
	}
	return made
}

func sheetOf(stock paper.Stock, batch []paper.Label) paper.LabelSheet {
	return paper.LabelSheet{Stock: stock, DPI: paper.DPI203, First: 1, Copies: 1, Labels: batch, Printed: at(16, 20)}
}

func payloads(batch []paper.Label) []string {
	var all []string
	for _, l := range batch {
		all = append(all, l.Payload)
	}
	return all
}

func TestLabelsStartAtTheFirstFreeLabelAndRunOnToTheNextPage(t *testing.T) {
	sheet := sheetOf(paper.Stocks[0], labels(3))
	sheet.First, sheet.Copies = 22, 2
	pdf, result := mustPrint(t, sheet)
	assert.Equal(t, 2, result.Pages, "3 labels twice from place 22 of 24 fill 3 places and 3 more")
	on := pages(t, pdf, 203)
	assert.ElementsMatch(t, []string{"QI0001K", "QI0001K", "QI0002K"}, scanned(t, on[0]))
	assert.ElementsMatch(t, []string{"QI0002K", "QI0003K", "QI0003K"}, scanned(t, on[1]))

	top := picture(t, on[0])
	for y := range top.Bounds().Dy() * 3 / 4 {
		for x := range top.Bounds().Dx() {
			if top.GrayAt(x, y).Y != 255 {
				t.Fatalf("ink at %d, %d on the used part of the sheet", x, y)
			}
		}
	}
}

func TestALabelSaysWhatKeepsItFromHidingTheDrugLabel(t *testing.T) {
	for _, stock := range paper.Stocks {
		pdf, _ := mustPrint(t, sheetOf(stock, labels(1)))
		said := text(t, pdf)
		for _, want := range []string{"QI-0001-K", "US-E", "requalify by Nov 2029", "found? ring 555-0142", "Do not cover drug label, stamps or vents"} {
			assert.Contains(t, said, want, stock.Name)
		}
	}
}

func TestLabelSheetsThatCantBePrintedAreRefused(t *testing.T) {
	good := sheetOf(paper.Stocks[0], labels(1))
	for name, spoil := range map[string]func(*paper.LabelSheet){
		"no label on":              func(s *paper.LabelSheet) { s.Labels = nil },
		"place 0":                  func(s *paper.LabelSheet) { s.First = 0 },
		"place after the last":     func(s *paper.LabelSheet) { s.First = 25 },
		"no copies":                func(s *paper.LabelSheet) { s.Copies = 0 },
		"no printer":               func(s *paper.LabelSheet) { s.DPI = 0 },
		"stock wider than page":    func(s *paper.LabelSheet) { s.Stock.Columns = 4 },
		"stock longer than page":   func(s *paper.LabelSheet) { s.Stock.Rows = 9 },
		"stock of nothing":         func(s *paper.LabelSheet) { s.Stock = paper.Stock{} },
		"gap that is no number":    func(s *paper.LabelSheet) { s.Stock.GapAcross = paper.MM(math.NaN()) },
		"accent in a payload":      func(s *paper.LabelSheet) { s.Labels[0].Payload = "QÍ1" },
		"empty payload":            func(s *paper.LabelSheet) { s.Labels[0].Payload = "" },
		"payload beyond any code":  func(s *paper.LabelSheet) { s.Labels[0].Payload = strings.Repeat("A", 9000) },
		"payload beyond the label": func(s *paper.LabelSheet) { s.Labels[0].Payload = strings.Repeat("A", 1500) },
		"tag beyond the label":     func(s *paper.LabelSheet) { s.Labels[0].Tag = strings.Repeat("W", 40) },
	} {
		t.Run(name, func(t *testing.T) {
			sheet := good
			sheet.Labels = labels(1)
			spoil(&sheet)
			var out bytes.Buffer
			_, err := sheet.Print(&out)
			require.Error(t, err)
			assert.NotEqual(t, refusal.Internal, refusal.KindOf(err), "%v", err)
			assert.Zero(t, out.Len(), "a refused sheet must write nothing")
		})
	}
}

func TestTheRulerPageNumbersEveryLabel(t *testing.T) {
	for _, stock := range paper.Stocks {
		pdf, _ := mustPrint(t, paper.RulerPage{Stock: stock, Printed: at(16, 20)})
		assert.Contains(t, text(t, pdf), fmt.Sprintf("%d ·", stock.PerSheet()), stock.Name)
	}
}

func BenchmarkTenThousandLabels(b *testing.B) {
	batch := labels(10_000)
	for b.Loop() {
		_, err := sheetOf(paper.Stocks[0], batch).Print(io.Discard)
		require.NoError(b, err)
	}
}
