package paper_test

import (
	"fmt"
	"io"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
	"lungwort/labels/tongue"
)

// hostile is what has been typed, pasted or imported into a text field.
var hostile = map[string]string{
	"empty":          "",
	"emoji":          "😀 Ines 🚑",
	"rare ideograph": "𨫎 Street",
	"nul":            "a\x00b\x01c",
	"not UTF-8":      "Kelp\xff\xfe Street",
	"parentheses":    `(see \note) <</Type /Catalog>> endobj`,
	"page alias":     "{nb} {pages}",
	"right to left":  "\u202Ereversed שלום مرحبا",
	"zero width":     strings.Repeat("\u200B", 400),
	"long words":     strings.Repeat("W", 10_000),
	"long text":      strings.Repeat("gate code at the lodge ", 450),
	"line ends":      strings.Repeat("line\r\n", 300),
	"marks":          "Z" + strings.Repeat("\u0301", 500),
}

// spoil puts text into every string of a value, however deep.
func spoil(v reflect.Value, text string) {
	switch v.Kind() {
	case reflect.String:
		v.SetString(text)
	case reflect.Struct:
		switch v.Interface().(type) {
		case time.Time, tongue.Tongue:
			return
		}
		for i := range v.NumField() {
			spoil(v.Field(i), text)
		}
	case reflect.Slice:
		for i := range v.Len() {
			spoil(v.Index(i), text)
		}
	}
}

func TestNoTextBreaksAPaper(t *testing.T) {
	for name, words := range hostile {
		t.Run(name, func(t *testing.T) {
			run, night, out, back := quilletRun(), quilletNight(9), quilletHandOver(), quilletReturn()
			proof, letter, slip := quilletProof(tongue.Spanish()), quilletLetter(tongue.Spanish(), "recall"), quilletSlip(2)
			hold, bench := quilletHold(), quilletBench()
			for _, p := range []any{&run, &night, &out, &back, &proof, &letter, &slip, &hold, &bench} {
				v := reflect.ValueOf(p).Elem()
				spoil(v, words)
				v.FieldByName("Emergency").SetString("555-0100")
				_, err := p.(printer).Print(io.Discard)
				require.NoError(t, err, "%T", p)
			}
		})
	}
}

func TestNoTextBreaksALabel(t *testing.T) {
	for name, words := range hostile {
		sheet := sheetOf(paper.Stocks[4], labels(1))
		spoil(reflect.ValueOf(&sheet.Labels[0]).Elem(), words)
		_, err := sheet.Print(io.Discard)
		if err != nil {
			assert.NotEqual(t, refusal.Internal, refusal.KindOf(err), "%s: %v", name, err)
		}
		sheet.Labels = labels(1)
		sheet.Labels[0].Owner, sheet.Labels[0].Kind, sheet.Labels[0].Note = words, words, words
		_, err = sheet.Print(io.Discard)
		assert.NoError(t, err, "%s: what may be cut must not stop a label", name)
	}
}

func TestSignsThatCantBeShownAreReportedAndExplained(t *testing.T) {
	receipt := quilletHandOver()
	receipt.Name = "Ines 😀 氧"
	pdf, result := mustPrint(t, receipt)
	assert.Equal(t, "😀氧", string(result.Unshown))
	words := said(t, pdf)
	assert.Contains(t, words, "Ines □ □")
	assert.Contains(t, words, "□ = a sign this printer can't show")
}

func TestAnEmptyPaperIsStillAPaper(t *testing.T) {
	for _, p := range []printer{
		paper.RunSheet{Head: head("")}, paper.NightPack{Head: head(""), Horizon: time.Hour}, paper.NightPack{Head: head("")},
		paper.HandOver{Head: head("")}, paper.ReturnReceipt{Head: head("")}, paper.DeliveryProof{Head: head("")},
		paper.HomeLetter{Head: head("")}, paper.ItemTag{Head: head("")}, paper.ExchangeSlip{Head: head("")},
	} {
		result, err := p.Print(io.Discard)
		require.NoError(t, err, "%T", p)
		assert.Positive(t, result.Pages, "%T", p)
	}
}

func TestAStopOfManyTasksRunsOnWithItsNameOnEveryPage(t *testing.T) {
	sheet := quilletRun()
	stop := bridgeStop()
	for i := range 30 {
		stop.Tasks = append(stop.Tasks, paper.Task{Work: paper.Drop, Leave: cylinder(fmt.Sprintf("QI-09%02d", i), "E-9", fmt.Sprintf("QI09%02d", i))})
	}
	sheet.Stops = []paper.Stop{stop}
	pdf, result := mustPrint(t, sheet)
	require.Greater(t, result.Pages, 4)
	for i, page := range strings.Split(strings.TrimRight(text(t, pdf), "\f"), "\f")[2:] {
		if strings.Contains(page, "Load in this order") || strings.Contains(page, "Before leaving") {
			continue
		}
		assert.Contains(t, page, "Ines Achterberg", "page %d", i+3)
	}
	assert.Contains(t, text(t, pdf), "QI-0929")
}

func TestAWriterThatFailsIsToldOf(t *testing.T) {
	_, err := quilletReturn().Print(broken{})
	assert.ErrorIs(t, err, io.ErrShortWrite)
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, io.ErrShortWrite }
